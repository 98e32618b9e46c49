import type { EdgeAttributes, EdgeKind, NodeAttributes, TeardownGraph } from '../kinds.ts'
import { type Basis, weaker } from '../quantity/basis.ts'
import type { Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import type { Evidence, TeardownRecord } from '../record/record.ts'

/** What an answer may look at. */
export interface Context {
  readonly record: TeardownRecord
  readonly graph: TeardownGraph
  readonly counts: 'BUILT' | 'FOUND'
}

export function answerOf(paths: readonly Path[], evidence: readonly Evidence[] = [], complete = true): Found {
  const basis = evidence.reduce<Basis>((worst, one) => weaker(worst, one.basis), 'measured')
  const restsOn = [...new Set(evidence.flatMap((one) => one.restsOn))]
  const census = complete ? 'complete' : 'open'
  return { paths: [...new Set(paths)], census, basis, ...(evidence.length === 0 && { unsaid: true }), restsOn }
}

/** Neighbours along outgoing edges of a kind, in the order in which they were written. */
export function out(graph: TeardownGraph, node: string, kind: EdgeKind): readonly Path[] {
  return edges(graph, node, kind, 'out').map(({ to }) => to)
}

/** Neighbours along incoming edges of a kind. */
export function into(graph: TeardownGraph, node: string, kind: EdgeKind): readonly Path[] {
  return edges(graph, node, kind, 'in').map(({ from }) => from)
}

export interface Edge {
  readonly from: Path
  readonly to: Path
  readonly attributes: EdgeAttributes
}

export function edges(graph: TeardownGraph, node: string, kind: EdgeKind, side: 'in' | 'out'): readonly Edge[] {
  if (!graph.hasNode(node)) return []
  const found: Edge[] = []
  const take = (_: string, attributes: EdgeAttributes, from: string, to: string): void => {
    if (attributes.kind === kind) found.push({ from: from as Path, to: to as Path, attributes })
  }
  if (side === 'out') graph.forEachOutEdge(node, take)
  else graph.forEachInEdge(node, take)
  return found
}

/** Attributes of a node if it is of this kind. */
export function nodeOf<K extends NodeAttributes['kind']>(
  graph: TeardownGraph,
  path: string,
  ...kinds: readonly K[]
): Extract<NodeAttributes, { kind: K }> | undefined {
  if (!graph.hasNode(path)) return undefined
  const attributes = graph.getNodeAttributes(path)
  return (kinds as readonly string[]).includes(attributes.kind) ? (attributes as never) : undefined
}
