import { backward, choleskyInPlace, forward } from './dense.ts'
import type { Decay } from './exponential-sum.ts'
import { disjointSets } from './network-nodes.ts'
import { dot, singular } from './singular.ts'

/** A capacitor (value in farad) or a conductance (value in siemens) between two numbered nodes. */
export interface Branch {
  readonly from: number
  readonly to: number
  readonly value: number
}

/** Nodes by number, 0 the reference; every other one hangs together with it by branches of one kind or the other. */
export interface ResistorCapacitorNetwork {
  readonly nodes: number
  readonly capacitors: readonly Branch[]
  readonly conductances: readonly Branch[]
}

/**
 * Potentials of all nodes while one is held at a voltage: nodes that branches of the `first` kind join to the held ones
 * settle by those alone; what only the other kind reaches follows as islands of one potential each.
 *
 * With conductances first this is rest (no current through a capacitor, an island keeps the charge zero it had before
 * all was charged); with capacitors first it is the moment after a quick charge from empty.
 */
export function heldPotentials(
  nodes: number,
  [first, second]: readonly [readonly Branch[], readonly Branch[]],
  held: { readonly node: number; readonly voltage: number },
): Float64Array {
  const known = new Map([
    [0, 0],
    [held.node, held.voltage],
  ])
  const islands = disjointSets()
  for (const { from, to } of first) islands.unite(`${from}`, `${to}`)
  const fixed = new Set([...known.keys()].map((node) => islands.find(`${node}`)))
  const reached = [...Array(nodes).keys()].filter((node) => fixed.has(islands.find(`${node}`)))
  const settled = settle(first, known, (node) => node, new Set(reached))
  const islandOf = (node: number): number => (settled.has(node) ? node : Number(islands.find(`${node}`)))
  const all = settle(second, settled, islandOf, new Set([...Array(nodes).keys()].map(islandOf)))
  return Float64Array.from({ length: nodes }, (_, node) => all.get(islandOf(node))!)
}

/** Kirchhoff's law at every wanted node that is not known yet, with nodes made one by `nameOf`. */
function settle(
  branches: readonly Branch[],
  known: ReadonlyMap<number, number>,
  nameOf: (node: number) => number,
  wanted: ReadonlySet<number>,
): ReadonlyMap<number, number> {
  const unknown = [...wanted].filter((node) => !known.has(node))
  const index = new Map(unknown.map((node, i) => [node, i]))
  const n = unknown.length
  const matrix = new Float64Array(n * n)
  const right = new Float64Array(n)
  for (const { from, to, value } of branches) {
    const ends = [nameOf(from), nameOf(to)] as const
    if (ends[0] === ends[1]) continue
    for (const [here, there] of [ends, [ends[1], ends[0]] as const]) {
      const row = index.get(here)
      if (row === undefined) continue
      matrix[row * n + row]! += value
      const column = index.get(there)
      if (column !== undefined) matrix[row * n + column]! -= value
      else right[row]! += value * known.get(there)!
    }
  }
  choleskyInPlace(matrix, n)
  forward(matrix, n, right)
  backward(matrix, n, right)
  return new Map([...known, ...unknown.map((node, i) => [node, right[i]!] as const)])
}

/** What a network left to itself does: potential of each node as a sum of decays. */
export type Fall = (node: number) => readonly Decay[]

/**
 * Free decay of a network of capacitors and conductances from given potentials: C dv/dt = −G v at every node.
 *
 * Voltages of capacitors are the state. A group of nodes that capacitors join to each other, but not to the reference,
 * follows the others without a state of its own. With C = L Lᵀ and G = Bᵀ B (a row for each conductance) the rates are
 * the squares of the singular values of B L⁻ᵀ, by one-sided Jacobi rotations: slow ones keep their digits beside rates
 * many decades faster.
 */
