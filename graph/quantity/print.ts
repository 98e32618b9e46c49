import { type Dimension, fieldOf } from './dimension.ts'
import { everyDigit, movedPoint, placeOf, plainDecimal, roundedTo, significant } from './number-text.ts'
import { uncertaintyOf } from './own.ts'
import { parseQuantity } from './parse.ts'
import type { Note, Own, Qualifier } from './reading.ts'
import { fromSI, toSI, type Unit, widthFromSI } from './unit.ts'

/** What is printed of a quantity: a scalar reading is one. SI numbers. */
export interface Printable {
  readonly value: number
  readonly own?: Own
  readonly relation?: '<' | '>' | '≤' | '≥'
  readonly approx?: boolean
  readonly qualifier?: Qualifier
  readonly range?: true
  readonly note?: Note
}

export interface PrintOptions {
  /** Significant digits of the uncertainty (JCGM 100:2008 7.2.6: two at most). */
  readonly digits?: 1 | 2
  /** `concise` writes a standard uncertainty in brackets, 12.41(17) mm; limits stay limits in both. */
  readonly form?: 'plain' | 'concise'
}

/**
 * A value and its standard uncertainty rounded to the digits of the uncertainty (JCGM 100:2008 7.2.6).
 *
 * @example roundToUncertainty(10.05762, 0.027) // { value: '10.058', u: '0.027', concise: '10.058(27)' }
 */
export function roundToUncertainty(
  value: number,
  u: number,
  digits: 1 | 2 = 2,
): { readonly value: string; readonly u: string; readonly concise: string } {
  if (!(u > 0) || !Number.isFinite(u)) return { value: everyDigit(value), u: '0', concise: everyDigit(value) }
  const place = placeOf(u, digits)
  const text = roundedTo(value, place)
  const inLastPlace = place > 0 ? roundedTo(u, place) : String(Math.round(widthAt(u, place)))
  return {
    value: text,
    u: roundedTo(u, place),
    concise: text.includes('e') ? conciseWithPower(value, u, place) : `${text}(${inLastPlace})`,
  }
}

const widthAt = (u: number, place: number) => Number(movedPoint(u, -place))

/** `1.24(2)e-9`: the bracket stands in front of the power of ten. */
function conciseWithPower(value: number, u: number, place: number): string {
  const [mantissa = '0', power = '0'] = roundedTo(value, place).split('e')
  const decimals = Math.max(0, Number(power) - place)
  const padded = Number(mantissa).toFixed(Math.min(decimals, 100))
  return `${padded}(${Math.round(widthAt(u, place))})e${power}`
}

/**
 * A quantity for people: rounded to its uncertainty, with the unit's symbol, and always text that parses back.
 * Without an uncertainty twelve digits stand; {@link writeQuantity} keeps them all.
 *
 * @example printQuantity({ value: 0.0124, own }, unitOf('mm')) // "12.4 ± 0.2 mm"
 */
export function printQuantity(
  quantity: Printable,
  unit: Unit,
  { digits = 2, form = 'plain' }: PrintOptions = {},
): string {
  const shown = printableUnit(unit)
  const peak = peakOf(quantity)
  const scaledValue = quantity.value * peak
  const place = placeFor(quantity, shown, digits)
  const number = (width: number) =>
    place === null ? everyDigit(Number(width.toPrecision(12))) : roundedTo(width, place)
  const body = bodyOf(
    { ...quantity, value: scaledValue, ...(quantity.own && { own: scaledOwn(quantity.own, peak) }) },
    shown,
    { form, digits, number },
  )
  return finish(quantity, body, glossOf(quantity, unit))
}

/** A quantity with every digit, for storing: parsing gives the same value and, to the last bit of a %, the same deviation. */
export function writeQuantity(quantity: Printable, unit: Unit, dimension?: Dimension): string {
  const options = dimension ? { dimension } : {}
  const si = dimension ? fieldOf(dimension).si : undefined
  for (const shown of [printableUnit(unit), ...(si ? [si] : [])]) {
    const exact = exactNumber(quantity.value, shown)
    const rms =
      quantity.qualifier === 'peak' || quantity.qualifier === 'peak-to-peak'
        ? { ...quantity, qualifier: 'rms' as const }
        : quantity
    const body = bodyOf(rms, shown, { form: 'exact', digits: 2, number: everyDigit, value: exact })
    const text = finish(rms, body, '')
    const back = parseQuantity(text, options)
    if (back.ok && back.form === 'scalar' && back.value === quantity.value && sameOwn(back.own, quantity)) return text
  }
  throw new RangeError(`writeQuantity: ${quantity.value} ${unit.symbol} has no text that reads back the same`)
}

