import { type Numeral, type NumeralOptions, needNumeral, readNumeral } from './numeral.ts'
import { refuse, type Wanted } from './reading.ts'
import { type Cursor, sees, skipBlanks, take } from './text.ts'
import { readShare, readTolerance, type Tolerance } from './tolerance.ts'
import { takeUnitText } from './unit-text.ts'

/** One number with what stands by it; an empty unit means that of the last one. */
export interface Item {
  readonly numeral: Numeral
  readonly tolerance: Tolerance | null
  readonly unit: string
  readonly unitAt: number
}

type Layout = 'one' | 'box' | 'place' | 'range' | 'readings' | 'pixels'

/** A text taken apart, its units and note not yet read. The cursor stands at the note. */
export interface Parts {
  readonly relation: '<' | '>' | '≤' | '≥' | '≈' | null
  readonly relationText: string
  readonly layout: Layout
  readonly items: readonly Item[]
}

const RELATION =
  /(?:above|over|more than|greater than|below|under|less than|at least|at most|not less than|not more than|about|approximately|approx\.?|circa|ca\.|around)(?= )|<=|>=|<|>|≤|≥|≈|~/y

const RELATIONS: Readonly<Record<string, Parts['relation']>> = {
  '<=': '≤',
  '>=': '≥',
  '<': '<',
  '>': '>',
  '≤': '≤',
  '≥': '≥',
  '≈': '≈',
  '~': '≈',
  above: '>',
  over: '>',
  'more than': '>',
  'greater than': '>',
  below: '<',
  under: '<',
  'less than': '<',
  'at least': '≥',
  'not less than': '≥',
  'at most': '≤',
  'not more than': '≤',
}

const PIXELS = /[-+\d., ]*\d ?(?:px|pixels?)(?![A-Za-z])/y
const DATE = /\d{4}-\d{2}-\d{2}(?!\d)/y
const GAUGE = /(?:AWG ?(\d{1,2})(\/0)?|(0{1,4}|\d{1,2})(\/0)? ?AWG)(?![A-Za-z0-9])/y

/** Takes a quantity text apart up to its note. */
export function readParts(cursor: Cursor, wanted: Wanted): Parts {
  skipBlanks(cursor)
  const relationText = take(cursor, RELATION) ?? ''
  const relation = relationText === '' ? null : (RELATIONS[relationText] ?? '≈')
  skipBlanks(cursor)
  if (sees(cursor, DATE))
    refuse(
      cursor.where(cursor.at),
      `"${take(cursor, DATE)}" is a date`,
      'a date is not a quantity; it goes in the note: on 2026-11-16',
    )
  const gauge = readGauge(cursor)
  if (gauge) return { relation, relationText, layout: 'one', items: [gauge] }
  if (sees(cursor, PIXELS)) return { relation, relationText, layout: 'pixels', items: readPixels(cursor) }
  const bracket = openBracket(cursor)
  return { relation, relationText, ...readItems(cursor, bracket, wanted) }
}

/** `10 AWG`, `AWG 10`, `4/0 AWG` (gauge −3). */
function readGauge(cursor: Cursor): Item | null {
  GAUGE.lastIndex = cursor.at
  const found = GAUGE.exec(cursor.text)
  if (!found) return null
  const at = cursor.where(cursor.at)
  cursor.at += found[0].length
  const digits = found[1] ?? found[3] ?? ''
  const zeros = (found[2] ?? found[4]) !== undefined ? Number(digits) : /^0+$/.test(digits) ? digits.length : 0
  const value = zeros > 0 ? 1 - zeros : Number(digits)
  const numeral: Numeral = { value, text: found[0], at, digits: digits.length, place: null, concise: null }
  const tolerance = readTolerance(cursor, takeUnitText)
  return { numeral, tolerance, unit: 'AWG', unitAt: at }
}

function readPixels(cursor: Cursor): readonly Item[] {
  const items: Item[] = []
  for (;;) {
    const numeral = needNumeral(cursor, 'the start', { blankParts: true, commaParts: true })
    skipBlanks(cursor)
    take(cursor, /, ?/y)
    const unitAt = cursor.where(cursor.at)
    const last = take(cursor, /(?:px|pixels?)/y) !== null
    items.push({ numeral, tolerance: null, unit: last ? 'px' : '', unitAt })
    if (last) return items
  }
}

/** A bracket round the numbers: `(0, 120, 250) mm`, `(12.4 ± 0.2) mm`. */
interface Bracket {
  readonly open: boolean
  readonly options: NumeralOptions
}

