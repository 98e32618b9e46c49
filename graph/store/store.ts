import type { Basis } from '../quantity/basis.ts'
import type { Path } from '../quantity/quantity.ts'
import type { Derived, DerivedCheck, DerivedFigure, DerivedPart, DerivedPassage, DerivedTrait } from './derived.ts'
import type {
  ComponentWhere,
  FigureQuestion,
  Page,
  Span,
  Tallied,
  Tally,
  TeardownOrder,
  TeardownWhere,
} from './question.ts'

/**
 * Keeps records and what is derived from them. It knows neither what a record says nor what a figure is, so that a
 * server database can stand in the place of the file. Everything is asynchronous; every refusal is a `StoreError`.
 */
export interface Store {
  /** Writes a revision and its derived rows, all or nothing. */
  commit(write: Write): Promise<Committed>
  /** Several, all or nothing, in the order given. */
  commitAll(writes: readonly Write[]): Promise<readonly Committed[]>
  /** A revision that says the record is withdrawn; a later commit brings it back. */
  withdraw(withdrawal: Withdrawal): Promise<Committed>
  /** Puts freshly computed rows in the place of those stored; the revision must be the current one. */
  replaceDerived(id: string, revision: number, derived: Derived, stamp?: string): Promise<void>

  /** What is stored under the id now. NotFound when nothing ever was; withdrawn records are told as such. */
  head(id: string): Promise<Head>
  /** A revision with its text and body; the current one when no number is given. NotFound also when it is withdrawn. */
  revision(id: string, revision?: number): Promise<Revision>
  /** All revisions, oldest first. */
  history(id: string): Promise<readonly RevisionHead[]>
  /** Ids of the current records, sorted; of the withdrawn too when asked. */
  ids(choice?: { readonly withdrawn?: boolean }): Promise<readonly string[]>
  /** Ids whose derived rows were computed under another stamp than this one. */
  outdated(stamp: string): Promise<readonly string[]>

  teardowns(where: TeardownWhere, order: TeardownOrder, span: Span): Promise<Page<TeardownRow>>
  countTeardowns(where: TeardownWhere): Promise<number>
  /** Rows of these records, in the order of the ids; unknown and withdrawn ones are left out. */
  teardownRows(ids: readonly string[]): Promise<readonly TeardownRow[]>
  /** Parts of all records: records in the order they were first added, parts by path. */
  components(where: ComponentWhere, span: Span): Promise<Page<ComponentRow>>
  countComponents(where: ComponentWhere): Promise<number>
  component(teardown: string, path: string): Promise<ComponentRow | null>

  /** Without working: metric by metric in the order asked, records in the order added, subjects by path. */
  figures(question: FigureQuestion): Promise<readonly FigureRow[]>
  /** The whole result (JSON) and the components of these figures; the same order, null where there is none. */
  figureDetails(keys: readonly FigureKey[]): Promise<readonly (FigureDetail | null)[]>
  /** Every figure of one record under a set of conditions. */
  figuresOf(teardown: string, conditions?: string): Promise<readonly FigureRow[]>
  traitsOf(teardowns: readonly string[]): Promise<readonly TraitRow[]>
  checksOf(teardowns: readonly string[]): Promise<readonly CheckRow[]>
  passagesOf(teardown: string): Promise<readonly DerivedPassage[]>
  /** Values that occur, most used first. */
  tally(of: Tallied): Promise<readonly Tally[]>
  /** Values that a trait takes and in how many records. */
  traitTally(trait: string): Promise<readonly Tally[]>

  /** A complete copy in one file, checked before it gets its name. Refuses to overwrite. */
  backup(to: string, progress?: (done: number) => void): Promise<Backup>
  /** Looks for damage: pages, references, hash and seal of every revision. */
  verify(): Promise<Verified>
  state(): Promise<State>
  close(): Promise<void>
}

/** Who writes, when and why. */
export interface Signature {
  /** RFC 3339, UTC. */
  readonly at: string
  readonly by?: string
  readonly note?: string
}

/**
 * The revision that the writer saw: a number, null when there was no record (or a withdrawn one), undefined when it
 * does not matter.
 */
export type Expected = number | null | undefined

export interface Write extends Signature {
  readonly id: string
  readonly sheetText: string
  /** JSON of what was read from the sheet. */
  readonly body: string
  readonly expected: Expected
  readonly derived: Derived
  /** Version of whatever computed the derived rows. */
  readonly stamp?: string
}

export interface Withdrawal extends Signature {
  readonly id: string
  readonly expected: Expected
}

export interface Committed {
  readonly id: string
  readonly revision: number
  readonly hash: string
  /** The same content was stored already: no revision was made. Derived rows were brought up to date all the same. */
  readonly unchanged: boolean
}

export interface RevisionHead extends Signature {
  readonly id: string
  readonly revision: number
  readonly withdrawn: boolean
  /** SHA-256 of the content. */
  readonly hash: string
  /** SHA-256 of this line of the history and of the seal before it: a line that was altered is found. */
  readonly seal: string
}

export interface Revision extends RevisionHead {
  readonly sheetText: string
  readonly body: string
}

export interface Head extends RevisionHead {
  /** Version of whatever computed the derived rows. */
  readonly stamp: string
}

export interface TeardownRow {
  readonly id: string
  readonly revision: number
  readonly hash: string
  readonly at: string
  readonly title: string
  readonly kind: string
  readonly maker: string | null
  readonly model: string | null
}

/** A part with what is known of it; `text` stays in the index. */
export interface ComponentRow extends Omit<DerivedPart, 'text'> {
  readonly teardown: string
  readonly revision: number
}

export interface FigureRow extends Omit<DerivedFigure, 'components' | 'body'> {
  readonly teardown: string
  readonly revision: number
}

/** Names one stored figure. */
export interface FigureKey {
  readonly teardown: string
  readonly metric: string
  readonly subject: string
  readonly conditions: string
}

export interface FigureDetail extends FigureKey {
  readonly components: Readonly<Record<string, number>>
  readonly body: string
}

export interface TraitRow extends DerivedTrait {
  readonly teardown: string
  readonly subject: Path
  readonly basis: Basis | null
}

export interface CheckRow extends DerivedCheck {
  readonly teardown: string
}

export interface Backup {
  readonly file: string
  readonly bytes: number
  readonly revisions: number
}

export interface Verified {
  readonly revisions: number
  readonly problems: readonly { readonly place: string; readonly what: string; readonly mend: string }[]
}

export interface State {
  readonly file: string
  /** Version of the tables. */
  readonly version: number
  readonly bytes: number
  readonly teardowns: number
  readonly revisions: number
  /** A log of writes lay beside the file when it was opened: it was not closed in order, or is in use elsewhere. */
  readonly unclean: boolean
}
