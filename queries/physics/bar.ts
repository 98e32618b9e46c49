import { DomainError, requirePositive } from './method.ts'

/** A point or a direction in space. */
export type Vector = readonly [number, number, number]

/** A straight bar of rectangular section, placed in space by the middle line of its metal [m]. */
export interface Bar {
  readonly start: Vector
  readonly end: Vector
  /** Long side of the section, across the run and along the wide face [m]. */
  readonly width: number
  /** Other side of the section, along `flat` [m]. */
  readonly thickness: number
  /** Unit vector normal to the wide face, at right angles to the run. */
  readonly flat: Vector
}

/** A bar's own directions: along the run, across the wide face, normal to it. */
export interface Frame {
  readonly middle: Vector
  readonly along: Vector
  readonly across: Vector
  readonly normal: Vector
  readonly length: number
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

export function minus(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/** a + factor · b */
export function plus(a: Vector, b: Vector, factor = 1): Vector {
  return [a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]]
}

export function norm(a: Vector): number {
  return Math.hypot(a[0], a[1], a[2])
}

/** Largest cosine between run and `flat` that still counts as a right angle. */
const SQUARE = 1e-6

/**
 * @throws {DomainError} on a bar without length, width or thickness, or whose `flat` is not at right angles to its run
 */
export function frameOf(bar: Bar): Frame {
  requirePositive('bar', 'width', bar.width)
  requirePositive('bar', 'thickness', bar.thickness)
  const run = minus(bar.end, bar.start)
  const length = norm(run)
  if (!(length > 0) || !Number.isFinite(length)) {
    throw new DomainError('bar', 'end', bar.end.join(' / '), 'a point other than the start')
  }
  const along = plus([0, 0, 0], run, 1 / length)
  const size = norm(bar.flat)
  const lean = dot(bar.flat, along) / size
  if (!(Math.abs(lean) <= SQUARE)) {
    throw new DomainError('bar', 'flat', bar.flat.join(' / '), 'a direction at right angles to the run')
  }
  const upright = plus(plus([0, 0, 0], bar.flat, 1 / size), along, -lean)
  const normal = plus([0, 0, 0], upright, 1 / norm(upright))
  return { middle: plus(bar.start, run, 0.5), along, across: cross(normal, along), normal, length }
}
