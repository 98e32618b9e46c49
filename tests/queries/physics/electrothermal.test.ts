import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { exponentialLossJunction, linearLossJunction } from '../../../queries/physics/electrothermal.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('linearLossJunction', () => {
  it('is where fixed-point iteration ends, while the loop gain is below 1', () => {
    fc.assert(
      fc.property(
        positive(10, 500),
        positive(-0.005, 0.01),
        positive(0.01, 0.3),
        (loss, temperatureCoefficient, thermalResistance) => {
          fc.pre(Math.abs(loss * temperatureCoefficient * thermalResistance) < 0.9)
          let junction = 338.15
          for (let i = 0; i < 400; i++)
            junction = 338.15 + thermalResistance * loss * (1 + temperatureCoefficient * (junction - 298.15))
          const found = linearLossJunction({
            loss,
            temperatureCoefficient,
            referenceTemperature: 298.15,
            coolantTemperature: 338.15,
            thermalResistance,
          })
          return Math.abs(found.junctionTemperature! - junction) < 1e-7
        },
      ),
    )
  })

  it('prints no temperature at a loop gain of 1 or more', () => {
    const found = linearLossJunction({
      loss: 520,
      temperatureCoefficient: 0.0075,
      referenceTemperature: 298.15,
      coolantTemperature: 338.15,
      thermalResistance: 0.3,
    })
    expect(found.stable).toBe(false)
    expect(found.junctionTemperature).toBeUndefined()
    expect(found.runawayResistance).toBeCloseTo(0.25641, 5)
  })

  it('has no runaway for a loss that falls', () => {
    const found = linearLossJunction({
      loss: 520,
      temperatureCoefficient: -0.0075,
      referenceTemperature: 298.15,
      coolantTemperature: 338.15,
      thermalResistance: 3,
    })
    expect(found.stable).toBe(true)
    expect(found.runawayResistance).toBeUndefined()
  })
})

describe('exponentialLossJunction', () => {
  const inputs = fc.record({
    loss: positive(0, 400),
    leakLoss: positive(1e-6, 50),
    referenceTemperature: positive(350, 450),
    temperatureScale: positive(5, 60),
    coolantTemperature: positive(280, 370),
    thermalResistance: positive(0.01, 2),
  })

  it('balances at both roots, the lower stable and the upper not, or says that neither exists', () => {
    fc.assert(
      fc.property(inputs, (one) => {
        const found = exponentialLossJunction(one)
        if (!found.stable) return one.thermalResistance >= found.criticalResistance * (1 - 1e-9)
        const heat = (t: number) =>
          one.loss + one.leakLoss * Math.exp((t - one.referenceTemperature) / one.temperatureScale)
        const slope = (t: number) => (one.thermalResistance * (heat(t) - one.loss)) / one.temperatureScale
        const balanced = [found.junctionTemperature!, found.unstableTemperature!].every(
          (t) => Math.abs(one.coolantTemperature + one.thermalResistance * heat(t) - t) < 1e-7 * t,
        )
        const between = found.junctionTemperature! <= found.unstableTemperature!
        return (
          balanced &&
          between &&
          slope(found.junctionTemperature!) < 1 &&
          slope(found.unstableTemperature!) > 1 &&
          one.thermalResistance < found.criticalResistance
        )
      }),
      { numRuns: 500 },
    )
  })

  it('is critical where both lines touch', () => {
    fc.assert(
      fc.property(inputs, (one) => {
        const { criticalResistance: r, criticalTemperature: t } = exponentialLossJunction(one)
        const leak = one.leakLoss * Math.exp((t - one.referenceTemperature) / one.temperatureScale)
        return (
          Math.abs((r * leak) / one.temperatureScale - 1) < 1e-8 &&
          Math.abs(one.coolantTemperature + r * (one.loss + leak) - t) < 1e-7 * t
        )
      }),
    )
  })

  it('is linear when the leak is next to nothing', () => {
    const found = exponentialLossJunction({
      loss: 150,
      leakLoss: 1e-30,
      referenceTemperature: 423.15,
      temperatureScale: 20,
      coolantTemperature: 343.15,
      thermalResistance: 0.4,
    })
    expect(found.junctionTemperature).toBeCloseTo(403.15, 9)
  })

  it('refuses a scale of zero', () => {
    expect(() =>
      exponentialLossJunction({
        loss: 1,
        leakLoss: 1,
        referenceTemperature: 400,
        temperatureScale: 0,
        coolantTemperature: 300,
        thermalResistance: 1,
      }),
    ).toThrow(DomainError)
  })
})
