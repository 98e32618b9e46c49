import type { Bar } from './bar.ts'
import type { BarSelfInputs } from './bar-inductance.ts'
import { barSelfInductance, mutual } from './bar-inductance.ts'
import { NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import { axialEnds, parallelIntegral } from './filament-mutual.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type BarMutualInputs = {
  firstWidth: number
  firstThickness: number
  firstLength: number
  secondWidth: number
  secondThickness: number
  secondLength: number
  startAlong: number
  startAcross: number
  startThrough: number
  angle?: number
}

/**
 * Mutual partial inductance of two bars that lie flat, the second in any position and turned by an angle in its plane.
 *
 * @param first…, second… sides of the bars [m], > 0
 * @param startAlong, startAcross, startThrough from the middle of the start face of the first bar to that of the
 *   second,
 *   along the first bar, across its wide face, and through it [m]
 * @param angle by which the second bar turns away from the first, about its own start, from along to across [rad]; 0 if
 *   left out
 * @returns [H]
 * @throws {DomainError} on a side of zero or less
 *
 * @example
 * barMutualInductance({ firstWidth: 0.02, firstThickness: 0.002, firstLength: 0.1, secondWidth: 0.02,
 *   secondThickness: 0.002, secondLength: 0.1, startAlong: 0, startAcross: 0, startThrough: 0.0025 }) // 50.838e-9
 */
export function barMutualInductance(inputs: BarMutualInputs): number {
  const { firstLength, secondLength, startAlong, startAcross, startThrough, angle = 0 } = inputs
  for (const name of SIDES) requirePositive('barMutualInductance', name, inputs[name])
  const first: Bar = {
    start: [0, 0, 0],
    end: [firstLength, 0, 0],
    width: inputs.firstWidth,
    thickness: inputs.firstThickness,
    flat: [0, 0, 1],
  }
  // Multiples of a right angle are meant exactly: their sine or cosine must not be left at 10⁻¹⁶.
  const clean = (value: number): number => (Math.abs(value) < 1e-15 ? 0 : value)
  const second: Bar = {
    start: [startAlong, startAcross, startThrough],
    end: [
      startAlong + secondLength * clean(Math.cos(angle)),
      startAcross + secondLength * clean(Math.sin(angle)),
      startThrough,
    ],
    width: inputs.secondWidth,
    thickness: inputs.secondThickness,
    flat: [0, 0, 1],
  }
  return mutual(first, second)
}

const SIDES = ['firstWidth', 'firstThickness', 'firstLength', 'secondWidth', 'secondThickness', 'secondLength'] as const

export type FilamentInputs = { firstLength: number; secondLength: number; distance: number; startAlong: number }

/**
 * Mutual partial inductance of two parallel straight filaments, exact: M = µ₀/4π Σ± (z asinh(z/ρ) − √(z² + ρ²)).
 *
 * @param firstLength, secondLength [m], > 0
 * @param distance   between their lines [m], ≥ 0; 0 only where they do not overlap
 * @param startAlong from the start of the first to the start of the second, along them [m]
 * @returns [H]
 * @throws {DomainError} on a length of zero or less, or overlapping filaments on one line
 *
 * @example filamentMutualInductance({ firstLength: 0.1, secondLength: 0.1, distance: 0.01, startAlong: 0 }) // 41.865e-9
 */
export function filamentMutualInductance({ firstLength, secondLength, distance, startAlong }: FilamentInputs): number {
  requirePositive('filamentMutualInductance', 'firstLength', firstLength)
  requirePositive('filamentMutualInductance', 'secondLength', secondLength)
  requireNonNegative('filamentMutualInductance', 'distance', distance)
  const ends = axialEnds({ firstLength, secondLength, start: startAlong })
  if (distance === 0 && !ends.apart) {
    throw new DomainError('filamentMutualInductance', 'distance', distance, 'above 0 where the filaments overlap')
  }
  return NEUMANN_FACTOR * parallelIntegral(ends, distance)
}

const SOURCE =
  'C. Hoer, C. Love, "Exact inductance equations for rectangular conductors with applications to more complicated ' +
  'geometries", J. Res. NBS 69C (1965) 127-137 (from memory), and the same integral without cancelling terms'

export const barSelf = defineMethod<BarSelfInputs, { self: number }>({
  id: 'bar-self-inductance',
  title: 'Partial self inductance of a straight rectangular bar',
  takes: {
    width: { unit: 'm', about: 'one side of the section' },
    thickness: { unit: 'm', about: 'other side of the section' },
    length: { unit: 'm', about: 'length along the current' },
  },
  gives: { self: { unit: 'H', print: 'nH', about: 'evenly spread current; one bar is not a loop' } },
  sources: [SOURCE],
  compute: (inputs) => ({ self: barSelfInductance(inputs) }),
})

export const barMutual = defineMethod<BarMutualInputs, { mutual: number }>({
  id: 'bar-mutual-inductance',
  title: 'Partial mutual inductance of two straight rectangular bars',
  takes: {
    firstWidth: { unit: 'm', about: 'width of the first bar' },
    firstThickness: { unit: 'm', about: 'thickness of the first bar' },
    firstLength: { unit: 'm', about: 'length of the first bar or filament' },
    secondWidth: { unit: 'm', about: 'width of the second bar' },
    secondThickness: { unit: 'm', about: 'thickness of the second bar' },
    secondLength: { unit: 'm', about: 'length of the second bar or filament' },
    startAlong: { unit: 'm', about: 'from start to start, along the first' },
    startAcross: { unit: 'm', about: 'from middle line to middle line at their starts, across the first bar' },
    startThrough: { unit: 'm', about: 'from middle line to middle line at their starts, through the first bar' },
    angle: {
      unit: 'rad',
      optional: true,
      about: 'turn of the second bar in its plane, about its start; 0 if left out',
    },
  },
  gives: { mutual: { unit: 'H', print: 'nH', about: 'evenly spread current; 0 at right angles' } },
  sources: [SOURCE],
  compute: (inputs) => ({ mutual: barMutualInductance(inputs) }),
})

export const filamentMutual = defineMethod<FilamentInputs, { mutual: number }>({
  id: 'filament-mutual-inductance',
  title: 'Partial mutual inductance of two parallel filaments',
  takes: {
    firstLength: { unit: 'm', about: 'length of the first bar or filament' },
    secondLength: { unit: 'm', about: 'length of the second bar or filament' },
    distance: { unit: 'm', about: 'between their lines' },
    startAlong: { unit: 'm', about: 'from start to start, along the first' },
  },
  gives: { mutual: { unit: 'H', print: 'nH', about: 'mutual partial inductance' } },
  sources: ['Neumann integral of two parallel filaments; F. W. Grover, Inductance Calculations, 1946 (from memory)'],
  compute: (inputs) => ({ mutual: filamentMutualInductance(inputs) }),
})

export const barMethods = [barSelf, barMutual, filamentMutual] as const
