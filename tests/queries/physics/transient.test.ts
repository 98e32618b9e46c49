import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import {
  adiabaticHoldTime,
  ladderToFoster,
  pulseRise,
  repeatedPulseRise,
  transientImpedance,
} from '../../../queries/physics/transient.ts'

const foster = { thermalResistances: [0.006, 0.024, 0.038, 0.012], timeConstants: [0.0008, 0.009, 0.07, 0.65] }
const cell = fc.record({
  c: fc.double({ min: 0.01, max: 50, noNaN: true }),
  r: fc.double({ min: 0.005, max: 1, noNaN: true }),
})
const ladders = fc.array(cell, { minLength: 1, maxLength: 8 })

describe('transientImpedance', () => {
  it('starts with no resistance, ends with all of it and never falls', () => {
    expect(transientImpedance({ ...foster, time: 0 })).toBe(0)
    expect(transientImpedance({ ...foster, time: 1e3 })).toBeCloseTo(0.08, 14)
    let before = -1
    for (let time = 1e-7; time < 100; time *= 1.5) {
      const here = transientImpedance({ ...foster, time })
      expect(here).toBeGreaterThanOrEqual(before)
      before = here
    }
  })

  it('keeps its digits at short times', () => {
    // Series: Z → t Σ R/τ.
    const slope = foster.thermalResistances.reduce((sum, r, i) => sum + r / foster.timeConstants[i]!, 0)
    expect(transientImpedance({ ...foster, time: 1e-15 }) / (1e-15 * slope) - 1).toBeCloseTo(0, 9)
  })
})

describe('pulses', () => {
  it('is the difference of two steps after a pulse', () => {
    // Second method: superposition, Z(t) − Z(t − t_p).
    const { rises, endRise } = pulseRise({ ...foster, loss: 450, pulseDuration: 0.05, times: [0.02, 0.05, 0.08, 0.4] })
    const z = (time: number) => transientImpedance({ ...foster, time })
    expect(rises[0]).toBeCloseTo(450 * z(0.02), 12)
    expect(rises[1]).toBe(endRise)
    expect(rises[2]).toBeCloseTo(450 * (z(0.08) - z(0.03)), 12)
    expect(rises[3]).toBeCloseTo(450 * (z(0.4) - z(0.35)), 12)
  })

  it('settles under repetition where summed pulses settle', () => {
    // Second method: 2,000 superposed pulses.
    const found = repeatedPulseRise({ ...foster, loss: 900, pulseDuration: 0.01, period: 0.04 })
    let [peak, valley] = [0, 0]
    for (let k = 0; k < 2000; k++) {
      const riseAfter = (start: number) =>
        pulseRise({ ...foster, loss: 900, pulseDuration: 0.01, times: [start] }).rises[0]!
      peak += riseAfter(0.01 + 0.04 * k)
      valley += riseAfter(0.04 + 0.04 * k)
    }
    expect(found.peakRise).toBeCloseTo(peak, 9)
    expect(found.valleyRise).toBeCloseTo(valley, 9)
  })

  it('becomes the mean for a period far below every time constant, and the step for a full one', () => {
    const fast = repeatedPulseRise({ ...foster, loss: 900, pulseDuration: 2e-12, period: 1e-11 })
    expect(fast.peakRise / fast.meanRise - 1).toBeCloseTo(0, 6)
    expect(fast.meanRise).toBeCloseTo(900 * 0.08 * 0.2, 10)
    expect(repeatedPulseRise({ ...foster, loss: 900, pulseDuration: 0.04, period: 0.04 }).valleyRise).toBeCloseTo(
      72,
      12,
    )
  })

  it('lies between valley and peak with its mean', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: -6, max: 2, noNaN: true }),
        (duty, decade) => {
          const period = 10 ** decade
          const found = repeatedPulseRise({ ...foster, loss: 100, pulseDuration: duty * period, period })
          return (
            found.peakRise >= found.meanRise * (1 - 1e-12) &&
            found.valleyRise <= found.meanRise * (1 + 1e-12) &&
            found.peakRise <= 8 + 1e-12
          )
        },
      ),
    )
  })

  it('refuses a pulse longer than its period and a time constant of zero', () => {
    expect(() => repeatedPulseRise({ ...foster, loss: 1, pulseDuration: 2, period: 1 })).toThrow(DomainError)
    expect(() => transientImpedance({ thermalResistances: [1], timeConstants: [0], time: 1 })).toThrow(DomainError)
  })
})

describe('ladderToFoster', () => {
  it('is the one cell it was', () => {
    expect(ladderToFoster({ heatCapacities: [2], ladderResistances: [0.5] })).toEqual({
      thermalResistances: [0.5],
      timeConstants: [1],
    })
  })

  it('keeps three exact sums: resistance, initial slope, and first moment', () => {
    // Laws: Σ R = Σ r; Σ R/τ = 1/C₁; Σ R τ = Σ C_i (resistance from node i to coolant)².
    fc.assert(
      fc.property(ladders, (cells) => {
        const [capacities, resistances] = [cells.map(({ c }) => c), cells.map(({ r }) => r)]
        const found = ladderToFoster({ heatCapacities: capacities, ladderResistances: resistances })
        const sum = (weight: (tau: number) => number) =>
          found.thermalResistances.reduce((s, r, i) => s + r * weight(found.timeConstants[i]!), 0)
        const beyond = resistances.map((_, i) => resistances.slice(i).reduce((a, b) => a + b, 0))
        const moment = capacities.reduce((s, c, i) => s + c * beyond[i]! ** 2, 0)
        return (
          Math.abs(sum(() => 1) / beyond[0]! - 1) < 1e-9 &&
          Math.abs(sum((tau) => 1 / tau) * capacities[0]! - 1) < 1e-9 &&
          Math.abs(sum((tau) => tau) / moment - 1) < 1e-9 &&
          found.timeConstants.every((tau) => tau > 0)
        )
      }),
    )
  })

  it('follows the ladder stepped in time', () => {
    // Second method: implicit midpoint steps of C dT/dt; worst found 3e-7 of the final rise.
    const [c, r] = [
      [0.35, 2, 6],
      [0.06, 0.05, 0.09],
    ]
    const found = ladderToFoster({ heatCapacities: c, ladderResistances: r })
    const g = r.map((one) => 1 / one)
    let t = [0, 0, 0]
    const dt = 2e-4
    for (let step = 1; step <= 5000; step++) {
      let mid = t
      for (let k = 0; k < 30; k++) {
        const flow = [g[0]! * (mid[0]! - mid[1]!), g[1]! * (mid[1]! - mid[2]!), g[2]! * mid[2]!]
        const rate = [(1 - flow[0]!) / c[0]!, (flow[0]! - flow[1]!) / c[1]!, (flow[1]! - flow[2]!) / c[2]!]
        mid = t.map((value, i) => value + (dt / 2) * rate[i]!)
      }
      t = t.map((value, i) => 2 * mid[i]! - value)
      if (step % 1000 === 0) expect(t[0]).toBeCloseTo(transientImpedance({ ...found, time: step * dt }), 6)
    }
  })
})

it('holds half a kilogram of copper for the time its heat capacity says', () => {
  // 0.5 kg × 385 J/(kg.K) × 40 K / 900 W.
  expect(adiabaticHoldTime({ masses: [0.5], specificHeats: [385], allowedRise: 40, loss: 900 }).holdTime).toBeCloseTo(
    8.5556,
    4,
  )
  expect(() => adiabaticHoldTime({ masses: [0.5], specificHeats: [385], allowedRise: 40, loss: 0 })).toThrow(
    DomainError,
  )
})
