import { describe, expect, it } from 'vitest'
import { backward, choleskyInPlace, factorSymmetric, forward, solveSymmetric } from '../../../queries/physics/dense.ts'

// Hilbert matrix, exact inverse known (textbook): first row of the inverse of H₅ is 25, −300, 1050, −1400, 630.
const hilbert = (n: number): Float64Array =>
  Float64Array.from({ length: n * n }, (_, k) => 1 / (Math.floor(k / n) + (k % n) + 1))

describe('dense solves', () => {
  it('inverts a Hilbert matrix', () => {
    const factor = hilbert(5)
    expect(choleskyInPlace(factor, 5)).toBeUndefined()
    const x = Float64Array.from([1, 0, 0, 0, 0])
    forward(factor, 5, x)
    backward(factor, 5, x)
    for (const [i, expected] of [25, -300, 1050, -1400, 630].entries()) expect(x[i]! / expected).toBeCloseTo(1, 9)
  })

  it('says at which row a matrix stops being positive', () => {
    expect(choleskyInPlace(Float64Array.from([1, 2, 2, 1]), 2)).toBe(1)
  })

  it('solves a complex symmetric system: what goes in comes out', () => {
    const n = 40
    // R + jX with both parts positive definite: diagonal and Hilbert plus a tenth of the unit matrix.
    const re = Float64Array.from({ length: n * n }, (_, k) => (Math.floor(k / n) === k % n ? 1 + (k % n) / n : 0))
    const im = hilbert(n).map((value, k) => value + (Math.floor(k / n) === k % n ? 0.1 : 0))
    const x = {
      re: Float64Array.from({ length: n }, (_, i) => Math.sin(i)),
      im: Float64Array.from({ length: n }, (_, i) => Math.cos(3 * i)),
    }
    const b = { re: new Float64Array(n), im: new Float64Array(n) }
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const [r, q] = [re[i * n + j]!, im[i * n + j]!]
        b.re[i]! += r * x.re[j]! - q * x.im[j]!
        b.im[i]! += r * x.im[j]! + q * x.re[j]!
      }
    }
    factorSymmetric({ re, im }, n)
    solveSymmetric({ re, im }, n, b)
    for (let i = 0; i < n; i++) {
      expect(b.re[i]).toBeCloseTo(x.re[i]!, 12)
      expect(b.im[i]).toBeCloseTo(x.im[i]!, 12)
    }
  })
})
