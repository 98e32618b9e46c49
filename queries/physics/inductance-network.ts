import type { Bar } from './bar.ts'
import { minus, norm } from './bar.ts'
import { backward, choleskyInPlace, forward, innerProduct, profileOf } from './dense.ts'
import { inductanceMatrix } from './inductance-matrix.ts'
import { DomainError, requireNonNegative } from './method.ts'
import { nodeGroups } from './network-nodes.ts'

/** A piece of metal between two nodes, current from `from` (start of the bar) to `to` (its end). */
export interface BarBranch {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly bar: Bar
}

/**
 * A part with an inductance of its own (capacitor, module, joint) that couples with nothing else [H]; 0 joins its
 * nodes.
 */
export interface LumpedBranch {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly inductance: number
}

export type Branch = BarBranch | LumpedBranch

/** Where one ampere goes in (`from`) and comes out (`to`). */
export interface Port {
  readonly id: string
  readonly from: string
  readonly to: string
}

export interface NetworkInputs {
  readonly branches: readonly Branch[]
  readonly ports: readonly Port[]
  /** Groups of nodes that are one: contact faces, terminals screwed together. */
  readonly joined?: readonly (readonly string[])[]
  /** Mutual inductances that are known otherwise, added to those of the bars [H]. */
  readonly couplings?: readonly { readonly first: string; readonly second: string; readonly mutual: number }[]
  /** Partial inductances of the bars in their order, n × n by rows [H], when the caller has them. */
  readonly partial?: Float64Array
  /** Relative error allowed to single coefficients of bars [1]; 10⁻¹¹ if left out. */
  readonly error?: number
}

export interface SolvedNetwork {
  readonly ok: true
  /** Inductance matrix of the ports [H], in the order given. */
  readonly ports: readonly (readonly number[])[]
  /** Current of each branch [A] for one ampere into each port, by port; absent for branches without inductance. */
  readonly currents: readonly ReadonlyMap<string, number>[]
  /** Part of each branch in the inductance of each port, i·(L i) [H]; they add up to it. */
  readonly shares: readonly ReadonlyMap<string, number>[]
  /** Pieces of metal that no port reaches. Currents induced in their closed paths are included. */
  readonly floating: readonly (readonly string[])[]
}

/** Why there is no answer, with the nodes or branches at fault. */
export type NetworkFault =
  | { readonly kind: 'port-open'; readonly port: string; readonly pieces: readonly (readonly string[])[] }
  | { readonly kind: 'not-positive'; readonly branch: string }

export type NetworkAnswer = SolvedNetwork | { readonly ok: false; readonly fault: NetworkFault }

/**
 * How fast-changing current divides over branches with self and mutual inductance, and the inductance at the ports:
 *
 *     L i = Aᵀ φ,   A i = what the ports feed in;   resistance left out (ωL ≫ R)
 *
 * φ are flux linkages of the nodes, A tells which branch starts and ends where. The currents found are those of least
 * magnetic energy. Cutting a straight bar in two changes nothing: the inductances of its parts add up to its own.
 *
 * @throws {DomainError} on a negative inductance, two branches of one name, or a coupling of a branch that is not there
 */
export function solveNetwork(inputs: NetworkInputs): NetworkAnswer {
  checkInputs(inputs)
  const joins = [...(inputs.joined ?? []), ...shorts(inputs.branches)]
  const live = byDirection(inputs.branches.filter((branch) => !isShort(branch)))
  const nodes = nodeGroups({ edges: live, ports: inputs.ports, joined: joins })
  const open = inputs.ports.find((port) => nodes.piece(port.from) !== nodes.piece(port.to))
  if (open) {
    const pieces = [nodes.namesOf(nodes.piece(open.from)), nodes.namesOf(nodes.piece(open.to))]
    return { ok: false, fault: { kind: 'port-open', port: open.id, pieces } }
  }
  const matrix = branchMatrix(live, inputs)
  const solved = solveDivision({ live, ports: inputs.ports, matrix, unknown: nodes.unknown, unknowns: nodes.unknowns })
  if (typeof solved === 'string') return { ok: false, fault: { kind: 'not-positive', branch: solved } }
  const reached = new Set(inputs.ports.map((port) => nodes.piece(port.from)))
  return { ok: true, ...solved, floating: nodes.pieces.filter((piece) => !reached.has(piece)).map(nodes.namesOf) }
}

function isShort(branch: Branch): boolean {
  return 'inductance' in branch && branch.inductance === 0
}

/** Bars at right angles do not couple: sorted by direction, the matrix falls into blocks that are solved apart. */
function byDirection(branches: readonly Branch[]): readonly Branch[] {
  const keyOf = (branch: Branch): string => {
    if (!('bar' in branch)) return ''
    const run = minus(branch.bar.end, branch.bar.start)
    const cosines = run.map((part) => Math.round((1e6 * part) / norm(run)))
    const sign = Math.sign(cosines.find((part) => part !== 0) ?? 1)
    return cosines.map((part) => sign * part + 0).join()
  }
  return branches
    .map((branch) => ({ branch, key: keyOf(branch) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ branch }) => branch)
}

function shorts(branches: readonly Branch[]): readonly (readonly string[])[] {
  return branches.filter(isShort).map(({ from, to }) => [from, to])
}

function checkInputs({ branches, couplings = [] }: NetworkInputs): void {
  const names = new Set<string>()
  for (const branch of branches) {
    if (names.has(branch.id)) throw new DomainError('solveNetwork', 'branches', branch.id, 'named once each')
    names.add(branch.id)
    if ('inductance' in branch) requireNonNegative('solveNetwork', branch.id, branch.inductance)
  }
  for (const { first, second } of couplings) {
    for (const id of [first, second]) {
      if (!names.has(id)) throw new DomainError('solveNetwork', 'couplings', id, 'the name of a branch')
    }
  }
}

