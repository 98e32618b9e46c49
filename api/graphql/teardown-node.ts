import type { CheckRow, TeardownRow, TraitRow } from '../../graph/store/store.ts'
import type { FigureAnswer } from '../answers.ts'
import type { Opened } from '../corpus.ts'

/** A teardown as far as it was fetched for this request. */
export interface TeardownNode {
  readonly row: TeardownRow
  /** The record itself, when the query asks for something that only it can tell. */
  readonly opened: Opened | null
  /** Stored figures, by the name of their conditions. */
  readonly figures: ReadonlyMap<string, readonly FigureAnswer[]>
  readonly traits: readonly TraitRow[]
  readonly checks: readonly CheckRow[]
  /** Paths of parts that answer a filter, by the filter as JSON. */
  readonly parts: ReadonlyMap<string, ReadonlySet<string>>
}

/** The record of a node. That it was fetched is the duty of the field's `needs: 'body'`. */
export function recordOf(node: TeardownNode): Opened {
  if (!node.opened) throw new Error(`the record of "${node.row.id}" was not fetched: a field lacks its needs`)
  return node.opened
}
