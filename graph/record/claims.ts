import type { Basis } from '../quantity/basis.ts'
import type { DefaultOverrides } from '../quantity/defaults.ts'
import type { Dimension } from '../quantity/dimension.ts'
import type { Influence, Path, Quantity } from '../quantity/quantity.ts'
import type { Numbered, QuantityReading } from '../quantity/reading.ts'
import type { Unit } from '../quantity/unit.ts'
import type { Field } from './field.ts'
import type { InstrumentDoubt } from './instruments.ts'
import { evidenceFrom } from './note.ts'
import type { Claim, Evidence } from './record.ts'
import type { StatedClaim } from './stated.ts'
import { sidesOf, widthOf } from './widths.ts'

/** What a claim needs to know beside its own text. */
export interface ClaimSetting {
  readonly field: Field
  /** Basis where the claim names none. */
  readonly basis: Basis
  /** Whether it is one that defines rather than describes: a condition. */
  readonly exact: boolean
  readonly overrides: DefaultOverrides
  readonly instrumentOf: (name: string) => InstrumentDoubt | undefined
  readonly addInfluence: (influence: Influence) => void
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
  const evidence = evidenceFrom(stated.note, setting.basis)
  const base = { id, text: stated.text, evidence }
  const { reading } = stated
  if (reading.form === 'nothing') return { ...base, nothing: reading.nothing }
  if (reading.form === 'word')
    return reading.nothing ? { ...base, nothing: reading.nothing } : { ...base, word: reading.word }
  const number = numberOf(stated, reading, place.component)
  if (!number) return undefined
  return { ...base, quantity: quantityOf({ id, stated, evidence, number, setting }) }
}

/** The same claim, standing for pieces on which nobody made it. */
export function assumedFrom(stated: StatedClaim, place: ClaimPlace, setting: ClaimSetting): Claim | undefined {
  return claimOf({ ...stated, note: { ...stated.note, basis: 'assumed' } }, place, setting)
}

interface NumberRead {
  readonly value: number
  readonly sides: readonly Numbered[]
  readonly unit: Unit
  readonly dimension: Dimension | undefined
  readonly bound?: '<' | '>'
}

function numberOf(stated: StatedClaim, reading: QuantityReading, component: Component): NumberRead | undefined {
  if (stated.readings) return meanOf(stated.readings)
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

/** Mean of repeated readings; the standard deviation of the mean, s/√n, with n − 1 degrees of freedom (JCGM 100:2008 4.2). */
function meanOf(readings: readonly QuantityReading[]): NumberRead | undefined {
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
  return { value: mean, sides: [side], unit: first.unit, dimension: first.dimension }
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
  const base = { value, basis: evidence.basis, claim: id, text: stated.text, restsOn: evidence.restsOn }
  if (bound) return { ...base, bound, terms: [], defaulted: false }
  const width = widthOf({
    claim: id,
    basis: evidence.basis,
    value,
    unit,
    dimension,
    sides,
    instrument: evidence.with === undefined ? undefined : setting.instrumentOf(evidence.with),
    exact: setting.exact || setting.field.form === 'count' || setting.field.form === 'width',
    overrides: setting.overrides,
    coordinate: setting.field.form === 'place',
  })
  for (const influence of width.influences) setting.addInfluence(influence)
  return { ...base, terms: width.terms, defaulted: width.defaulted }
}
