export interface Singular {
  readonly values: readonly number[]
  /** One for each value, of length 1. */
  readonly vectors: readonly (readonly number[])[]
}

export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, i) => sum + one * b[i]!, 0)
}

/**
 * Singular values and right singular vectors of a matrix with n columns, by one-sided Jacobi rotations: columns are
 * turned in pairs until all are orthogonal. Small values keep their digits beside large ones, as those of a product
 * AᵀA would not.
 *
 * @see J. Demmel, K. Veselić, "Jacobi's method is more accurate than QR", SIAM J. Matrix Anal. Appl. 13 (1992)
 *   1204-1245 (from memory)
 */
export function singular(rows: readonly (readonly number[])[], n: number): Singular {
  const columns = Array.from({ length: n }, (_, k) => rows.map((row) => row[k]!))
  const vectors = Array.from({ length: n }, (_, k) => Array.from({ length: n }, (_, i) => (i === k ? 1 : 0)))
  for (let sweep = 0, turned = true; turned && sweep < 60; sweep++) {
    turned = false
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        const [a, b, c] = [dot(columns[p]!, columns[p]!), dot(columns[q]!, columns[q]!), dot(columns[p]!, columns[q]!)]
        if (Math.abs(c) <= 1e-15 * Math.sqrt(a * b)) continue
        turned = true
        const zeta = (b - a) / (2 * c)
        const tangent = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.hypot(1, zeta))
        const cosine = 1 / Math.hypot(1, tangent)
        for (const pair of [columns, vectors]) turn(pair, p, q, cosine, cosine * tangent)
      }
  }
  return { values: columns.map((column) => Math.sqrt(dot(column, column))), vectors }
}

function turn(columns: number[][], p: number, q: number, cosine: number, sine: number): void {
  const [x, y] = [columns[p]!, columns[q]!]
  columns[p] = x.map((one, i) => cosine * one - sine * y[i]!)
  columns[q] = x.map((one, i) => sine * one + cosine * y[i]!)
}
