import { describe, expect, it } from 'vitest'
import { twoWireInductance, wireInductance } from '../../../queries/physics/round-wire.ts'
import { wireResistanceRatio, wireSkinEffect } from '../../../queries/physics/wire-skin.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

describe('wireInductance', () => {
  it('tends to Rosa’s formula for long wires', () => {
    // E. B. Rosa, Bull. Bur. Standards 4 (1908) 301-344 (from memory): (µ₀l/2π)(ln(2l/a) − 3/4), high frequency − 1.
    for (const ratio of [100, 1000, 1e4]) {
      const { lowFrequency, highFrequency } = wireInductance({ length: 1, radius: 1 / ratio })
      expect(relative(lowFrequency, 2e-7 * (Math.log(2 * ratio) - 0.75))).toBeLessThan(0.3 / ratio)
      expect(relative(highFrequency, 2e-7 * (Math.log(2 * ratio) - 1))).toBeLessThan(0.35 / ratio)
    }
  })

  it('gives the mean over a disc with the next term of the series, 128 a/45π', () => {
    // Mean distance of two points in a disc: 128 a/(45 π) (textbook). L = (µ₀l/2π)(ln(2l/a) − 3/4 + 128a/(45πl) − …).
    const [length, radius] = [0.1, 1e-3]
    const series = 2e-7 * length * (Math.log((2 * length) / radius) - 0.75 + (128 * radius) / (45 * Math.PI * length))
    expect(relative(wireInductance({ length, radius }).lowFrequency, series)).toBeLessThan(1e-5)
  })
})

describe('twoWireInductance', () => {
  it('approaches (µ₀/π) ln(D/a) for fast current far apart, and is less when close', () => {
    const far = twoWireInductance({ radius: 1e-3, centreDistance: 1 })
    expect(relative(far.highFrequencyPerLength, 4e-7 * Math.log(1000))).toBeLessThan(1e-6)
    expect(relative(far.lowFrequencyPerLength - far.highFrequencyPerLength, 1e-7)).toBeLessThan(1e-5)
    const near = twoWireInductance({ radius: 1e-3, centreDistance: 2.2e-3 })
    expect(near.highFrequencyPerLength).toBeLessThan(4e-7 * Math.log(2.2))
    expect(() => twoWireInductance({ radius: 1e-3, centreDistance: 2e-3 })).toThrow(/twice the radius/)
  })
})

describe('wireSkinEffect', () => {
  // E. B. Rosa, F. W. Grover, Bull. Bur. Standards 8 (1912), table of R/R₀ by x (from memory).
  it.each([
    [0, 1],
    [1, 1.00519],
    [2, 1.07816],
    [3, 1.31809],
    [4, 1.67787],
    [5, 2.04272],
  ])('x = %d: R/R₀ = %d', (x, ratio) => {
    expect(relative(wireResistanceRatio(x), ratio)).toBeLessThan(1e-5)
  })

  it('agrees with the power series of the Bessel functions up to x = 8', () => {
    // Second method: Z/R₀ = (q/2) J₀(q)/J₁(q) with q² = −jx², ascending series summed term by term. Worst found: 1e-15.
    for (let x = 0.1; x <= 8; x += 0.1) expect(relative(wireResistanceRatio(x), byPowerSeries(x))).toBeLessThan(1e-14)
  })

  it('is continuous where the continued fraction hands over to the asymptotic series', () => {
    const slope = wireResistanceRatio(59.999) - wireResistanceRatio(59.997)
    expect(relative(wireResistanceRatio(60.001) - wireResistanceRatio(59.999), slope)).toBeLessThan(1e-6)
  })

  it('tends to R = x/(2√2) + 1/4 and L_internal ω = R at high frequency (textbook)', () => {
    for (const x of [100, 1000, 1e4]) {
      expect(relative(wireResistanceRatio(x), x / (2 * Math.SQRT2) + 0.25)).toBeLessThan(0.3 / x)
    }
    const found = wireSkinEffect({ radius: 1e-3, conductivity: 58e6, frequency: 1e8 })
    const reactance = 2 * Math.PI * 1e8 * found.internalInductancePerLength
    expect(relative(reactance, found.resistancePerLength)).toBeLessThan(0.01)
  })

  it('has 50 nH/m inside at direct current', () => {
    const found = wireSkinEffect({ radius: 2e-3, conductivity: 58e6, frequency: 0 })
    expect(found.internalInductancePerLength).toBeCloseTo(50e-9, 15)
    expect(found.resistanceRatio).toBe(1)
  })
})

/** Σ (jx²/4)^k/(k!)² over Σ (jx²/4)^k/(k!(k+1)!), real part. */
function byPowerSeries(x: number): number {
  const top = { re: 0, im: 0 }
  const bottom = { re: 0, im: 0 }
  let size = 1
  for (let k = 0; k < 60; k++) {
    const [re, im] = [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ][k % 4]!
    top.re += re! * size
    top.im += im! * size
    bottom.re += (re! * size) / (k + 1)
    bottom.im += (im! * size) / (k + 1)
    size *= (x * x) / 4 / (k + 1) ** 2
  }
  return (top.re * bottom.re + top.im * bottom.im) / (bottom.re ** 2 + bottom.im ** 2)
}
