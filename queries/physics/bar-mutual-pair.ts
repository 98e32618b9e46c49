import type { AxialEnds } from './filament-mutual.ts'
import { axialEnds } from './filament-mutual.ts'

/** One axis of a pair of boxes: their sizes and the distance from middle to middle [m]. */
export interface Span {
  readonly first: number
  readonly second: number
  readonly offset: number
}

/** Two bars with parallel edges: across (x, y) and along (z, the direction of current). */
export interface ParallelPair {
  readonly x: Span
  readonly y: Span
  readonly z: Span
}

/** Magnetic constant [H/m]: 4π·10⁻⁷, from which the measured value differs by 1 part in 10¹⁰. */
export const MAGNETIC_CONSTANT = 4e-7 * Math.PI
/** µ₀/4π [H/m]. */
export const NEUMANN_FACTOR = 1e-7

/** Clear distance between two intervals, 0 if they touch or overlap [m]. */
export function clearance({ first, second, offset }: Span): number {
  return Math.max(0, Math.abs(offset) - (first + second) / 2)
}

/** Shortest distance between the two boxes [m]. */
export function boxDistance({ x, y, z }: ParallelPair): number {
  return Math.hypot(clearance(x), clearance(y), clearance(z))
}

export function endsOf({ first, second, offset }: Span): AxialEnds {
  return axialEnds({ firstLength: first, secondLength: second, start: offset + (first - second) / 2 })
}

/**
 * Nodes per axis of a Gauss rule that bring the relative error to about `error`: the integrand has its nearest
 * singularity at `distance` from an interval of half-width `half`, and errors fall as ellipse^(−2·nodes).
 */
export function nodesFor(inputs: { distance: number; half: number; error: number }): number {
  const q = inputs.distance / inputs.half
  const ellipse = q + Math.sqrt(1 + q * q)
  return Math.max(1, Math.ceil(-Math.log(inputs.error) / (2 * Math.log(ellipse))))
}
