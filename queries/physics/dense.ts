/**
 * Dense solves in typed arrays, row by row. Matrices are square, stored by rows. No solve here pivots or reorders, so
 * each asks for a kind of matrix that does not need it.
 */

/**
 * Column of the first entry of each row of a lower triangle that is not 0: a Cholesky factor has none before it either.
 */
export function profileOf(matrix: Float64Array, n: number): Int32Array {
  const first = new Int32Array(n)
  for (let i = 0; i < n; i++) {
    let j = 0
    while (j < i && matrix[i * n + j] === 0) j++
    first[i] = j
  }
  return first
}

/**
 * Σ a[at + k] b[from + k] over `count` places. Four sums run side by side: one alone waits for its own last addition, and
 * takes three times as long.
 */
export function innerProduct(a: Float64Array, at: number, b: Float64Array, from: number, count: number): number {
  let [s, t, u, v] = [0, 0, 0, 0]
  const fours = count - (count % 4)
  for (let k = 0; k < fours; k += 4) {
    s += (a[at + k] as number) * (b[from + k] as number)
    t += (a[at + k + 1] as number) * (b[from + k + 1] as number)
    u += (a[at + k + 2] as number) * (b[from + k + 2] as number)
    v += (a[at + k + 3] as number) * (b[from + k + 3] as number)
  }
  for (let k = fours; k < count; k++) s += (a[at + k] as number) * (b[from + k] as number)
  return s + t + (u + v)
}

/**
 * Cholesky factor C of a symmetric positive definite matrix, A = C Cᵀ, written over its lower triangle.
 *
 * @param matrix n × n by rows; only the lower triangle is read, and is overwritten
 * @param first  its profile; rows that do not couple cost nothing if they stand apart
 * @returns undefined, or the number of the first row at which the matrix turns out not to be positive definite
 */
export function choleskyInPlace(matrix: Float64Array, n: number, first = profileOf(matrix, n)): number | undefined {
  for (let i = 0; i < n; i++) {
    const rowI = i * n
    const firstI = first[i] as number
    const diagonal = matrix[rowI + i] as number
    for (let j = firstI; j <= i; j++) {
      const rowJ = j * n
      const from = Math.max(firstI, first[j] as number)
      const given = matrix[rowI + j] as number
      const sum = from < j ? given - innerProduct(matrix, rowI + from, matrix, rowJ + from, j - from) : given
      if (j < i) matrix[rowI + j] = sum / (matrix[rowJ + j] as number)
      else if (sum > diagonal * 1e-15) matrix[rowI + i] = Math.sqrt(sum)
      else return i
    }
  }
  return undefined
}

/** Solves C y = b by substitution from the top, over `vector`. */
export function forward(factor: Float64Array, n: number, vector: Float64Array, first = profileOf(factor, n)): void {
  let start = 0
  while (start < n && vector[start] === 0) start++
  for (let i = start; i < n; i++) {
    const row = i * n
    const from = Math.max(start, first[i] as number)
    const known = from < i ? innerProduct(factor, row + from, vector, from, i - from) : 0
    vector[i] = ((vector[i] as number) - known) / (factor[row + i] as number)
  }
}

/** Solves Cᵀ x = y by substitution from the bottom, over `vector`. */
export function backward(factor: Float64Array, n: number, vector: Float64Array, first = profileOf(factor, n)): void {
  for (let i = n - 1; i >= 0; i--) {
    const row = i * n
    const x = (vector[i] as number) / (factor[row + i] as number)
    vector[i] = x
    for (let k = first[i] as number; k < i; k++) {
      vector[k] = (vector[k] as number) - (factor[row + k] as number) * x
    }
  }
}

/** A complex matrix or vector as two real ones. */
export interface Complex {
  readonly re: Float64Array
  readonly im: Float64Array
}

/**
 * Factors a complex symmetric matrix whose real and imaginary parts are both positive (semi)definite, such as R + jωL,
 * into L D Lᵀ over its lower triangle; without pivoting elements grow by a factor of 3 at most then.
 *
 * @see N. J. Higham, "Factorizing complex symmetric matrices with positive definite real and imaginary parts",
 *   Math. Comp. 67 (1998) 1591-1599 (from memory)
 */
export function factorSymmetric({ re, im }: Complex, n: number): void {
  const scaledRe = new Float64Array(n)
  const scaledIm = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const rowI = i * n
    // Row i of L D first (no division), column by column; then L, and the pivot of this row.
    for (let j = 0; j < i; j++) {
      const rowJ = j * n
      let sumRe = re[rowI + j] as number
      let sumIm = im[rowI + j] as number
      for (let k = 0; k < j; k++) {
        const aRe = scaledRe[k] as number
        const aIm = scaledIm[k] as number
        const bRe = re[rowJ + k] as number
        const bIm = im[rowJ + k] as number
        sumRe -= aRe * bRe - aIm * bIm
        sumIm -= aRe * bIm + aIm * bRe
      }
      scaledRe[j] = sumRe
      scaledIm[j] = sumIm
    }
    let pivotRe = re[rowI + i] as number
    let pivotIm = im[rowI + i] as number
    for (let k = 0; k < i; k++) {
      const dRe = re[k * n + k] as number
      const dIm = im[k * n + k] as number
      const size = dRe * dRe + dIm * dIm
      const aRe = scaledRe[k] as number
      const aIm = scaledIm[k] as number
      const lRe = (aRe * dRe + aIm * dIm) / size
      const lIm = (aIm * dRe - aRe * dIm) / size
      re[rowI + k] = lRe
      im[rowI + k] = lIm
      pivotRe -= aRe * lRe - aIm * lIm
      pivotIm -= aRe * lIm + aIm * lRe
    }
    re[rowI + i] = pivotRe
    im[rowI + i] = pivotIm
  }
}

/** Solves L D Lᵀ x = b with the factors of {@link factorSymmetric}, over `vector`. */
export function solveSymmetric({ re, im }: Complex, n: number, vector: Complex): void {
  const { re: xRe, im: xIm } = vector
  for (let i = 0; i < n; i++) {
    const row = i * n
    let sumRe = xRe[i] as number
    let sumIm = xIm[i] as number
    for (let k = 0; k < i; k++) {
      sumRe -= (re[row + k] as number) * (xRe[k] as number) - (im[row + k] as number) * (xIm[k] as number)
      sumIm -= (re[row + k] as number) * (xIm[k] as number) + (im[row + k] as number) * (xRe[k] as number)
    }
    xRe[i] = sumRe
    xIm[i] = sumIm
  }
  for (let i = 0; i < n; i++) divideBy(vector, i, re[i * n + i] as number, im[i * n + i] as number)
  for (let i = n - 1; i >= 0; i--) {
    const row = i * n
    const aRe = xRe[i] as number
    const aIm = xIm[i] as number
    for (let k = 0; k < i; k++) {
      const lRe = re[row + k] as number
      const lIm = im[row + k] as number
      xRe[k] = (xRe[k] as number) - (lRe * aRe - lIm * aIm)
      xIm[k] = (xIm[k] as number) - (lRe * aIm + lIm * aRe)
    }
  }
}

function divideBy({ re, im }: Complex, i: number, dRe: number, dIm: number): void {
  const size = dRe * dRe + dIm * dIm
  const aRe = re[i] as number
  const aIm = im[i] as number
  re[i] = (aRe * dRe + aIm * dIm) / size
  im[i] = (aIm * dRe - aRe * dIm) / size
}
