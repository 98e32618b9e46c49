import fc from 'fast-check'
import { expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { findRoot } from '../../../queries/physics/root.ts'

it('finds known roots to machine precision', () => {
  // √2, the Dottie number (from memory) and the root of a cubic by construction.
  expect(findRoot((x) => x * x - 2, { low: 0, high: 2 })).toBeCloseTo(Math.SQRT2, 14)
  expect(findRoot((x) => Math.cos(x) - x, { low: 0, high: 1 })).toBeCloseTo(0.7390851332151607, 14)
})

it('needs few evaluations for smooth, bent and stepped functions', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 0.999, noNaN: true }), fc.constantFrom(0.2, 1, 1.75, 9), (root, power) => {
      let calls = 0
      const found = findRoot(
        (x) => {
          calls++
          return x ** power - root ** power
        },
        { low: 0, high: 1 },
      )
      return Math.abs(found - root) < 1e-12 && calls < 80
    }),
  )
  let steps = 0
  expect(
    findRoot(
      (x) => {
        steps++
        return x < 0.3 ? -1 : 1
      },
      { low: 0, high: 1 },
    ),
  ).toBeCloseTo(0.3, 12)
  expect(steps).toBeLessThan(160)
})

it('returns a root at an end and refuses a bracket without a change of sign', () => {
  expect(findRoot((x) => x, { low: 0, high: 1 })).toBe(0)
  expect(() => findRoot((x) => x + 1, { low: 0, high: 1 })).toThrow(DomainError)
  expect(() => findRoot(() => Number.NaN, { low: 0, high: 1 })).toThrow(DomainError)
})
