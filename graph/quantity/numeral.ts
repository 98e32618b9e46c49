import { refuse } from './reading.ts'
import { type Cursor, sees, skipBlanks, take } from './text.ts'

/** A number as written. */
export interface Numeral {
  readonly value: number
  /** As typed, for messages. */
  readonly text: string
  readonly at: number
  readonly digits: number
  /** The last digit stands for ten to this power; null for a fraction. */
  readonly place: number | null
  /** Standard uncertainty in brackets directly behind the number, `12.4(2)`. */
  readonly concise: number | null
}

const WORDS = /(?:[+-] ?)?(?:NaN|nan|NAN|[Ii]nf(?:inity)?|INF|∞)(?![A-Za-z])/y
const HEX = /0[xX][0-9a-fA-F]*[a-fA-F][0-9a-fA-F]*|0[bo][0-7]+/y
const PLAIN_FRACTION = /(\d{1,4})\/(\d{1,4})(?! ?\/)(?![\d.,])/y
const MIXED = /(\d{1,4})[ -](\d{1,3})\/(\d{1,3})(?! ?\/)(?![\d.,])/y
const BODY = /\d(?:\d|['_](?=\d)|\.(?!\.)|,(?=\d)| (?=\d{3}(?!\d)))*|[.,]\d+/y
const EXPONENT = /[eE]([+-]?\d{1,5})(?![\w.])/y
const TIMES_TEN = / ?[x×X*·] ?10(?:\^ ?([+-]?\d{1,4})|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}))/y
const POWER_OF_TEN = /10(?:\^([+-]?\d{1,4})|(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}))/y
const CONCISE = /\((\d{1,15}(?:[.,]\d{1,12})?)\)/y

export interface NumeralOptions {
  /** A comma parts numbers here and is never a decimal mark. */
  readonly commaParts?: boolean
  /** A blank parts numbers here and never groups digits. */
  readonly blankParts?: boolean
  /** A solidus parts numbers here. */
  readonly solidusParts?: boolean
}

/** Reads one number, or null when none stands here. */
export function readNumeral(cursor: Cursor, options: NumeralOptions = {}): Numeral | null {
  const start = cursor.at
  const at = cursor.where(start)
  const word = take(cursor, WORDS)
  if (word !== null)
    refuse(
      at,
      `"${word}" is not a finite number (${/n.?a.?n/i.test(word) ? 'NaN' : 'infinite'})`,
      'leave the value out, or write what was read',
    )
  const sign = take(cursor, /[+-] ?/y)
  const factor = sign?.startsWith('-') ? -1 : 1
  if (sees(cursor, HEX))
    refuse(
      at,
      `"${take(cursor, HEX)}" is not a decimal number`,
      'quote a marking; write a number with the digits 0 to 9',
    )
  const found = fraction(cursor, options) ?? power(cursor) ?? decimal(cursor, options)
  if (found === null) {
    cursor.at = start
    return null
  }
  const text = cursor.text.slice(start, cursor.at)
  if (found.value === 0 && /^[+-]? ?[\d., ]*[1-9]/.test(text))
    refuse(at, `"${text}" is too small for a number`, 'check the exponent')
  if (!Number.isFinite(found.value)) refuse(at, `"${text}" is not a finite number`, 'check the exponent')
  return { ...found, value: factor * found.value + 0, text, at }
}

type Unsigned = Omit<Numeral, 'text' | 'at'>

function fraction(cursor: Cursor, { solidusParts }: NumeralOptions): Unsigned | null {
  if (solidusParts) return null
  const start = cursor.at
  const mixed = matched(cursor, MIXED)
  const [whole, above, below] = mixed ?? ['0', ...(matched(cursor, PLAIN_FRACTION) ?? [])]
  if (above === undefined || below === undefined) return null
  if (Number(below) === 0)
    refuse(cursor.where(start), `"${above}/${below}" divides by zero`, 'write the number as a decimal')
  return {
    value: Number(whole) + Number(above) / Number(below),
    digits: `${above}${below}`.length,
    place: null,
    concise: null,
  }
}

function matched(cursor: Cursor, pattern: RegExp): string[] | undefined {
  pattern.lastIndex = cursor.at
  const found = pattern.exec(cursor.text)
  if (!found) return undefined
  cursor.at += found[0].length
  return found.slice(1)
}

/** `10⁻³` or `10^-3` standing alone. */
function power(cursor: Cursor): Unsigned | null {
  const found = matched(cursor, POWER_OF_TEN)
  if (!found) return null
  const exponent = exponentOf(found)
  return { value: Number(`1e${exponent}`), digits: 1, place: exponent, concise: null }
}

