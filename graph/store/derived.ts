import type { Basis } from '../quantity/basis.ts'
import type { Path } from '../quantity/quantity.ts'

/**
 * What is computed from a record when it is written, so that the corpus answers without rebuilding graphs.
 * The store keeps these rows without knowing what a figure is; whoever computes them declares nothing else.
 */
export interface Derived {
  readonly summary: DerivedSummary
  readonly parts: readonly DerivedPart[]
  readonly passages: readonly DerivedPassage[]
  readonly figures: readonly DerivedFigure[]
  readonly traits: readonly DerivedTrait[]
  readonly checks: readonly DerivedCheck[]
  /** Instruments that the record names, so that "what else was measured with it" is one lookup. */
  readonly instruments?: readonly DerivedInstrument[]
}

export interface DerivedSummary {
  readonly title: string
  readonly kind: string
  readonly maker: string | null
  readonly model: string | null
  /** One text for full-text search: title, markings, findings. */
  readonly text: string
}

/** One entry of the parts list (all its pieces), searchable. */
export interface DerivedPart {
  readonly path: Path
  readonly id: string
  readonly class: string
  readonly group: string
  readonly parent: Path | null
  readonly built: number
  readonly found: number
  readonly type: string | null
  readonly marking: string | null
  /** Marking in one case without blanks and punctuation, for matching. */
  readonly markingNormal: string | null
  readonly material: string | null
  readonly states: readonly string[]
  readonly nets: readonly string[]
  readonly potentials: readonly string[]
  /** Where the heat of any of its pieces finally ends: passages, ambient, frame. */
  readonly heatEnds: readonly Path[]
  readonly properties: readonly DerivedProperty[]
  readonly bases: readonly Basis[]
  readonly text: string
}

export interface DerivedProperty {
  /** Path below the part, e.g. `capacitance`, `faces/lower/area`. */
  readonly name: string
  /** SI; null for words and nothings. */
  readonly value: number | null
  readonly word: string | null
  readonly basis: Basis
}

export interface DerivedPassage {
  readonly path: Path
  /** Position along the coolant from the inlet, 0 first; null when it stands in no sequence. */
  readonly stage: number | null
  readonly upstream: readonly Path[]
}

export interface DerivedFigure {
  readonly metric: string
  readonly subject: Path
  /** Name of the set of conditions it was computed under; `default` first of all. */
  readonly conditions: string
  readonly status: 'OK' | 'MISSING' | 'NOT_APPLICABLE' | 'OUT_OF_RANGE'
  readonly unit: string
  /** In `unit`, as are the others. */
  readonly value: number | null
  readonly atTaken: number | null
  readonly uncertainty: number | null
  readonly low: number | null
  readonly high: number | null
  readonly how: string
  readonly basis: Basis | null
  /** Why there is no value, and what to measure, in one line. */
  readonly reason: string | null
  /** Signed first-order component by influence, in `unit`: covariance of two figures is a dot product. */
  readonly components: Readonly<Record<string, number>>
  /** The whole result as JSON: inputs, missing, warnings, what it rests on, log. */
  readonly body: string
}

export interface DerivedTrait {
  readonly id: string
  readonly subject: Path
  readonly value: string
  readonly basis: Basis | null
}

export interface DerivedCheck {
  readonly id: string
  readonly path: string
  readonly severity: 'error' | 'warning' | 'question'
  readonly what: string
  readonly mend: string
}

export interface DerivedInstrument {
  readonly path: Path
  /** What it is known by across records: kind and serial, `balance 0417`. */
  readonly key: string
}
