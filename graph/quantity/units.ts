/** Units of measure: customary symbols and UCUM codes, their SI factors and what they measure. The one door to them. */
import { readCustomary, wholeUnit } from './customary.ts'
import { type Dimension, dimensionOf as dimensionOfUnit, fieldOf, fits, nameOf, sameExponents } from './dimension.ts'
import { closestUnit } from './suggest.ts'
import { readUcum } from './ucum.ts'
import {
  fromSI as fromSIUnit,
  toSI as toSIUnit,
  type Unit,
  UnitError,
  type UnitProblem,
  type UnitReading,
} from './unit.ts'

/** What a text can be, before a field decides between two readings. */
type Candidates =
  | { readonly ok: true; readonly strict: Unit | null; readonly grouped: Unit | null }
  | ({ readonly ok: false } & UnitProblem)

const cache = new Map<string, Candidates>()
/** Texts remembered; a sheet uses some dozens, and hostile input must not fill the memory. */
const MOST = 4000

/**
 * Reads a unit as people write it, or as a UCUM code. Where a product follows a solidus (`W/m·K`, `W/mK`) the field decides,
 * with a warning; without a field it is refused as ambiguous.
 *
 * @example readUnit('W/m²K', 'film-coefficient') // W/(m²·K), with a warning
 */
export function readUnit(text: string, dimension?: Dimension): UnitReading {
  const found = candidates(text)
  if (!found.ok) return dimension ? unknown(text, dimension) : found
  const { strict, grouped } = found
  if (!grouped) return strict ? { ok: true, unit: strict } : unknown(text, dimension)
  if (strict === null) return { ok: true, unit: doubtful(text, grouped) }
  if (dimension === undefined) return ambiguous(text, strict, grouped)
  if (fits(grouped, dimension)) return { ok: true, unit: doubtful(text, grouped) }
  if (fits(strict, dimension)) return { ok: true, unit: doubtful(text, strict) }
  return ambiguous(text, strict, grouped)
}

const doubtful = (text: string, unit: Unit): Unit => ({
  ...unit,
  warning: `"${text}" read as ${unit.symbol}; write it with brackets`,
})

function ambiguous(text: string, strict: Unit, grouped: Unit): UnitReading {
  const what = `unit "${text}" is ambiguous: ${grouped.symbol} or ${strict.symbol}`
  return {
    ok: false,
    what,
    mend: `write ${grouped.symbol}, with the bracket, if that is meant`,
    suggest: grouped.symbol,
  }
}

function candidates(text: string): Candidates {
  const known = cache.get(text)
  if (known) return known
  if (cache.size >= MOST) cache.clear()
  const found = lookUp(text)
  if (text.length <= 60) cache.set(text, found)
  return found
}

function lookUp(text: string): Candidates {
  const tidy = text.trim().replace(/ {2,}/g, ' ').replace(/[μ]/g, 'µ').replace(/[Ω]/g, 'Ω')
  if (/^'+$/.test(tidy)) {
    return {
      ok: false,
      what: `unit "${tidy}" is a foot, an inch or part of an angle`,
      mend: 'write ft, in, arcmin or arcsec',
    }
  }
  if (tidy.length > 60) return unknownCandidates(`${tidy.slice(0, 40)}…`)
  if (/\bgal(?:lons?)?\b/.test(tidy) && wholeUnit(tidy) === undefined && !/US gal|imp gal|gal_us|gal_br/.test(tidy))
    return gallon(tidy)
  if (/\b(?:AWG|awg)\b/.test(tidy)) return { ok: true, strict: GAUGE, grouped: null }
  const whole = wholeUnit(tidy)
  if (whole !== undefined && whole !== tidy) return lookUp(whole)
  const gallons = tidy.replaceAll('US gal', '[gal_us]').replaceAll('imp gal', '[gal_br]')
  const customary = readCustomary(gallons.replaceAll('⋅', '·'))
  if (customary) return { ok: true, ...customary }
  const code = readUcum(gallons)
  return code.ok ? { ok: true, strict: code.unit, grouped: null } : unknownCandidates(tidy)
}

function gallon(text: string): Candidates {
  const us = text.replace(/gal(?:lons?)?/, 'US gal')
  const mend = `write "${us}" or "${us.replace('US', 'imp')}" (an imperial gallon is 20 % more)`
  return { ok: false, what: `unit "${text}": a gallon is US or imperial`, mend, suggest: us }
}

const unknownCandidates = (text: string): Candidates => unknown(text) as { readonly ok: false } & UnitProblem

