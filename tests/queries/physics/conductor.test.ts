import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { barConduction, resistivityOf } from '../../../queries/physics/conductor.ts'
import { DomainError } from '../../../queries/physics/method.ts'

describe('conductors', () => {
  it('has the copper of the standard: a metre of one square millimetre is 1/58 Ω at 20 °C', () => {
    // IEC 60028, international annealed copper standard.
    const resistivity = resistivityOf({ material: 'copper', temperature: 293.15 })
    const wire = { length: 1, width: 1e-3, thickness: 1e-3, current: 1, resistivity }
    expect(barConduction(wire).resistance).toBeCloseTo(1 / 58, 12)
  })

  it('has copper a fifth more resistive at 75 °C and extrapolating to zero near −234.5 °C', () => {
    // Textbook constant of copper in winding-temperature tests: 234.5.
    const at = (celsius: number) => resistivityOf({ material: 'copper', temperature: celsius + 273.15 })
    expect(at(75) / at(20)).toBeCloseTo((234.5 + 75) / (234.5 + 20), 3)
    expect(() => at(-250)).toThrow(DomainError)
  })

  it('makes the same loss by resistance and by current density', () => {
    // Second method: ρ J² over the volume.
    const length = fc.double({ min: 1e-3, max: 1, noNaN: true })
    fc.assert(
      fc.property(length, length, length, fc.double({ min: -900, max: 900, noNaN: true }), (l, w, t, current) => {
        const found = barConduction({ length: l, width: w, thickness: t, current, resistivity: 2e-8 })
        return Math.abs(found.loss - 2e-8 * found.currentDensity ** 2 * l * w * t) <= 1e-9 * found.loss
      }),
    )
  })

  it('refuses a bar without width', () => {
    expect(() => barConduction({ length: 1, width: 0, thickness: 1, current: 1, resistivity: 1 })).toThrow(DomainError)
  })
})
