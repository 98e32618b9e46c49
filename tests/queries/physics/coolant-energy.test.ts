import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  coolantHeat,
  coolantStages,
  heatCapacityRate,
  isothermalWall,
  mixedTemperature,
} from '../../../queries/physics/coolant-energy.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const heatsOf = (min: number) => fc.array(fc.double({ min, max: 3000, noNaN: true }), { minLength: 1, maxLength: 12 })

describe('coolant heat', () => {
  it('takes a difference, never a temperature', () => {
    // Arithmetic: 158 L/min of water cooled by 2 K gives up 22.17 kW; converting the difference as a temperature gives 3 MW.
    const heat = coolantHeat({
      flow: 158 / 60e3,
      density: 1000,
      specificHeat: 4210,
      inletTemperature: 333.15,
      outletTemperature: 331.15,
    })
    expect(heat).toBeCloseTo(-22173, 0)
  })

  it('rule of thumb: 1 L/min of water and 1 K is 70 W', () => {
    // Common practice.
    expect(heatCapacityRate({ flow: 1 / 60e3, density: 998, specificHeat: 4184 })).toBeCloseTo(69.6, 1)
  })
})

describe('coolantStages', () => {
  it('closes the energy balance from inlet to outlet', () => {
    fc.assert(
      fc.property(heatsOf(-500), fc.double({ min: 5, max: 2000, noNaN: true }), (heats, rate) => {
        const { stageInlets, stageOutlets, rise } = coolantStages({
          inletTemperature: 338.15,
          heatCapacityRate: rate,
          heats,
        })
        const total = heats.reduce((sum, heat) => sum + heat, 0)
        const scale = heats.reduce((sum, heat) => sum + Math.abs(heat), 1)
        return (
          Math.abs(rate * rise - total) < 1e-9 * scale &&
          stageInlets.every((t, i) => i === 0 || t === stageOutlets[i - 1])
        )
      }),
    )
  })

  it('never cools along a sequence in which every stage adds heat', () => {
    fc.assert(
      fc.property(heatsOf(0), (heats) => {
        const { stageInlets, stageOutlets } = coolantStages({ inletTemperature: 338.15, heatCapacityRate: 300, heats })
        return stageInlets.every((inlet, i) => stageOutlets[i]! >= inlet)
      }),
    )
  })

  it('refuses a stream that does not flow', () => {
    expect(() => coolantStages({ inletTemperature: 338, heatCapacityRate: 0, heats: [1] })).toThrow(DomainError)
  })
})

describe('mixedTemperature', () => {
  it('lies between the coldest and the warmest stream and equals one stage with all the heat', () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true })
    fc.assert(
      fc.property(
        share,
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        (part, a, b) => {
          const rates = [400 * part, 400 * (1 - part)]
          const outlets = [338 + a / rates[0]!, 338 + b / rates[1]!]
          const mixed = mixedTemperature({ temperatures: outlets, heatCapacityRates: rates })
          const inside = mixed >= Math.min(...outlets) - 1e-9 && mixed <= Math.max(...outlets) + 1e-9
          return inside && Math.abs(mixed - (338 + (a + b) / 400)) < 1e-9
        },
      ),
    )
  })
})

describe('isothermalWall', () => {
  it('refers one heat to three temperatures consistently', () => {
    // Exact laws: R_inlet ≥ R_mean ≥ R_log-mean, and R_mean/R_logmean − 1 → NTU²/12 for a short passage.
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 5, noNaN: true }), (ntu) => {
        const found = isothermalWall({
          heatCapacityRate: 100,
          wallConductance: 100 * ntu,
          inletTemperature: 300,
          wallTemperature: 350,
        })
        return found.inletResistance > found.meanResistance && found.meanResistance >= found.logMeanResistance
      }),
    )
    const short = isothermalWall({
      heatCapacityRate: 100,
      wallConductance: 5,
      inletTemperature: 300,
      wallTemperature: 350,
    })
    expect(short.meanResistance / short.logMeanResistance - 1).toBeCloseTo(0.05 ** 2 / 12, 6)
  })

  it('is what many short stages add up to', () => {
    // Second method: march 20,000 stages of constant coolant temperature. First order in the step: 1e-5.
    let coolant = 338.15
    const steps = 20_000
    for (let i = 0; i < steps; i++) coolant += ((95 / steps) * (368.15 - coolant)) / 420
    const found = isothermalWall({
      heatCapacityRate: 420,
      wallConductance: 95,
      inletTemperature: 338.15,
      wallTemperature: 368.15,
    })
    expect(Math.abs((coolant - 338.15) / (found.outletTemperature - 338.15) - 1)).toBeLessThan(2e-5)
  })
})