function openBracket(cursor: Cursor): Bracket {
  if (!sees(cursor, /\( ?[+-]?[\d.]/y)) return { open: false, options: {} }
  cursor.at += 1
  skipBlanks(cursor)
  const inside = cursor.text.slice(cursor.at, cursor.text.indexOf(')', cursor.at) + 1 || cursor.text.length)
  const otherwise = /[;/±x×]|\.\./.test(inside)
  const commas = inside.split(',').length - 1
  return { open: true, options: { commaParts: !otherwise && (commas > 1 || /, /.test(inside)), solidusParts: true } }
}

type Separator = 'box' | 'place' | 'range' | 'hyphen' | 'readings'

function readItems(cursor: Cursor, bracket: Bracket, wanted: Wanted): Pick<Parts, 'layout' | 'items'> {
  const options = wanted.kind === 'place' ? { ...bracket.options, solidusParts: true } : bracket.options
  const items: Item[] = []
  let kind: Separator | null = null
  for (;;) {
    const item = readItem(cursor, options, kind, bracket.open)
    const next = readSeparator(cursor, bracket.open, item.unit === '' && kind !== 'range')
    items.push(item)
    if (next === null) break
    if (kind !== null && next !== kind)
      refuse(
        cursor.where(cursor.at),
        'two kinds of marks part the numbers',
        'write 62 x 48 x 4.6 mm, 0 / 120 / 250 mm or 8..10 L/min',
      )
    kind = next
  }
  const closed = bracket.open ? closeBracket(cursor, items) : items
  if (kind === 'hyphen') sayHyphen(cursor, closed)
  return { layout: kind === null ? 'one' : kind === 'hyphen' ? 'range' : kind, items: closed }
}

function sayHyphen(cursor: Cursor, items: readonly Item[]): void {
  const [low, high] = items.map(({ numeral }) => numeral.text)
  if (items.length > 2)
    refuse(0, `"${items.map(({ numeral }) => numeral.text).join('-')}" is more than a range`, 'write a range as 8..10')
  cursor.warnings.push(`"${low}-${high}" read as the range ${low}..${high}; write it with two dots`)
}

function readItem(cursor: Cursor, options: NumeralOptions, before: Separator | null, inBracket: boolean): Item {
  const numeral = before === null ? firstNumeral(cursor, options) : needNumeral(cursor, MARKS[before], options)
  const tolerance = readTolerance(cursor, readShare)
  const unitAt = cursor.where(pastBlanks(cursor))
  if (inBracket || separates(cursor)) return { numeral, tolerance, unit: '', unitAt }
  const unit = takeUnitText(cursor)
  const behind = unit === '' ? null : readTolerance(cursor, takeUnitText)
  if (tolerance && behind) refuse(behind.at, `two tolerances: "${tolerance.text}" and "${behind.text}"`, 'keep one')
  return { numeral, tolerance: tolerance ?? behind, unit, unitAt }
}

const pastBlanks = (cursor: Cursor) => {
  let at = cursor.at
  while (cursor.text[at] === ' ') at += 1
  return at
}

const MARKS: Readonly<Record<Separator, string>> = { box: 'x', place: '/', range: '..', hyphen: '-', readings: ',' }

function firstNumeral(cursor: Cursor, options: NumeralOptions): Numeral {
  const found = readNumeral(cursor, options)
  if (found) return found
  const rest = cursor.text.slice(cursor.at, cursor.at + 40).trim()
  const mend =
    START_MENDS.find(([pattern]) => pattern.test(rest))?.[1] ??
    'a quantity starts with a number: 12.4 ± 0.2 mm, measured'
  return refuse(cursor.where(cursor.at), rest === '' ? 'there is no number' : `"${rest}" is not a number`, mend)
}

/** What people write in front of a number, and how it is said here. */
const START_MENDS: readonly (readonly [RegExp, string])[] = [
  [/^(?:up to|max)/i, 'write "at most" for an upper bound'],
  [/^min/i, 'write "at least" for a lower bound'],
  [/^(?:±|\+ ?\/ ?-|\+-)/, 'a tolerance needs the value in front of it'],
  [
    /^(?:measured|marked|published|reported|computed|judged|assumed)/,
    'the basis stands behind the value: 12.4 mm, measured',
  ],
  [/^[a-z]{1,3} ?=/i, 'write the value alone'],
  [/^[+-]{2}/, 'keep one sign'],
]

const BOX = / ?[x×X] ?(?=[+-]?[\d.])/y
const RANGE = / ?\.\. ?(?=[+-]?[\d.])| to (?=[+-]?\d)/y
const HYPHEN = / ?- ?(?=[\d.])/y
const SOLIDUS = / ?\/ ?(?=[+-]?[\d.])/y
const LIST = / ?[,;] ?(?=[+-]?[\d.])/y

const separates = (cursor: Cursor): boolean =>
  [BOX, RANGE, HYPHEN, SOLIDUS, LIST].some((pattern) => sees(cursor, pattern))

function readSeparator(cursor: Cursor, inBracket: boolean, bare: boolean): Separator | null {
  if (take(cursor, BOX) !== null) return 'box'
  if (take(cursor, RANGE) !== null) return 'range'
  if (take(cursor, SOLIDUS) !== null) return 'place'
  if (bare && take(cursor, HYPHEN) !== null) return 'hyphen'
  if (bare && take(cursor, LIST) !== null) return inBracket ? 'place' : 'readings'
  return null
}

/** Steps over `)`, then reads the unit and a tolerance for all that stands inside. */
function closeBracket(cursor: Cursor, items: readonly Item[]): readonly Item[] {
  skipBlanks(cursor)
  if (take(cursor, /\)/y) === null)
    refuse(cursor.where(cursor.at), 'the bracket round the numbers is not closed', 'write (0, 120, 250) mm')
  const unitAt = cursor.where(pastBlanks(cursor))
  const unit = takeUnitText(cursor)
  const behind = unit === '' ? null : readTolerance(cursor, takeUnitText)
  return items.map((item, index) =>
    index === items.length - 1 ? { ...item, unit, unitAt, tolerance: item.tolerance ?? behind } : item,
  )
}
