import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { faceHeatFlux, heatFlux, moduleHeatFlux } from '../../../queries/physics/heat-flux.ts'
import { DomainError } from '../../../queries/physics/method.ts'

describe('heat flux', () => {
  it('is 1e4 W/m² per W/cm²', () => {
    // Definition: 1 W through 1 cm².
    expect(heatFlux({ loss: 1, area: 1e-4 })).toBeCloseTo(1e4, 8)
  })

  it('adds up: each flux times its area gives the loss back', () => {
    const size = fc.double({ min: 1e-3, max: 0.1, noNaN: true })
    fc.assert(
      fc.property(
        size,
        size,
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 6 }),
        (a, b, dieCount, moduleCount) => {
          const found = moduleHeatFlux({
            loss: 500,
            dieCount,
            dieLength: a,
            dieWidth: b,
            footprintLength: 3 * a,
            footprintWidth: 2 * b,
            moduleCount,
          })
          const byDies = found.dieHeatFlux * found.totalDieArea
          return (
            Math.abs(byDies / (500 * moduleCount) - 1) < 1e-12 &&
            Math.abs(found.footprintHeatFlux * 6 * a * b - 500) < 1e-9
          )
        },
      ),
    )
  })

  it('splits between faces so that heats add to the loss, even when one side heats the part', () => {
    fc.assert(
      fc.property(fc.double({ min: -2, max: 3, noNaN: true }), (bottomShare) => {
        const { bottomHeatFlux, topHeatFlux, averageHeatFlux } = faceHeatFlux({
          loss: 5,
          bottomShare,
          bottomArea: 2e-3,
          topArea: 1e-3,
        })
        return (
          Math.abs(bottomHeatFlux * 2e-3 + topHeatFlux * 1e-3 - 5) < 1e-9 && Math.abs(averageHeatFlux * 3e-3 - 5) < 1e-9
        )
      }),
    )
  })

  it('refuses an area of zero', () => {
    expect(() => heatFlux({ loss: 1, area: 0 })).toThrow(DomainError)
    expect(() => heatFlux({ loss: Number.NaN, area: 1 })).toThrow(DomainError)
  })
})
