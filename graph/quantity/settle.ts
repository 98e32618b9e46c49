import { copperLength } from './copper.ts'
import { type Dimension, dimensionOf, fieldOf, fits } from './dimension.ts'
import type { Item, Parts } from './layout.ts'
import type { NoteReading } from './note.ts'
import { ownOf } from './own.ts'
import { type Numbered, type Own, type Qualifier, refuse, type Wanted } from './reading.ts'
import type { Cursor } from './text.ts'
import { isShare, type Tolerance } from './tolerance.ts'
import { toSI, type Unit, widthToSI } from './unit.ts'
import { splitQualifier } from './unit-text.ts'
import { readUnit } from './units.ts'
import { mismatch, missingUnit, refuseSlip, unknownUnit } from './wrong-unit.ts'

/** A text taken apart, and what was asked for. */
export interface Job {
  readonly text: string
  readonly cursor: Cursor
  readonly parts: Parts
  readonly noteReading: NoteReading
  readonly wanted: Wanted
}

/** Units resolved, qualifier taken off, dimension known. */
export interface Settled extends Job {
  readonly unit: Unit
  readonly units: readonly Unit[]
  readonly dimension: Dimension | undefined
  readonly qualifier: Qualifier | undefined
  /** Tolerance by item, the last one's for all that have none. */
  readonly tolerances: readonly (Tolerance | null)[]
  /** A tolerance written with % that counts points of a value in %. */
  readonly points: boolean
  /** Own deviation of a copper weight that states none. */
  readonly fallback: Own | undefined
}

/** Resolves units, qualifier and tolerances against what the field asks for. */
export function settle(job: Job): Settled {
  const { parts, wanted, noteReading, cursor } = job
  const last = parts.items[parts.items.length - 1]!
  const dimension = wanted.kind === 'count' ? 'count' : wanted.kind === 'phase-current' ? 'current' : wanted.dimension
  const side = sideDimension(parts, dimension)
  const share = shareOrUnit(last, side, cursor.warnings)
  const { unit: written, qualifier: attached } = splitQualifier(share.unit, last.unitAt)
  const main = resolve(written, last.unitAt, side, job)
  const units = parts.items.map((item) =>
    item === last || item.unit === ''
      ? main.unit
      : resolve(splitQualifier(item.unit, item.unitAt).unit, item.unitAt, side, job).unit,
  )
  const named = dimension ?? dimensionOf(main.unit)
  const qualifier = checkedQualifier(attached ?? noteReading.qualifier, side ?? named, job)
  const tolerances = parts.items.map(
    ({ tolerance }) => tolerance ?? (parts.layout === 'box' || parts.layout === 'place' ? last.tolerance : null),
  )
  const { text } = job
  // Named one by one: a spread costs more than all the reading of a short text.
  return {
    text,
    cursor,
    parts,
    noteReading,
    wanted,
    unit: main.unit,
    units,
    dimension: named,
    qualifier,
    tolerances,
    points: share.points,
    fallback: main.fallback,
  }
}

/** Sides of an area or a volume are lengths. */
function sideDimension({ layout }: Parts, dimension: Dimension | undefined): Dimension | undefined {
  return layout === 'box' && (dimension === 'area' || dimension === 'volume') ? 'length' : dimension
}

/**
 * `97 ± 1 %` is (97 ± 1) %, `0.80 ± 10 %` is a pure number with a relative tolerance. The field decides; without one a
 * tolerance larger than the value can only be relative. Both are said.
 */
function shareOrUnit(
  { numeral, tolerance, unit }: Item,
  dimension: Dimension | undefined,
  warnings: string[],
): { unit: string; points: boolean } {
  if (tolerance === null || !isShare(tolerance.unit)) return { unit, points: false }
  if (unit === '%' && tolerance.unit === '%') {
    warnings.push(`"${tolerance.text}" of a value in % read as points of it`)
    return { unit, points: true }
  }
  if (unit !== '' || (dimension !== undefined && dimension !== 'fraction' && dimension !== 'one'))
    return { unit, points: false }
  const asPoints =
    dimension === 'fraction' || (dimension === undefined && Math.abs(tolerance.high) <= Math.abs(numeral.value))
  warnings.push(
    asPoints
      ? `"${numeral.text} ${tolerance.text}" read as a value in %, the tolerance in points of it`
      : `"${tolerance.text}" read as relative to the pure number ${numeral.text}`,
  )
  return { unit: asPoints ? tolerance.unit : '', points: asPoints }
}

