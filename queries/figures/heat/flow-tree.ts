import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'

/** Passages one after the other and side by side, nested as the coolant visits them. */
export type FlowTree =
  | { readonly passage: Path }
  | { readonly series: readonly FlowTree[] }
  | { readonly parallel: readonly FlowTree[] }

/** The passages of a circuit between its inlet and its outlet; null when no sequence leads through. */
export function flowTree(view: View, circuit: Path): FlowTree | null {
  return view.choice(`flow tree ${circuit}`, () => {
    const passages = view.find({ ask: 'passages', circuit }).paths
    const joined = passages.map((passage) => ({
      passage,
      before: view.find({ ask: 'entered', passage }).paths,
      after: view.find({ ask: 'flows-to', node: passage }).paths,
    }))
    return reduce(joined.filter(({ before, after }) => before.length > 0 && after.length > 0))
  })
}

export function passagesIn(tree: FlowTree): readonly Path[] {
  if ('passage' in tree) return [tree.passage]
  return ('series' in tree ? tree.series : tree.parallel).flatMap(passagesIn)
}

interface Joined {
  readonly passage: Path
  readonly before: readonly Path[]
  readonly after: readonly Path[]
}

interface Edge {
  readonly from: string
  readonly to: string
  readonly tree: FlowTree
}

/**
 * Where coolant comes from the same passages it comes from one junction. Between junctions, passages are edges, and a
 * network of series and parallel branches is drawn together to one edge, step by step.
 */
function reduce(joined: readonly Joined[]): FlowTree | null {
  const key = (paths: readonly Path[]): string => [...paths].sort().join(' ')
  // A junction is known from both sides: what leads into it, and what leads out of it.
  const names = new Map(joined.map(({ passage, before }) => [passage, `into ${key(before)}`]))
  let edges: readonly Edge[] = joined.map(({ passage, before, after }) => {
    const next = after.find((one) => names.has(one))
    return {
      from: `into ${key(before)}`,
      to: next === undefined ? `into ${key(after)}` : names.get(next)!,
      tree: { passage },
    }
  })
  for (let before = -1; edges.length > 1 && edges.length !== before; ) {
    before = edges.length
    edges = inSeries(besides(edges))
  }
  return edges.length === 1 ? flattened(edges[0]!.tree) : null
}

function besides(edges: readonly Edge[]): readonly Edge[] {
  const groups = new Map<string, Edge[]>()
  for (const edge of edges) {
    const key = `${edge.from} → ${edge.to}`
    groups.set(key, [...(groups.get(key) ?? []), edge])
  }
  return [...groups.values()].map((group) =>
    group.length === 1 ? group[0]! : { ...group[0]!, tree: { parallel: group.map(({ tree }) => tree) } },
  )
}

function inSeries(edges: readonly Edge[]): readonly Edge[] {
  for (const first of edges) {
    const leaving = edges.filter(({ from }) => from === first.to)
    const entering = edges.filter(({ to }) => to === first.to)
    const next = leaving[0]
    if (leaving.length !== 1 || entering.length !== 1 || !next || next === first) continue
    const both: Edge = { from: first.from, to: next.to, tree: { series: [first.tree, next.tree] } }
    return inSeries([...edges.filter((edge) => edge !== first && edge !== next), both])
  }
  return edges
}

function flattened(tree: FlowTree): FlowTree {
  if ('passage' in tree) return tree
  if ('series' in tree) {
    const parts = tree.series.map(flattened)
    return { series: parts.flatMap((part) => ('series' in part ? part.series : [part])) }
  }
  const parts = tree.parallel.map(flattened)
  return { parallel: parts.flatMap((part) => ('parallel' in part ? part.parallel : [part])) }
}
