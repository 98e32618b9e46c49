import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { doubleSided, interfaceSheet, layerStack } from '../../../queries/physics/layer-stack.ts'
import { DomainError } from '../../../queries/physics/method.ts'
import { stackField } from '../../../queries/physics/stack-field.ts'

const side = fc.double({ min: 8e-3, max: 40e-3, noNaN: true })
const thickness = fc.double({ min: 5e-5, max: 3e-3, noNaN: true })
const conductivity = fc.double({ min: 2, max: 400, noNaN: true })

describe('layerStack', () => {
  it('brackets a published stack', () => {
    // Open layer-stack data set on a laboratory benchmarking report: bracket 0.229 … 1.625 K/W, finite elements 0.376.
    const areas = [225, 225, 400, 400, 1600, 1600, 1600, 1600].map((area) => area * 1e-6)
    const found = layerStack({
      thicknesses: [0.361, 0.18, 2.55, 0.208, 3.17, 0.05, 0.2, 0.05].map((t) => t * 1e-3),
      thermalConductivities: [148, 57, 170, 57, 398, 3, 2, 3],
      areas,
      filmCoefficient: 5000,
    })
    expect(found.lowerBound).toBeCloseTo(0.2285, 4)
    expect(found.upperBound).toBeCloseTo(1.625, 3)
    expect(0.376).toBeGreaterThan(found.lowerBound)
    expect(0.376).toBeLessThan(found.upperBound)
  })

  it('puts both bounds around a three-dimensional solution of any two-layer stack', () => {
    fc.assert(
      fc.property(side, side, thickness, thickness, conductivity, conductivity, (a, b, t1, t2, k1, k2) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)]
        const bounds = layerStack({
          thicknesses: [t1, t2],
          thermalConductivities: [k1, k2],
          areas: [small ** 2, large ** 2],
          filmCoefficient: 6000,
        })
        const field = stackField({
          layers: [
            { thickness: t2, thermalConductivity: k2, x: large, y: large },
            { thickness: t1, thermalConductivity: k1, x: small, y: small },
          ],
          source: { layer: 1, x: small, y: small },
          bottomCoefficient: 6000,
          cells: 4,
        })
        // The finite volumes are up to 3 % high on this coarse grid.
        return field.meanResistance >= bounds.lowerBound * 0.999 && field.meanResistance <= bounds.upperBound * 1.03
      }),
      { numRuns: 40 },
    )
  })

  it('never cools with a thicker layer or a worse contact', () => {
    fc.assert(
      fc.property(thickness, conductivity, side, (t, k, s) => {
        const at = (extra: number, contact: number) =>
          layerStack({
            thicknesses: [t + extra],
            thermalConductivities: [k],
            areas: [s ** 2],
            contactResistivities: [contact],
            filmCoefficient: 5000,
          }).total
        return at(1e-5, 0) > at(0, 0) && at(0, 1e-6) > at(0, 0)
      }),
    )
  })

  it('has one value when all areas are equal', () => {
    const found = layerStack({
      thicknesses: [1e-3, 2e-3],
      thermalConductivities: [24, 390],
      areas: [1e-4, 1e-4],
      filmCoefficient: 1e4,
    })
    expect(found.lowerBound).toBeCloseTo(found.total, 14)
    expect(found.upperBound).toBeCloseTo(found.total, 14)
    expect(found.specificResistance).toBeCloseTo(found.total * 1e-4, 16)
  })

  it('refuses lists of unequal length and an area of zero', () => {
    expect(() => layerStack({ thicknesses: [1e-3], thermalConductivities: [1, 2], areas: [1e-4] })).toThrow(DomainError)
    expect(() => layerStack({ thicknesses: [1e-3], thermalConductivities: [1], areas: [0] })).toThrow(DomainError)
    expect(() => layerStack({ thicknesses: [], thermalConductivities: [], areas: [] })).toThrow(DomainError)
  })
})

it('an interface sheet with contact seems to conduct worse than it does, and as stated without', () => {
  const sheet = { thickness: 2e-4, thermalConductivity: 4, area: 36e-4 }
  expect(interfaceSheet(sheet).apparentConductivity).toBeCloseTo(4, 12)
  expect(interfaceSheet({ ...sheet, firstContact: 1e-6 }).apparentConductivity).toBeLessThan(4)
})

describe('doubleSided', () => {
  const resistance = fc.double({ min: 0.01, max: 1, noNaN: true })
  const temperature = fc.double({ min: 253, max: 363, noNaN: true })

  it('closes the balance, lies below either side alone, and never clips heat that flows backwards', () => {
    fc.assert(
      fc.property(
        resistance,
        resistance,
        temperature,
        temperature,
        fc.double({ min: 0, max: 900, noNaN: true }),
        (r1, r2, t1, t2, loss) => {
          const found = doubleSided({
            loss,
            bottomResistances: [r1],
            topResistances: [r2],
            bottomCoolant: t1,
            topCoolant: t2,
          })
          const balance =
            Math.abs(found.bottomHeat + found.topHeat - loss) < 1e-9 * (loss + Math.abs(t1 - t2) / Math.min(r1, r2) + 1)
          const signs =
            Math.sign(found.bottomHeat) === Math.sign(found.junctionTemperature - t1) ||
            Math.abs(found.bottomHeat) < 1e-6
          return balance && signs && found.equivalentResistance < Math.min(r1, r2)
        },
      ),
    )
  })

  it('is the same seen from the other side', () => {
    const ahead = doubleSided({
      loss: 300,
      bottomResistances: [0.1, 0.04],
      topResistances: [0.2],
      bottomCoolant: 338,
      topCoolant: 341,
    })
    const behind = doubleSided({
      loss: 300,
      bottomResistances: [0.2],
      topResistances: [0.14],
      bottomCoolant: 341,
      topCoolant: 338,
    })
    expect(ahead.junctionTemperature).toBeCloseTo(behind.junctionTemperature, 10)
    expect(ahead.topHeat).toBeCloseTo(behind.bottomHeat, 9)
  })

  it('refuses a side without resistance', () => {
    expect(() =>
      doubleSided({ loss: 1, bottomResistances: [], topResistances: [1], bottomCoolant: 300, topCoolant: 300 }),
    ).toThrow(DomainError)
  })
})
