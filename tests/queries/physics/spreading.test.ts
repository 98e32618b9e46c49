import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { diesOnPlate, sourceOnPlate } from '../../../queries/physics/plate-source.ts'
import { type Plate, plateResistance, plateTransfer } from '../../../queries/physics/spreading.ts'
import { discSpreading, halfSpaceSource, spreadingCone } from '../../../queries/physics/spreading-closed.ts'
import { stackField } from '../../../queries/physics/stack-field.ts'

const plate: Plate = {
  plateX: 0.036,
  plateY: 0.024,
  layers: [{ thickness: 3e-3, thermalConductivity: 390 }],
  filmCoefficient: 6000,
}
const place = fc.double({ min: 0.2, max: 0.8, noNaN: true })
const size = fc.double({ min: 0.05, max: 0.35, noNaN: true })

describe('plateTransfer', () => {
  it('is the same from source to patch as from patch to source', () => {
    fc.assert(
      fc.property(size, size, place, place, place, place, (a, b, x1, y1, x2, y2) => {
        const source = { x: a * 0.036, y: b * 0.024, centreX: x1 * 0.036, centreY: y1 * 0.024 }
        const patch = { x: b * 0.036, y: a * 0.024, centreX: x2 * 0.036, centreY: y2 * 0.024 }
        const [there, back] = [
          plateTransfer({ plate, source, patch, terms: 60 }),
          plateTransfer({ plate, source: patch, patch: source, terms: 60 }),
        ]
        return Math.abs(there / back - 1) < 1e-10
      }),
      { numRuns: 40 },
    )
  })

  it('gives even flow when the source covers the plate, and adds nothing to it', () => {
    const all = { x: 0.036, y: 0.024, centreX: 0.018, centreY: 0.012 }
    expect(plateTransfer({ plate, source: all })).toBe(plateResistance(plate))
  })

  it('halves a plate with two equal dies at their own middles: own and mutual add to one die on half the plate', () => {
    // Symmetry, exact; what remains is the truncation of both series.
    const found = diesOnPlate({
      plateX: 0.036,
      plateY: 0.024,
      thicknesses: [3e-3],
      thermalConductivities: [390],
      filmCoefficient: 6000,
      dieX: [0.01, 0.01],
      dieY: [0.01, 0.01],
      centresX: [0.009, 0.027],
      centresY: [0.012, 0.012],
      losses: [1, 1],
    })
    const alone = sourceOnPlate({
      sourceX: 0.01,
      sourceY: 0.01,
      plateX: 0.018,
      plateY: 0.024,
      thicknesses: [3e-3],
      thermalConductivities: [390],
      filmCoefficient: 6000,
    })
    expect(Math.abs(found.rises[0]! / alone.meanResistance - 1)).toBeLessThan(2e-5)
  })

  it('superposes: a die in two halves is the die', () => {
    const whole = { x: 0.012, y: 0.008, centreX: 0.015, centreY: 0.01 }
    const [left, right] = [0.012, 0.018].map((centreX) => ({ ...whole, x: 0.006, centreX }))
    const at = (source: typeof whole, patch: typeof whole) => plateTransfer({ plate, source, patch, terms: 300 })
    const halves = (at(left!, left!) + at(left!, right!) + at(right!, left!) + at(right!, right!)) / 4
    expect(Math.abs(halves / at(whole, whole) - 1)).toBeLessThan(1e-9)
  })

  it('becomes the half-space on a wide thick plate with a cold far face', () => {
    // H. S. Carslaw, J. C. Jaeger: 0.47320/(λ s) mean and 0.56110/(λ s) centre. A plate of 50 source widths is 0.5 % short.
    const wide = sourceOnPlate({
      sourceX: 1e-3,
      sourceY: 1e-3,
      plateX: 0.05,
      plateY: 0.05,
      thicknesses: [0.025],
      thermalConductivities: [390],
      filmCoefficient: 1e9,
    })
    const half = halfSpaceSource({ sourceX: 1e-3, sourceY: 1e-3, thermalConductivity: 390 })
    expect(wide.meanResistance / half.meanResistance).toBeGreaterThan(0.994)
    expect(wide.meanResistance / half.meanResistance).toBeLessThan(1)
    expect(wide.centreResistance / half.centreResistance).toBeGreaterThan(0.994)
    expect(wide.centreResistance / half.centreResistance).toBeLessThan(1)
  })

  // Second method: three-dimensional finite volumes. Worst found over 60 random plates: mean 1.3 %, centre 0.24 %.
  it('agrees with finite volumes on random plates of one and two layers', () => {
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 1e-3, max: 5e-3, noNaN: true }),
        fc.double({ min: 500, max: 20_000, noNaN: true }),
        fc.double({ min: 20, max: 400, noNaN: true }),
        (a, b, t, film, k) => {
          const [sourceX, sourceY] = [Math.max(a, 0.15) * 0.04, Math.max(b, 0.15) * 0.03]
          const series = sourceOnPlate({
            sourceX,
            sourceY,
            plateX: 0.04,
            plateY: 0.03,
            thicknesses: [t, 2e-3],
            thermalConductivities: [k, 167],
            filmCoefficient: film,
          })
          const layers = [
            [2e-3, 167],
            [t, k],
          ].map(([thickness, thermalConductivity]) => ({
            thickness: thickness!,
            thermalConductivity: thermalConductivity!,
            x: 0.04,
            y: 0.03,
          }))
          const field = stackField({ layers, source: { layer: 1, x: sourceX, y: sourceY }, bottomCoefficient: film })
          return (
            Math.abs(field.meanResistance / series.meanResistance - 1) < 0.015 &&
            Math.abs(field.centreResistance / series.centreResistance - 1) < 0.004
          )
        },
      ),
      { numRuns: 25, seed: 7 },
    )
  })

  it('falls with film coefficient and rises with a contact between layers', () => {
    const layers = [
      { thickness: 1e-3, thermalConductivity: 390 },
      { thickness: 5e-3, thermalConductivity: 167 },
    ]
    const source = { x: 0.01, y: 0.01, centreX: 0.01, centreY: 0.01 }
    const at = (filmCoefficient: number, contactResistivity: number) =>
      plateTransfer({
        plate: { ...plate, filmCoefficient, layers: [{ ...layers[0]!, contactResistivity }, layers[1]!] },
        source,
      })
    expect(at(7000, 0)).toBeLessThan(at(6000, 0))
    expect(at(6000, 1e-5)).toBeGreaterThan(at(6000, 0))
    // No contact is a contact of nothing.
    expect(at(6000, 0)).toBe(plateTransfer({ plate: { ...plate, layers }, source }))
  })

  it('refuses a source off the plate', () => {
    expect(() => plateTransfer({ plate, source: { x: 0.01, y: 0.01, centreX: 0.004, centreY: 0.01 } })).toThrow(
      DomainError,
    )
  })
})

