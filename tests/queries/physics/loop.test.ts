import { describe, expect, it } from 'vitest'
import { barRectangle, wireCircle, wireRectangle } from '../../../queries/physics/loop.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

describe('wireRectangle', () => {
  it('lies within 0.3 % of Grover’s closed form, nearer for thinner wire', () => {
    // F. W. Grover, Inductance Calculations, 1946, rectangle of round wire (from memory). He leaves out terms of order
    // radius/side; a mitred bundle by quasi-Monte-Carlo (outside calculation) gives 243.68 nH for 100 × 60 × 1 mm.
    const grover = (a: number, b: number, r: number): number => {
      const d = Math.hypot(a, b)
      const logs = a * Math.log((2 * a) / r) + b * Math.log((2 * b) / r)
      return 4e-7 * (logs + 2 * d - a * Math.asinh(a / b) - b * Math.asinh(b / a) - 1.75 * (a + b))
    }
    let before = 1
    for (const radius of [1e-3, 3e-4, 1e-4, 1e-5]) {
      const off = relative(wireRectangle({ sideA: 0.1, sideB: 0.06, radius }).mitred, grover(0.1, 0.06, radius))
      expect(off).toBeLessThan(3e-3)
      expect(off).toBeLessThan(before)
      before = off
    }
    expect(before).toBeLessThan(3e-5)
    expect(relative(wireRectangle({ sideA: 0.1, sideB: 0.06, radius: 1e-3 }).mitred, 243.68e-9)).toBeLessThan(1e-4)
  })

  it('two ways differ by order radius over side', () => {
    const { mitred, partialSum } = wireRectangle({ sideA: 0.1, sideB: 0.06, radius: 1e-3 })
    expect(relative(mitred, partialSum)).toBeLessThan(1e-3)
  })
})

describe('barRectangle', () => {
  it('agrees with a drawn mean over mitred filaments', () => {
    // Quasi-Monte-Carlo mean over a bundle of mitred filaments (outside calculation): 165.635 nH. Found 165.6347.
    // Partial sum 166.594699 nH from the closed form with 60 digits.
    const found = barRectangle({ sideA: 0.1, sideB: 0.06, widthInPlane: 0.01, widthAcross: 0.002 })
    expect(relative(found.mitred, 165.635e-9)).toBeLessThan(1e-5)
    expect(relative(found.partialSum, 166.594699e-9)).toBeLessThan(1e-8)
  })

  it('does not care which side is which, and doubles when all sizes do', () => {
    const size = { sideA: 0.1, sideB: 0.06, widthInPlane: 0.01, widthAcross: 0.002 }
    const turned = barRectangle({ ...size, sideA: 0.06, sideB: 0.1 })
    expect(relative(turned.mitred, barRectangle(size).mitred)).toBeLessThan(1e-12)
    const twice = barRectangle({ sideA: 0.2, sideB: 0.12, widthInPlane: 0.02, widthAcross: 0.004 })
    expect(relative(twice.mitred, 2 * barRectangle(size).mitred)).toBeLessThan(1e-12)
  })

  it('refuses sides that would overlap', () => {
    expect(() => barRectangle({ sideA: 0.1, sideB: 0.01, widthInPlane: 0.01, widthAcross: 0.002 })).toThrow(
      /bar is wide/,
    )
  })
})

describe('wireCircle', () => {
  it('agrees with the mutual inductance of two coaxial circles at the mean distance', () => {
    // J. C. Maxwell: M = µ₀√(Rr)((2/k − k)K − 2E/k) for circles one mean distance a·e^(−1/4) apart stands for the disc.
    const [R, a] = [0.05, 1e-4]
    const apart = a * Math.exp(-0.25)
    const k = Math.sqrt((4 * R * R) / (4 * R * R + apart * apart))
    const { K, E } = elliptic(k)
    const maxwell = 4e-7 * Math.PI * R * ((2 / k - k) * K - (2 * E) / k)
    expect(relative(wireCircle({ loopRadius: R, radius: a }).lowFrequency, maxwell)).toBeLessThan(1e-5)
  })
})

/** Complete elliptic integrals by the arithmetic-geometric mean. */
function elliptic(k: number): { K: number; E: number } {
  let [a, b, c, sum, power] = [1, Math.sqrt(1 - k * k), k, 0, 0.5]
  for (let i = 0; i < 40; i++) {
    sum += power * c * c
    ;[a, b, c] = [(a + b) / 2, Math.sqrt(a * b), (a - b) / 2]
    power *= 2
  }
  const K = Math.PI / (2 * a)
  return { K, E: K * (1 - sum) }
}
