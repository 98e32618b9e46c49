import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Settings } from '../../graph/settings.ts'
import type { View } from '../../graph/view.ts'
import type { NumericName } from '../conditions.ts'

export type SubjectKind = 'specimen' | 'component' | 'loop' | 'passage' | 'net' | 'board' | 'trace' | 'path' | 'joint'

/** What a figure is. One object in one list: enum, docs, CLI and dashboard read the list. */
export interface Figure {
  /** Upper case with underscores, e.g. POWER_DENSITY. */
  readonly id: string
  readonly title: string
  /** What is divided by what, on which basis: a sentence a practitioner would accept. */
  readonly definition: string
  /** Customary symbol of the unit of measure it is given in. */
  readonly unit: string
  readonly subject: SubjectKind
  /** The settings it depends on; a test holds this equal to the settings that are read. */
  readonly honours: readonly (keyof Settings)[]
  /** Numeric conditions it depends on: shown as recorded, but ranked only when they were set alike for all. */
  readonly operating?: readonly NumericName[]
  /** A maximum, minimum, rank or spread: always sampled. */
  readonly kink?: true
  /** Costs so much to compute that it is sampled with the fewest draws. */
  readonly costly?: true
  /** Says only that the true value is no higher: an observed value below it contradicts nothing. */
  readonly bound?: 'upper'
  /** Counts and shares of counts: relations never enter a variance, so nothing is perturbed. */
  readonly exact?: true
  /** Stored energy, high voltage, hot coolant or a cut unit: which caution goes with it. */
  readonly caution?: 'energy' | 'voltage' | 'heat'
  /** Other figures it reads through the view: the registry refuses a cycle. */
  readonly uses?: readonly string[]
  readonly method: string
  readonly sources: readonly string[]
  /** What it is about in this record; logged, so that a new module makes a new figure. */
  subjects(view: View): Found
  /** SI value, or the two bounds it lies between where no method gives a value; lacks are thrown by the view. */
  compute(view: View, subject: Path): number | Bounds
}

/** What is known only to lie between two values: the result has no value of its own, and no figure can stand on it. */
export interface Bounds {
  readonly low: number
  readonly high: number
}

/** Declares a figure; only there so that the literal type of its id is kept. */
export function defineFigure<const F extends Figure>(figure: F): F {
  return figure
}

/** The one subject of a figure about the whole specimen. */
export const SPECIMEN: Found = { paths: ['specimen' as Path], census: 'complete', basis: 'measured', restsOn: [] }
