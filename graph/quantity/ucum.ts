import type { Exponents, Factor, Scale, Unit, UnitReading } from './unit.ts'
import { AXES, NAMED, PREFIXES, ROWS, type Row } from './unit-table.ts'

/** Longest unit text that is looked at. */
const LONGEST = 120
const DEEPEST = 12

const ONE: Scale = { factor: 1, ten: 0, offset: 0, exponents: AXES.map(() => 0) }

const rows = new Map(ROWS.map((row) => [row.code, row]))
const scales = new Map<string, Scale>()
const named = new Map(NAMED.map((entry) => [entry.code, entry]))

/** A product of two scales to powers; an offset survives only when nothing is done to the unit. */
function times(a: Scale, b: Scale, power: number): Scale {
  const ten = a.ten === null || b.ten === null ? null : a.ten + b.ten * power
  return {
    ten,
    factor: ten === null ? a.factor * b.factor ** power : Number(`1e${ten}`),
    offset: 0,
    exponents: a.exponents.map((exponent, axis) => exponent + power * (b.exponents[axis] ?? 0)),
  }
}

/** What one atom is in SI, from its definition; worked out once. */
export function scaleOf(row: Row): Scale {
  const known = scales.get(row.code)
  if (known) return known
  const [number = '1', ...rest] = row.definition.startsWith('base') ? ['1', row.definition] : row.definition.split(' ')
  const scale = { ...times(numberScale(Number(number)), definedBy(rest.join(' ')), 1), offset: row.offset ?? 0 }
  scales.set(row.code, scale)
  return scale
}

function definedBy(text: string): Scale {
  if (text === '') return ONE
  if (text.startsWith('base ')) return axis(text.slice(5))
  const read = factorsOfCode(text)
  if (!Array.isArray(read)) throw new Error(`unit table: ${text}`)
  return product(read)
}

const axis = (name: string): Scale => ({ ...ONE, exponents: AXES.map((one) => (one === name ? 1 : 0)) })

function numberScale(value: number): Scale {
  const ten = Math.round(Math.log10(value))
  const exact = Number(`1e${ten}`) === value
  return { ...ONE, factor: value, ten: exact ? ten : null }
}

/** The scale of a product; a lone unit to the first power keeps its offset. */
function product(factors: readonly Factor[]): Scale {
  const [only] = factors
  if (factors.length === 1 && only?.exponent === 1) return only.value
  return factors.reduce<Scale>((scale, { value, exponent }) => times(scale, value, exponent), ONE)
}

function canonical(code: string): Row | undefined {
  const row = rows.get(code)
  return row?.canonical === undefined ? row : rows.get(row.canonical)
}

/** Looks up a UCUM atom with or without prefix. */
export function atomOf(text: string): Omit<Factor, 'exponent'> | undefined {
  const whole = canonical(text)
  if (whole) return { code: whole.code, symbol: whole.symbols?.[0] ?? null, value: scaleOf(whole) }
  for (const [code, symbol, ten] of PREFIXES) {
    if (!text.startsWith(code)) continue
    const row = canonical(text.slice(code.length))
    if (!row?.metric) continue
    const own = row.symbols?.[0]
    return {
      code: code + row.code,
      symbol: own === undefined ? null : symbol + own,
      value: prefixed(scaleOf(row), ten),
    }
  }
  return undefined
}

/** A unit made ten to some power larger; a scale with an offset keeps its zero. */
export function prefixed(scale: Scale, ten: number): Scale {
  return { ...times(scale, { ...ONE, ten, factor: Number(`1e${ten}`) }, 1), offset: scale.offset }
}

/** Factors of a UCUM code, read strictly: left to right, a solidus for one component; or what is wrong with it. */
function factorsOfCode(code: string): Factor[] | string {
  if (code.length > LONGEST) return 'too long'
  const reader = { code, at: 0, depth: 0 }
  const main: Factor[] = []
  let sign = 1
  if (code[0] === '/') {
    reader.at = 1
    sign = -1
  }
  const wrong = readTerm(reader, sign, main)
  if (wrong !== null) return wrong
  return reader.at === code.length ? main : `"${code.slice(reader.at)}" is left over`
}

interface Reader {
  readonly code: string
  at: number
  depth: number
}

function readTerm(reader: Reader, firstSign: number, into: Factor[]): string | null {
  let sign = firstSign
  for (;;) {
    const wrong = readComponent(reader, sign, into)
    if (wrong !== null) return wrong
    const mark = reader.code[reader.at]
    if (mark !== '.' && mark !== '/') return null
    reader.at += 1
    sign = mark === '.' ? 1 : -1
  }
}

const NUMBER = /[0-9]+/y
const NOTE = /\{[!-z|~]*\}/y
const ATOM = /(?:10[*^])|(?:[^[\]{}()./0-9+\-\s"]*(?:\[[!-Z\\^-~]*\][^[\]{}()./0-9+\-\s"]*)?)/y
const POWER = /[+-]?[0-9]{1,2}/y

function take(pattern: RegExp, reader: Reader): string {
  pattern.lastIndex = reader.at
  const found = pattern.exec(reader.code)?.[0] ?? ''
  reader.at += found.length
  return found
}

