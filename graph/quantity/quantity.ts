import type { Basis } from './basis.ts'

/** Canonical path of a thing in a record, e.g. `parts/link-cap/capacitance`. Never a list position. */
export type Path = string & { readonly path: unique symbol }

/** Brands a string that is already known to be canonical. */
export function asPath(text: string): Path {
  return text as Path
}

/** Deviation from the taken value: what is not known about one cause of doubt. */
export type Shape =
  | { readonly kind: 'normal'; readonly u: number }
  | { readonly kind: 'rectangular' | 'triangular'; readonly low: number; readonly high: number }
  /** `together`: shares its degrees of freedom with the others of that name. */
  | { readonly kind: 'student'; readonly u: number; readonly dof: number; readonly together?: string }

/** One cause of doubt: private to a claim, or shared (an instrument's scale, a batch, an assumption, a data table). */
export interface Influence {
  readonly id: string
  readonly scope: 'claim' | 'record' | 'corpus'
  readonly shape: Shape
  /** In words, for the budget: "own tolerance", "scale of balance 0417". */
  readonly about: string
}

/**
 * How one influence moves a value. With z the deviation drawn from the influence's shape:
 * `add`: value + weight·z; `scale`: value·(1 + weight·z).
 */
export interface Term {
  readonly influence: string
  readonly mode: 'add' | 'scale'
  readonly weight: number
}

/** A value as a figure may use it, in SI, with everything that makes it doubtful. */
export interface Quantity {
  readonly value: number
  /** Set when the text was a bound ("< 15 nH"): no figure uses it as a value. */
  readonly bound?: '<' | '>'
  readonly terms: readonly Term[]
  readonly basis: Basis
  /** The claim it came from. */
  readonly claim: string
  readonly text: string
  /** Whether the width is the documented default of its basis and dimension. */
  readonly defaulted: boolean
  /** Findings it stands or falls with. */
  readonly restsOn: readonly Path[]
}

/** Standard uncertainty of a shape: its standard deviation. A Student shape has variance u²·ν/(ν−2); the GUM uses u itself. */
export function standardUncertainty(shape: Shape): number {
  switch (shape.kind) {
    case 'normal':
    case 'student':
      return shape.u
    case 'rectangular':
      return (shape.high - shape.low) / Math.sqrt(12)
    case 'triangular':
      return triangularDeviation(shape.low, shape.high)
  }
}

/** Triangle with its peak at the taken value (deviation 0): variance (l² + h² − l·h)/18. */
function triangularDeviation(low: number, high: number): number {
  return Math.sqrt((low * low + high * high - low * high) / 18)
}
