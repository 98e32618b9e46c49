import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { stackField, stackFieldMethod } from '../../../queries/physics/stack-field.ts'

const square = (thickness: number, thermalConductivity: number, side: number) => ({
  thickness,
  thermalConductivity,
  x: side,
  y: side,
})
const module = [
  square(3e-3, 390, 0.04),
  square(0.15e-3, 50, 0.028),
  square(0.3e-3, 390, 0.028),
  square(0.38e-3, 24, 0.03),
  square(0.3e-3, 390, 0.028),
  square(0.1e-3, 50, 0.01),
  square(0.12e-3, 130, 0.01),
]

describe('stackField', () => {
  it('is exact where the heat flows straight', () => {
    // One footprint throughout: t/(λ A) and 1/(h A) in series.
    const found = stackField({
      layers: [square(3e-3, 390, 0.01), square(1e-3, 24, 0.01)],
      source: { layer: 1, x: 0.01, y: 0.01 },
      bottomCoefficient: 5000,
    })
    const exact = (3e-3 / 390 + 1e-3 / 24 + 1 / 5000) / 1e-4
    expect(found.meanResistance / exact - 1).toBeCloseTo(0, 9)
    expect(found.centreResistance / exact - 1).toBeCloseTo(0, 9)
    expect(found.bottomShare).toBe(1)
  })

  it('gives a fine-grid solution of a power module within 1 %, and comes nearer on a finer grid', () => {
    // Independent finite-volume solution on grids up to 1.12 million cells: 0.31801 mean, 0.37607 centre K/W.
    const at = (cells: number) =>
      stackField({ layers: module, source: { layer: 6, x: 0.01, y: 0.01 }, bottomCoefficient: 10_000, cells })
    const [coarse, usual, fine] = [at(4), at(8), at(12)]
    expect(Math.abs(usual.meanResistance / 0.31801 - 1)).toBeLessThan(0.01)
    expect(Math.abs(usual.centreResistance / 0.37607 - 1)).toBeLessThan(0.003)
    expect(Math.abs(fine.meanResistance / 0.31801 - 1)).toBeLessThan(0.005)
    expect(coarse.meanResistance).toBeGreaterThan(usual.meanResistance)
    expect(usual.imbalance).toBeLessThan(1e-9)
  })

  it('splits between equal faces of a mirrored stack in halves, below one side alone', () => {
    const layers = [
      square(1e-3, 390, 0.02),
      square(0.32e-3, 80, 0.02),
      square(0.2e-3, 130, 0.01),
      square(0.2e-3, 130, 0.01),
      square(0.32e-3, 80, 0.02),
      square(1e-3, 390, 0.02),
    ]
    const both = stackField({
      layers,
      source: { layer: 2, x: 0.01, y: 0.01 },
      bottomCoefficient: 8000,
      topCoefficient: 8000,
    })
    const one = stackField({ layers, source: { layer: 2, x: 0.01, y: 0.01 }, bottomCoefficient: 8000 })
    expect(both.bottomShare).toBeCloseTo(0.5, 9)
    expect(both.meanResistance).toBeLessThan(one.meanResistance)
    expect(both.meanResistance).toBeGreaterThan(one.meanResistance / 2.01)
  })

  it('closes its heat balance and answers more film with less resistance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 30_000, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (film, share) => {
          const at = (bottomCoefficient: number) =>
            stackField({ layers: module, source: { layer: 6, x: share * 0.01, y: 0.01 }, bottomCoefficient, cells: 4 })
          const [here, more] = [at(film), at(1.1 * film)]
          return (
            Math.abs(here.imbalance) < 1e-9 &&
            more.meanResistance < here.meanResistance &&
            here.centreResistance > here.meanResistance
          )
        },
      ),
      { numRuns: 15 },
    )
  })

  it('warms with a thicker or worse attach, always', () => {
    const at = (thickness: number, conductivity: number) =>
      stackField({
        layers: module.map((layer, i) => (i === 5 ? square(thickness, conductivity, 0.01) : layer)),
        source: { layer: 6, x: 0.01, y: 0.01 },
        bottomCoefficient: 10_000,
      }).meanResistance
    expect(at(0.2e-3, 50)).toBeGreaterThan(at(0.1e-3, 50))
    expect(at(0.1e-3, 30)).toBeGreaterThan(at(0.1e-3, 50))
  })

  it('refuses a source that overhangs and a stack without coolant', () => {
    expect(() =>
      stackField({ layers: module, source: { layer: 6, x: 0.02, y: 0.01 }, bottomCoefficient: 1e4 }),
    ).toThrow(DomainError)
    expect(() => stackField({ layers: module, source: { layer: 6, x: 0.01, y: 0.01 }, bottomCoefficient: 0 })).toThrow(
      DomainError,
    )
    expect(() =>
      stackField({ layers: module, source: { layer: 9, x: 0.01, y: 0.01 }, bottomCoefficient: 1e4 }),
    ).toThrow(DomainError)
  })

  it('counts the source layer from 1 as a calculator', () => {
    const found = stackFieldMethod.compute({
      thicknesses: module.map(({ thickness }) => thickness),
      thermalConductivities: module.map(({ thermalConductivity }) => thermalConductivity),
      layerX: module.map(({ x }) => x),
      layerY: module.map(({ y }) => y),
      sourceLayer: 7,
      sourceX: 0.01,
      sourceY: 0.01,
      bottomCoefficient: 10_000,
    })
    expect(Math.abs(found.meanResistance / 0.31801 - 1)).toBeLessThan(0.01)
  })
})
