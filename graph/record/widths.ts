import type { Basis } from '../quantity/basis.ts'
import { type DefaultOverrides, type DefaultOwn, defaultOwn } from '../quantity/defaults.ts'
import type { Dimension } from '../quantity/dimension.ts'
import type { Influence, Shape, Term } from '../quantity/quantity.ts'
import type { Numbered, Own, QuantityReading } from '../quantity/reading.ts'
import type { Unit } from '../quantity/unit.ts'
import type { InstrumentDoubt } from './instruments.ts'

/** What makes a claim doubtful: the terms of its value, and the causes that are new with it. */
export interface Width {
  readonly terms: readonly Term[]
  readonly influences: readonly Influence[]
  /** Whether the width is the documented default of basis and dimension. */
  readonly defaulted: boolean
}

export interface WidthInput {
  readonly claim: string
  readonly basis: Basis
  readonly value: number
  readonly unit: Unit
  readonly dimension: Dimension | undefined
  /** The one number, or the sides whose product the value is. */
  readonly sides: readonly Numbered[]
  readonly instrument: InstrumentDoubt | undefined
  /** Defined rather than known: a count, a condition. Only what is written counts. */
  readonly exact: boolean
  /** Widths that the sheet sets instead of the table. */
  readonly overrides: DefaultOverrides
  /** A coordinate: its doubt does not grow with its distance from the origin. */
  readonly coordinate: boolean
}

const NOTHING: Width = { terms: [], influences: [], defaulted: false }

/**
 * Own tolerances are private to the claim. An instrument adds its scale or offset, shared by all it measured, and, where
 * no tolerance is written, half a step of its resolution to each side. With neither, the default of basis and dimension holds.
 */
export function widthOf(input: WidthInput): Width {
  const own = ownTerms(input)
  if (input.exact) return own ?? NOTHING
  const shared = input.instrument ? instrumentTerms(input, input.instrument, own === undefined) : undefined
  if (own || shared) return join(own, shared)
  return byDefault(input)
}

function join(own: Width | undefined, shared: Width | undefined): Width {
  return {
    terms: [...(own?.terms ?? []), ...(shared?.terms ?? [])],
    influences: [...(own?.influences ?? []), ...(shared?.influences ?? [])],
    defaulted: false,
  }
}

/** A tolerance on one side of a product is relative to that side, and so to the product. */
function ownTerms({ claim, sides }: WidthInput): Width | undefined {
  const several = sides.length > 1
  const terms: Term[] = []
  const influences: Influence[] = []
  for (const [n, { own, value }] of sides.entries()) {
    if (!own) continue
    const id = several ? `claim:${claim}/${n + 1}` : `claim:${claim}`
    const shape = several && own.mode === 'add' ? scaled(own.shape, 1 / value) : own.shape
    influences.push({ id, scope: 'claim', shape, about: ABOUT[own.why] })
    terms.push({ influence: id, mode: several ? 'scale' : own.mode, weight: 1 })
  }
  return terms.length > 0 ? { terms, influences, defaulted: false } : undefined
}

const ABOUT: Readonly<Record<Own['why'], string>> = {
  limits: 'own tolerance',
  expanded: 'own expanded uncertainty',
  standard: 'own standard uncertainty',
  readings: 'scatter of its readings',
  range: 'own range',
  'copper-weight': 'tolerance of the copper weight',
}

function instrumentTerms(input: WidthInput, doubt: InstrumentDoubt, withResolution: boolean): Width | undefined {
  const { claim, sides, value } = input
  const terms: Term[] = []
  const influences: Influence[] = []
  const lengthwise = sides.length > 1
  if (doubt.scale) {
    influences.push(doubt.scale)
    terms.push({ influence: doubt.scale.id, mode: 'scale', weight: sides.length })
  }
  if (doubt.offset && fitsUnit(doubt.offset.exponents, input)) {
    influences.push(doubt.offset.influence)
    const weight = lengthwise ? sides.reduce((sum, side) => sum + value / side.value, 0) : 1
    terms.push({ influence: doubt.offset.influence.id, mode: 'add', weight })
  }
  if (withResolution && doubt.resolution && fitsUnit(doubt.resolution.exponents, input)) {
    const half = doubt.resolution.step / 2
    for (const [n, side] of sides.entries()) {
      const id = `claim:${claim}/step${lengthwise ? n + 1 : ''}`
      const weight = lengthwise ? value / side.value : 1
      influences.push({
        id,
        scope: 'claim',
        shape: { kind: 'rectangular', low: -half, high: half },
        about: `half a step of ${doubt.name}`,
      })
      terms.push({ influence: id, mode: 'add', weight })
    }
  }
  return terms.length > 0 ? { terms, influences, defaulted: false } : undefined
}

/** An absolute width fits the value itself, or each side of a product. */
function fitsUnit(exponents: readonly number[], { unit, sides }: WidthInput): boolean {
  return (
    unit.exponents.every((exponent, axis) => exponent === (exponents[axis] ?? 0) * sides.length) ||
    (sides.length > 1 && unit.exponents.every((exponent, axis) => exponent === (exponents[axis] ?? 0)))
  )
}

function byDefault({ claim, basis, value, dimension, sides, coordinate, overrides }: WidthInput): Width {
  const step = sides.length === 1 ? sides[0]?.step : undefined
  const found = coordinate
    ? coordinateDefault(basis, step ?? 0)
    : defaultOwn({ value, basis, dimension, ...(step !== undefined && { step }) }, overrides)
  if (!found) return NOTHING
  const id = `claim:${claim}`
  return {
    terms: [{ influence: id, mode: found.own.mode, weight: 1 }],
    influences: [{ id, scope: 'claim', shape: found.own.shape, about: found.about }],
    defaulted: true,
  }
}

/** Half-width of a coordinate [m]: read off with a caliper, off a drawing, by eye against a known edge (common practice). */
const COORDINATE: Readonly<Record<Basis, number>> = {
  measured: 1e-4,
  marked: 5e-4,
  published: 2e-4,
  reported: 5e-4,
  computed: 5e-4,
  judged: 1e-3,
  assumed: 2e-3,
}

function coordinateDefault(basis: Basis, step: number): DefaultOwn {
  const half = Math.max(COORDINATE[basis], step / 2)
  const shape = { kind: 'rectangular', low: -half, high: half } as const
  return { own: { mode: 'add', shape, why: 'limits' }, about: `default of ${basis}: a coordinate, common practice` }
}

function scaled(shape: Shape, by: number): Shape {
  switch (shape.kind) {
    case 'normal':
      return { kind: 'normal', u: shape.u * by }
    case 'student':
      return { kind: 'student', u: shape.u * by, dof: shape.dof }
    case 'rectangular':
    case 'triangular':
      return { kind: shape.kind, low: shape.low * by, high: shape.high * by }
  }
}

/** Sides of a reading that has a value. */
export function sidesOf(reading: QuantityReading): readonly Numbered[] {
  if (reading.form === 'scalar') return [reading]
  return reading.form === 'area' || reading.form === 'volume' ? reading.sides : []
}
