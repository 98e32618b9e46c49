import { type Dimension, fieldOf } from './dimension.ts'
import type { Item } from './layout.ts'
import { intervalOf, rangeOwn } from './own.ts'
import { readBackOf } from './read-back.ts'
import { type Own, type QuantityReading, refuse, type Wanted } from './reading.ts'
import { type Job, numbered, rmsFactor, type Settled, scaled, settle } from './settle.ts'
import { fromReadings } from './shape.ts'
import type { Tolerance } from './tolerance.ts'
import { toSI, type Unit } from './unit.ts'

/** Makes the reading of a text that was taken apart. */
export function assemble(job: Job): QuantityReading {
  if (job.parts.layout === 'pixels') return pixels(job)
  const settled = settle(job)
  requireKind(settled)
  switch (job.parts.layout) {
    case 'one':
      return scalar(settled, settled.parts.items[0]!)
    case 'range':
      return range(settled)
    case 'readings':
      return readings(settled)
    case 'box':
    case 'place':
      return several(settled, job.parts.layout)
  }
}

function pixels({ text, cursor, parts, noteReading, wanted }: Job): QuantityReading {
  if (wanted.dimension !== undefined && wanted.dimension !== 'pixels') {
    refuse(
      0,
      `"${text}" counts picture elements, but a ${fieldOf(wanted.dimension).name} is asked for here`,
      `write it in ${fieldOf(wanted.dimension).offer.join(', ')}`,
    )
  }
  const numbers = parts.items.map(({ numeral }) => numeral.value)
  if (numbers.some((value) => value < 0))
    refuse(0, `"${text}" has a negative count of picture elements`, 'count from the upper left corner')
  const readBack = `${numbers.join(', ')} picture elements from the upper left corner`
  return {
    ok: true,
    form: 'pixels',
    pixels: numbers,
    text,
    note: noteReading.note,
    warnings: cursor.warnings,
    readBack,
  }
}

const BOUNDS: Readonly<Record<string, '<' | '>'>> = { '<': '<', '≤': '<', '>': '>', '≥': '>' }

function scalar(settled: Settled, item: Item): QuantityReading {
  const { parts, dimension, qualifier, wanted } = settled
  const one = numbered(settled, 0)
  checkTemperature(one.value, settled)
  if (wanted.kind === 'count' || dimension === 'count') checkCount(one.value, item.numeral.text)
  const bound = parts.relation === null ? undefined : BOUNDS[parts.relation]
  if (bound && one.own && settled.tolerances[0]) {
    refuse(
      item.numeral.at,
      `"${parts.relationText}" makes a bound, and a bound has no tolerance`,
      'leave one of them out',
    )
  }
  const { own, ...rest } = one
  const kept = bound ? undefined : own
  const interval = intervalOf(one.value, kept)
  return finish(settled, {
    form: 'scalar',
    ...rest,
    ...(kept && { own: kept }),
    ...(bound && { bound, relation: parts.relation as '<' | '>' | '≤' | '≥' }),
    ...(interval && { interval }),
    ...(qualifier && { qualifier }),
  })
}

function checkTemperature(value: number, { unit, dimension, text, cursor }: Settled): void {
  if (dimension !== 'temperature') return
  if (value < 0) refuse(0, `"${text}" is below absolute zero`, 'a temperature difference is given in K')
  if (unit.code === 'K' && value < 150)
    cursor.warnings.push(
      `"${text}" read as ${value} K, which is ${Math.round(value - 273.15)} °C; write °C if that is meant`,
    )
}

function checkCount(value: number, text: string): void {
  if (!Number.isInteger(value) || value < 0)
    refuse(0, `"${text}" is not a count`, 'a count is a whole number, 0 or more')
}

function range(settled: Settled): QuantityReading {
  const { parts, units, qualifier, dimension } = settled
  const [low, high, more] = parts.items
  if (!low || !high || more)
    return refuse(0, `"${settled.text}" is more than a range`, 'a range has two ends: 8..10 L/min')
  if (parts.relation !== null)
    refuse(0, `"${parts.relationText}" in front of a range`, 'write the range alone, or one bound')
  const extra = low.tolerance ?? high.tolerance
  if (extra)
    refuse(extra.at, `a range with a tolerance ("${extra.text}")`, 'a range is its own tolerance: leave one out')
  const ends = [toSI(low.numeral.value, units[0]!), toSI(high.numeral.value, units[1]!)] as const
  if (ends[0] > ends[1]) {
    refuse(
      low.numeral.at,
      `the range runs backwards: ${low.numeral.text} is above ${high.numeral.text}`,
      `write ${high.numeral.text}..${low.numeral.text}`,
    )
  }
  const made = rangeOwn(low.numeral, high.numeral, units[0]!, units[1]!)
  const factor = rmsFactor(qualifier, dimension)
  checkTemperature(ends[0], settled)
  const value = made.value * factor
  const digits = Math.max(low.numeral.digits, high.numeral.digits)
  return finish(settled, {
    form: 'scalar',
    value,
    own: scaled(made.own, factor),
    interval: [ends[0] * factor, ends[1] * factor],
    digits,
    range: true,
    ...(qualifier && { qualifier }),
  })
}

