import type { Kind } from './unit-table.ts'

/** Exponents over the axes of the unit table, in its order. */
export type Exponents = readonly number[]

/** A unit of measure: how it is written, and what one of it is in SI. */
export interface Unit {
  /** Customary symbol, as printed: `W/(m·K)`. */
  readonly symbol: string
  /** UCUM code: `W/(m.K)`; null for a gauge number, which has none. */
  readonly code: string | null
  /** SI value = number · factor + offset [SI unit]. */
  readonly factor: number
  /** Set when `factor` is exactly ten to this power: numbers are then shifted, not multiplied, and stay exact. */
  readonly ten: number | null
  readonly offset: number
  readonly exponents: Exponents
  readonly kind?: Kind
  /** American wire gauge: the number stands for a diameter on a geometric scale. */
  readonly gauge?: true
  /** What was doubtful in the way it was written. */
  readonly warning?: string
}

/** Why a unit could not be read, and what mends it. */
export interface UnitProblem {
  readonly what: string
  readonly mend: string
  readonly suggest?: string
}

export type UnitReading = { readonly ok: true; readonly unit: Unit } | ({ readonly ok: false } & UnitProblem)

/** A unit that cannot be read, or two that cannot be converted. */
export class UnitError extends Error {
  readonly what: string
  readonly mend: string

  constructor({ what, mend }: UnitProblem) {
    super(`${what}: ${mend}`)
    this.name = 'UnitError'
    this.what = what
    this.mend = mend
  }
}

/** One factor of a product: a (prefixed) atom, a number or a note in braces, to a power. */
export interface Factor {
  readonly code: string
  /** Customary symbol; null when there is none, and the whole unit is then printed as its code. */
  readonly symbol: string | null
  readonly exponent: number
  readonly value: Scale
}

/** What one of something is in SI. */
export interface Scale {
  readonly factor: number
  readonly ten: number | null
  readonly offset: number
  readonly exponents: Exponents
}

/** American wire gauge n: d = 0.005 in · 92^((36−n)/39) [m]. Source: ASTM B258, from memory. */
function gaugeDiameter(gauge: number): number {
  return 1.27e-4 * 92 ** ((36 - gauge) / 39)
}

/** A number in `unit` as SI. On a power of ten the decimal point is moved in the text, so that 12.4 mm is the double nearest 0.0124. */
export function toSI(value: number, unit: Unit): number {
  if (unit.gauge) return gaugeDiameter(value)
  if (unit.offset !== 0) return tidy(shift(value, unit) + unit.offset)
  return shift(value, unit)
}

/** An SI number in `unit`. */
export function fromSI(value: number, unit: Unit): number {
  if (unit.gauge) return 36 - (39 * Math.log(value / 1.27e-4)) / Math.log(92)
  const above = unit.offset === 0 ? value : tidy(value - unit.offset)
  return unit.ten === null ? above / unit.factor : movePoint(above, -unit.ten)
}

/** A width (difference) in `unit` as SI: never offset. */
export function widthToSI(value: number, unit: Unit): number {
  return shift(value, unit)
}

/** An SI width (difference) in `unit`. */
export function widthFromSI(value: number, unit: Unit): number {
  return unit.ten === null ? value / unit.factor : movePoint(value, -unit.ten)
}

/** An offset of two decimals leaves its last bit behind: 233.15 − 273.15 is −40. */
const tidy = (value: number): number => Number(value.toPrecision(14))

function shift(value: number, unit: Unit): number {
  return unit.ten === null ? value * unit.factor : movePoint(value, unit.ten)
}

/** Moves the decimal point of a number in its text: the double nearest to the moved decimal. */
export function movePoint(value: number, places: number): number {
  if (places === 0 || value === 0 || !Number.isFinite(value)) return value
  const text = String(value)
  const e = text.indexOf('e')
  return e < 0 ? Number(`${text}e${places}`) : Number(`${text.slice(0, e)}e${Number(text.slice(e + 1)) + places}`)
}
