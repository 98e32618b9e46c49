import fc from 'fast-check'
import { expect, it } from 'vitest'
import { DomainError, outOfRange } from '../../../queries/physics/method.ts'
import { oRing, oRingMethod } from '../../../queries/physics/o-ring.ts'

it('finds a customary static groove customary', () => {
  // ISO 3601-2 style groove for a 2.62 mm cord in a static face seal: depth 2.1 mm, width 3.6 mm (common practice, from
  // memory): about 20 % squeeze and 71 % fill.
  const found = oRing({ cordDiameter: 2.62e-3, grooveDepth: 2.1e-3, grooveWidth: 3.6e-3 })
  expect(found.squeeze).toBeCloseTo(0.198, 3)
  expect(found.fill).toBeCloseTo(0.713, 3)
  expect(outOfRange(oRingMethod.valid, { ...found })).toEqual([])
})

it('keeps the volume of a stretched ring', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 0.2, noNaN: true }), (stretch) => {
      const found = oRing({
        cordDiameter: 2.4e-3,
        grooveDepth: 1.8e-3,
        grooveWidth: 3.2e-3,
        ringDiameter: 0.05,
        grooveInnerDiameter: 0.05 * (1 + stretch),
      })
      return (
        Math.abs(found.stretchedCord ** 2 * (1 + stretch) - 2.4e-3 ** 2) < 1e-17 &&
        Math.abs(found.stretch! - stretch) < 1e-12
      )
    }),
  )
})

it('loses squeeze and fill to a gap, and says when the ring does not touch', () => {
  const at = (gap: number) => oRing({ cordDiameter: 2.4e-3, grooveDepth: 1.8e-3, grooveWidth: 3.2e-3, gap })
  expect(at(2e-4).squeeze).toBeLessThan(at(0).squeeze)
  expect(at(2e-4).fill).toBeLessThan(at(0).fill)
  expect(outOfRange(oRingMethod.valid, { ...at(1e-3) })).toContain('squeeze')
})

it('refuses one diameter without the other', () => {
  expect(() => oRing({ cordDiameter: 2e-3, grooveDepth: 1.5e-3, grooveWidth: 3e-3, ringDiameter: 0.05 })).toThrow(
    DomainError,
  )
})
