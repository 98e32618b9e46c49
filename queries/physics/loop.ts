import { barSelfInductance } from './bar-inductance.ts'
import { fold, gradedIntegral } from './bar-mutual-graded.ts'
import { MAGNETIC_CONSTANT, NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import { parallelMutual } from './bar-mutual-parallel.ts'
import { axialEnds, parallelIntegral } from './filament-mutual.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'
import { doubleExponential, legendre } from './quadrature.ts'
import type { WireInductance } from './round-wire.ts'
import { wireInductance } from './round-wire.ts'

export type LoopInductance = {
  /** Bundle of closed filaments with mitred corners [H]. */
  readonly mitred: number
  /** Sum of the partial inductances of four sides from corner to corner of the centre line [H]. */
  readonly partialSum: number
}

export type BarRectangleInputs = { sideA: number; sideB: number; widthInPlane: number; widthAcross: number }

/**
 * Inductance of a closed rectangle of bar, evenly spread current (low frequency), in two ways that differ at the
 * corners only: as mitred filaments, each a closed rectangle of its own, and as the sum of the four partial inductances
 * with their mutuals. The difference says how much the corners matter.
 *
 * @param sideA, sideB between centre lines [m], each more than widthInPlane
 * @param widthInPlane of the bar, in the plane of the loop [m], > 0
 * @param widthAcross  of the bar, at right angles to it [m], > 0
 * @throws {DomainError} on a size of zero or less, or sides that would overlap
 *
 * @example barRectangle({ sideA: 0.1, sideB: 0.06, widthInPlane: 0.01, widthAcross: 0.002 }).partialSum // 166.59e-9
 */
export function barRectangle(inputs: BarRectangleInputs): LoopInductance {
  const { sideA, sideB, widthInPlane, widthAcross } = inputs
  for (const [name, value] of Object.entries(inputs)) requirePositive('barRectangle', name, value)
  requireRoom('barRectangle', sideA, sideB, widthInPlane)
  const section = { width: widthInPlane, thickness: widthAcross }
  const opposite = (length: number, distance: number): number =>
    parallelMutual({
      x: { first: widthInPlane, second: widthInPlane, offset: distance },
      y: { first: widthAcross, second: widthAcross, offset: 0 },
      z: { first: length, second: length, offset: 0 },
    })
  const partialSum =
    2 *
    (barSelfInductance({ ...section, length: sideA }) +
      barSelfInductance({ ...section, length: sideB }) -
      opposite(sideA, sideB) -
      opposite(sideB, sideA))
  return { partialSum, mitred: mitredBar(inputs) }
}

function requireRoom(method: string, sideA: number, sideB: number, width: number): void {
  if (!(sideA > width)) throw new DomainError(method, 'sideA', sideA, 'more than the bar is wide')
  if (!(sideB > width)) throw new DomainError(method, 'sideB', sideB, 'more than the bar is wide')
}

const MIDDLE_NODES = 8

/** Mean over pairs of filaments, by how far they lie apart in the plane and across, and by where their middle lies. */
function mitredBar({ sideA, sideB, widthInPlane, widthAcross }: BarRectangleInputs): number {
  const rule = legendre(MIDDLE_NODES)
  return (
    NEUMANN_FACTOR *
    gradedIntegral({
      x: fold({ first: widthInPlane, second: widthInPlane, offset: 0 }),
      y: fold({ first: widthAcross, second: widthAcross, offset: 0 }),
      kernel: (_rho, inPlane, across) => {
        let sum = 0
        for (let k = 0; k < MIDDLE_NODES; k++) {
          const middle = ((rule.nodes[k] as number) - 0.5) * (widthInPlane - inPlane)
          sum +=
            (rule.weights[k] as number) * rectangles({ a: sideA + 2 * middle, b: sideB + 2 * middle, inPlane, across })
        }
        return sum
      },
    })
  )
}

/** Neumann integral of two concentric rectangular filaments: mean sides a and b, one larger by `inPlane` all round. */
function rectangles({ a, b, inPlane, across }: { a: number; b: number; inPlane: number; across: number }): number {
  return 2 * (facing(a, b, inPlane, across) + facing(b, a, inPlane, across))
}

/** Sides along `along` of the two rectangles: those beside each other, less those across the loop. */
function facing(along: number, distance: number, inPlane: number, across: number): number {
  const ends = axialEnds({ firstLength: along + inPlane, secondLength: along - inPlane, start: inPlane })
  return parallelIntegral(ends, Math.hypot(inPlane, across)) - parallelIntegral(ends, Math.hypot(distance, across))
}

export type WireRectangleInputs = { sideA: number; sideB: number; radius: number }

/**
 * Inductance of a closed rectangle of round wire, evenly spread current (low frequency), as mitred filaments and as the
 * sum of four partial inductances. The mitred one takes filament pairs at the mean size of the loop: left out are terms
 * of (radius/side)².
 *
 * @param sideA, sideB between wire axes [m], each more than twice the radius
 * @param radius       of the wire [m], > 0
 * @throws {DomainError} on a size of zero or less, or sides that would overlap
 *
 * @example wireRectangle({ sideA: 0.1, sideB: 0.06, radius: 1e-3 }).mitred // 243.7e-9
 */
export function wireRectangle({ sideA, sideB, radius }: WireRectangleInputs): LoopInductance {
  requirePositive('wireRectangle', 'radius', radius)
  requireRoom('wireRectangle', sideA, sideB, 2 * radius)
  const opposite = (length: number, distance: number): number =>
    NEUMANN_FACTOR * parallelIntegral(axialEnds({ firstLength: length, secondLength: length, start: 0 }), distance)
  const self = (length: number): number => wireInductance({ length, radius }).lowFrequency
  const partialSum = 2 * (self(sideA) + self(sideB) - opposite(sideA, sideB) - opposite(sideB, sideA))
  return { partialSum, mitred: mitredWire({ sideA, sideB, radius }) }
}

const ANGLES = 16

function mitredWire({ sideA, sideB, radius }: WireRectangleInputs): number {
  const { nodes, weights } = doubleExponential()
  const turns = legendre(ANGLES)
  let sum = 0
  for (const [i, u] of nodes.entries()) {
    const angle = (Math.PI / 2) * u
    const [sine, cosine] = [Math.sin(angle), Math.cos(angle)]
    const density = (16 / Math.PI) * sine * cosine * (Math.PI / 2 - angle - sine * cosine)
    const distance = 2 * radius * sine
    let ring = 0
    for (let k = 0; k < ANGLES; k++) {
      const turn = ((turns.nodes[k] as number) * Math.PI) / 2
      const apart = { inPlane: distance * Math.cos(turn), across: distance * Math.sin(turn) }
      ring += (turns.weights[k] as number) * rectangles({ a: sideA, b: sideB, ...apart })
    }
    sum += (Math.PI / 2) * (weights[i] as number) * density * ring
  }
  return NEUMANN_FACTOR * sum
}

export type CircleInputs = { loopRadius: number; radius: number }

/**
 * Inductance of a circle of round wire, radius small against the loop: µ₀ R (ln(8R/a) − 7/4) at low frequency (current
 * all through the wire), − 2 at high frequency (in the skin). Left out are terms of (a/R)².
 *
 * @param loopRadius R to the wire axis [m], > a
 * @param radius     a of the wire [m], > 0
 * @throws {DomainError} on a radius of zero or less, or a wire thicker than the loop
 *
 * @example wireCircle({ loopRadius: 0.05, radius: 1e-3 }).lowFrequency // 266.5e-9
 */
export function wireCircle({ loopRadius, radius }: CircleInputs): WireInductance {
  requirePositive('wireCircle', 'radius', radius)
  if (!(loopRadius > radius))
    throw new DomainError('wireCircle', 'loopRadius', loopRadius, 'more than that of the wire')
  const log = Math.log((8 * loopRadius) / radius)
  const factor = MAGNETIC_CONSTANT * loopRadius
  return { lowFrequency: factor * (log - 1.75), highFrequency: factor * (log - 2) }
}

const SIDES = {
  sideA: { unit: 'm', about: 'one side, between centre lines' },
  sideB: { unit: 'm', about: 'the other side, between centre lines' },
} as const
const RECTANGLE_GIVES = {
  mitred: { unit: 'H', print: 'nH', about: 'closed filaments with mitred corners' },
  partialSum: { unit: 'H', print: 'nH', about: 'sum of the partial inductances of four sides, corners counted twice' },
} as const

export const barRectangleMethod = defineMethod<BarRectangleInputs, LoopInductance>({
  id: 'bar-rectangle',
  title: 'Inductance of a closed rectangle of bar, slow current',
  takes: {
    ...SIDES,
    widthInPlane: { unit: 'm', about: 'of the bar, in the plane of the loop' },
    widthAcross: { unit: 'm', about: 'of the bar, at right angles to the plane' },
  },
  gives: RECTANGLE_GIVES,
  sources: ['mean of the Neumann integral over pairs of closed filaments, and sum of exact partial inductances'],
  compute: barRectangle,
})

export const wireRectangleMethod = defineMethod<WireRectangleInputs, LoopInductance>({
  id: 'wire-rectangle',
  title: 'Inductance of a closed rectangle of round wire, slow current',
  takes: { ...SIDES, radius: { unit: 'm', about: 'radius of the wire' } },
  gives: RECTANGLE_GIVES,
  sources: [
    'mean of the Neumann integral over pairs of closed filaments; F. W. Grover, Inductance Calculations, 1946, gives a ' +
      'closed form 0.2 % lower at 100 × 60 × 1 mm (from memory)',
  ],
  compute: wireRectangle,
})

export const wireCircleMethod = defineMethod<CircleInputs, WireInductance>({
  id: 'wire-circle',
  title: 'Inductance of a circle of round wire',
  takes: {
    loopRadius: { unit: 'm', about: 'of the circle, to the wire axis' },
    radius: { unit: 'm', about: 'radius of the wire' },
  },
  gives: {
    lowFrequency: { unit: 'H', print: 'nH', about: 'current all through the wire' },
    highFrequency: { unit: 'H', print: 'nH', about: 'current in the skin' },
  },
  sources: ['elliptic integrals of coaxial circles for a thin wire (textbook)'],
  compute: wireCircle,
})

export const loopMethods = [barRectangleMethod, wireRectangleMethod, wireCircleMethod] as const