/** `12.41, 12.38, 12.44 mm`: their mean, and what few readings say about it. */
function readings(settled: Settled): QuantityReading {
  const { parts, noteReading, text } = settled
  const values = parts.items.map((_, index) => numbered(settled, index))
  if (values.some(({ own }) => own))
    refuse(0, `"${text}": readings with tolerances`, 'write the readings alone, or one value with its tolerance')
  if (noteReading.note.n !== undefined && noteReading.note.n !== values.length) {
    refuse(0, `n=${noteReading.note.n}, but ${values.length} readings are written`, 'leave n= out')
  }
  const { mean, shape } = fromReadings(values.map(({ value }) => value))
  const { step } = values[0]!
  const own: Own = { mode: 'add', shape, why: 'readings' }
  return finish(settled, {
    form: 'scalar',
    value: mean,
    own,
    digits: Math.max(...values.map(({ digits }) => digits)),
    ...(step !== undefined && { step }),
  })
}

function several(settled: Settled, layout: 'box' | 'place'): QuantityReading {
  const { parts, dimension } = settled
  const sides = parts.items.map((_, index) => numbered(settled, index))
  if (parts.relation !== null && parts.relation !== '≈')
    refuse(0, `"${parts.relationText}" in front of several numbers`, 'write one bound for each')
  if (layout === 'place') return finish(settled, { form: 'place', coordinates: sides })
  if (dimension !== 'area' && dimension !== 'volume') return finish(settled, { form: 'box', sides })
  const value = sides.reduce((product, side) => product * side.value, 1)
  return finish(settled, { form: dimension, value, sides })
}

/** Number of sides by what is asked for, and no size where one number belongs. */
function requireKind({ parts, wanted, dimension, text }: Settled): void {
  const { layout, items } = parts
  const count = items.length
  const { kind } = wanted
  if (layout === 'place' && count !== 3)
    refuse(
      0,
      `"${text}" has ${count} numbers, a place has three`,
      'write 0 / 120 / 250 mm; a fraction without blanks: 3/8 in',
    )
  if (layout === 'box' && count > 3)
    refuse(0, `"${text}" has ${count} sides`, 'a size has two or three sides: 62 x 48 x 4.6 mm')
  const spatial = dimension === undefined || ['length', 'area', 'volume'].includes(dimension)
  if ((layout === 'box' || layout === 'place') && !spatial) {
    refuse(
      0,
      `"${text}" is a ${layout === 'box' ? 'size' : 'place'}, but one ${fieldOf(dimension).name} is asked for here`,
      layout === 'box' ? 'a number of pieces goes under count:' : 'write one number',
    )
  }
  if (kind !== 'place' && kind !== undefined && layout === 'place')
    refuse(0, `"${text}" is a place, but a ${kind} is asked for here`, 'write one number and its unit')
  if (kind === 'place' && layout !== 'place')
    refuse(0, `"${text}" is not a place`, 'write three numbers: 0 / 120 / 250 mm')
  if (kind === 'box' && layout !== 'box') refuse(0, `"${text}" is not a size`, 'write the sides: 62 x 48 x 4.6 mm')
  if (kind !== 'box' && layout === 'box') requireSides(kind, dimension, count, text)
  if (kind === 'pixels') refuse(0, `"${text}" is not a place in a picture`, 'write it in px: 120 1904 px')
}

function requireSides(kind: Wanted['kind'], dimension: Dimension | undefined, count: number, text: string): void {
  if (dimension === 'area' && count !== 2)
    refuse(0, `"${text}" has ${count} sides, an area has two`, 'write 58 x 44 mm, or 2552 mm²')
  if (dimension === 'volume' && count !== 3)
    refuse(0, `"${text}" has ${count} sides, a volume has three`, 'write 62 x 48 x 4.6 mm, or 13.7 cm³')
  if (kind !== undefined && dimension !== 'area' && dimension !== 'volume')
    refuse(0, `"${text}" is a size, but one number is asked for here`, 'write one length')
}

type Measured = Extract<QuantityReading, { readonly unit: Unit }>
type OwnFields<R> = R extends Measured
  ? Omit<R, 'ok' | 'text' | 'note' | 'warnings' | 'readBack' | 'unit' | 'dimension' | 'approx'>
  : never

function finish(settled: Settled, body: OwnFields<Measured>): QuantityReading {
  const { text, unit, dimension, parts, noteReading, cursor, tolerances } = settled
  checkCoverage(settled)
  const approx = parts.relation === '≈'
  const shared = { ok: true, text, unit, dimension, approx, note: noteReading.note, warnings: cursor.warnings } as const
  let said: string | undefined
  return {
    ...shared,
    ...body,
    /** Worked out when it is asked for: most readings are never said back. */
    get readBack() {
      said ??= readBackOf(this as Measured, toleranceText(tolerances[0] ?? null, unit))
      return said
    },
  }
}

/** A tolerance as said back: with its unit, also where that stands behind it. */
function toleranceText(tolerance: Tolerance | null, unit: Unit): string {
  if (!tolerance) return ''
  return tolerance.unit !== '' || unit.symbol === '1' ? tolerance.text : `${tolerance.text} ${unit.symbol}`
}

/** k= and n= need something to act on; a width of nothing is said. */
function checkCoverage({ noteReading: { note, spread }, parts, tolerances, cursor }: Settled): void {
  if (tolerances[0]?.low === 0 && tolerances[0].high === 0)
    cursor.warnings.push(`"${tolerances[0].text}" says that the value is exact`)
  const stated = tolerances.some(Boolean) || parts.items.some(({ numeral }) => numeral.concise !== null)
  if (!stated && note.k !== undefined)
    refuse(0, `k=${note.k} without a tolerance`, 'write the expanded uncertainty: 12.4 ± 0.2 mm (k=2)')
  if (!stated && spread === 'standard') refuse(0, 'a standard uncertainty without a number', 'write it behind a ±')
  if (!stated && note.n !== undefined && parts.layout === 'one') {
    cursor.warnings.push(
      `n=${note.n} without a spread: list the readings, or write their standard uncertainty behind a ±`,
    )
  }
}
