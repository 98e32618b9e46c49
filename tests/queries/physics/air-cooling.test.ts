import { describe, expect, it } from 'vitest'
import { blownPlate, stillAir, stillAirNusselt } from '../../../queries/physics/air-cooling.ts'
import { fanOnFinField, fanOperatingPoint, fanPressure } from '../../../queries/physics/fan.ts'
import { DomainError } from '../../../queries/physics/method.ts'

describe('stillAir', () => {
  it('gives the textbook glass screen', () => {
    // F. P. Incropera, D. P. DeWitt, worked example of a glass fire screen (from memory): 0.71 m high, 232 °C in air of
    // 23 °C: Ra = 1.813e9, Nu = 147, h = 7.0 W/(m².K). The book's conductivity of air is 1 % higher.
    const found = stillAir({
      position: 'vertical',
      characteristicLength: 0.71,
      surfaceTemperature: 505.15,
      airTemperature: 296.15,
    })
    expect(Math.abs(found.rayleigh / 1.813e9 - 1)).toBeLessThan(0.03)
    expect(Math.abs(found.nusselt / 147 - 1)).toBeLessThan(0.012)
    expect(Math.abs(found.filmCoefficient / 7 - 1)).toBeLessThan(0.02)
  })

  // Second method: laminar integral solution, Squire and Eckert, Nu = 0.508 Pr^½ (0.952 + Pr)^−¼ Ra^¼/Pr^¼·… mean 4/3
  // of the local value (textbooks, from memory). Worst found from Ra 1e5 to 1e8: 12 %, at the
  // high end, where turbulence sets in.
  it('agrees with the laminar boundary layer of a vertical plate', () => {
    for (let rayleigh = 1e5; rayleigh <= 1e8; rayleigh *= 3) {
      const prandtl = 0.7
      const mean = (4 / 3) * 0.508 * prandtl ** 0.5 * (0.952 + prandtl) ** -0.25 * (rayleigh / prandtl) ** 0.25
      expect(Math.abs(stillAirNusselt({ position: 'vertical', rayleigh, prandtl }) / mean - 1)).toBeLessThan(0.12)
    }
  })

  it('cools an upward face best, a downward one least, and none without a difference beyond conduction', () => {
    const at = (position: 'vertical' | 'hot-face-up' | 'hot-face-down') =>
      stillAirNusselt({ position, rayleigh: 1e6, prandtl: 0.7 })
    expect(at('hot-face-up')).toBeGreaterThan(at('hot-face-down'))
    expect(stillAirNusselt({ position: 'hot-face-up', rayleigh: 0, prandtl: 0.7 })).toBe(0)
    expect(stillAirNusselt({ position: 'vertical', rayleigh: 0, prandtl: 0.7 })).toBeCloseTo(0.825 ** 2, 12)
  })

  it('radiates 4εσT³ for small differences', () => {
    // Definition: 6.1 W/(m².K) for a black surface near 300 K.
    const found = stillAir({
      position: 'vertical',
      characteristicLength: 0.1,
      surfaceTemperature: 300.01,
      airTemperature: 300,
      emissivity: 1,
    })
    expect(found.radiationCoefficient).toBeCloseTo(4 * 5.670374419e-8 * 300 ** 3, 3)
    expect(found.totalCoefficient).toBeCloseTo(found.filmCoefficient + found.radiationCoefficient, 12)
  })
})

describe('blownPlate', () => {
  const at = (velocity: number) =>
    blownPlate({
      length: 0.1,
      velocity,
      density: 1.13,
      viscosity: 1.91e-5,
      prandtl: 0.706,
      thermalConductivity: 0.0272,
    })

  it('is nearly the laminar boundary layer when slow and the turbulent one when fast', () => {
    // Pohlhausen 0.664 Re^½ Pr^⅓, 5.7 % off at Re 300; 0.037 Re^0.8 Pr^⅓, textbook (from memory), worst found 8.2 %.
    const slow = at(0.05)
    expect(Math.abs(slow.nusselt / (0.664 * Math.sqrt(slow.reynolds) * 0.706 ** (1 / 3)) - 1)).toBeLessThan(0.06)
    const fast = at(500)
    expect(Math.abs(fast.nusselt / (0.037 * fast.reynolds ** 0.8 * 0.706 ** (1 / 3)) - 1)).toBeLessThan(0.085)
  })
})

describe('fans', () => {
  it('meets a quadratic system where the closed form says', () => {
    // p₀ (1 − Q/Q₀) = k Q², solved as a quadratic.
    const [p0, q0, k] = [60, 0.0125, 4e5]
    const exact = (-p0 / q0 + Math.sqrt((p0 / q0) ** 2 + 4 * k * p0)) / (2 * k)
    const found = fanOperatingPoint({ curve: { flows: [0, q0], pressures: [p0, 0] }, systemDrop: (q) => k * q ** 2 })
    expect(found.flow).toBeCloseTo(exact, 12)
    expect(found.pressure).toBeCloseTo(k * exact ** 2, 8)
  })

  it('reads a measured curve straight between its points and gives less than free flow through any field', () => {
    const curve = { flows: [0, 0.005, 0.0125], pressures: [60, 25, 0] }
    expect(fanPressure(curve, 0.0025)).toBeCloseTo(42.5, 12)
    expect(fanPressure(curve, 0.02)).toBe(0)
    const field = {
      freeFlow: 0.0125,
      shutOffPressure: 60,
      gapCount: 17,
      gap: 5.1e-3,
      height: 28e-3,
      length: 0.18,
      density: 1.13,
      viscosity: 1.9e-5,
    }
    const found = fanOnFinField(field)
    expect(found.freeFlowShare).toBeLessThan(1)
    expect(found.freeFlowShare).toBeGreaterThan(0.3)
    expect(fanOnFinField({ ...field, gapCount: 8 }).flow).toBeLessThan(found.flow)
  })

  it('refuses a curve that rises or does not reach zero', () => {
    const at = (flows: number[], pressures: number[]) =>
      fanOperatingPoint({ curve: { flows, pressures }, systemDrop: (q) => q })
    expect(() => at([0, 1], [60, 5])).toThrow(DomainError)
    expect(() => at([0.1, 1], [60, 0])).toThrow(DomainError)
    expect(() => at([0], [60])).toThrow(DomainError)
  })
})
