import { DomainError } from './method.ts'

/** A square matrix by rows: column → entry. */
export type SparseRows = readonly ReadonlyMap<number, number>[]

export type SparseFactors = {
  /** Solves A x = right, with one step of refinement on the original matrix. */
  readonly solve: (right: Float64Array) => Float64Array
}

type Step = {
  readonly row: number
  readonly column: number
  readonly pivot: number
  readonly rest: readonly (readonly [column: number, entry: number])[]
  readonly below: readonly (readonly [row: number, factor: number])[]
}

/** A pivot must reach this share of the largest entry of its column, so that factors cannot grow without bound. */
const THRESHOLD = 0.01

/** Up to this size a full matrix is quicker than the search for pivots that fill little. */
const DENSE = 96

/**
 * Factorises a general sparse matrix by Gaussian elimination, the next pivot on the diagonal where it fills least
 * (Markowitz), off it only when the diagonal is too small. Chains, stars and trees stay sparse whatever their numbering;
 * no symmetry is asked for, as coolant carries heat one way only.
 *
 * @throws {DomainError} when the matrix is singular
 */
export function factorise(matrix: SparseRows): SparseFactors {
  if (matrix.length <= DENSE) return denseFactors(matrix)
  const rows = matrix.map((row) => new Map(row))
  const columns = rows.map(() => new Set<number>())
  for (const [i, row] of rows.entries()) for (const j of row.keys()) columns[j]!.add(i)
  const openRows = new Set(rows.keys())
  const openColumns = new Set(rows.keys())
  const steps: Step[] = []
  while (openRows.size > 0) {
    const [r, c] = choosePivot(rows, columns, openRows, openColumns)
    steps.push(eliminate(rows, columns, r, c))
    openRows.delete(r)
    openColumns.delete(c)
  }
  return { solve: (right) => refine(matrix, steps, right) }
}

type Rows = readonly Map<number, number>[]
type Columns = readonly Set<number>[]

function choosePivot(rows: Rows, columns: Columns, openRows: Set<number>, openColumns: Set<number>): [number, number] {
  let best = -1
  let bestCost = Number.POSITIVE_INFINITY
  for (const i of openRows) {
    if (!openColumns.has(i)) continue
    const cost = (rows[i]!.size - 1) * (columns[i]!.size - 1)
    if (cost >= bestCost) continue
    if (!(Math.abs(rows[i]!.get(i) ?? 0) >= THRESHOLD * largestIn(rows, columns, i)) || !rows[i]!.get(i)) continue
    best = i
    bestCost = cost
    if (cost === 0) break
  }
  return best >= 0 ? [best, best] : offDiagonal(rows, columns, openColumns)
}

function largestIn(rows: Rows, columns: Columns, column: number): number {
  let largest = 0
  for (const i of columns[column]!) largest = Math.max(largest, Math.abs(rows[i]!.get(column)!))
  return largest
}

function offDiagonal(rows: Rows, columns: Columns, openColumns: Set<number>): [number, number] {
  let column = -1
  for (const j of openColumns) if (column < 0 || columns[j]!.size < columns[column]!.size) column = j
  let row = -1
  for (const i of columns[column]!) {
    if (row < 0 || Math.abs(rows[i]!.get(column)!) > Math.abs(rows[row]!.get(column)!)) row = i
  }
  if (row < 0 || !rows[row]!.get(column)) {
    throw singular()
  }
  return [row, column]
}

function eliminate(rows: Rows, columns: Columns, r: number, c: number): Step {
  const pivotRow = rows[r]!
  const pivot = pivotRow.get(c)!
  for (const j of pivotRow.keys()) columns[j]!.delete(r)
  pivotRow.delete(c)
  const rest = [...pivotRow]
  const below: [number, number][] = []
  for (const i of columns[c]!) {
    const row = rows[i]!
    const factor = row.get(c)! / pivot
    row.delete(c)
    for (const [j, entry] of rest) {
      const old = row.get(j)
      if (old === undefined) columns[j]!.add(i)
      row.set(j, (old ?? 0) - factor * entry)
    }
    below.push([i, factor])
  }
  columns[c]!.clear()
  return { row: r, column: c, pivot, rest, below }
}

function substitute(steps: readonly Step[], right: Float64Array): Float64Array {
  const work = Float64Array.from(right)
  for (const { row, below } of steps) {
    const value = work[row]!
    if (value !== 0) for (const [i, factor] of below) work[i]! -= factor * value
  }
  const x = new Float64Array(right.length)
  for (let s = steps.length - 1; s >= 0; s--) {
    const { row, column, pivot, rest } = steps[s]!
    let value = work[row]!
    for (const [j, entry] of rest) value -= entry * x[j]!
    x[column] = value / pivot
  }
  return x
}

const singular = (): DomainError =>
  new DomainError('factorise', 'matrix', 'singular', 'regular: every part of the network needs a way for its heat')

function residualOf(matrix: SparseRows, x: Float64Array, right: Float64Array): Float64Array {
  const residual = Float64Array.from(right)
  for (const [i, row] of matrix.entries()) for (const [j, entry] of row) residual[i]! -= entry * x[j]!
  return residual
}

function refine(matrix: SparseRows, steps: readonly Step[], right: Float64Array): Float64Array {
  const x = substitute(steps, right)
  const correction = substitute(steps, residualOf(matrix, x, right))
  return x.map((value, i) => value + correction[i]!)
}

/** Gaussian elimination with partial pivoting on a full matrix, with the same refinement. */
function denseFactors(matrix: SparseRows): SparseFactors {
  const n = matrix.length
  const a = new Float64Array(n * n)
  for (const [i, row] of matrix.entries()) for (const [j, entry] of row) a[i * n + j] = entry
  const order = matrix.map((_, i) => i)
  for (let k = 0; k < n; k++) {
    swap(a, order, n, k, pivotBelow(a, n, k))
    const pivot = a[k * n + k]!
    for (let i = k + 1; i < n; i++) {
      if (a[i * n + k] === 0) continue
      const factor = a[i * n + k]! / pivot
      a[i * n + k] = factor
      for (let j = k + 1; j < n; j++) a[i * n + j]! -= factor * a[k * n + j]!
    }
  }
  const once = (right: Float64Array): Float64Array => substituteDense(a, order, right)
  return {
    solve(right) {
      const x = once(right)
      const correction = once(residualOf(matrix, x, right))
      return x.map((value, i) => value + correction[i]!)
    },
  }
}

function pivotBelow(a: Float64Array, n: number, k: number): number {
  let best = k
  for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k]!) > Math.abs(a[best * n + k]!)) best = i
  if (!(Math.abs(a[best * n + k]!) > 0)) throw singular()
  return best
}

function swap(a: Float64Array, order: number[], n: number, k: number, other: number): void {
  if (k === other) return
  const [row, above] = [a.slice(k * n, k * n + n), order[k]!]
  a.copyWithin(k * n, other * n, other * n + n)
  a.set(row, other * n)
  order[k] = order[other]!
  order[other] = above
}

function substituteDense(a: Float64Array, order: readonly number[], right: Float64Array): Float64Array {
  const n = order.length
  const x = Float64Array.from(order, (from) => right[from]!)
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) x[i]! -= a[i * n + j]! * x[j]!
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) x[i]! -= a[i * n + j]! * x[j]!
    x[i]! /= a[i * n + i]!
  }
  return x
}
