import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { barSelfInductance } from '../../../queries/physics/bar-inductance.ts'
import { parallelMutual } from '../../../queries/physics/bar-mutual-parallel.ts'
import {
  coplanarPairInductance,
  laminatedPairInductance,
  widePlateInductance,
} from '../../../queries/physics/laminated.ts'
import { meanLog } from '../../../queries/physics/mean-log.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)
const even = (size: number, offset = 0) => ({ first: size, second: size, offset })

describe('laminatedPairInductance', () => {
  it('gives 2 (L − M) of the closed form with 80 digits', () => {
    // C. Hoer, C. Love, J. Res. NBS 69C (1965) 127-137 (from memory), evaluated with 80 digits: 100 × 0.02 mm foils of
    // 300 mm with 30 µm between them: 2 (143.8834096831079 − 143.8019017480057) nH, of which 1 part in 1800 is left.
    const found = laminatedPairInductance({ width: 0.1, thickness: 0.02e-3, gap: 0.03e-3, length: 0.3 })
    expect(relative(found.loop, 2 * (143.8834096831079e-9 - 143.8019017480057e-9))).toBeLessThan(1e-11)
    expect(relative(found.mutual, 143.8019017480057e-9)).toBeLessThan(1e-11)
  })

  it('agrees with partial inductances everywhere', () => {
    // Worst found in 200 draws: 6.6e-11, the rounding of the difference of partial inductances.
    const mm = (min: number, max: number) => fc.double({ min: min * 1e-3, max: max * 1e-3, noNaN: true })
    fc.assert(
      fc.property(mm(5, 100), mm(0.1, 5), mm(0.05, 20), mm(10, 500), (width, thickness, gap, length) => {
        const self = barSelfInductance({ width, thickness, length })
        const apart = { x: even(width), y: even(thickness, thickness + gap), z: even(length) }
        const beside = { x: even(width, width + gap), y: even(thickness), z: even(length) }
        const inputs = { width, thickness, gap, length }
        expect(relative(laminatedPairInductance(inputs).loop, 2 * (self - parallelMutual(apart)))).toBeLessThan(1e-9)
        expect(relative(coplanarPairInductance(inputs).loop, 2 * (self - parallelMutual(beside)))).toBeLessThan(1e-9)
      }),
      { numRuns: 40 },
    )
  })

  it('per length it is the difference of mean logarithms', () => {
    for (const [w, t, g] of [
      [0.02, 0.001, 0.0005],
      [0.06, 0.001, 0.0005],
      [0.01, 0.002, 0.003],
      [0.002, 0.02, 0.001],
    ] as const) {
      const within = meanLog({ x: even(w), y: even(t) })
      const between = meanLog({ x: even(w), y: even(t, t + g) })
      const found = laminatedPairInductance({ width: w, thickness: t, gap: g, length: 1 }).loopPerLength
      expect(relative(found, 4e-7 * (between - within))).toBeLessThan(1e-10)
    }
  })

  it('falls strictly with the gap, at every width (trade fact)', () => {
    for (const width of [0.005, 0.02, 0.06, 0.2]) {
      for (const thickness of [0.1e-3, 1e-3, 3e-3]) {
        const loops = [0, 1e-6, 1e-5, 5e-5, 1e-4, 5e-4, 2e-3, 1e-2].map(
          (gap) => laminatedPairInductance({ width, thickness, gap, length: 0.2 }).loop,
        )
        for (const [i, loop] of loops.entries()) expect(loop).toBeGreaterThan(loops[i - 1] ?? 0)
      }
    }
  })

  it('tends to the wide-plate value µ₀ (g + 2t/3) l/w from below', () => {
    const ratio = (width: number): number => {
      const inputs = { width, thickness: 1e-3, gap: 5e-4, length: 1 }
      return laminatedPairInductance(inputs).loopPerLength / widePlateInductance(inputs).lowFrequency
    }
    expect(ratio(0.02)).toBeLessThan(ratio(0.06))
    expect(ratio(0.06)).toBeLessThan(1)
    expect(ratio(0.06)).toBeGreaterThan(0.94)
    expect(ratio(2)).toBeGreaterThan(0.997)
  })

  it('a pair apart has far more than one that is laminated (trade fact)', () => {
    const inputs = { width: 0.02, thickness: 0.002, length: 0.1 }
    const laminated = laminatedPairInductance({ ...inputs, gap: 0.3e-3 }).loop
    expect(coplanarPairInductance({ ...inputs, gap: 3e-3 }).loop).toBeGreaterThan(5 * laminated)
  })

  it('refuses what cannot be', () => {
    const inputs = { width: 0.02, thickness: 0.002, length: 0.1, gap: 1e-3 }
    expect(() => laminatedPairInductance({ ...inputs, gap: -1e-3 })).toThrow(/≥ 0/)
    expect(() => coplanarPairInductance({ ...inputs, width: 0 })).toThrow(/> 0/)
    expect(() => widePlateInductance({ ...inputs, length: Number.NaN })).toThrow(/> 0/)
  })
})

describe('widePlateInductance', () => {
  it('is µ₀ g l/w for fast current', () => {
    // Parallel-plate field (textbook): 4π·10⁻⁷ · 0.5 mm · 200 mm/60 mm = 2.0943951 nH.
    const found = widePlateInductance({ width: 0.06, thickness: 0, gap: 0.5e-3, length: 0.2 })
    expect(relative(found.highFrequency, 2.0943951e-9)).toBeLessThan(1e-7)
    expect(found.lowFrequency).toBe(found.highFrequency)
  })
})
