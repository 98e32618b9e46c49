import { describe, expect, it } from 'vitest'
import { barResistance, skinDepth, widePairImpedance } from '../../../queries/physics/skin-effect.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

describe('skinDepth', () => {
  it('copper at 50 Hz is 9.35 mm and goes with 1/√f', () => {
    // Handbook value for annealed copper, 58 MS/m (from memory): 9.35 mm.
    expect(skinDepth({ conductivity: 58e6, frequency: 50 }) * 1e3).toBeCloseTo(9.346, 3)
    const ratio = skinDepth({ conductivity: 58e6, frequency: 1e6 }) / skinDepth({ conductivity: 58e6, frequency: 1e4 })
    expect(ratio).toBeCloseTo(0.1, 14)
    expect(() => skinDepth({ conductivity: 58e6, frequency: 0 })).toThrow(/> 0/)
  })
})

describe('barResistance', () => {
  it('copper bar at 105 °C', () => {
    // IEC 60028 (from memory): 17.241 nΩm and 0.00393 1/K at 20 °C: 43.1025 µΩ × 1.33405.
    const bar = { width: 0.02, thickness: 0.002, length: 0.1, resistivity: 1.7241e-8, temperatureCoefficient: 0.00393 }
    expect(relative(barResistance({ ...bar, temperature: 378.15 }), 57.50089e-6)).toBeLessThan(1e-6)
    expect(relative(barResistance(bar), 43.1025e-6)).toBeLessThan(1e-12)
    expect(() => barResistance({ ...bar, temperature: 20 })).toThrow(/some resistance/)
    expect(() => barResistance({ ...bar, temperatureCoefficient: 0, temperature: -5 })).toThrow(/> 0/)
  })
})

describe('widePairImpedance', () => {
  const pair = { width: 0.06, thickness: 1e-3, gap: 5e-4, conductivity: 58e6 }

  it('agrees with a layered solution', () => {
    // Second method: plate cut into 4000 layers, surface impedance carried from the back face (no field) to the front:
    // Z ← (Z + jωµh)/(1 + σh(Z + jωµh)), first order in the layer. Worst found: 4e-6 of resistance,
    // 4.4e-4 of inductance (first order in the layer).
    for (const frequency of [1e3, 1e4, 1e5, 1e6]) {
      const found = widePairImpedance({ ...pair, frequency })
      const { re, im } = layered(pair.thickness, pair.conductivity, frequency)
      expect(relative(found.resistancePerLength, (2 * re) / pair.width)).toBeLessThan(6e-4)
      const inductance = (4e-7 * Math.PI * pair.gap) / pair.width + (2 * im) / pair.width / (2 * Math.PI * frequency)
      expect(relative(found.inductancePerLength, inductance)).toBeLessThan(6e-4)
    }
  })

  it('tends to direct current, and to skin depth on the facing faces', () => {
    const direct = widePairImpedance({ ...pair, frequency: 0 })
    expect(
      relative(widePairImpedance({ ...pair, frequency: 1e-3 }).inductancePerLength, direct.inductancePerLength),
    ).toBeLessThan(1e-12)
    expect(relative(direct.resistancePerLength, 2 / (58e6 * 0.06 * 1e-3))).toBeLessThan(1e-14)
    const fast = widePairImpedance({ ...pair, frequency: 1e8 })
    const depth = skinDepth({ conductivity: 58e6, frequency: 1e8 })
    expect(relative(fast.resistancePerLength, 2 / (58e6 * 0.06 * depth))).toBeLessThan(1e-9)
    expect(relative(fast.inductancePerLength, (4e-7 * Math.PI * (pair.gap + depth)) / pair.width)).toBeLessThan(1e-9)
  })

  it('is continuous where the power series hands over', () => {
    // depths = 0.02 at this frequency: both forms within 1e-7 there (next terms of the series are of eighth order).
    const edge = 0.02 ** 2 / (Math.PI * 4e-7 * Math.PI * 58e6 * 1e-6)
    const below = widePairImpedance({ ...pair, frequency: edge * (1 - 1e-9) })
    const above = widePairImpedance({ ...pair, frequency: edge * (1 + 1e-9) })
    expect(relative(below.inductancePerLength, above.inductancePerLength)).toBeLessThan(1e-8)
    expect(relative(below.resistancePerLength, above.resistancePerLength)).toBeLessThan(1e-9)
  })
})

function layered(thickness: number, conductivity: number, frequency: number): { re: number; im: number } {
  const layers = 4000
  const h = thickness / layers
  const x = 2 * Math.PI * frequency * 4e-7 * Math.PI * h
  let [re, im] = [1 / (conductivity * h), 0]
  for (let k = 1; k < layers; k++) {
    const [a, b] = [re, im + x]
    const [c, d] = [1 + conductivity * h * a, conductivity * h * b]
    const size = c * c + d * d
    ;[re, im] = [(a * c + b * d) / size, (b * c - a * d) / size]
  }
  return { re, im }
}
