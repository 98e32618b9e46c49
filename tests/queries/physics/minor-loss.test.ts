import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { FITTING_LOSS, fittingsLoss, pumpPower, stepLoss } from '../../../queries/physics/minor-loss.ts'

describe('stepLoss', () => {
  const size = fc.double({ min: 1e-6, max: 1e-3, noNaN: true })

  it('obeys the momentum balance of a sudden widening', () => {
    // Second method: momentum, p₂ − p₁ = ρ u₂ (u₁ − u₂), which Borda and Carnot's loss must reproduce.
    fc.assert(
      fc.property(size, size, (a, b) => {
        fc.pre(b > a)
        const { staticRise } = stepLoss({ upstreamArea: a, downstreamArea: b, flow: 1e-4, density: 1000 })
        const [before, after] = [1e-4 / a, 1e-4 / b]
        return Math.abs(staticRise - 1000 * after * (before - after)) < 1e-9 * 1000 * before ** 2
      }),
    )
  })

  it('keeps the energy balance and never gains total pressure', () => {
    fc.assert(
      fc.property(size, size, (a, b) => {
        const { pressureDrop, staticRise } = stepLoss({ upstreamArea: a, downstreamArea: b, flow: 1e-4, density: 1000 })
        const dynamic = (area: number) => 500 * (1e-4 / area) ** 2
        return (
          pressureDrop >= 0 &&
          Math.abs(dynamic(a) - dynamic(b) - pressureDrop - staticRise) < 1e-9 * (dynamic(a) + dynamic(b))
        )
      }),
    )
  })

  it('ends at a full velocity head into a plenum and half a head out of one', () => {
    // Limits: exit 1, sharp entrance 0.5 (common practice); the table of fittings says the same.
    expect(stepLoss({ upstreamArea: 1e-6, downstreamArea: 1, flow: 1e-6, density: 1 }).lossFactor).toBeCloseTo(
      FITTING_LOSS.exit,
      5,
    )
    expect(stepLoss({ upstreamArea: 1, downstreamArea: 1e-6, flow: 1e-6, density: 1 }).lossFactor).toBeCloseTo(
      FITTING_LOSS['sharp-entrance'],
      5,
    )
    expect(stepLoss({ upstreamArea: 1, downstreamArea: 1, flow: 1, density: 1 }).pressureDrop).toBe(0)
  })
})

it('adds loss factors and grows with the square of flow', () => {
  const at = (flow: number, lossFactors: number[]) =>
    fittingsLoss({ lossFactors, diameter: 8e-3, flow, density: 1037 }).pressureDrop
  expect(at(2e-4, [0.5, 1])).toBeCloseTo(4 * at(1e-4, [1.5]), 9)
  expect(() => at(1e-4, [-1])).toThrow(DomainError)
})

it('pumps 1 L/s against 1 bar with 100 W', () => {
  // Definition: 1e-3 m³/s × 1e5 Pa.
  expect(pumpPower({ pressureDrop: 1e5, flow: 1e-3, pumpEfficiency: 0.5 })).toEqual({
    hydraulicPower: 100,
    electricPower: 200,
  })
  expect(() => pumpPower({ pressureDrop: 1, flow: 1, pumpEfficiency: 0 })).toThrow(DomainError)
})
