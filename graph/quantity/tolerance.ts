import { needNumeral, readNumeral } from './numeral.ts'
import { refuse } from './reading.ts'
import { type Cursor, sees, skipBlanks, take } from './text.ts'

/** A tolerance as written: how far below and above, in which unit. */
export interface Tolerance {
  /** Deviations from the value: low is negative or zero. */
  readonly low: number
  readonly high: number
  readonly symmetric: boolean
  /** Unit text behind it; empty: that of the value. */
  readonly unit: string
  readonly at: number
  readonly text: string
}

const PLUS_MINUS = /±|\+ ?\/ ?- ?|\+-|-\/\+/y
const SIGN_AND_DIGIT = /[+-] ?[\d.]/y
/** Not where it is part of a unit: `20 ± 1 ppm/K`; before `/+` it is one limit of two. */
const SHARE = /(?:%|‰|ppm(?![A-Za-z]))(?! ?[/·*](?! ?[+-]| ?0(?!\d)))/y
const BETWEEN = /\.\.|\/|,(?= ?[+-])|;(?= ?[+-])/y

/**
 * Reads `± 0.2`, `± 10 %`, `-10/+30 %`, `+0.1/-0.2`, `-20 % / +80 %`; null when none stands here.
 *
 * @param unit reads the unit behind a number; in front of the unit of the value only a share (%) can stand there
 */
export function readTolerance(cursor: Cursor, unit: (cursor: Cursor) => string): Tolerance | null {
  const start = cursor.at
  skipBlanks(cursor)
  const at = cursor.at
  const mark = take(cursor, PLUS_MINUS)
  if (mark !== null) {
    const half = needNumeral(cursor, '±')
    if (half.value < 0) refuse(half.at, `"${half.text}" is negative`, 'a ± is followed by a number without sign')
    const written = unit(cursor)
    return {
      low: -half.value,
      high: half.value,
      symmetric: true,
      unit: written,
      at: cursor.where(at),
      text: textFrom(cursor, at),
    }
  }
  const pair = sees(cursor, SIGN_AND_DIGIT) ? readPair(cursor, unit, at) : null
  if (pair === null) cursor.at = start
  return pair
}

function readPair(cursor: Cursor, unit: (cursor: Cursor) => string, at: number): Tolerance | null {
  const first = readNumeral(cursor, { solidusParts: true })
  if (first === null) return null
  skipBlanks(cursor)
  const firstUnit = unit(cursor)
  skipBlanks(cursor)
  take(cursor, BETWEEN)
  skipBlanks(cursor)
  const signed = sees(cursor, /[+-]/y)
  const second = signed || sees(cursor, /0(?![\d.])/y) ? readNumeral(cursor, { solidusParts: true }) : null
  if (second === null) return null
  const secondUnit = unit(cursor)
  const text = textFrom(cursor, at)
  if (firstUnit !== '' && secondUnit !== '' && firstUnit !== secondUnit) {
    refuse(cursor.where(at), `"${text}" mixes ${firstUnit} and ${secondUnit}`, 'write both limits in one unit')
  }
  const [low, high] = first.value <= second.value ? [first, second] : [second, first]
  if (low.value > 0 || high.value < 0) {
    const what = `both limits of "${text}" (${low.text.trim()} and ${high.text.trim()}) lie on one side of the value`
    refuse(cursor.where(at), what, 'the value must lie between its limits: write -10/+30 %, or a range 8..10')
  }
  return {
    low: low.value,
    high: high.value,
    symmetric: low.value === -high.value,
    unit: secondUnit || firstUnit,
    at: cursor.where(at),
    text,
  }
}

/** A share in front of the unit of the value: `480 ± 10 % µF`. */
export function readShare(cursor: Cursor): string {
  const before = cursor.at
  skipBlanks(cursor)
  const share = take(cursor, SHARE)
  if (share === null) cursor.at = before
  return share ?? ''
}

export const isShare = (unit: string): boolean => unit === '%' || unit === '‰' || unit === 'ppm'

/** Power of ten of one %, ‰ or ppm. */
export const sharePlaces = (unit: string): number => (unit === '%' ? -2 : unit === '‰' ? -3 : -6)

const textFrom = (cursor: Cursor, at: number): string => cursor.text.slice(at, cursor.at).trim()
