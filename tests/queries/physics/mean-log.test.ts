import { describe, expect, it } from 'vitest'
import { meanLog, rectangleMeanDistance } from '../../../queries/physics/mean-log.ts'

const even = (size: number, offset = 0) => ({ first: size, second: size, offset })

describe('meanLog', () => {
  it('self distance of a square and of a line', () => {
    // J. C. Maxwell, Treatise §692 (from memory): square 0.44705 a; line e^(−3/2) a = 0.22313 a.
    expect(rectangleMeanDistance({ width: 1, thickness: 1 })).toBeCloseTo(0.44705, 5)
    expect(rectangleMeanDistance({ width: 1, thickness: 1e-9 })).toBeCloseTo(Math.exp(-1.5), 7)
  })

  it('is within 0.2 % of Grover’s 0.2235 (a + b) for every shape', () => {
    // F. W. Grover, Inductance Calculations, 1946 (from memory). Worst found: 0.165 % (line).
    for (const aspect of [1, 0.5, 0.2, 0.1, 0.03, 0.01, 1e-3]) {
      const found = rectangleMeanDistance({ width: 1, thickness: aspect })
      expect(Math.abs(found / (0.2235 * (1 + aspect)) - 1)).toBeLessThan(2e-3)
    }
  })

  it('far apart it is the logarithm of the distance between middles', () => {
    // ln is harmonic: for two squares the leading correction is of fourth order.
    const far = meanLog({ x: even(1, 30), y: even(1, 40) })
    expect(Math.abs(far - Math.log(50))).toBeLessThan(1e-6)
  })

  it('all three ways agree where they meet, for slim rectangles too', () => {
    // The error wanted decides the way: closed form where it may be loose, graded integral where it may not.
    // Worst found: 2.8e-10, where the closed form was allowed 1e-8.
    for (const [w, t] of [
      [1, 1],
      [1, 0.01],
      [0.01, 1],
      [1, 1e-4],
    ] as const) {
      for (const [dx, dy] of [
        [0, 0],
        [0.3, 0.002],
        [1, 0],
        [1.5, 0.7],
        [4, 3],
        [12, 5],
      ] as const) {
        const pair = { x: { first: w, second: 0.5 * w, offset: dx }, y: { first: t, second: 2 * t, offset: dy } }
        expect(Math.abs(meanLog(pair, 1e-8) - meanLog(pair, 1e-15))).toBeLessThan(1e-9)
      }
    }
  })

  it('agrees with a plain mean over points', () => {
    // Midpoint rule of 40 × 40 points in each rectangle.
    const [a, b, c, d, dx, dy, n] = [0.8, 0.5, 0.3, 0.6, 0.2, 0.7, 40]
    let sum = 0
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        for (let k = 0; k < n; k++) {
          for (let l = 0; l < n; l++) {
            const x = dx + b * ((j + 0.5) / n - 0.5) - a * ((i + 0.5) / n - 0.5)
            const y = dy + d * ((l + 0.5) / n - 0.5) - c * ((k + 0.5) / n - 0.5)
            sum += Math.log(x * x + y * y) / 2
          }
        }
      }
    }
    const found = meanLog({ x: { first: a, second: b, offset: dx }, y: { first: c, second: d, offset: dy } })
    expect(Math.abs(found - sum / n ** 4)).toBeLessThan(5e-4)
  })
})
