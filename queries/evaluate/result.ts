import type { Edit } from '../../graph/edit.ts'
import type { Lack } from '../../graph/lack.ts'
import type { Basis } from '../../graph/quantity/basis.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { Settings } from '../../graph/settings.ts'
import type { Read } from '../../graph/trail.ts'

export type Status = 'OK' | 'MISSING' | 'NOT_APPLICABLE' | 'OUT_OF_RANGE'

/** One value a figure stands on. */
export interface Input {
  readonly path: Path
  /** SI, as taken. */
  readonly value: number
  readonly dimension: string
  /** Standard uncertainty, SI; null when exact. */
  readonly uncertainty: number | null
  readonly basis: Basis
  readonly defaulted: boolean
  /** Part of the figure's variance; may be negative when causes are shared; null when the figure has none. */
  readonly share: number | null
  /** Standard uncertainty that the figure would keep if this were known exactly, in `unit` of the figure; null when it has none. */
  readonly remaining: number | null
  /** By how much the figure changes with it: `unit` of the figure for one SI unit of the input; null when it is exact. */
  readonly sensitivity: number | null
}

/** How much of a figure stands on what nobody measured, read or published: on inputs that are judged or assumed. */
export interface WeakShare {
  /** Part of the variance; null when the figure has none. */
  readonly ofVariance: number | null
  /**
   * Part of the value: every input counts by what the figure changes for the same relative change of it. Relations that
   * are judged or assumed are not in it: the whole value stands on each.
   */
  readonly ofValue: number | null
  readonly relations: readonly string[]
}

/** A figure of one subject under stated conditions. Numbers are in `unit`, the figure's customary unit. */
export interface Result {
  readonly metric: string
  readonly subject: Path
  readonly unit: string
  readonly settings: Partial<Settings>
  readonly edits: readonly Edit[]
  readonly status: Status
  /** The figure at the values written: reproducible by hand. */
  readonly atTaken: number | null
  /** Sampled: the median of the draws; else `atTaken`. */
  readonly value: number | null
  readonly u: number | null
  readonly low: number | null
  readonly high: number | null
  readonly how: 'exact' | 'first-order' | 'sampled'
  readonly draws?: number
  readonly standardError?: number
  /** Influence id → signed component, in `unit`. */
  readonly components: Readonly<Record<string, number>>
  readonly inputs: readonly Input[]
  readonly interaction: number | null
  /** Findings, doubtful relations and open censuses it stands on. */
  readonly restsOn: readonly string[]
  readonly weakestBasis: Basis | null
  readonly weak: WeakShare
  readonly missing: readonly Lack[]
  readonly warnings: readonly string[]
  readonly method: string
  readonly sources: readonly string[]
  readonly log: readonly Read[]
}
