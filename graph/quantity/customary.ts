import { atomOf, prefixed, scaleOf, unitFrom } from './ucum.ts'
import type { Factor, Unit } from './unit.ts'
import { NAMED, PREFIXES, ROWS, SPELLINGS } from './unit-table.ts'

/** What a customary text can mean: strictly left to right, and, when a product follows a solidus, all of it below the line. */
export interface Customary {
  readonly strict: Unit | null
  readonly grouped: Unit | null
}

type Atom = Omit<Factor, 'exponent'>

let symbols: Map<string, Atom> | undefined

/** Every customary symbol with its prefixes; made on first use. A symbol without prefix wins over one with. */
export function symbolTable(): ReadonlyMap<string, Atom> {
  if (symbols) return symbols
  const table = new Map<string, Atom>()
  for (const { code, symbols: own = [] } of ROWS) {
    const atom = atomOf(code)
    if (atom) for (const symbol of own) table.set(symbol, atom)
  }
  for (const row of ROWS)
    if (row.metric)
      for (const symbol of row.symbols ?? []) addPrefixed(table, row.code, symbol, row.symbols?.[0] ?? symbol)
  symbols = table
  return table
}

function addPrefixed(table: Map<string, Atom>, code: string, symbol: string, printed: string): void {
  const row = ROWS.find((one) => one.code === code)
  if (!row || !/^[A-Za-zΩ]/.test(symbol) || row.offset !== undefined) return
  for (const [prefix, mark, ten] of PREFIXES) {
    if (code === 'B' && prefix !== 'd') continue
    const atom = { code: prefix + code, symbol: mark + printed, value: prefixed(scaleOf(row), ten) }
    for (const written of prefix === 'u' ? ['µ', 'u'] : [mark])
      if (!table.has(written + symbol)) table.set(written + symbol, atom)
  }
}

let whole: Map<string, string> | undefined

/** The UCUM code of a symbol that stands for a whole unit (`kVA`, `rpm`), or the symbol that another spelling stands for. */
export function wholeUnit(text: string): string | undefined {
  whole ??= new Map([...Object.entries(SPELLINGS), ...NAMED.map(({ symbol, code }) => [symbol, code] as const)])
  return whole.get(text)
}

interface Scan {
  readonly text: string
  at: number
  depth: number
  readonly strict: Factor[]
  readonly grouped: Factor[]
  /** Whether the two readings differ. */
  split: boolean
  /** The strict reading fell apart: only the grouped one is left. */
  onlyGrouped: boolean
}

/** Reads the grammar of customary unit texts: symbols, powers, `·`, `/`, brackets. Null: it is none. */
export function readCustomary(text: string): Customary | null {
  const scan: Scan = { text, at: 0, depth: 0, strict: [], grouped: [], split: false, onlyGrouped: false }
  if (!readProduct(scan, 1) || scan.at < text.length || scan.grouped.length === 0) return null
  const grouped = unitFrom(scan.grouped)
  if (!scan.split) return { strict: grouped, grouped: null }
  return { strict: scan.onlyGrouped ? null : unitFrom(scan.strict), grouped }
}

const skip = (scan: Scan) => {
  while (scan.text[scan.at] === ' ') scan.at += 1
}

/** One product with solidi; `outer` is the sign of the bracket it stands in. */
function readProduct(scan: Scan, outer: 1 | -1): boolean {
  let sign: 1 | -1 = 1
  let below: 1 | -1 = 1
  skip(scan)
  if (scan.text[scan.at] === '/') {
    scan.at += 1
    sign = below = -1
  }
  for (;;) {
    if (!readPiece(scan, outer, sign, below)) return false
    const mark = separator(scan)
    if (mark === null) return true
    if (mark === '/') sign = below = -1
    else {
      if (below === -1) scan.split = true
      sign = 1
    }
  }
}

/** Steps over what parts two symbols; a blank is a product. */
function separator(scan: Scan): '/' | '·' | null {
  const before = scan.at
  skip(scan)
  const mark = scan.text[scan.at]
  if (mark === undefined || mark === ')') return null
  if (mark === '/' || mark === '·' || mark === '*' || mark === '.') {
    scan.at += 1
    skip(scan)
    return mark === '/' ? '/' : '·'
  }
  // A blank, or a power directly followed by the next symbol: m²K.
  if (scan.at > before) return repeats(scan) ? null : '·'
  return /[0-9⁰¹²³⁴⁵⁶⁷⁸⁹)]/.test(scan.text[scan.at - 1] ?? '') ? '·' : null
}

