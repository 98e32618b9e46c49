import { MAGNETIC_CONSTANT, NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import type { AxialEnds } from './filament-mutual.ts'
import { axialEnds, parallelIntegral } from './filament-mutual.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'
import { doubleExponential } from './quadrature.ts'

export type WireInputs = { length: number; radius: number }
export type WireInductance = { readonly lowFrequency: number; readonly highFrequency: number }

/**
 * Self partial inductance of a straight round wire: mean of the two-filament integral over the distances s between two
 * points of the disc (current all through it), or of its rim (current in the skin):
 *
 *     p_disc(s) = 4s/(πa²) (arccos(s/2a) − (s/2a) √(1 − s²/4a²)),   p_rim(s) = 2/(π √(4a² − s²))
 *
 * For long wires this comes to Rosa's (µ₀l/2π)(ln(2l/a) − 3/4), and − 1.
 *
 * @param length [m], > 0
 * @param radius [m], > 0
 * @throws {DomainError} on a length or radius of zero or less
 *
 * @example wireInductance({ length: 0.1, radius: 1e-3 }) // { lowFrequency: 91.147e-9, highFrequency: 86.220e-9 }
 */
export function wireInductance({ length, radius }: WireInputs): WireInductance {
  requirePositive('wireInductance', 'length', length)
  requirePositive('wireInductance', 'radius', radius)
  const ends = axialEnds({ firstLength: length, secondLength: length, start: 0 })
  return {
    lowFrequency: NEUMANN_FACTOR * discMean(ends, radius),
    highFrequency: NEUMANN_FACTOR * rimMean(ends, radius),
  }
}

function discMean(ends: AxialEnds, radius: number): number {
  return meanOverAngle((angle) => {
    const [sine, cosine] = [Math.sin(angle), Math.cos(angle)]
    // s = 2a sin: density in the angle is (16/π) sin cos (π/2 − angle − sin cos)
    const density = (16 / Math.PI) * sine * cosine * (Math.PI / 2 - angle - sine * cosine)
    return density * parallelIntegral(ends, 2 * radius * sine)
  })
}

function rimMean(ends: AxialEnds, radius: number): number {
  return meanOverAngle((angle) => (2 / Math.PI) * parallelIntegral(ends, 2 * radius * Math.sin(angle)))
}

function meanOverAngle(value: (angle: number) => number): number {
  const { nodes, weights } = doubleExponential()
  const quarter = Math.PI / 2
  return nodes.reduce((sum, u, i) => sum + quarter * (weights[i] as number) * value(quarter * u), 0)
}

export type TwoWireInputs = { radius: number; centreDistance: number }
export type TwoWireInductance = {
  /** Current all through the wires [H/m]. */
  readonly lowFrequencyPerLength: number
  /** Current on the surfaces [H/m]. */
  readonly highFrequencyPerLength: number
}

/**
 * Go-and-return inductance per length of two equal parallel round wires, exact:
 *
 *     slow current (µ₀/π)(ln(D/a) + 1/4),   fast current (µ₀/π) arcosh(D/2a)   (proximity included)
 *
 * @param radius         a of each wire [m], > 0
 * @param centreDistance D between the axes [m], > 2a
 * @returns [H/m]
 * @throws {DomainError} on wires that touch, or a radius of zero or less
 *
 * @example twoWireInductance({ radius: 1e-3, centreDistance: 0.01 }).highFrequencyPerLength // 916.97e-9
 */
export function twoWireInductance({ radius, centreDistance }: TwoWireInputs): TwoWireInductance {
  requirePositive('twoWireInductance', 'radius', radius)
  if (!(centreDistance > 2 * radius) || !Number.isFinite(centreDistance)) {
    throw new DomainError('twoWireInductance', 'centreDistance', centreDistance, 'more than twice the radius')
  }
  const factor = MAGNETIC_CONSTANT / Math.PI
  return {
    lowFrequencyPerLength: factor * (Math.log(centreDistance / radius) + 0.25),
    highFrequencyPerLength: factor * Math.acosh(centreDistance / (2 * radius)),
  }
}

const WIRE = { radius: { unit: 'm', about: 'radius of the wire' } } as const

export const wireSelf = defineMethod<WireInputs, WireInductance>({
  id: 'wire-self-inductance',
  title: 'Partial inductance of a straight round wire',
  takes: { ...WIRE, length: { unit: 'm', about: 'length of the wire' } },
  gives: {
    lowFrequency: { unit: 'H', print: 'nH', about: 'current all through the wire' },
    highFrequency: { unit: 'H', print: 'nH', about: 'current in the skin' },
  },
  sources: [
    'mean of the two-filament integral over the distances in a disc and on its rim; long wire: E. B. Rosa, ' +
      '"The self and mutual inductances of linear conductors", Bull. Bur. Standards 4 (1908) 301-344 (from memory)',
  ],
  compute: wireInductance,
})

export const twoWireLine = defineMethod<TwoWireInputs, TwoWireInductance>({
  id: 'two-wire-line',
  title: 'Inductance of two parallel round wires, per length',
  takes: { ...WIRE, centreDistance: { unit: 'm', about: 'distance between the axes' } },
  gives: {
    lowFrequencyPerLength: { unit: 'H/m', print: 'nH/m', about: 'current all through the wires' },
    highFrequencyPerLength: { unit: 'H/m', print: 'nH/m', about: 'current on the surfaces, proximity included' },
  },
  sources: ['two-dimensional field of two cylinders (textbook)'],
  compute: twoWireInductance,
})

export const roundWireMethods = [wireSelf, twoWireLine] as const
