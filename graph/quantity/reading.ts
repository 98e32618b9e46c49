import type { Basis, Nothing } from './basis.ts'
import type { Dimension } from './dimension.ts'
import type { Shape } from './quantity.ts'
import type { Unit } from './unit.ts'

/** One thing wrong in a quantity text: where, what was read and is wrong, and what mends it. */
export interface QuantityComplaint {
  /** Offset into the text as given, from 0. */
  readonly at: number
  readonly what: string
  readonly mend: string
  /** What to write instead, when one thing is likely: a unit, a word. */
  readonly suggest?: string
}

/**
 * Deviation of a written value from the true one, as the text states it: `add` in SI units, `scale` relative
 * (value·(1 + z)); `why` names how it was read.
 */
export interface Own {
  readonly mode: 'add' | 'scale'
  readonly shape: Shape
  readonly why: 'limits' | 'expanded' | 'standard' | 'readings' | 'range' | 'copper-weight'
}

/** One number of a text, in SI. */
export interface Numbered {
  readonly value: number
  readonly own?: Own
  /** Size of the last digit written, in SI: what the writer could tell apart. Absent for a fraction or a gauge. */
  readonly step?: number
  /** Significant digits as written. */
  readonly digits: number
}

/** What stands in the note of a quantity. */
export interface Note {
  readonly basis?: Basis
  readonly confidence?: Confidence
  /** Coverage factor of what follows the ±. */
  readonly k?: number
  /** Number of readings behind the value. */
  readonly n?: number
  readonly with?: string
  readonly by?: string
  readonly on?: string
  readonly photo?: string
  readonly from?: string
  readonly visible?: string
  /** Findings it stands or falls with. */
  readonly restsOn: readonly string[]
}

export const CONFIDENCES = ['possible', 'likely', 'near-certain'] as const
type Confidence = (typeof CONFIDENCES)[number]

export type Qualifier = 'rms' | 'peak' | 'peak-to-peak' | 'dc' | 'ac'

/** What every reading has, whatever its form. */
interface Common {
  readonly ok: true
  readonly text: string
  readonly note: Note
  readonly warnings: readonly string[]
  /** One sentence that says how the text was read. */
  readonly readBack: string
}

interface Measured extends Common {
  readonly unit: Unit
  /** Of the field, or, without one, what the unit measures; undefined when that has no name here. */
  readonly dimension: Dimension | undefined
  readonly approx: boolean
}

/** One value, or a bound on it. */
export interface ScalarReading extends Measured, Numbered {
  readonly form: 'scalar'
  /** A bound is not a value: no figure uses it as one. */
  readonly bound?: '<' | '>'
  readonly relation?: '<' | '>' | '≤' | '≥'
  /** Lowest and highest value stated by a tolerance or a range [SI]. */
  readonly interval?: readonly [low: number, high: number]
  readonly qualifier?: Qualifier
  /** Set by a written range (`8..10 L/min`): the value is its middle. */
  readonly range?: true
}

/** Sides multiplied: `58 x 44 mm` where an area is asked for, three sides where a volume is. */
interface ProductReading extends Measured {
  readonly form: 'area' | 'volume'
  readonly value: number
  readonly sides: readonly Numbered[]
}

/** A size: two or three lengths. */
interface BoxReading extends Measured {
  readonly form: 'box'
  readonly sides: readonly Numbered[]
}

/** A place in the frame of the specimen, or an offset. */
interface PlaceReading extends Measured {
  readonly form: 'place'
  readonly coordinates: readonly Numbered[]
}

/** Points and boxes in a picture. */
interface PixelReading extends Common {
  readonly form: 'pixels'
  readonly pixels: readonly number[]
}

interface NothingReading extends Common {
  readonly form: 'nothing'
  readonly nothing: Nothing
}

export interface Unreadable {
  readonly ok: false
  readonly text: string
  readonly complaints: readonly QuantityComplaint[]
}

export type QuantityReading = ScalarReading | ProductReading | BoxReading | PlaceReading | PixelReading | NothingReading
export type ParsedQuantity = QuantityReading | Unreadable

/** What a field asks for. */
export interface Wanted {
  readonly dimension?: Dimension
  /**
   * `count`: a whole number; `phase-current`: rms, and a warning when the text does not say so; others: the form.
   * Without it any form is taken that the dimension allows.
   */
  readonly kind?: 'scalar' | 'box' | 'place' | 'pixels' | 'count' | 'phase-current'
}

/** Stops the reading of a text with one complaint; caught where the reading starts. */
export class Refused extends Error {
  readonly complaint: QuantityComplaint

  constructor(complaint: QuantityComplaint) {
    super(complaint.what)
    this.complaint = complaint
  }
}

export function refuse(at: number, what: string, mend: string, suggest?: string): never {
  throw new Refused({ at, what, mend, ...(suggest !== undefined && { suggest }) })
}
