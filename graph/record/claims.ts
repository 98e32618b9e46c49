import type { Basis } from '../quantity/basis.ts'
import type { Dimension } from '../quantity/dimension.ts'
import type { Influence, Path, Quantity, Term } from '../quantity/quantity.ts'
import type { Numbered, QuantityReading } from '../quantity/reading.ts'
import type { Unit } from '../quantity/unit.ts'
import { addInfluence, type Book } from './book.ts'
import type { Field } from './field.ts'
import { evidenceFrom } from './note.ts'
import type { Claim, Evidence } from './record.ts'
import type { StatedClaim } from './stated.ts'
import { sidesOf, type Width, widthOf } from './widths.ts'

/** What a claim needs to know beside its own text. */
export interface ClaimSetting {
  readonly field: Field
  /** Basis where the claim names none. */
  readonly basis: Basis
  /** Whether it is one that defines rather than describes: a condition. */
  readonly exact: boolean
  /** Where causes of doubt go, and what instruments and default widths the sheet states. */
  readonly book: Book
}

/** One number of a claim: which of a box or place, or the only one. */
export type Component = 0 | 1 | 2

export interface ClaimPlace {
  readonly path: Path
  /** Counted from 1. */
  readonly n: number
  readonly component: Component
}

/** Makes a claim of what was stated; `undefined`: a box of two sides has no third. */
export function claimOf(stated: StatedClaim, place: ClaimPlace, setting: ClaimSetting): Claim | undefined {
  const id = `${place.path}#${place.n}`
  const { reading, text } = stated
  const evidence = evidenceOf(stated, setting.basis)
  if (reading.form === 'nothing') return { id, text, evidence, nothing: reading.nothing }
  if (reading.form === 'word') {
    return reading.nothing
      ? { id, text, evidence, nothing: reading.nothing }
      : { id, text, evidence, word: reading.word }
  }
  const number = numberOf(stated, reading, place.component)
  return number && { id, text, evidence, quantity: quantityOf({ id, stated, evidence, number, setting }) }
}

/** The same text says the same in every claim: what it says is made once. */
function evidenceOf({ note, evidence }: StatedClaim, basis: Basis): Evidence {
  const known = evidence?.get(basis)
  if (known) return known
  const made = evidenceFrom(note, basis)
  evidence?.set(basis, made)
  return made
}

/** The same claim, standing for pieces on which nobody made it. */
export function assumedFrom(stated: StatedClaim, place: ClaimPlace, setting: ClaimSetting): Claim | undefined {
  const { evidence: _measured, ...rest } = stated
  return claimOf({ ...rest, note: { ...stated.note, basis: 'assumed' } }, place, setting)
}

interface NumberRead {
  readonly value: number
  readonly sides: readonly Numbered[]
  readonly unit: Unit
  readonly dimension: Dimension | undefined
  readonly bound?: '<' | '>'
  /** What its readings share with others taken together with them. */
  readonly run?: Run
}

interface Run {
  readonly name: string
  /** Of each reading, in order: its part in the deviation of the mean. */
  readonly weights: readonly number[]
}

function numberOf(stated: StatedClaim, reading: QuantityReading, component: Component): NumberRead | undefined {
  if (stated.readings) return meanOf(stated.readings, stated.run)
  switch (reading.form) {
    case 'scalar':
    case 'area':
    case 'volume':
      return {
        value: reading.value,
        sides: sidesOf(reading),
        unit: reading.unit,
        dimension: reading.dimension,
        ...(reading.form === 'scalar' && reading.bound && { bound: reading.bound }),
      }
    case 'box':
      return oneOf(reading.sides[component], reading)
    case 'place':
      return oneOf(reading.coordinates[component], reading)
    default:
      return undefined
  }
}

function oneOf(number: Numbered | undefined, { unit }: { readonly unit: Unit }): NumberRead | undefined {
  return number && { value: number.value, sides: [number], unit, dimension: 'length' }
}

/**
 * Mean of repeated readings; the standard deviation of the mean, s/√n, with n − 1 degrees of freedom (JCGM 100:2008 4.2).
 * In a run reading k weighs (x_k − mean)/√(n(n − 1)): the same cause in every mean of the run, so that two of them have
 * the covariance of JCGM 100:2008 5.2.3 (formula 17).
 */
function meanOf(readings: readonly QuantityReading[], run: string | undefined): NumberRead | undefined {
  const scalars = readings.filter((one) => one.form === 'scalar')
  const first = scalars[0]
  if (!first) return undefined
  const n = scalars.length
  const mean = scalars.reduce((sum, { value }) => sum + value, 0) / n
  const squares = scalars.reduce((sum, { value }) => sum + (value - mean) ** 2, 0)
  const u = Math.sqrt(squares / (n - 1) / n)
  const own = { mode: 'add', shape: { kind: 'student', u, dof: n - 1 }, why: 'readings' } as const
  const { step, digits } = first
  const side: Numbered = { value: mean, digits, ...(step !== undefined && { step }), ...(u > 0 && { own }) }
  const weights = scalars.map(({ value }) => (value - mean) / Math.sqrt(n * (n - 1)))
  return {
    value: mean,
    sides: [side],
    unit: first.unit,
    dimension: first.dimension,
    ...(run !== undefined && { run: { name: run, weights } }),
  }
}

interface QuantityInput {
  readonly id: string
  readonly stated: StatedClaim
  readonly evidence: Evidence
  readonly number: NumberRead
  readonly setting: ClaimSetting
}

function quantityOf({ id, stated, evidence, number, setting }: QuantityInput): Quantity {
  const { value, sides, unit, dimension, bound } = number
  const { basis, restsOn } = evidence
  const { text } = stated
  if (bound) return { value, bound, terms: [], basis, claim: id, text, defaulted: false, restsOn }
  const width = widthOf({
    claim: id,
    basis: evidence.basis,
    value,
    unit,
    dimension,
    sides,
    instrument: evidence.with === undefined ? undefined : setting.book.instruments.get(evidence.with),
    exact: setting.exact || setting.field.form === 'count' || setting.field.form === 'width',
    overrides: setting.book.overrides,
    coordinate: setting.field.form === 'place',
  })
  const { terms, influences } = number.run ? together(width, id, number.run) : width
  for (const influence of influences) addInfluence(setting.book, influence)
  return { value, terms, basis, claim: id, text, defaulted: width.defaulted, restsOn }
}

/** The scatter of readings by the causes that the run shares, in the place of one of its own. */
function together(
  { terms, influences }: Width,
  claim: string,
  { name, weights }: Run,
): Pick<Width, 'terms' | 'influences'> {
  const own = `claim:${claim}`
  const shape = { kind: 'student', u: 1, dof: weights.length - 1, together: `run:${name}` } as const
  const shared = weights.map((weight, k) => ({ id: `run:${name}/${k + 1}`, weight }))
  return {
    terms: [
      ...shared.map(({ id, weight }): Term => ({ influence: id, mode: 'add', weight })),
      ...terms.filter(({ influence }) => influence !== own),
    ],
    influences: [
      ...shared.map(({ id }): Influence => ({ id, scope: 'record', shape, about: `scatter of run ${name}` })),
      ...influences.filter(({ id }) => id !== own),
    ],
  }
}
