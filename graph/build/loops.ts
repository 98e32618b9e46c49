import { edges, into, nodeOf } from '../answers/context.ts'
import type { TeardownGraph } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { TeardownRecord } from '../record/record.ts'
import { eachPiece } from './nets.ts'
import { startsOf } from './resolve.ts'

/** One commutation loop per half bridge: of a module, or of two discrete switches that share a switching net. */
export function addLoops(graph: TeardownGraph, record: TeardownRecord): void {
  const modules = moduleBridges(graph, record)
  for (const bridge of [...modules, ...discreteBridges(graph, record, modules)]) {
    const leftOut = exceptionsOf(record, bridge.id)
    graph.addNode(asPath(`loops/${bridge.id}`), { kind: 'loop', bridge: bridge.pieces, rails: bridge.rails, leftOut })
  }
}

interface Bridge {
  readonly id: string
  readonly pieces: readonly Path[]
  readonly rails: readonly [Path, Path]
}

function moduleBridges(graph: TeardownGraph, record: TeardownRecord): readonly Bridge[] {
  return eachPiece(record).flatMap(({ piece }): readonly Bridge[] => {
    if (piece.entry.class !== 'half-bridge-module') return []
    const plus = terminal(graph, piece.path, 'dc-plus')
    const minus = terminal(graph, piece.path, 'dc-minus')
    return plus && minus ? [{ id: piece.path.slice('parts/'.length), pieces: [piece.path], rails: [plus, minus] }] : []
  })
}

const HIGH = ['drain', 'collector']
const LOW = ['source', 'emitter']
const SWITCHES = ['discrete-power-device', 'switch-position']

/** Nets that nothing switches, as far as their potential is known. */
const STILL: readonly (string | null)[] = ['hv-positive', 'hv-negative', 'chassis']

/**
 * Switches in series across two nets: the net between them is the source of all upper and the drain of all lower ones,
 * which all come from one rail and go to the other. Of more than two in a row (a battery switch before the bridge, a
 * converter of three levels) a net with a capacitor to steady it is a rail; what then is a row still is no half bridge.
 */
function discreteBridges(graph: TeardownGraph, record: TeardownRecord, modules: readonly Bridge[]): readonly Bridge[] {
  const known = new Set(modules.flatMap(({ pieces }) => pieces))
  const switches = eachPiece(record)
    .filter(({ piece }) => SWITCHES.includes(piece.entry.class) && !isInside(graph, piece.path, known))
    .map(({ piece: { path } }) => ({ path, high: anyOf(graph, path, HIGH), low: anyOf(graph, path, LOW) }))
  const nets = new Set(switches.flatMap(({ low }) => low ?? []))
  const pairs = [...nets].flatMap((net): readonly Bridge[] => {
    const upper = switches.filter(({ low }) => low === net)
    const lower = switches.filter(({ high }) => high === net)
    const [plus, ...otherPlus] = new Set(upper.map(({ high }) => high))
    const [minus, ...otherMinus] = new Set(lower.map(({ low }) => low))
    if (!plus || !minus || plus === minus || otherPlus.length > 0 || otherMinus.length > 0 || isStill(graph, net))
      return []
    const pieces = [...upper, ...lower].map(({ path }) => path)
    return [{ id: net.slice('nets/'.length), pieces, rails: [plus, minus] }]
  })
  const steady = pairs.filter((one) => !isInRow(one, pairs) || !hasLinkCapacitor(graph, netOf(one)))
  return steady.filter((one) => !isInRow(one, steady))
}

const netOf = ({ id }: Bridge): string => `nets/${id}`

/** Whether the rail of one pair of switches is the net between another. */
function isInRow(one: Bridge, all: readonly Bridge[]): boolean {
  const rails: readonly string[] = one.rails
  return all.some((other) => rails.includes(netOf(other)) || (other.rails as readonly string[]).includes(netOf(one)))
}

function isStill(graph: TeardownGraph, net: string): boolean {
  return STILL.includes(nodeOf(graph, net, 'net')?.potential ?? null)
}

const LINK_CAPACITORS = ['dc-link-film-capacitor', 'electrolytic-capacitor', 'capacitor-bank']

function hasLinkCapacitor(graph: TeardownGraph, net: string): boolean {
  return edges(graph, net, 'terminal', 'in').some(({ from }) => {
    const entry = nodeOf(graph, from, 'piece')?.entry ?? from
    return LINK_CAPACITORS.includes(nodeOf(graph, entry, 'assembly', 'component')?.class ?? '')
  })
}

/** Whether it is part of a module that is a half bridge itself. */
function isInside(graph: TeardownGraph, piece: Path, modules: ReadonlySet<Path>): boolean {
  const above = into(graph, piece, 'holds')[0]
  return above !== undefined && (modules.has(above) || isInside(graph, above, modules))
}

function anyOf(graph: TeardownGraph, piece: Path, names: readonly string[]): Path | undefined {
  for (const name of names) {
    const net = terminal(graph, piece, name)
    if (net) return net
  }
  return undefined
}

function terminal(graph: TeardownGraph, piece: Path, name: string): Path | undefined {
  return edges(graph, piece, 'terminal', 'out').find(
    ({ attributes }) => attributes.kind === 'terminal' && attributes.name === name,
  )?.to
}

/** What the sheet leaves out of a loop: every piece of what it names. */
function exceptionsOf(record: TeardownRecord, loop: string): readonly Path[] {
  const entry = Object.entries(record.sheet.loops ?? {}).find(([id]) => sameLoop(record, id, loop))?.[1]
  return (entry?.['leave-out'] ?? []).flatMap((part) => startsOf(record, part).map(({ piece }) => piece.path))
}

/** A loop is named by its half bridge, ancestors typed or not, or by its switching net. */
function sameLoop(record: TeardownRecord, id: string, loop: string): boolean {
  if (id === loop) return true
  const reference = record.parts.refer(id)
  return 'entry' in reference && record.parts.pathOf(reference) === `parts/${loop}`
}