function resolve(
  written: string,
  at: number,
  dimension: Dimension | undefined,
  { text, cursor, parts }: Job,
): { unit: Unit; fallback?: Own } {
  if (written === '' && dimension === undefined && parts.layout !== 'one' && parts.layout !== 'range') {
    refuse(at, `"${text}" has no unit`, 'add the unit behind the last number: mm')
  }
  if (written === '') return { unit: missingUnit(parts.items[parts.items.length - 1]!.numeral, dimension, at) }
  const copper = copperLength(written, dimension)
  if (copper) {
    cursor.warnings.push(copper.warning)
    return copper
  }
  const found = readUnit(written, dimension)
  if (!found.ok) {
    return unknownUnit(written, parts.items[parts.items.length - 1]!.numeral, found, at, dimension)
  }
  if (found.unit.warning !== undefined) cursor.warnings.push(found.unit.warning)
  refuseSlip(written, text, at)
  if (dimension !== undefined && !fits(found.unit, dimension)) mismatch(text, found.unit, dimension, at)
  return {
    unit: dimension === 'temperature-difference' && found.unit.offset !== 0 ? { ...found.unit, offset: 0 } : found.unit,
  }
}

const QUALIFIED: readonly (Dimension | undefined)[] = [
  'current',
  'voltage',
  'power',
  'apparent-power',
  'current-slope',
  'current-density',
]

function checkedQualifier(
  qualifier: Qualifier | undefined,
  dimension: Dimension | undefined,
  { text, wanted, cursor }: Job,
): Qualifier | undefined {
  if (qualifier !== undefined && !QUALIFIED.includes(dimension)) {
    refuse(
      0,
      `"${text}": ${qualifier} does not go with ${dimension ? fieldOf(dimension).name : 'this unit'}`,
      'leave it out',
    )
  }
  if (wanted.kind === 'phase-current' && (qualifier === undefined || qualifier === 'ac')) {
    cursor.warnings.push(`"${text}" read as an rms current; write A rms or A peak`)
    return 'rms'
  }
  return qualifier
}

/** What a written current is multiplied by to be stored as rms; voltages and powers stay as written. */
export function rmsFactor(qualifier: Qualifier | undefined, dimension: Dimension | undefined): number {
  if (dimension !== 'current' || qualifier === undefined) return 1
  return qualifier === 'peak' ? Math.SQRT1_2 : qualifier === 'peak-to-peak' ? Math.SQRT1_2 / 2 : 1
}

/** One number in SI with the deviation it states. */
export function numbered(settled: Settled, index: number): Numbered {
  const { numeral } = settled.parts.items[index]!
  const unit = settled.units[index]!
  const tolerance = settled.tolerances[index] ?? null
  const { note, spread } = settled.noteReading
  const toleranceUnit = tolerance ? unitOfTolerance(tolerance, unit, settled) : null
  const own = ownOf(numeral, tolerance, unit, toleranceUnit, { k: note.k, n: note.n, spread }) ?? settled.fallback
  const factor = rmsFactor(settled.qualifier, settled.dimension)
  const value = toSI(numeral.value, unit) * factor
  requireFinite(value, numeral.text, unit)
  const step = numeral.place === null || unit.gauge ? undefined : widthToSI(10 ** numeral.place, unit) * factor
  return {
    value,
    digits: numeral.digits,
    ...(own && { own: scaled(own, factor) }),
    ...(step !== undefined && { step }),
  }
}

function requireFinite(value: number, text: string, unit: Unit): void {
  if (!Number.isFinite(value))
    refuse(0, `"${text} ${unit.symbol}" is not a finite number in SI`, 'check the number and its unit')
}

export function scaled(own: Own, factor: number): Own {
  if (factor === 1 || own.mode === 'scale') return own
  const { shape } = own
  return {
    ...own,
    shape:
      'u' in shape
        ? { ...shape, u: shape.u * factor }
        : { ...shape, low: shape.low * factor, high: shape.high * factor },
  }
}

/** Null: a share of the value. */
function unitOfTolerance(tolerance: Tolerance, unit: Unit, { points, cursor }: Settled): Unit | null {
  if (points) return unit
  if (isShare(tolerance.unit)) return null
  if (tolerance.unit === '') return unit
  const found = readUnit(tolerance.unit)
  if (!found.ok) return refuse(tolerance.at, found.what, found.mend, found.suggest)
  if (found.unit.exponents.join() !== unit.exponents.join()) {
    refuse(
      tolerance.at,
      `the tolerance "${tolerance.text}" is not in a unit of the value (${unit.symbol})`,
      `give it in ${unit.symbol} or %`,
    )
  }
  if (found.unit.warning !== undefined) cursor.warnings.push(found.unit.warning)
  return found.unit
}