describe('spreadingCone', () => {
  it('agrees with slicing the frustum', () => {
    // Second method: 20,000 slices of t/(λ A(z)).
    const inputs = { sourceX: 0.013, sourceY: 0.0129999, thickness: 3e-3, thermalConductivity: 390, coneAngle: 0.9 }
    let sum = 0
    const slices = 20_000
    for (let i = 0; i < slices; i++) {
      const grown = ((2 * (i + 0.5)) / slices) * 3e-3 * Math.tan(0.9)
      sum += 3e-3 / slices / (390 * (0.013 + grown) * (0.0129999 + grown))
    }
    expect(spreadingCone(inputs).resistance / sum - 1).toBeCloseTo(0, 8)
  })

  it('has the square as the limit of rectangles and no cone as the limit of angles', () => {
    const at = (sourceY: number, coneAngle: number) =>
      spreadingCone({ sourceX: 0.01, sourceY, thickness: 3e-3, thermalConductivity: 390, coneAngle }).resistance
    expect(at(0.01 * (1 + 1e-12), 0.7) / at(0.01, 0.7) - 1).toBeCloseTo(0, 10)
    expect(at(0.01, 0)).toBeCloseTo(3e-3 / (390 * 1e-4), 14)
    expect(at(0.01, 1e-9) / at(0.01, 0) - 1).toBeCloseTo(0, 8)
  })
})

describe('closed forms', () => {
  it('holds the half-space mean below its centre, both below those of a longer source per side', () => {
    // Carslaw and Jaeger, square: 0.47320 and 0.56110.
    const square = halfSpaceSource({ sourceX: 1, sourceY: 1, thermalConductivity: 1 })
    expect(square.meanResistance).toBeCloseTo(0.4732, 4)
    expect(square.centreResistance).toBeCloseTo(0.5611, 4)
  })

  // Second method: the exact series. Worst found for square sources 0.2 … 0.8 of a square plate: mean 1.7 %, centre 2.2 %.
  it('has the disc approximation near the series', () => {
    for (const share of [0.2, 0.4, 0.6, 0.8]) {
      for (const thickness of [1e-3, 3e-3, 8e-3]) {
        const side = share * 0.03
        const exact = sourceOnPlate({
          sourceX: side,
          sourceY: side,
          plateX: 0.03,
          plateY: 0.03,
          thicknesses: [thickness],
          thermalConductivities: [390],
          filmCoefficient: 5000,
        })
        const disc = discSpreading({
          sourceArea: side ** 2,
          plateArea: 9e-4,
          thickness,
          thermalConductivity: 390,
          filmCoefficient: 5000,
        })
        expect(Math.abs(disc.meanResistance / exact.meanResistance - 1)).toBeLessThan(0.022)
        expect(Math.abs(disc.centreResistance / exact.centreResistance - 1)).toBeLessThan(0.022)
      }
    }
  })
})