/** Inductances of all branches: bars among each other, lumped ones on the diagonal, stated couplings on top. */
function branchMatrix(live: readonly Branch[], inputs: NetworkInputs): Float64Array {
  const { branches, couplings = [], error } = inputs
  const n = live.length
  const matrix = new Float64Array(n * n)
  const rows = new Map(live.map(({ id }, row) => [id, row]))
  const bars = branches.filter((branch): branch is BarBranch => 'bar' in branch)
  const sections = bars.map(({ bar }) => bar)
  const partial = inputs.partial ?? inductanceMatrix(sections, error)
  const rowOf = Int32Array.from(bars, ({ id }) => rows.get(id) as number)
  for (const [i, row] of rowOf.entries()) {
    for (const [j, column] of rowOf.entries()) matrix[row * n + column] = partial[i * bars.length + j] as number
  }
  for (const [row, branch] of live.entries()) if ('inductance' in branch) matrix[row * n + row] = branch.inductance
  for (const { first, second, mutual } of couplings) {
    const [i, j] = [rows.get(first), rows.get(second)]
    if (i === undefined || j === undefined) continue // of a short, whose flux moves no current
    matrix[i * n + j] = (matrix[i * n + j] as number) + mutual
    matrix[j * n + i] = (matrix[j * n + i] as number) + mutual
  }
  return matrix
}

interface Division {
  readonly live: readonly Branch[]
  readonly ports: readonly Port[]
  readonly matrix: Float64Array
  /** Number of the unknown of a node, or −1 where it is the reference of its piece. */
  readonly unknown: (node: string) => number
  readonly unknowns: number
}

type Divided = Pick<SolvedNetwork, 'ports' | 'currents' | 'shares'>

/** The division of currents, or the branch at which the matrix stops being positive. */
function solveDivision({ live, ports, matrix, unknown, unknowns }: Division): Divided | string {
  const n = live.length
  const factor = matrix.slice()
  const first = profileOf(factor, n)
  const bad = choleskyInPlace(factor, n, first)
  if (bad !== undefined) return live[bad]?.id ?? ''
  const columns = whitenedIncidence({ live, factor, first, unknown, unknowns })
  const stiffness = gram(columns)
  const weak = choleskyInPlace(stiffness, unknowns)
  if (weak !== undefined) return live.find(({ from, to }) => unknown(from) === weak || unknown(to) === weak)?.id ?? ''
  const answers = ports.map((port) => {
    const flux = new Float64Array(unknowns)
    feed(flux, unknown(port.from), 1)
    feed(flux, unknown(port.to), -1)
    forward(stiffness, unknowns, flux)
    backward(stiffness, unknowns, flux)
    return { flux, current: currentsOf({ columns, flux, factor, first }) }
  })
  const at = (flux: Float64Array, node: string): number => flux[unknown(node)] ?? 0
  return {
    ports: ports.map(({ from, to }) => answers.map(({ flux }) => at(flux, from) - at(flux, to))),
    currents: answers.map(({ current }) => new Map(live.map(({ id }, i) => [id, current[i] ?? 0]))),
    shares: answers.map(({ current, flux }) => {
      // L i is what the flux linkages of its nodes differ by.
      return new Map(live.map(({ id, from, to }, i) => [id, (current[i] ?? 0) * (at(flux, from) - at(flux, to))]))
    }),
  }
}

function feed(vector: Float64Array, row: number, by: number): void {
  if (row >= 0) vector[row] = (vector[row] as number) + by
}

/** Columns of C⁻¹ Aᵀ, one for each unknown node. */
function whitenedIncidence(inputs: Pick<Division, 'live' | 'unknown' | 'unknowns'> & Factor): readonly Float64Array[] {
  const { live, factor, first, unknown, unknowns } = inputs
  const columns = Array.from({ length: unknowns }, () => new Float64Array(live.length))
  for (const [row, { from, to }] of live.entries()) {
    if (unknown(from) === unknown(to)) continue
    const [start, end] = [columns[unknown(from)], columns[unknown(to)]]
    if (start) start[row] = 1
    if (end) end[row] = -1
  }
  for (const column of columns) forward(factor, live.length, column, first)
  return columns
}

/** A Cholesky factor with its profile. */
interface Factor {
  readonly factor: Float64Array
  readonly first: Int32Array
}

function gram(columns: readonly Float64Array[]): Float64Array {
  const m = columns.length
  const result = new Float64Array(m * m)
  const starts = columns.map((column) => column.findIndex((value) => value !== 0))
  for (const [i, a] of columns.entries()) {
    for (let j = 0; j <= i; j++) {
      const b = columns[j] as Float64Array
      const from = Math.max(starts[i] as number, starts[j] as number)
      result[i * m + j] = innerProduct(a, from, b, from, a.length - from)
    }
  }
  return result
}

function currentsOf(
  inputs: { readonly columns: readonly Float64Array[]; readonly flux: Float64Array } & Factor,
): Float64Array {
  const { columns, flux, factor, first } = inputs
  const n = first.length
  const current = new Float64Array(n)
  for (const [j, column] of columns.entries()) {
    const weight = flux[j] as number
    for (let k = 0; k < n; k++) current[k] = (current[k] as number) + weight * (column[k] as number)
  }
  backward(factor, n, current, first)
  return current
}
