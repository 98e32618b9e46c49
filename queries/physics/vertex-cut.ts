import { DomainError } from './method.ts'

export type VertexCutInputs = {
  /** Pairs of joined vertices, either way round. */
  readonly edges: readonly (readonly [string, string])[]
  readonly from: readonly string[]
  readonly to: readonly string[]
}

/**
 * Smallest set of vertices whose removal parts `from` from `to`: the parts that together bridge a barrier. By Menger's
 * theorem it is as large as the number of paths that share no inner vertex; those are found one by one (augmenting
 * paths, each inner vertex split in two). Of several smallest cuts, the one nearest to `from`.
 *
 * @returns the vertices of the cut; none when nothing leads across; undefined when an edge joins the two sides directly,
 *   so that no vertex can part them
 * @throws {DomainError} when a vertex is on both sides, or a side is empty
 *
 * @example vertexCut({ edges: [['hv', 'driver'], ['driver', 'lv']], from: ['hv'], to: ['lv'] }) // ['driver']
 */
export function vertexCut({ edges, from, to }: VertexCutInputs): readonly string[] | undefined {
  if (from.length === 0 || to.length === 0)
    throw new DomainError('vertexCut', from.length === 0 ? 'from' : 'to', 'empty', 'at least one vertex')
  const [starts, ends] = [new Set(from), new Set(to)]
  const shared = from.find((one) => ends.has(one))
  if (shared !== undefined) throw new DomainError('vertexCut', 'from', shared, 'apart from to')
  const joins = (a: ReadonlySet<string>, b: ReadonlySet<string>) => edges.some(([x, y]) => a.has(x) && b.has(y))
  if (joins(starts, ends) || joins(ends, starts)) return undefined

  const arcs = residual(edges, starts, ends)
  for (let path = search(arcs); path.has(SINK); path = search(arcs)) {
    for (let node = SINK; node !== SOURCE; node = path.get(node)!) push(arcs, path.get(node)!, node)
  }
  const reached = search(arcs)
  const inner = new Set(edges.flat().filter((one) => !starts.has(one) && !ends.has(one)))
  return [...inner].filter((one) => reached.has(`${one}\u0000in`) && !reached.has(`${one}\u0000out`))
}

const SOURCE = '\u0000source'
const SINK = '\u0000sink'

/** Free arcs from node to node, with how often each may still be used. */
type Arcs = Map<string, Map<string, number>>

function residual(edges: VertexCutInputs['edges'], starts: ReadonlySet<string>, ends: ReadonlySet<string>): Arcs {
  const arcs: Arcs = new Map()
  const set = (a: string, b: string, count: number) => arcs.set(a, (arcs.get(a) ?? new Map()).set(b, count))
  const side = (one: string, end: 'in' | 'out') =>
    starts.has(one) ? SOURCE : ends.has(one) ? SINK : `${one}\u0000${end}`
  for (const [x, y] of edges) {
    for (const [a, b] of [
      [x, y],
      [y, x],
    ] as const) {
      // Only vertices may be cut: an edge never is, so it may carry any number of paths.
      if (side(a, 'out') !== side(b, 'in')) set(side(a, 'out'), side(b, 'in'), Number.POSITIVE_INFINITY)
      if (!starts.has(a) && !ends.has(a)) set(side(a, 'in'), side(a, 'out'), 1)
    }
  }
  return arcs
}

/** Every node that free arcs lead to from the source, with the node it was reached from, nearest first. */
function search(arcs: Arcs): ReadonlyMap<string, string> {
  const reached = new Map([[SOURCE, SOURCE]])
  const queue = [SOURCE]
  for (let i = 0; i < queue.length; i++) {
    for (const [next, free] of arcs.get(queue[i]!) ?? []) {
      if (free <= 0 || reached.has(next)) continue
      reached.set(next, queue[i]!)
      queue.push(next)
    }
  }
  return reached
}

function push(arcs: Arcs, a: string, b: string): void {
  const forth = arcs.get(a)!
  forth.set(b, forth.get(b)! - 1)
  const back = arcs.get(b) ?? new Map<string, number>()
  arcs.set(b, back.set(a, (back.get(a) ?? 0) + 1))
}
