import type { Basis } from '../quantity/basis.ts'
import type { Dimension } from '../quantity/dimension.ts'

/**
 * What may stand behind a key: the form of the text and what it measures.
 * `area` and `volume` take a product of lengths as well; `width` is a ± without a value; `any` takes its dimension from the unit.
 */
export interface Field {
  readonly form: 'one' | 'count' | 'box' | 'place' | 'area' | 'volume' | 'width' | 'word' | 'any'
  readonly dimension: Dimension | 'text' | 'any'
  /** Words allowed instead of a number (`computed`), or the only words allowed. */
  readonly words?: readonly string[]
  /** Basis of a bare value whatever the default of the sheet: a marking is read off the part. */
  readonly nature?: Basis
  /** May be below zero: places, temperatures, offsets. */
  readonly signed?: true
  /** Largest value that makes sense at all [SI]. */
  readonly most?: number
  /** A current that is stored as rms: a text that says neither rms nor peak is warned about. */
  readonly rms?: true
  /** What it is, in words. */
  readonly is?: string
  /** May be given once for each of these (operating points), or of any names (windings), instead of once. */
  readonly by?: readonly string[] | 'any'
  /** A mapping of these instead of one value. */
  readonly fields?: Readonly<Record<string, Field>>
}

/** Dimensions whose values may be below zero. */
const SIGNED: ReadonlySet<string> = new Set([
  'temperature-difference',
  'temperature-coefficient',
  'voltage',
  'current',
  'charge',
  'angle',
  'level',
  'current-slope',
  'voltage-slope',
  'torque',
  'force',
])

/** A property measured by one number. */
export function quantity(dimension: Dimension, is?: string, most?: number): Field {
  return {
    form: 'one',
    dimension,
    ...(is !== undefined && { is }),
    ...(SIGNED.has(dimension) && { signed: true as const }),
    ...(most !== undefined && { most }),
  }
}

export const count = (is?: string): Field => ({ form: 'count', dimension: 'count', ...(is !== undefined && { is }) })

export const box = (is = 'Length x width x height (two sides where there is no third).'): Field => ({
  form: 'box',
  dimension: 'length',
  is,
})

export const place = (is = 'Place in the frame of the sheet: x / y / z.'): Field => ({
  form: 'place',
  dimension: 'length',
  signed: true,
  is,
})

export const area = (is?: string): Field => ({ form: 'area', dimension: 'area', ...(is !== undefined && { is }) })

export const volume = (is?: string): Field => ({ form: 'volume', dimension: 'volume', ...(is !== undefined && { is }) })

export const share = (is?: string): Field => quantity('fraction', is, 1)

/** A property told by words; `words` are the only ones allowed, if given. */
export function word(is?: string, words?: readonly string[], nature?: Basis): Field {
  return {
    form: 'word',
    dimension: 'text',
    ...(is !== undefined && { is }),
    ...(words && { words }),
    ...(nature && { nature }),
  }
}

export const yesNo = (is?: string): Field => word(is, ['yes', 'no'])
