import { edges } from '../../graph/answers/context.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { Session } from '../../queries/evaluate/session.ts'
import { type HeatRoute, type Known, traceHeat } from '../../queries/trace.ts'
import { cautionsFor } from '../cautions.ts'
import type { Opened } from '../corpus.ts'
import { Fault } from '../errors.ts'
import { printCautions } from './cautions.ts'
import type { Call } from './command.ts'
import { withCorpus } from './database.ts'
import { faint, strong } from './emphasis.ts'

export function tracePart(call: Call): Promise<number> {
  const { terminal } = call
  const [id = '', typed = ''] = call.args
  return withCorpus(call, 'refuse', async (corpus) => {
    const opened = await corpus.open(id)
    const traces = piecesAt(opened, typed).map((piece) => tracePiece(opened.session(), piece))
    for (const { piece, terminals, heatPaths, heat, coolant } of traces) {
      terminal.print(strong(piece))
      for (const { name, net, potential, basis } of terminals) {
        terminal.print(`  terminal ${name} on ${net}${potential ? ` (${potential})` : ''} ${faint(basis)}`)
      }
      for (const { path, from, layers, to } of heatPaths)
        terminal.print(`  heat ${path}: ${[from, ...layers, to].join(' → ')}`)
      for (const route of heat.routes) terminal.print(`  ${routeText(route)}`)
      for (const { passage, stage, upstream } of coolant) {
        const place = stage === null ? 'in no sequence' : `stage ${stage}`
        terminal.print(
          `  coolant ${passage} (${place}), after ${upstream.length > 0 ? upstream.join(', ') : 'the inlet'}`,
        )
      }
      if (terminals.length + heatPaths.length + coolant.length === 0)
        terminal.print('  nothing is recorded of its nets, heat or coolant')
    }
    const cautions = cautionsFor()
    printCautions(cautions, terminal)
    terminal.document({ teardown: opened.id, revision: opened.revision, pieces: traces, cautions })
    return 0
  })
}

/** Pieces that a reference means: one, or all of a part. */
function piecesAt({ id, record }: Opened, typed: string): readonly Path[] {
  const reference = record.parts.refer(typed)
  if ('what' in reference) {
    throw new Fault('NOT_FOUND', `${id}: ${reference.what}`, `known here: ${reference.known.slice(0, 20).join(', ')}`)
  }
  const { entry, picks, rest, face } = reference
  if (rest.length > 0 || face) throw new Fault('USAGE', `"${typed}" is not a part`, `the part is ${entry.path}`)
  return record.parts
    .piecesOf(entry)
    .filter((piece) => [...picks].every(([name, pick]) => pick === '*' || piece.picks.get(name) === pick))
    .map(({ path }) => path)
}

function tracePiece(session: Session, piece: Path) {
  const { structure, settings } = session
  const ask = (query: Parameters<typeof structure.answer>[0]): readonly Path[] =>
    structure.answer(query, settings).paths
  const passages = new Set(ask({ ask: 'passages' }))
  const ends = ask({ ask: 'heat-ends', piece })
  return {
    piece,
    state: structure.stateOf(piece),
    terminals: edges(structure.graph, piece, 'terminal', 'out').flatMap(({ to, attributes }) =>
      attributes.kind === 'terminal'
        ? [{ name: attributes.name, net: to, potential: structure.potentialOf(to), basis: attributes.evidence.basis }]
        : [],
    ),
    heat: traceHeat(session, piece),
    heatPaths: ask({ ask: 'heat-from', node: piece }).map((path) => ({
      path,
      from: ask({ ask: 'heat-start', path })[0] ?? piece,
      layers: ask({ ask: 'heat-layers', path }),
      to: ask({ ask: 'heat-to', path })[0] ?? null,
    })),
    heatEnds: ends,
    coolant: ends
      .filter((end) => passages.has(end))
      .map((passage) => ({ passage, stage: structure.stageOf(passage), upstream: ask({ ask: 'upstream', passage }) })),
  }
}

/**
 * One way of heat to its end: what crosses it with its watts, resistance by resistance, and the coolant or air it meets.
 * A way that several sources share carries the heat of all of them.
 */
function routeText({ ways, end }: HeatRoute): string {
  const steps = ways.map(({ path, resistance, heat, layers }) => {
    const parted = layers.flatMap(({ path: layer, resistance: own }) =>
      own === null ? [] : [`${layer.slice(path.length + 1)} ${short(own)}`],
    )
    const through = parted.length > 1 ? ` (${parted.join(' + ')})` : ''
    return `${told(heat, 'W')} by ${path} ${told(resistance, 'K/W')}${through}`
  })
  const film = end.film ? ` through a film of ${told(end.film, 'K/W')}` : ''
  const shared = end.shares.length > 0 ? `, shared with ${listed(end.shares)}` : ''
  return `${[...steps, `${told(end.heat, 'W')}${film}`].join(' → ')} into ${end.path} at ${told(end.temperature, '°C', 273.15)}${shared}`
}

/** The first few by name. */
function listed(paths: readonly string[]): string {
  const more = paths.length - SHOWN
  return more > 1 ? `${paths.slice(0, SHOWN).join(', ')} and ${more} more` : paths.join(', ')
}
const SHOWN = 4

function told(known: Known, unit: string, zero = 0): string {
  return 'value' in known ? `${short(known.value - zero)} ${unit}` : 'not known'
}

const short = (value: number): number => Number(value.toPrecision(4))
