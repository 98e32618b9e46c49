import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { factorise } from '../../../queries/physics/sparse-solve.ts'

/** Second method: dense Gaussian elimination with row exchange. */
function dense(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const a = matrix.map((row, i) => [...row, right[i]!])
  const n = a.length
  for (let c = 0; c < n; c++) {
    const p = a.reduce((best, row, i) => (i >= c && Math.abs(row[c]!) > Math.abs(a[best]![c]!) ? i : best), c)
    ;[a[c], a[p]] = [a[p]!, a[c]!]
    for (let i = c + 1; i < n; i++) {
      const factor = a[i]![c]! / a[c]![c]!
      for (let j = c; j <= n; j++) a[i]![j]! -= factor * a[c]![j]!
    }
  }
  const x = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--)
    x[i] = a[i]!.slice(0, n).reduce((sum, v, j) => (j > i ? sum - v * x[j]! : sum), a[i]![n]!) / a[i]![i]!
  return x
}

const sparse = (matrix: readonly (readonly number[])[]) =>
  matrix.map((row) => new Map(row.flatMap((v, j) => (v === 0 ? [] : [[j, v] as const]))))
const entry = fc.double({ min: -5, max: 5, noNaN: true })

describe('factorise', () => {
  it('agrees with dense elimination on random sparse matrices without any symmetry or dominance', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 14 }),
        fc.array(fc.tuple(fc.nat(13), fc.nat(13), entry), { minLength: 10, maxLength: 60 }),
        (n, list) => {
          const matrix = Array.from({ length: n }, (_, i) =>
            Array.from({ length: n }, (_, j) => (j === (i + 3) % n ? 2 + i : 0)),
          )
          for (const [i, j, v] of list) if (i < n && j < n && Math.abs(v) > 1e-3) matrix[i]![j] = v
          const right = matrix.map((_, i) => i - 2)
          const expected = dense(matrix, right)
          fc.pre(expected.every((v) => Number.isFinite(v) && Math.abs(v) < 1e4))
          const found = factorise(sparse(matrix)).solve(Float64Array.from(right))
          return expected.every((v, i) => Math.abs(v - found[i]!) < 1e-7 * Math.max(1, ...expected.map(Math.abs)))
        },
      ),
      { numRuns: 300 },
    )
  })

  it('takes pivots off the diagonal when there are none on it', () => {
    const found = factorise(
      sparse([
        [0, 2],
        [3, 0],
      ]),
    ).solve(Float64Array.from([4, 9]))
    expect([...found]).toEqual([3, 2])
  })

  it('refuses a singular matrix', () => {
    expect(() =>
      factorise(
        sparse([
          [1, 2],
          [2, 4],
        ]),
      ).solve(Float64Array.from([1, 1])),
    ).toThrow(DomainError)
    expect(() => factorise([new Map([[0, 1]]), new Map()])).toThrow(DomainError)
  })
})
