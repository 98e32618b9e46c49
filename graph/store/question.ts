import type { Basis } from '../quantity/basis.ts'
import type { DerivedFigure } from './derived.ts'

/** What may be asked of the parts of all records. All that is given must hold; in a list, any of it. */
export interface ComponentWhere {
  readonly teardown?: readonly string[]
  /** Classes or groups of classes. */
  readonly class?: readonly string[]
  /** Found anywhere in the marking, whatever the case, blanks and punctuation. */
  readonly marking?: string
  readonly partType?: string
  readonly material?: string
  /** Id of a net that a terminal of the part is on. */
  readonly net?: string
  readonly potential?: readonly string[]
  readonly state?: readonly string[]
  /** Passage, `ambient` or `frame` in which its heat finally ends: the path, its last segment, either without the piece. */
  readonly heatEndsIn?: string
  /** Its heat ends in a passage in which the heat of such another part of the record ends too. */
  readonly sharesPassageWith?: ComponentWhere
  /** Its heat ends in a passage that the coolant visits before the passage of such another part of the record. */
  readonly upstreamOf?: ComponentWhere
  readonly property?: readonly PropertyRange[]
  /** Something is known of it on one of these bases. */
  readonly basis?: readonly Basis[]
  /** Words that all occur, each possibly as the beginning of a longer one. */
  readonly text?: string
}

/** A number within bounds, in SI, ends included; without bounds: there is a number. */
export interface PropertyRange {
  readonly name: string
  readonly min?: number
  readonly max?: number
}

export interface TeardownWhere {
  readonly id?: readonly string[]
  readonly kind?: readonly string[]
  readonly maker?: readonly string[]
  readonly text?: string
  /** It has a part of one of these classes or groups. */
  readonly class?: readonly string[]
  /** It has such a part. */
  readonly component?: ComponentWhere
  readonly trait?: readonly TraitIs[]
  readonly figure?: readonly FigureIs[]
  /** It names this instrument (kind and serial). */
  readonly instrument?: string
}

/** A trait of any subject of the record; any value when none is given. */
export interface TraitIs {
  readonly id: string
  readonly value?: string
}

/** A figure of any subject, or of `subject`, with one of these statuses (OK when not given) and a value within bounds. */
export interface FigureIs {
  readonly metric: string
  /** `default` when not given. */
  readonly conditions?: string
  readonly subject?: string
  readonly status?: readonly DerivedFigure['status'][]
  /** In the unit of the figure, ends included. */
  readonly min?: number
  readonly max?: number
}

export type TeardownOrder =
  | { readonly by: 'id' | 'title' | 'written'; readonly descending?: boolean }
  /**
   * By the value of a figure: the largest of its subjects when descending, else the least. Records without a value
   * come last either way.
   */
  | {
      readonly by: 'figure'
      readonly metric: string
      readonly conditions?: string
      readonly subject?: string
      readonly descending?: boolean
    }

/** How much of a list: `after` is the cursor of the last item seen. */
export interface Span {
  readonly first: number
  readonly after?: string | null
}

export interface Page<T> {
  readonly items: readonly { readonly cursor: string; readonly node: T }[]
  readonly hasNext: boolean
  readonly hasPrevious: boolean
}

/** Which figures, of which records, under which set of conditions. */
export interface FigureQuestion {
  readonly metrics: readonly string[]
  /** `default` when not given. */
  readonly conditions?: string
  readonly where?: TeardownWhere
  readonly subject?: string
  readonly status?: readonly DerivedFigure['status'][]
}

/** What is counted across records: "where else is this used". */
export type Tallied = 'kind' | 'maker' | 'class' | 'group' | 'type' | 'material' | 'instrument'

export interface Tally {
  readonly value: string
  readonly teardowns: number
  /** Entries of parts lists; null for what belongs to the record as a whole. */
  readonly parts: number | null
}
