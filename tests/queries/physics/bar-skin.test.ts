import { describe, expect, it } from 'vitest'
import { barSelfInductance } from '../../../queries/physics/bar-inductance.ts'
import { barSkinEffect, barSkinOfLength, pairSkinEffect, pairSkinOfLength } from '../../../queries/physics/bar-skin.ts'
import { barsImpedance } from '../../../queries/physics/filaments.ts'
import { coplanarPairInductance, laminatedPairInductance } from '../../../queries/physics/laminated.ts'
import { surfaceCoplanarInductance, surfacePairInductance } from '../../../queries/physics/perfect-conductor.ts'
import { skinDepth, widePairImpedance } from '../../../queries/physics/skin-effect.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)
const conductivity = 58e6
const laminated = { arrangement: 'laminated', width: 0.02, thickness: 1e-3, gap: 5e-4, conductivity } as const
const coplanar = { arrangement: 'coplanar', width: 0.02, thickness: 2e-3, gap: 3e-3, conductivity } as const

describe('pairSkinEffect', () => {
  // Two-dimensional finite elements (outside calculation, quadratic elements, adapted mesh; mesh-to-mesh changes below
  // 1e-5). Worst found: R 2.3e-4 (100 kHz), L 4.8e-5 (1 MHz).
  it.each([
    { frequency: 1e3, r: 1.73084e-3, l: 64.4494e-9 },
    { frequency: 1e4, r: 2.24224e-3, l: 60.7027e-9 },
    { frequency: 1e5, r: 7.39354e-3, l: 41.342e-9 },
    { frequency: 1e6, r: 23.6338e-3, l: 33.1807e-9 },
  ])('20 × 1 mm, gap 0.5 mm at $frequency Hz', ({ frequency, r, l }) => {
    const found = pairSkinEffect({ ...laminated, frequency })
    expect(relative(found.resistancePerLength, r)).toBeLessThan(5e-4)
    expect(relative(found.inductancePerLength, l)).toBeLessThan(2e-4)
  })

  it('tends to direct current', () => {
    for (const [pair, direct] of [
      [laminated, laminatedPairInductance({ ...laminated, length: 1 }).loopPerLength],
      [coplanar, coplanarPairInductance({ ...coplanar, length: 1 }).loopPerLength],
    ] as const) {
      const found = pairSkinEffect({ ...pair, frequency: 0.1 })
      expect(relative(found.inductancePerLength, direct)).toBeLessThan(1e-6)
      expect(relative(found.resistancePerLength, 2 / (conductivity * pair.width * pair.thickness))).toBeLessThan(1e-6)
      expect(pairSkinEffect({ ...pair, frequency: 0 }).inductancePerLength).toBe(direct)
    }
  })

  it('tends to the surface value, and comes near it as the skin depth falls', () => {
    // What is left goes with the skin depth: one depth more of gap on each side, a little more round the corners.
    for (const [pair, surface] of [
      [laminated, surfacePairInductance(laminated)],
      [coplanar, surfaceCoplanarInductance(coplanar)],
    ] as const) {
      const excess = (frequency: number): number => pairSkinEffect({ ...pair, frequency }).inductancePerLength - surface
      const ratio = excess(2.5e5) / excess(1e6)
      expect(ratio).toBeGreaterThan(1.9)
      expect(ratio).toBeLessThan(2.1)
    }
  })

  it('resistance rises and inductance falls with frequency, each monotonically', () => {
    const sweep = [0, 1e2, 1e3, 3e3, 1e4, 3e4, 1e5, 3e5, 1e6].map((frequency) =>
      pairSkinEffect({ ...laminated, frequency }),
    )
    for (const [i, now] of sweep.entries()) {
      const before = sweep[i - 1]
      if (!before) continue
      expect(now.resistancePerLength).toBeGreaterThan(before.resistancePerLength)
      expect(now.inductancePerLength).toBeLessThan(before.inductancePerLength)
    }
  })

  it('stays near the wide-plate solution for wide plates', () => {
    // 60 × 1 mm, gap 0.5 mm: finite elements give about 4 % less R and 3 % less L at 100 kHz and above (outside note).
    const pair = { ...laminated, width: 0.06, frequency: 1e5 }
    const [found, wide] = [pairSkinEffect(pair), widePairImpedance(pair)]
    expect(found.resistancePerLength / wide.resistancePerLength).toBeGreaterThan(0.95)
    expect(found.resistancePerLength / wide.resistancePerLength).toBeLessThan(0.98)
    expect(found.inductancePerLength / wide.inductancePerLength).toBeGreaterThan(0.96)
    expect(found.inductancePerLength / wide.inductancePerLength).toBeLessThan(0.98)
  })

  it('says how far its mesh got', () => {
    for (const frequency of [1e3, 1e5, 3e6]) {
      const found = pairSkinEffect({ ...laminated, frequency })
      expect(found.resistanceError).toBeLessThan(5e-3)
      expect(found.inductanceError).toBeLessThan(5e-3)
    }
  })
})