/** `m m` is a slip of the hand rather than a square metre. */
function repeats(scan: Scan): boolean {
  const next = /^[A-Za-zµΩ]+/.exec(scan.text.slice(scan.at))?.[0]
  return next !== undefined && symbolTable().get(next)?.code === scan.strict[scan.strict.length - 1]?.code
}

function readPiece(scan: Scan, outer: 1 | -1, sign: 1 | -1, below: 1 | -1): boolean {
  if (scan.text[scan.at] === '(') return readBracket(scan, outer, sign, below)
  if (scan.text[scan.at] === '1' && !/[0-9]/.test(scan.text[scan.at + 1] ?? '')) {
    scan.at += 1
    return true
  }
  const start = scan.at
  while (/[A-Za-zµΩ°%‰′″"ÅÅ]/.test(scan.text[scan.at] ?? '')) scan.at += 1
  if (scan.text.startsWith('H2O', scan.at - 1)) scan.at += 2
  stepOverCode(scan)
  const name = scan.text.slice(start, scan.at)
  const power = readPower(scan)
  if (name === '' || power === null) return false
  return pushSymbol(scan, name, below * outer, { strict: outer * sign * power, grouped: outer * below * power })
}

/** A UCUM name in square brackets, `[gal_us]`, may stand among customary symbols. */
function stepOverCode(scan: Scan): void {
  if (scan.text[scan.at] !== '[') return
  const end = scan.text.indexOf(']', scan.at)
  if (end > 0) scan.at = end + 1
}

function readBracket(scan: Scan, outer: 1 | -1, sign: 1 | -1, below: 1 | -1): boolean {
  if (sign !== below) return false // `W/m·(…)`: too doubtful to read
  scan.at += 1
  scan.depth += 1
  const good = scan.depth < 8 && readProduct(scan, (outer * sign) as 1 | -1) && scan.text[scan.at] === ')'
  scan.depth -= 1
  scan.at += 1
  return good
}

/** Whether a symbol below the line may be two: unknown as one (`kgK`), or `mK` standing alone. */
function runTogether(scan: Scan, name: string, atom: Atom | undefined, below: number): boolean {
  if (below > 0 || name.length < 2 || !name.endsWith('K')) return false
  if (atom === undefined) return true
  const [before, after] = [scan.text[scan.at - name.length - 1] ?? '', scan.text[scan.at] ?? '']
  return name === 'mK' && '/('.includes(before) && (after === '' || ')/'.includes(after))
}

function pushSymbol(scan: Scan, name: string, below: number, power: { strict: number; grouped: number }): boolean {
  const table = symbolTable()
  const atom = table.get(name) ?? namedAtom(name)
  // `W/mK`, `J/kgK`: below the line a symbol run into K may be two.
  const first = runTogether(scan, name, atom, below) ? table.get(name.slice(0, -1)) : undefined
  const kelvin = table.get('K')
  if (first && kelvin) {
    scan.split = true
    scan.onlyGrouped ||= atom === undefined
    scan.grouped.push({ ...first, exponent: power.grouped }, { ...kelvin, exponent: power.grouped })
    if (atom) scan.strict.push({ ...atom, exponent: power.strict })
    return true
  }
  if (!atom) return false
  scan.strict.push({ ...atom, exponent: power.strict })
  scan.grouped.push({ ...atom, exponent: power.grouped })
  return true
}

/** `t` is read here, unprefixed: with prefixes it would turn `ft` and `pt` into masses. */
const namedAtom = (name: string): Atom | undefined => (name === 't' || name.includes('[') ? atomOf(name) : undefined)

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹'

/** The power after a symbol: `²`, `⁻¹`, `2`, `-1`, `^2`; 1 without, null when it is no power. */
function readPower(scan: Scan): number | null {
  const marked = scan.text[scan.at] === '^'
  if (marked) scan.at += 1
  const raised = scan.text[scan.at] === '⁻' || SUPERSCRIPTS.includes(scan.text[scan.at] ?? '!')
  const minus = scan.text[scan.at] === '-' || scan.text[scan.at] === '⁻'
  if (minus) scan.at += 1
  let digits = ''
  for (; scan.at < scan.text.length && digits.length < 3; scan.at += 1) {
    const sign = scan.text[scan.at] ?? ''
    const digit = raised ? SUPERSCRIPTS.indexOf(sign) : '0123456789'.indexOf(sign)
    if (digit < 0) break
    digits += String(digit)
  }
  if (digits === '') return marked || minus ? null : 1
  const power = Number(digits)
  return power === 0 || power > 12 ? null : minus ? -power : power
}