function sameOwn(back: Own | undefined, { own, value }: Printable): boolean {
  const [a, b] = [uncertaintyOf({ value, ...(back && { own: back }) }), uncertaintyOf({ value, ...(own && { own }) })]
  return a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= 1e-12 * b)
}

/** The value in the unit with every digit; the point is moved in the text where the unit is a power of ten. */
function exactNumber(value: number, unit: Unit): string {
  if (unit.ten !== null && unit.offset === 0) return movedPoint(value, -unit.ten)
  const inUnit = fromSI(value, unit)
  const good = [15, 16, 17]
    .map((digits) => inUnit.toPrecision(digits))
    .find((text) => toSI(Number(text), unit) === value)
  return plainDecimal(String(Number(good ?? inUnit)))
}

/** A gauge number is read, never printed: its diameter is. */
const printableUnit = (unit: Unit): Unit => (unit.gauge ? fieldOf('length').print : unit)

const peakOf = ({ qualifier }: Printable) =>
  qualifier === 'peak' ? Math.SQRT2 : qualifier === 'peak-to-peak' ? 2 * Math.SQRT2 : 1

function scaledOwn(own: Own, factor: number): Own {
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

/** Decimal place that the uncertainty lets stand; null keeps every digit. Limits that end in nought lose it: 12.4 ± 0.2. */
function placeFor({ value, own }: Printable, unit: Unit, digits: 1 | 2): number | null {
  const widths = own ? widthsOf(value, own).map((width) => widthFromSI(width, unit)) : []
  const widest = Math.max(0, ...widths)
  if (!(widest > 0) || !Number.isFinite(widest)) return null
  if (!own || 'u' in own.shape) return placeOf(widest, digits)
  const narrowest = Math.min(...widths.filter((width) => width > 0))
  const place = Math.max(placeOf(narrowest, digits), placeOf(widest, 4))
  const inUnit = fromSI(value, unit)
  const idle = [inUnit, ...widths].every((one) => Number(roundedTo(one, place)) === Number(roundedTo(one, place + 1)))
  return idle ? place + 1 : place
}

function widthsOf(value: number, { shape, mode }: Own): readonly number[] {
  const size = mode === 'scale' ? Math.abs(value) : 1
  return 'u' in shape ? [shape.u * size] : [-shape.low * size, shape.high * size]
}

interface How {
  readonly form: 'plain' | 'concise' | 'exact'
  readonly digits: 1 | 2
  readonly number: (value: number) => string
  readonly value?: string
}

/** Number, tolerance and unit, without relation and note; `marks` go into the note. */
interface Body {
  readonly text: string
  readonly marks: readonly string[]
}

function bodyOf(quantity: Printable, unit: Unit, how: How): Body {
  const { value, own, range } = quantity
  const suffix = unitSuffix(unit, quantity.qualifier)
  const plainValue = how.value ?? how.number(fromSI(value, unit))
  if (!own || quantity.relation || own.why === 'copper-weight') return { text: plainValue + suffix, marks: [] }
  const added = own.mode === 'scale' && (unit.offset !== 0 || isPure(unit)) ? asAdded(own, value) : own
  if (range && added.mode === 'add' && 'low' in added.shape) return rangeBody(value, added.shape, unit, suffix, how)
  return 'u' in added.shape
    ? standardBody(quantity, added, unit, suffix, how)
    : limitsBody(plainValue, added, unit, suffix, how)
}

const isPure = (unit: Unit) => unit.exponents.every((exponent) => exponent === 0)

const unitSuffix = (unit: Unit, qualifier: Qualifier | undefined) =>
  `${unit.symbol === '1' ? '' : ` ${unit.symbol}`}${qualifier ? ` ${qualifier}` : ''}`

/** A relative deviation in units of the value, where a % would be read as something else. */
function asAdded(own: Own, value: number): Own {
  const { shape } = own
  const size = Math.abs(value)
  return {
    ...own,
    mode: 'add',
    shape:
      'u' in shape ? { ...shape, u: shape.u * size } : { ...shape, low: shape.low * size, high: shape.high * size },
  }
}

function rangeBody(
  value: number,
  { low, high }: { readonly low: number; readonly high: number },
  unit: Unit,
  suffix: string,
  { number, form }: How,
): Body {
  const write = form === 'exact' ? (end: number) => exactNumber(end, unit) : (end: number) => number(fromSI(end, unit))
  return { text: `${write(value + low)}..${write(value + high)}${suffix}`, marks: [] }
}

function limitsBody(plainValue: string, own: Own, unit: Unit, suffix: string, how: How): Body {
  if (!('low' in own.shape)) throw new RangeError('limits without ends')
  const { low, high, kind } = own.shape
  if (low > 0 || high < 0) throw new RangeError(`printQuantity: limits ${low} and ${high} lie on one side of the value`)
  const marks = kind === 'triangular' ? ['triangular'] : []
  const relative = own.mode === 'scale'
  const write = (width: number) =>
    relative
      ? shareText(width, how)
      : how.form === 'exact'
        ? exactWidth(width, unit)
        : how.number(widthFromSI(width, unit))
  const pair = low === -high ? `± ${write(high)}` : `${write(-low) === '0' ? '-0' : `-${write(-low)}`}/+${write(high)}`
  return { text: relative ? `${plainValue}${suffix} ${pair} %` : `${plainValue} ${pair}${suffix}`, marks }
}

const exactWidth = (width: number, unit: Unit) =>
  unit.ten === null ? everyDigit(widthFromSI(width, unit)) : movedPoint(width, -unit.ten)

const shareText = (share: number, { form }: How) =>
  form === 'exact' ? movedPoint(share, 2) : everyDigit(Number((share * 100).toPrecision(3)))

function standardBody(quantity: Printable, own: Own, unit: Unit, suffix: string, how: How): Body {
  if (!('u' in own.shape)) throw new RangeError('a standard uncertainty without u')
  const { shape } = own
  const marks = shape.kind === 'student' ? [`n=${Math.max(2, Math.floor(shape.dof) + 1)}`] : []
  if (own.mode === 'scale') {
    const value = how.value ?? how.number(fromSI(quantity.value, unit))
    return { text: `${value}${suffix} ± ${shareText(shape.u, how)} %`, marks: [...marks, 'k=1'] }
  }
  const u = widthFromSI(shape.u, unit)
  if (how.form === 'exact')
    return { text: `${how.value} ± ${exactWidth(shape.u, unit)}${suffix}`, marks: [...marks, 'k=1'] }
  const rounded = roundToUncertainty(fromSI(quantity.value, unit), u, how.digits)
  if (how.form === 'concise' && u > 0) return { text: `${rounded.concise}${suffix}`, marks }
  return { text: `${rounded.value} ± ${rounded.u}${suffix}`, marks: [...marks, 'k=1'] }
}

/** Units people misread carry the other one in the note: 5 mil (= 127 µm). */
function glossOf({ value, relation }: Printable, unit: Unit): string {
  if (relation) return ''
  if (unit.code === '[mil_i]') return `= ${significant(value * 1e6, 4)} µm`
  return unit.code === '[oz_av]/[ft_i]2' && unit.exponents[0] === 1 ? `= ${significant(value * 1e6, 4)} µm` : ''
}

function finish({ relation, approx, note }: Printable, { text, marks }: Body, gloss: string): string {
  const lead = relation ? `${relation} ` : approx ? '≈ ' : ''
  const words = [gloss, ...noteWords(note), ...marks].filter((word) => word !== '')
  return `${lead}${text}${words.length > 0 ? ` (${words.join('; ')})` : ''}`
}

/** A note as it is written, without what belongs to the tolerance (k, n). */
function noteWords(note: Note | undefined): readonly string[] {
  if (!note) return []
  const keyed = (['with', 'by', 'on', 'photo', 'from', 'visible'] as const).flatMap((key) =>
    note[key] === undefined ? [] : [`${key} ${note[key]}`],
  )
  const rests = note.restsOn.length > 0 ? [`rests on ${note.restsOn.join(' ')}`] : []
  return [note.basis ?? '', note.confidence ?? '', ...keyed, ...rests].filter((word) => word !== '')
}