export function freeFall({ nodes, capacitors, conductances }: ResistorCapacitorNetwork, start: Float64Array): Fall {
  const groups = disjointSets()
  for (const { from, to } of capacitors) groups.unite(`${from}`, `${to}`)
  const headOf = [...Array(nodes).keys()].map((node) =>
    groups.find(`${node}`) === groups.find('0') ? 0 : Number(groups.find(`${node}`)),
  )
  const states = headOf.flatMap((head, node) => (node === head ? [] : [node]))
  const heads = headOf.flatMap((head, node) => (node === head && node !== 0 ? [node] : []))
  const n = states.length
  const stateAt = new Map(states.map((node, i) => [node, i]))
  const shape = nodeShapes({ nodes, headOf, stateAt, heads, conductances })
  const factor = stateCapacitance(capacitors, stateAt, n)
  choleskyInPlace(factor, n)
  const columns = states.map((_, k) => unitThroughInverse(factor, n, k))
  const rows = conductances.map(({ from, to, value }) => {
    const across = shape[from]!.map((one, i) => Math.sqrt(value) * (one - shape[to]![i]!))
    return columns.map((column) => dot(across, column))
  })
  const { values, vectors } = singular(rows, n)
  const offset = states.map((node) => start[node]! - start[headOf[node]!]!)
  const charged = columnsTimes(factor, n, offset)
  const fastest = Math.max(...values) ** 2
  return (node) =>
    values.map((value, k) => {
      const vector = vectors[k]!
      const reach = columns.reduce((sum, column, i) => sum + dot(shape[node]!, column) * vector[i]!, 0)
      // A rate that is rounding beside the fastest is none: what no conductance bridges.
      const rate = value ** 2 > 1e-26 * fastest ? value ** 2 : 0
      return { amount: reach * dot(vector, charged), rate }
    })
}

interface Shapes {
  readonly nodes: number
  readonly headOf: readonly number[]
  readonly stateAt: ReadonlyMap<number, number>
  readonly heads: readonly number[]
  readonly conductances: readonly Branch[]
}

/** Potential of each node by the states: its own, and that of the head of its group, which Kirchhoff's law gives. */
function nodeShapes({ nodes, headOf, stateAt, heads, conductances }: Shapes): readonly (readonly number[])[] {
  const n = stateAt.size
  const own = (node: number): readonly number[] =>
    Array.from({ length: n }, (_, i) => (stateAt.get(node) === i ? 1 : 0))
  const byState = Array.from({ length: n }, (_, i) => {
    // Unit state i moves its node; every head is then where the currents of its whole group add up to nothing.
    const shifted = conductances.map(({ from, to, value }) => ({ from, to, value, drive: own(from)[i]! - own(to)[i]! }))
    return headPotentials(shifted, headOf, heads)
  })
  return Array.from({ length: nodes }, (_, node) =>
    own(node).map((one, i) => one + (byState[i]!.get(headOf[node]!) ?? 0)),
  )
}

/** Heads where Σ g (h_from − h_to + drive) over the conductances that leave each group is zero. */
function headPotentials(
  shifted: readonly (Branch & { readonly drive: number })[],
  headOf: readonly number[],
  heads: readonly number[],
): ReadonlyMap<number, number> {
  const n = heads.length
  const matrix = new Float64Array(n * n)
  const right = new Float64Array(n)
  for (const { from, to, value, drive } of shifted) {
    const ends = [heads.indexOf(headOf[from]!), heads.indexOf(headOf[to]!)] as const
    if (headOf[from] === headOf[to]) continue
    for (const [here, there, sign] of [
      [ends[0], ends[1], 1],
      [ends[1], ends[0], -1],
    ] as const) {
      if (here < 0) continue
      matrix[here * n + here]! += value
      if (there >= 0) matrix[here * n + there]! -= value
      right[here]! -= sign * value * drive
    }
  }
  choleskyInPlace(matrix, n)
  forward(matrix, n, right)
  backward(matrix, n, right)
  return new Map(heads.map((head, i) => [head, right[i]!]))
}

/** Matrix of the capacitors for their states; the reference and the heads are at zero. */
function stateCapacitance(
  capacitors: readonly Branch[],
  stateAt: ReadonlyMap<number, number>,
  n: number,
): Float64Array {
  const matrix = new Float64Array(n * n)
  for (const { from, to, value } of capacitors) {
    if (from === to) continue
    const [a, b] = [stateAt.get(from), stateAt.get(to)]
    for (const one of [a, b]) if (one !== undefined) matrix[one * n + one]! += value
    if (a === undefined || b === undefined) continue
    matrix[a * n + b]! -= value
    matrix[b * n + a]! -= value
  }
  return matrix
}

/** Column k of L⁻ᵀ. */
function unitThroughInverse(factor: Float64Array, n: number, k: number): readonly number[] {
  const vector = new Float64Array(n)
  vector[k] = 1
  backward(factor, n, vector)
  return [...vector]
}

/** Lᵀ x. */
function columnsTimes(factor: Float64Array, n: number, x: readonly number[]): readonly number[] {
  return x.map((_, k) => x.reduce((sum, one, i) => (i < k ? sum : sum + factor[i * n + k]! * one), 0))
}
