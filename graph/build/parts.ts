import type { PartNode, PieceState, TeardownGraph } from '../kinds.ts'
import type { Part } from '../record/part.ts'
import { partClassOf } from '../record/part-class.ts'
import { piecesIn } from '../record/part-count.ts'
import { type PartEntry, type Piece, pathOf } from '../record/part-index.ts'
import type { TeardownRecord } from '../record/record.ts'

/** Parts as typed, by id. */
export function partsById(record: TeardownRecord): ReadonlyMap<string, Part> {
  const byId = new Map<string, Part>()
  const visit = (part: Part): void => {
    byId.set(part.id, part)
    for (const child of part.parts ?? []) visit(child)
  }
  for (const part of record.sheet.parts ?? []) visit(part)
  return byId
}

/** Entries, their pieces, what is inside what, and the faces of every piece. */
export function addParts(graph: TeardownGraph, record: TeardownRecord): void {
  const typed = partsById(record)
  for (const entry of record.parts.entries) {
    graph.addNode(entry.path, partNode(entry, typed.get(entry.id)!))
    if (entry.parent) graph.addEdge(entry.parent.path, entry.path, { kind: 'contains' })
  }
  for (const entry of record.parts.entries) {
    for (const piece of record.parts.piecesOf(entry)) addPiece(graph, piece, typed.get(entry.id)!)
  }
}

function partNode(entry: PartEntry, part: Part): PartNode {
  return {
    kind: entry.children.length > 0 ? 'assembly' : 'component',
    class: entry.class,
    group: partClassOf(entry.class)?.group ?? entry.class,
    leaf: entry.children.length === 0,
    varies: part.vary === 'each',
    found: piecesIn(part.count?.found) ?? null,
    state: stateOf(part, undefined),
  }
}

function stateOf(part: Part, piece: string | undefined): PieceState {
  const own = piece === undefined ? undefined : part.each?.[piece]?.state
  return ((own ?? part.state)?.is as PieceState | undefined) ?? 'whole'
}

function addPiece(graph: TeardownGraph, piece: Piece, part: Part): void {
  const { entry, path, picks } = piece
  if (path !== entry.path) {
    graph.addNode(path, { kind: 'piece', entry: entry.path, state: stateOf(part, picks.get(entry.id)) })
    graph.addEdge(entry.path, path, { kind: 'has-piece' })
  }
  const above = holderPath(piece)
  if (above !== null) graph.addEdge(above, path, { kind: 'holds' })
  for (const face of entry.faces) {
    for (const name of face.pieces.length > 0 ? face.pieces.map((one) => `${face.name}.${one}`) : [face.name]) {
      const node = `${path}/${name}`
      graph.addNode(node, { kind: 'face', piece: path })
      graph.addEdge(path, node, { kind: 'has-face' })
    }
  }
}

/** The piece that holds this one: its parent under the same picks. */
function holderPath({ entry, picks }: Piece): string | null {
  const { parent } = entry
  if (!parent) return null
  const above = new Map(picks)
  above.delete(entry.id)
  return pathOf(parent, above)
}
