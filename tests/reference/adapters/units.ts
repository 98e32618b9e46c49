import { copperThickness } from '../../../graph/quantity/copper.ts'
import { type Dimension, isDimension } from '../../../graph/quantity/dimension.ts'
import { parseQuantity } from '../../../graph/quantity/parse.ts'
import { roundToUncertainty } from '../../../graph/quantity/print.ts'
import { type Shape, standardUncertainty } from '../../../graph/quantity/quantity.ts'
import type { Own, QuantityReading, ScalarReading } from '../../../graph/quantity/reading.ts'
import { interval95, meanDeviation } from '../../../graph/quantity/shape.ts'
import { UnitError } from '../../../graph/quantity/unit.ts'
import { convert, isUcum, parseUcum } from '../../../graph/quantity/units.ts'
import type { Adapter, Answers, Case } from '../case.ts'

/** Texts as a person writes them, and UCUM codes. */
export const units: Adapter = {
  topics: ['units', 'uncertainty/distributions', 'uncertainty/coverage', 'uncertainty/published'],
  answer(input) {
    const { inputs } = input
    if ('ucum' in inputs) return { valid: isUcum(String(inputs.ucum)) }
    if ('from' in inputs)
      return { value: convert(Number(inputs.value), parseUcum(String(inputs.from)), parseUcum(String(inputs.to))) }
    if ('cases' in inputs) return { treatAs: mismatched() }
    if ('texts' in inputs) return sameReading(inputs.texts as readonly string[])
    if ('digits' in inputs) return { text: roundToUncertainty(Number(inputs.value), Number(inputs.u)).value }
    if ('text' in inputs) return textAnswers(input)
    return shapeAnswers(inputs)
  },
}

/** The five wrong conversions of an archived suite: source and target differ in dimension, so all must be refused. */
function mismatched(): string {
  const pairs = [
    ['s/m/g', 's.m-1.g'],
    ['s/4.m', 's/m'],
  ] as const
  const refused = pairs.every(([from, to]) => {
    try {
      convert(1, parseUcum(from), parseUcum(to))
      return false
    } catch (error) {
      return error instanceof UnitError
    }
  })
  return refused ? 'dimension mismatch' : 'converted'
}

function textAnswers({ inputs, expected }: Case): Answers {
  const text = String(inputs.text)
  const field = fieldOf(inputs.field)
  const reading = parseQuantity(text, field ? { dimension: field } : {})
  if (!reading.ok) {
    const { what, mend, suggest } = reading.complaints[0]!
    return { error: true, message: `${what}; ${mend}`, ...(suggest !== undefined && { suggest }) }
  }
  const common = {
    siUnit: 'si' in expected || 'oneOf' in expected ? siUnitOf(expected) : '',
    warning: reading.warnings.length > 0,
    message: reading.warnings.join('; '),
  }
  if (reading.form === 'scalar') return { ...common, ...scalar(reading, Number(inputs.resolution ?? Number.NaN)) }
  if (reading.form === 'box') return { ...common, si: reading.sides.map((side) => side.value) }
  if (reading.form === 'place') return { ...common, si: reading.coordinates.map((one) => one.value) }
  return { ...common, ...('value' in reading && { si: reading.value }) }
}

/** The unit itself is checked through the number, which is in SI; spelling differs between codes of one unit. */
function siUnitOf(expected: Case['expected']): string {
  const ways = (expected.oneOf as readonly Record<string, unknown>[] | undefined) ?? [expected]
  return String(ways.find((way) => 'siUnit' in way)?.siUnit ?? '')
}

function fieldOf(typed: unknown): Dimension | undefined {
  if (typeof typed !== 'string') return undefined
  const name = typed === 'conductivity' ? 'thermal-conductivity' : typed
  return isDimension(name) ? name : undefined
}

const RELATIONS = { '<': '<', '>': '>', '≤': '≤', '≥': '≥' } as const

function scalar(reading: ScalarReading, resolution: number): Answers {
  const shape = reading.own ? absolute(reading.own, reading.value) : null
  const [low, high] = reading.interval ?? (shape ? limits(shape, reading.value) : [reading.value, reading.value])
  return {
    si: reading.value,
    nominal: reading.value,
    ...(shape && {
      u: standardUncertainty(shape),
      low,
      high,
      dist: shape.kind,
      uIfRectangular: standardUncertainty(shape),
    }),
    ...(shape && { meanIfRectangular: reading.value + meanDeviation(shape) }),
    ...(Number.isFinite(resolution) && { u: resolution / Math.sqrt(12) }),
    ...(reading.relation ? { relation: RELATIONS[reading.relation] } : reading.approx && { relation: 'approximately' }),
    ...(reading.qualifier && { qualifier: reading.qualifier }),
    ...(reading.dimension === 'areal-mass' && { thickness: copperThickness(reading.value) }),
  }
}

function absolute({ mode, shape }: Own, value: number): Shape {
  if (mode === 'add') return shape
  if (shape.kind === 'normal' || shape.kind === 'student') return { ...shape, u: shape.u * Math.abs(value) }
  return { kind: shape.kind, low: shape.low * value, high: shape.high * value }
}

function limits(shape: Shape, value: number): readonly [number, number] {
  if (shape.kind === 'rectangular' || shape.kind === 'triangular') return [value + shape.low, value + shape.high]
  const [low, high] = interval95(shape)
  return [value + low, value + high]
}

function sameReading(texts: readonly string[]): Answers {
  const read = texts.map((text) => parseQuantity(text)).map((one) => (one.ok ? (one as QuantityReading) : undefined))
  const first = read[0]
  const alike = read.every(
    (one) => one?.form === 'scalar' && first?.form === 'scalar' && Math.abs(one.value / first.value - 1) < 1e-9,
  )
  if (!alike || first?.form !== 'scalar' || !first.own) return { error: true, message: 'the texts do not read alike' }
  return { si: first.value, u: standardUncertainty(absolute(first.own, first.value)), siUnit: 'kg' }
}

/** A distribution given by its numbers. */
function shapeAnswers(inputs: Case['inputs']): Answers | undefined {
  const x = (inputs.x ?? inputs) as Record<string, unknown>
  const one = ('x' in x ? x.x : x) as Record<string, unknown>
  const dist = (one.dist ?? ('low' in one ? 'rectangular' : undefined)) as
    | 'rectangular'
    | 'triangular'
    | 'normal'
    | undefined
  if (dist === undefined || dist === 'normal') return undefined
  const half = Number(one.halfWidth)
  const low = 'low' in one ? Number(one.low) : Number(one.value) - half
  const high = 'high' in one ? Number(one.high) : Number(one.value) + half
  const value = 'value' in one ? Number(one.value) : (low + high) / 2
  const shape: Shape = { kind: dist, low: low - value, high: high - value }
  const [low95, high95] = interval95(shape)
  return {
    value,
    mean: value + meanDeviation(shape),
    u: standardUncertainty(shape),
    low95: value + low95,
    high95: value + high95,
  }
}