describe('barSkinEffect', () => {
  // 10 × 1 mm alone, two-dimensional finite elements and an outside volume-integral solver (L drop of the latter).
  it.each([
    { frequency: 1e3, ratio: 1.01665, drop: 1.0557e-9 },
    { frequency: 1e4, ratio: 1.3758, drop: 16.812e-9 },
    { frequency: 1e5, ratio: 3.36127, drop: 29.112e-9 },
    { frequency: 1e6, ratio: 10.4938, drop: 35.272e-9 },
  ])('10 × 1 mm at $frequency Hz', ({ frequency, ratio, drop }) => {
    const found = barSkinEffect({ width: 0.01, thickness: 1e-3, conductivity, frequency })
    expect(relative(found.resistanceRatio, ratio)).toBeLessThan(2e-4)
    expect(relative(found.inductanceDropPerLength, drop)).toBeLessThan(2e-3)
  })

  it('scales: half the size at four times the frequency is the same (law of diffusion)', () => {
    const a = barSkinEffect({ width: 0.01, thickness: 1e-3, conductivity, frequency: 1e5 })
    const b = barSkinEffect({ width: 0.005, thickness: 0.5e-3, conductivity, frequency: 4e5 })
    expect(relative(a.resistanceRatio, b.resistanceRatio)).toBeLessThan(1e-7)
    expect(relative(a.inductanceDropPerLength, b.inductanceDropPerLength)).toBeLessThan(1e-6)
  })
})

describe('bars of a length', () => {
  it('tend to the exact partial inductances at low frequency', () => {
    // Worst found: 4.7e-6 (laminated): what is left is the end correction of cells that lie near each other.
    const pair = pairSkinOfLength({ ...laminated, frequency: 1, length: 0.1 })
    expect(relative(pair.inductance, laminatedPairInductance({ ...laminated, length: 0.1 }).loop)).toBeLessThan(2e-5)
    const beside = pairSkinOfLength({ ...coplanar, frequency: 1, length: 0.1 })
    expect(relative(beside.inductance, coplanarPairInductance({ ...coplanar, length: 0.1 }).loop)).toBeLessThan(2e-5)
    const bar = { width: 0.01, thickness: 1e-3, length: 0.1 }
    const alone = barSkinOfLength({ ...bar, conductivity, frequency: 1 })
    expect(relative(alone.inductance, barSelfInductance(bar))).toBeLessThan(2e-6)
  })

  it('of great length come to the values per length', () => {
    const length = 10
    const found = pairSkinOfLength({ ...laminated, frequency: 1e5, length })
    const perLength = pairSkinEffect({ ...laminated, frequency: 1e5 })
    expect(relative(found.resistance / length, perLength.resistancePerLength)).toBeLessThan(1e-3)
    expect(relative(found.inductance / length, perLength.inductancePerLength)).toBeLessThan(2e-3)
  })
})

describe('barsImpedance', () => {
  it('of two bars without mirrors agrees with the mirrored pair, and is symmetric', () => {
    const bars = [
      { x: 0, y: 0, width: 0.02, thickness: 1e-3 },
      { x: 0, y: 1.5e-3, width: 0.02, thickness: 1e-3 },
    ]
    const { resistance, inductance } = barsImpedance({ bars, conductivity, frequency: 1e4 })
    const pair = pairSkinEffect({ ...laminated, frequency: 1e4 })
    const loop = (m: Float64Array): number => m[0]! + m[3]! - m[1]! - m[2]!
    expect(relative(loop(resistance), pair.resistancePerLength)).toBeLessThan(1e-8)
    expect(relative(loop(inductance), pair.inductancePerLength)).toBeLessThan(1e-8)
    expect(relative(inductance[1]!, inductance[2]!)).toBeLessThan(1e-9)
  })

  it('puts current on the facing sides: resistance of a fast pair is that of one skin depth there, and more', () => {
    const frequency = 5e5
    const depth = skinDepth({ conductivity, frequency })
    const found = pairSkinEffect({ ...laminated, frequency })
    const facing = 2 / (conductivity * laminated.width * depth)
    expect(found.resistancePerLength / facing).toBeGreaterThan(0.85)
    expect(found.resistancePerLength / facing).toBeLessThan(1)
  })

  it('refuses what cannot be', () => {
    expect(() => barsImpedance({ bars: [], conductivity, frequency: 1 })).toThrow(/one or more/)
    expect(() => pairSkinEffect({ ...laminated, frequency: -1 })).toThrow(/≥ 0/)
    expect(() => barSkinOfLength({ width: 0.01, thickness: 1e-3, conductivity, frequency: 1, length: 0 })).toThrow(
      /> 0/,
    )
  })
})
