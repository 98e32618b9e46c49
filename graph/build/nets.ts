import type { TeardownGraph } from '../kinds.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import type { Part } from '../record/part.ts'
import type { Piece } from '../record/part-index.ts'
import type { TeardownRecord } from '../record/record.ts'
import type { Terminal } from '../record/terminal.ts'
import { partsById } from './parts.ts'
import { endFrom, startsOf } from './resolve.ts'
import { fillStar, matchStar, starOf } from './star.ts'

/** Path of a net by its id. */
export const netPath = (id: string): Path => asPath(`nets/${id}`)

/** Nets that are declared by name, and those that parts are on and a pattern (`phase-*`) declares. */
export function addNets(graph: TeardownGraph, record: TeardownRecord): void {
  const declared = record.sheet.nets ?? {}
  const names = new Set(Object.keys(declared).filter((name) => !name.includes('*')))
  for (const { net } of wires(record)) names.add(net)
  for (const { net } of metals(record)) names.add(net)
  for (const name of names) {
    const found = declarationOf(declared, name)
    const related = (id: string | undefined): Path | null =>
      id === undefined ? null : netPath(fillStar(id, found?.star))
    graph.addNode(netPath(name), {
      kind: 'net',
      potential: found?.net.potential ?? null,
      rides: related(found?.net['rides-on']?.is),
      tied: related(found?.net['tied-to']?.is),
    })
  }
}

/** Which net a terminal of which piece is on, and which parts are the metal of a net. */
export function addTerminals(graph: TeardownGraph, record: TeardownRecord): void {
  for (const { piece, terminal, net, evidence } of wires(record)) {
    graph.addEdge(piece.path, netPath(net), { kind: 'terminal', name: terminal, evidence })
  }
  for (const { piece, net } of metals(record)) graph.addEdge(netPath(net), piece.path, { kind: 'metal' })
  for (const joint of record.sheet.joints ?? []) addJoint(graph, record, joint)
}

/** One joint for each piece of the end that comes in several, to the piece of the same name at the other. */
function addJoint(graph: TeardownGraph, record: TeardownRecord, { id, between }: Joint): void {
  const [first, second] = between
  if (first === undefined || second === undefined) return
  const turned = !isOpen(record, first) && isOpen(record, second)
  const [from, to] = turned ? [second, first] : [first, second]
  const starts = startsOf(record, from)
  for (const start of starts) {
    const path = asPath(`joints/${id}${starts.length > 1 ? `.${start.suffix}` : ''}`)
    const ends = [start.piece.path, endFrom(record, to, start)]
    graph.addNode(path, { kind: 'joint' })
    for (const end of turned ? ends.toReversed() : ends) graph.addEdge(path, end, { kind: 'joins' })
  }
}

/** Whether it names several pieces. */
function isOpen(record: TeardownRecord, text: string): boolean {
  const reference = record.parts.refer(text)
  if (!('entry' in reference)) return false
  for (let up: typeof reference.entry | null = reference.entry; up; up = up.parent)
    if (up.pieces.length > 0 && (reference.picks.get(up.id) ?? '*') === '*') return true
  return false
}

type Joint = NonNullable<TeardownRecord['sheet']['joints']>[number]

interface Wire {
  readonly piece: Piece
  readonly terminal: string
  readonly net: string
  readonly evidence: Terminal['evidence']
}

function wires(record: TeardownRecord): readonly Wire[] {
  return eachPiece(record).flatMap(({ piece, part, own }) => {
    const terminals = { ...part.terminals, ...own?.terminals }
    return Object.entries(terminals).flatMap(([terminal, { net, evidence }]) =>
      net === undefined ? [] : [{ piece, terminal, net: fillStar(net, starOf(piece)), evidence }],
    )
  })
}

function metals(record: TeardownRecord): readonly { readonly piece: Piece; readonly net: string }[] {
  return eachPiece(record).flatMap(({ piece, part, own }) => {
    const net = own?.net ?? part.net
    return net === undefined ? [] : [{ piece, net: fillStar(net, starOf(piece)) }]
  })
}

/** Every piece with its entry as typed and with what the sheet says of this one alone. */
export function eachPiece(record: TeardownRecord) {
  const typed = partsById(record)
  return record.parts.entries.flatMap((entry) => {
    const part: Part = typed.get(entry.id)!
    return record.parts
      .piecesOf(entry)
      .map((piece) => ({ piece, part, own: part.each?.[piece.picks.get(entry.id) ?? ''] }))
  })
}

type Nets = NonNullable<TeardownRecord['sheet']['nets']>

/** The declaration of a net: its own, else that of the first pattern it fits. */
function declarationOf(
  declared: Nets,
  name: string,
): { readonly net: Nets[string]; readonly star?: string } | undefined {
  const own = declared[name]
  if (own) return { net: own }
  for (const [pattern, net] of Object.entries(declared)) {
    const star = matchStar(pattern, name)
    if (star !== undefined) return { net, star }
  }
  return undefined
}
