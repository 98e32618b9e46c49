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

/**
 * Factorises a general sparse matrix by Gaussian elimination, the next pivot on the diagonal where it fills least
 * (Markowitz), off it only when the diagonal is too small. Chains, stars and trees stay sparse whatever their numbering;
 * no symmetry is asked for, as coolant carries heat one way only.
 *
 * @throws {DomainError} when the matrix is singular
 */
export function factorise(matrix: SparseRows): SparseFactors {
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
    throw new DomainError(
      'factorise',
      'matrix',
      'singular',
      'regular: every part of the network needs a way for its heat',
    )
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

function refine(matrix: SparseRows, steps: readonly Step[], right: Float64Array): Float64Array {
  const x = substitute(steps, right)
  const residual = Float64Array.from(right)
  for (const [i, row] of matrix.entries()) for (const [j, entry] of row) residual[i]! -= entry * x[j]!
  const correction = substitute(steps, residual)
  return x.map((value, i) => value + correction[i]!)
}
