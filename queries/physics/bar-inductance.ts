import type { Bar, Frame } from './bar.ts'
import { cross, dot, frameOf, minus, norm } from './bar.ts'
import type { ParallelPair } from './bar-mutual-pair.ts'
import { parallelMutual } from './bar-mutual-parallel.ts'
import { skewMutual } from './bar-mutual-skew.ts'

/**
 * Self partial inductance of a straight rectangular bar with evenly spread current, exact volume integral.
 * One bar is not a loop: only sums over a closed path can be measured.
 *
 * @param bar [m]
 * @returns [H]
 * @throws {DomainError} on a bar without extent, or a `flat` that is not at right angles to its run
 *
 * @example self({ start: [0, 0, 0], end: [0.1, 0, 0], width: 0.02, thickness: 0.002, flat: [0, 0, 1] }) // 55.424e-9
 */
export function self(bar: Bar): number {
  return barSelfInductance({ width: bar.width, thickness: bar.thickness, length: frameOf(bar).length })
}

/**
 * Mutual partial inductance of two straight bars anywhere in space, evenly spread current, positive when both currents
 * (start to end) run the same way. Exactly 0 at right angles.
 *
 * Parallel bars whose sections are parallel or turned by 90°: exact volume integral, within 10⁻¹¹ (relative).
 * Other angles: cut into blocks and refined; see skewMutual for how far it got.
 *
 * @param first  [m]
 * @param second [m]
 * @returns [H]
 * @throws {DomainError} on a bar without extent, or a `flat` that is not at right angles to its run
 *
 * @example mutual(bar, bar) // self(bar)
 */
export function mutual(first: Bar, second: Bar): number {
  return mutualOfFramed({ bar: first, frame: frameOf(first) }, { bar: second, frame: frameOf(second) })
}

/** A bar with its directions worked out once. */
export interface FramedBar {
  readonly bar: Bar
  readonly frame: Frame
}

/** Sines below this count as parallel (bars of a metre are then 1 nm off). */
export const PARALLEL = 1e-9

/** {@link mutual} of framed bars, to a relative error that is wanted of parallel ones [1]. */
export function mutualOfFramed(a: FramedBar, b: FramedBar, error?: number): number {
  const cosine = dot(a.frame.along, b.frame.along)
  if (Math.abs(cosine) < PARALLEL) return 0
  const aligned = parallelPair(a, b)
  if (aligned) return Math.sign(cosine) * parallelMutual(aligned, error)
  return skewMutual({ ...a.bar, frame: a.frame }, { ...b.bar, frame: b.frame }).inductance
}

/** Sizes and offsets in the directions of the first [m]; null where the edges are not parallel. A section turned by 90° has width and thickness change places. */
export function parallelPair(a: FramedBar, b: FramedBar): ParallelPair | null {
  const turned = Math.abs(dot(a.frame.normal, b.frame.across)) > 0.5
  const slant = norm(cross(a.frame.normal, turned ? b.frame.across : b.frame.normal))
  if (slant > PARALLEL || norm(cross(a.frame.along, b.frame.along)) > PARALLEL) return null
  const between = minus(b.frame.middle, a.frame.middle)
  const [wide, deep] = turned ? [b.bar.thickness, b.bar.width] : [b.bar.width, b.bar.thickness]
  return {
    x: { first: a.bar.width, second: wide, offset: dot(between, a.frame.across) },
    y: { first: a.bar.thickness, second: deep, offset: dot(between, a.frame.normal) },
    z: { first: a.frame.length, second: b.frame.length, offset: dot(between, a.frame.along) },
  }
}

export type BarSelfInputs = { width: number; thickness: number; length: number }

/** {@link self} from the three sides [m] alone. */
export function barSelfInductance({ width, thickness, length }: BarSelfInputs): number {
  return parallelMutual({
    x: { first: width, second: width, offset: 0 },
    y: { first: thickness, second: thickness, offset: 0 },
    z: { first: length, second: length, offset: 0 },
  })
}
