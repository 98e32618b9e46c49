import type { Basis } from '../quantity/basis.ts'
import type { Dimension } from '../quantity/dimension.ts'
import { parseQuantity } from '../quantity/parse.ts'
import { standardUncertainty } from '../quantity/quantity.ts'
import type { ParsedQuantity, QuantityReading, Wanted } from '../quantity/reading.ts'
import type { Field } from './field.ts'
import type { Evidence } from './record.ts'
import { didYouMean } from './suggest.ts'
import { readWord, type WordReading } from './word.ts'

export type { WordReading } from './word.ts'

/** Something wrong in a text, by its offset. */
export interface TextFault {
  readonly offset?: number
  readonly what: string
  readonly mend: string
}

export interface TextReading {
  readonly reading?: QuantityReading | WordReading
  readonly faults: readonly TextFault[]
  /** What its note says of how it is known, by the basis that holds where it names none: made once for each. */
  readonly evidence: Map<Basis, Evidence>
}

type Fresh = Omit<TextReading, 'evidence'>

/** Texts already read, per field: an edit reads the whole record again, and nearly every text in it is the same. */
const memo = new Map<Field, Map<string, TextReading>>()
let remembered = 0
const MOST = 50_000

/** Reads the text of a property. Pure: the same text in the same field always reads the same, so it is remembered. */
export function readText(text: string, field: Field): TextReading {
  let texts = memo.get(field)
  const known = texts?.get(text)
  if (known) return known
  if (remembered > MOST) {
    memo.clear()
    remembered = 0
    texts = undefined
  }
  if (!texts) {
    texts = new Map()
    memo.set(field, texts)
  }
  const read = { ...readFresh(text, field), evidence: new Map<Basis, Evidence>() }
  texts.set(text, read)
  remembered += 1
  return read
}

function readFresh(text: string, field: Field): Fresh {
  if (field.form === 'word') return readOneOf(text, field)
  if (field.words) {
    const asWord = readWord(text)
    if (field.words.includes(asWord.word)) return { reading: asWord, faults: [] }
  }
  const parsed = field.form === 'width' ? parseWidth(text) : parseQuantity(text, wantedOf(field))
  if (!parsed.ok) {
    return { faults: parsed.complaints.map(({ at, what, mend }) => ({ offset: at, what, mend })) }
  }
  return { reading: parsed, faults: checkRange(parsed, field) }
}

function readOneOf(text: string, field: Field): Fresh {
  const reading = readWord(text)
  if (field.words && !reading.nothing && !field.words.includes(reading.word)) {
    return {
      faults: [
        { what: `"${reading.word}" is not one of the words for this`, mend: didYouMean(reading.word, field.words) },
      ],
    }
  }
  return { reading, faults: [] }
}

function wantedOf({ form, dimension, rms }: Field): Wanted {
  const wanted = dimension === 'any' || dimension === 'text' ? {} : { dimension: dimension as Dimension }
  if (rms) return { ...wanted, kind: 'phase-current' }
  if (form === 'area' || form === 'volume') return wanted
  if (form === 'box' || form === 'place' || form === 'count') return { ...wanted, kind: form }
  return { ...wanted, kind: 'scalar' }
}

/** `± 0.1 %` or `± 0.03 mm`: a width without a value, read on a value that takes it. Its value is the half-width. */
function parseWidth(text: string): ParsedQuantity {
  const bare = text.trim().replace(/^(?:±|\+\/-|\+-)\s*/, '')
  const relative = /^([\d.,]+)\s*%(.*)$/s.exec(bare)
  const parsed = relative ? parseQuantity(`1 m ± ${relative[1]} %${relative[2]}`) : parseQuantity(`0 ± ${bare}`)
  if (!parsed.ok || parsed.form !== 'scalar' || !parsed.own) return parsed.ok ? noWidth(text) : parsed
  const { shape } = parsed.own
  const limits = shape.kind === 'rectangular' || shape.kind === 'triangular'
  const value = limits ? shape.high : standardUncertainty(shape)
  const how = limits ? 'limits' : 'standard uncertainty'
  const readBack = relative ? `± ${relative[1]} % of what is measured, read as ${how}` : `± ${bare}, read as ${how}`
  return { ...parsed, text, value, readBack, ...(relative && { dimension: 'fraction' }) }
}

function noWidth(text: string): ParsedQuantity {
  const mend = 'write ± 0.1 % of the value, or ± 0.03 mm'
  return { ok: false, text, complaints: [{ at: 0, what: `"${text}" is no width`, mend }] }
}

function checkRange(reading: QuantityReading, field: Field): readonly TextFault[] {
  const numbers = numbersOf(reading)
  if (field.form === 'count' && !numbers.every(Number.isInteger)) {
    return [{ what: 'a count is a whole number', mend: 'write the likeliest one: 9 (judged)' }]
  }
  if (!field.signed && numbers.some((value) => value < 0)) {
    return [{ what: `${field.dimension} below zero`, mend: 'write the size without its sign' }]
  }
  if (field.most !== undefined && numbers.some((value) => value > (field.most ?? 0))) {
    return [{ what: `more than ${field.most === 1 ? '100 %' : field.most} cannot be`, mend: 'check number and unit' }]
  }
  return []
}

/** All numbers of a reading in SI. */
export function numbersOf(reading: QuantityReading): readonly number[] {
  switch (reading.form) {
    case 'scalar':
    case 'area':
    case 'volume':
      return [reading.value]
    case 'box':
      return reading.sides.map(({ value }) => value)
    case 'place':
      return reading.coordinates.map(({ value }) => value)
    case 'pixels':
      return reading.pixels
    case 'nothing':
      return []
  }
}
