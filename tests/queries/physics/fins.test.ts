import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { finField, pinFinEfficiency, straightFinEfficiency } from '../../../queries/physics/fins.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const length = fc.double({ min: 1e-4, max: 0.05, noNaN: true })
const film = fc.double({ min: 10, max: 30_000, noNaN: true })

/** Second method: finite volumes of one round pin with a convecting or adiabatic tip; heat over that of a pin at base temperature. */
function numericPin(
  inputs: { diameter: number; length: number; thermalConductivity: number; filmCoefficient: number },
  tip: boolean,
): number {
  const n = 2000
  const { diameter, thermalConductivity, filmCoefficient } = inputs
  const dx = inputs.length / n
  const [section, side] = [(Math.PI / 4) * diameter ** 2, Math.PI * diameter * dx]
  const along = (thermalConductivity * section) / dx
  const end = tip ? 1 / (1 / (filmCoefficient * section) + dx / (2 * thermalConductivity * section)) : 0
  // From the tip back: what a cell and all beyond it take per kelvin at the face towards the base.
  let beyond = end
  for (let i = n - 1; i >= 0; i--) {
    const cell = filmCoefficient * side + beyond
    const link = i === 0 ? 2 * along : along
    beyond = 1 / (1 / cell + 1 / link)
  }
  return beyond / (filmCoefficient * (Math.PI * diameter * inputs.length + (tip ? section : 0)))
}

describe('pinFinEfficiency', () => {
  it('agrees with a finite-volume pin, tip adiabatic and convecting', () => {
    // Worst found over the range: 5e-4, the numerical method's own error for long pins.
    fc.assert(
      fc.property(length, fc.double({ min: 5e-4, max: 5e-3, noNaN: true }), film, (l, diameter, filmCoefficient) => {
        const inputs = { diameter, length: l, thermalConductivity: 200, filmCoefficient }
        const found = pinFinEfficiency(inputs)
        const tolerance = 1e-3
        return (
          Math.abs(found.adiabaticTip / numericPin(inputs, false) - 1) < tolerance &&
          Math.abs(found.convectingTip / numericPin(inputs, true) - 1) < tolerance
        )
      }),
      { numRuns: 60 },
    )
  })

  it('has the corrected length close to the convecting tip for slim pins', () => {
    // Textbook statement: good while h D/(2 k) is small; worst found below 0.1: 0.6 %.
    fc.assert(
      fc.property(fc.double({ min: 2e-3, max: 0.05, noNaN: true }), film, (l, filmCoefficient) => {
        const found = pinFinEfficiency({ diameter: 2e-3, length: l, thermalConductivity: 300, filmCoefficient })
        return Math.abs(found.correctedLength / found.convectingTip - 1) < 0.01
      }),
    )
  })
})

describe('straight fins', () => {
  it('lose efficiency with length, with film coefficient and with thinness', () => {
    fc.assert(
      fc.property(length, film, (height, filmCoefficient) => {
        const at = (more: object) =>
          straightFinEfficiency({ height, thickness: 5e-4, thermalConductivity: 200, filmCoefficient, ...more })
        const here = at({})
        return (
          here > 0 &&
          here <= 1 &&
          at({ height: 1.1 * height }) < here &&
          at({ filmCoefficient: 1.1 * filmCoefficient }) < here &&
          at({ thickness: 6e-4 }) > here
        )
      }),
    )
  })

  it('reach both limits', () => {
    // mH → 0: efficiency 1; long fin: 1/(mH).
    expect(straightFinEfficiency({ height: 0, thickness: 1e-3, thermalConductivity: 200, filmCoefficient: 5000 })).toBe(
      1,
    )
    const mh = 0.5 * Math.sqrt((2 * 5000) / (200 * 1e-3))
    expect(
      straightFinEfficiency({ height: 0.5, thickness: 1e-3, thermalConductivity: 200, filmCoefficient: 5000 }),
    ).toBeCloseTo(1 / mh, 12)
  })
})

describe('finField', () => {
  const field = {
    gapCount: 20,
    gap: 1.2e-3,
    thickness: 0.5e-3,
    height: 7e-3,
    length: 0.066,
    thermalConductivity: 390,
    filmCoefficient: 4000,
  }

  it('cools better than its bare base and never better than all its area at base temperature', () => {
    const found = finField(field)
    expect(found.baseCoefficient).toBeGreaterThan(4000)
    expect(found.thermalResistance).toBeGreaterThanOrEqual(1 / (4000 * found.wettedArea))
  })

  it('is perfect in perfect metal', () => {
    const found = finField({ ...field, thermalConductivity: 1e12 })
    expect(found.surfaceEfficiency).toBeCloseTo(1, 8)
  })

  it('refuses a field without gaps', () => {
    expect(() => finField({ ...field, gapCount: 0 })).toThrow(DomainError)
  })
})