function exponentOf([plain, raised]: readonly (string | undefined)[]): number {
  if (plain !== undefined) return Number(plain)
  return Number([...(raised ?? '')].map((sign) => (sign === '⁻' ? '-' : '⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(sign))).join(''))
}

function decimal(cursor: Cursor, options: NumeralOptions): Unsigned | null {
  const start = cursor.at
  const body = bodyOf(cursor, options)
  if (body === null) return null
  const digits = plainDigits(cursor, body, start)
  const concise = matched(cursor, CONCISE)?.[0]?.replace(',', '.')
  const raised = matched(cursor, EXPONENT) ?? matched(cursor, TIMES_TEN)
  const exponent = raised ? exponentOf(raised) : 0
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0
  return {
    value: Number(`${digits}e${exponent}`),
    digits: Math.max(1, digits.replace('.', '').replace(/^0+/, '').length),
    place: exponent - decimals,
    concise: concise === undefined ? null : conciseWidth(concise, exponent, decimals),
  }
}

/** `(2)` counts in the last place; with a decimal mark it is the uncertainty itself (JCGM 100:2008 7.2.2). */
function conciseWidth(text: string, exponent: number, decimals: number): number {
  return Number(`${text}e${text.includes('.') ? exponent : exponent - decimals}`)
}

function bodyOf(cursor: Cursor, { commaParts, blankParts }: NumeralOptions): string | null {
  const start = cursor.at
  const body = take(cursor, BODY)
  if (body === null) return null
  const cut = Math.min(
    ...[commaParts ? ',' : '', blankParts ? ' ' : ''].map((part) =>
      part && body.includes(part) ? body.indexOf(part) : body.length,
    ),
  )
  cursor.at = start + cut
  return body.slice(0, cut)
}

/** Digits with a point, from whatever marks and groups were typed; refused when two readings are possible. */
function plainDigits(cursor: Cursor, body: string, start: number): string {
  if (/^\d+$/.test(body) || /^\d*\.\d+$/.test(body)) return body
  const at = cursor.where(start)
  if (/['_]/.test(body))
    refuse(at, `"${body}": digits are grouped by blanks only`, `write ${body.replace(/['_]/g, '')}`)
  const tight = ungrouped(cursor, body, start)
  if (/^\d+\.$/.test(tight)) return tight.slice(0, -1)
  return marks(cursor, tight, body, at)
}

/** Takes the blanks out; groups must be three digits wide. A plain blank could also part two numbers, so it is said. */
function ungrouped(cursor: Cursor, body: string, start: number): string {
  if (!body.includes(' ')) return body
  const tight = body.replaceAll(' ', '')
  const [integer = ''] = body.split(/[.,]/)
  const at = cursor.where(start)
  if (!/^\d{1,3}(?: \d{3})*$/.test(integer))
    refuse(at, `"${body}" is more than one number`, `write ${tight} for one number, or say what parts them (x, /, ..)`)
  const typed = cursor.typed[cursor.where(start + body.indexOf(' '))]
  if (typed === ' ') cursor.warnings.push(`"${body}" read as the one number ${tight}`)
  return tight
}

function marks(cursor: Cursor, tight: string, body: string, at: number): string {
  const commas = tight.split(',').length - 1
  const points = tight.split('.').length - 1
  if (commas > 0 && points > 0) return bothMarks(cursor, tight, at)
  const mark = commas > 0 ? ',' : '.'
  const count = commas + points
  if (count === 0) return tight
  if (count > 1) return groupedBy(cursor, tight, mark, at)
  if (mark === ',' && !body.includes(' ') && /^[1-9]\d{0,2},\d{3}$/.test(tight)) {
    const [point, none] = [tight.replace(',', '.'), tight.replace(',', '')]
    refuse(
      at,
      `"${tight}" is ${point} or ${none}: a comma before three digits can be either`,
      `write ${point} or ${none}`,
    )
  }
  return tight.replace(',', '.').replace(/^\./, '0.')
}

function groupedBy(cursor: Cursor, tight: string, mark: string, at: number): string {
  const parts = tight.split(mark)
  if (mark === '.' && /^\d{1,2}\.\d{1,2}\.(?:\d{2}|\d{4})$/.test(tight))
    refuse(at, `"${tight}" looks like a date`, 'a date is not a quantity; write it as 2026-11-16 where one belongs')
  if (!/^\d{1,3}$/.test(parts[0] ?? '') || !parts.slice(1).every((part) => /^\d{3}$/.test(part))) {
    refuse(
      at,
      `"${tight}" is not a number`,
      'one decimal point or comma; parts of a place in brackets with blanks: (0, 120, 250) mm',
    )
  }
  const whole = parts.join('')
  cursor.warnings.push(`"${tight}" read as ${whole}: group digits by blanks, not by "${mark}"`)
  return whole
}

/** `1.234,5` and `1,234.5`: the last mark is the decimal one, and groups of three must stand before it. */
function bothMarks(cursor: Cursor, tight: string, at: number): string {
  const decimalMark = tight.lastIndexOf(',') > tight.lastIndexOf('.') ? ',' : '.'
  const group = decimalMark === ',' ? '.' : ','
  const [integer = '', decimals = '', ...more] = tight.split(decimalMark)
  const groups = integer.split(group)
  if (
    more.length > 0 ||
    decimals.includes(group) ||
    !/^\d{1,3}$/.test(groups[0] ?? '') ||
    !groups.slice(1).every((part) => /^\d{3}$/.test(part))
  ) {
    refuse(at, `"${tight}" is not a number`, 'use one decimal mark, and blanks between groups of three digits')
  }
  const number = `${groups.join('')}.${decimals}`
  cursor.warnings.push(`"${tight}" read as ${number}: group digits by blanks`)
  return number
}

/** The number that must stand here. */
export function needNumeral(cursor: Cursor, after: string, options: NumeralOptions = {}): Numeral {
  skipBlanks(cursor)
  const found = readNumeral(cursor, options)
  if (found) return found
  const rest = cursor.text.slice(cursor.at, cursor.at + 24).trim()
  return refuse(
    cursor.where(cursor.at),
    `no number after "${after}"${rest ? `, but "${rest}"` : ''}`,
    'write a number there',
  )
}