function readComponent(reader: Reader, sign: number, into: Factor[]): string | null {
  if (reader.code[reader.at] === '(') return readGroup(reader, sign, into)
  if (reader.code[reader.at] === '{') return readNote(reader, sign, into)
  const before = reader.at
  const atom = take(ATOM, reader)
  if (atom === '') return readNumber(reader, sign, into)
  const found = atomOf(atom)
  if (!found) return `"${atom}" at ${before + 1} is no unit of the UCUM`
  const power = take(POWER, reader)
  const note = take(NOTE, reader)
  const exponent = sign * (power === '' ? 1 : Number(power))
  into.push({ ...found, code: found.code + note, symbol: note === '' ? found.symbol : null, exponent })
  return null
}

function readNote(reader: Reader, sign: number, into: Factor[]): string | null {
  const note = take(NOTE, reader)
  if (note === '') return 'a brace is not closed, or holds a blank'
  const row = rows.get(note)
  const value = row ? scaleOf(row) : ONE
  into.push({ code: note, symbol: row?.symbols?.[0] ?? null, exponent: sign, value })
  return null
}

function readGroup(reader: Reader, sign: number, into: Factor[]): string | null {
  reader.at += 1
  reader.depth += 1
  if (reader.depth > DEEPEST) return 'too many brackets'
  const inner: Factor[] = []
  const wrong = readTerm(reader, 1, inner)
  if (wrong !== null) return wrong
  if (reader.code[reader.at] !== ')') return 'a bracket is not closed'
  reader.at += 1
  reader.depth -= 1
  const note = take(NOTE, reader)
  for (const factor of inner) into.push({ ...factor, exponent: sign * factor.exponent })
  if (note !== '') into.push({ code: note, symbol: null, exponent: sign, value: ONE })
  return null
}

function readNumber(reader: Reader, sign: number, into: Factor[]): string | null {
  const digits = take(NUMBER, reader)
  if (digits === '')
    return reader.at >= reader.code.length
      ? 'a term is missing at the end'
      : `"${reader.code[reader.at]}" stands where a unit belongs`
  const value = Number(digits)
  if (value === 0 || !Number.isSafeInteger(value)) return `${digits} is no factor`
  const note = take(NOTE, reader)
  into.push({ code: digits + note, symbol: null, exponent: sign, value: numberScale(value) })
  return null
}

/** Reads a UCUM code, strictly and case-sensitively. */
export function readUcum(code: string): UnitReading {
  const found = code === '' ? 'it is empty' : factorsOfCode(code)
  if (typeof found === 'string') {
    return { ok: false, what: `"${code}" is not a UCUM code: ${found}`, mend: 'write e.g. "W/(m.K)", "mm2", "10*-6.m"' }
  }
  return { ok: true, unit: unitFrom(found) }
}

/** A unit from its factors, with canonical code and symbol: all that is below the line in one bracket. */
export function unitFrom(factors: readonly Factor[], warning?: string): Unit {
  const scale = product(factors)
  const code = join(factors, (factor) => factor.code, '.', codePower)
  const name = named.get(code)
  const bare = factors.every(({ symbol }) => symbol !== null)
  const symbol = name?.symbol ?? (bare ? join(factors, (factor) => factor.symbol ?? '', '·', superscript) : code)
  const kind = name?.kind ?? kindOf(factors)
  return { symbol, code, ...scale, ...(kind && { kind }), ...(warning !== undefined && { warning }) }
}

/** Force times length written as a product is a torque; an energy is written in joules or watt-hours. */
function kindOf(factors: readonly Factor[]): Unit['kind'] {
  if (factors.length !== 2 || factors.some(({ exponent }) => exponent !== 1)) return undefined
  const [first, second] = factors.map(({ value }) => value.exponents.join())
  const pair = [first, second]
  return pair.includes(FORCE) && pair.includes(LENGTH) ? 'torque' : undefined
}

const exponentsOf = (m: number, kg: number, s: number): Exponents =>
  AXES.map((name) => ({ m, kg, s })[name as 'm'] ?? 0)
const FORCE = exponentsOf(1, 1, -2).join()
const LENGTH = exponentsOf(1, 0, 0).join()

function join(
  factors: readonly Factor[],
  name: (factor: Factor) => string,
  dot: string,
  power: (exponent: number) => string,
): string {
  const write = (factor: Factor, exponent: number) => {
    const text = name(factor)
    if (exponent === 1) return text
    const note = text.indexOf('{')
    return note < 0 ? text + power(exponent) : text.slice(0, note) + power(exponent) + text.slice(note)
  }
  const above = factors.filter(({ exponent }) => exponent > 0).map((factor) => write(factor, factor.exponent))
  const below = factors.filter(({ exponent }) => exponent < 0).map((factor) => write(factor, -factor.exponent))
  if (dot === '·' && below.length === 1 && below[0] === 'mK') return [...above, 'mK⁻¹'].join(dot) // W/mK would be taken for W/(m·K)
  const top = above.length > 0 ? above.join(dot) : '1'
  if (below.length === 0) return top
  return below.length === 1 ? `${top}/${below[0]}` : `${top}/(${below.join(dot)})`
}

const codePower = (exponent: number) => String(exponent)
const superscript = (exponent: number) =>
  [...String(exponent)].map((digit) => SUPERSCRIPTS[Number(digit)] ?? '').join('')
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹'