function unknown(text: string, dimension?: Dimension): UnitReading {
  const earlier = cache.get(text)
  if (earlier && !earlier.ok && earlier.what.includes('gallon')) return earlier
  const close =
    prefixAlone(text, dimension) ??
    closestUnit(text, (symbol) => dimension === undefined || measures(symbol, dimension))
  const known = dimension
    ? `units of ${fieldOf(dimension).name}: ${fieldOf(dimension).offer.join(', ')}`
    : 'use a customary symbol (mm, µF, W/(m·K)) or a UCUM code'
  const mend = close ? `did you mean ${close.suggest}?${close.why ? ` (${close.why})` : ''}` : known
  return { ok: false, what: `unknown unit "${text}"`, mend, ...(close && { suggest: close.suggest }) }
}

function measures(symbol: string, dimension: Dimension): boolean {
  const found = candidates(symbol)
  return found.ok && found.strict !== null && fits(found.strict, dimension)
}

/** `4.7 k` in a field of resistance: the prefix with the unit left out. */
function prefixAlone(text: string, dimension: Dimension | undefined): { suggest: string; why: string } | undefined {
  if (dimension === undefined || !/^[kMmµunpG]$/.test(text)) return undefined
  const suggest = text.replace('u', 'µ') + fieldOf(dimension).si.symbol
  return measures(suggest, dimension) ? { suggest, why: 'a prefix needs its unit' } : undefined
}

/** American wire gauge: a diameter on a geometric scale. It is read, never printed. */
const GAUGE: Unit = {
  symbol: 'AWG',
  code: null,
  factor: 1,
  ten: 0,
  offset: 0,
  gauge: true,
  exponents: fieldOf('length').si.exponents,
}

/** The unit of a text. @throws {UnitError} with what mends it */
export function unitOf(text: string, dimension?: Dimension): Unit {
  const read = readUnit(text, dimension)
  if (!read.ok) throw new UnitError(read)
  return read.unit
}

/** The unit of a UCUM code, read strictly. @throws {UnitError} */
export function parseUcum(code: string): Unit {
  const read = readUcum(code)
  if (!read.ok) throw new UnitError(read)
  return read.unit
}

export const isUcum = (code: string): boolean => readUcum(code).ok

/** UCUM code of a customary symbol. @throws {UnitError} @example ucumOf('W/(m·K)') // 'W/(m.K)' */
export function ucumOf(symbol: string): string {
  const { code } = unitOf(symbol)
  if (code === null) throw new UnitError({ what: `${symbol} has no UCUM code`, mend: 'give the diameter' })
  return code
}

/** Customary symbol of a UCUM code. @throws {UnitError} @example symbolOf('uF/kW') // 'µF/kW' */
export const symbolOf = (code: string): string => parseUcum(code).symbol

/** What a unit measures when no field says; undefined when it is none of the named ones. @throws {UnitError} */
export function dimensionOf(unit: Unit | string): Dimension | undefined {
  return dimensionOfUnit(typeof unit === 'string' ? unitOf(unit) : unit)
}

/** A number with its unit as SI. @throws {UnitError} @example toSI(9, 'L/min') // 0.00015 */
export function toSI(value: number, unit: Unit | string): number {
  return toSIUnit(value, asUnit(unit))
}

/** An SI number in a unit. @throws {UnitError} @example fromSI(338.15, '°C') // 65 */
export function fromSI(value: number, unit: Unit | string): number {
  return fromSIUnit(value, asUnit(unit))
}

/** A text with two readings is taken as the UCUM does, left to right: a program writes codes. */
function asUnit(unit: Unit | string): Unit {
  if (typeof unit !== 'string') return unit
  const read = readUnit(unit)
  if (read.ok) return read.unit
  const code = readUcum(unit)
  if (code.ok) return code.unit
  throw new UnitError(read)
}

/** Converts between two units, given as symbols or UCUM codes. @throws {UnitError} when they measure different things */
export function convert(value: number, from: Unit | string, to: Unit | string): number {
  const [source, target] = [asUnit(from), asUnit(to)]
  requireSame(source, target)
  return source.ten !== null && target.ten !== null && source.offset === 0 && target.offset === 0
    ? toSIUnit(value, { ...source, ten: source.ten - target.ten })
    : fromSIUnit(toSIUnit(value, source), target)
}

function requireSame(source: Unit, target: Unit): void {
  if (sameExponents(source, target)) return
  const what = `${source.symbol} (${nameOf(source)}) does not convert to ${target.symbol} (${nameOf(target)}): the dimensions differ`
  throw new UnitError({ what, mend: 'choose a unit of the same quantity' })
}
