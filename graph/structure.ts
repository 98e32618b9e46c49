import type { PartNode, PieceState, TeardownGraph } from './kinds.ts'
import type { Path } from './quantity/quantity.ts'
import type { Found, Query } from './query.ts'
import type { TeardownRecord } from './record/record.ts'
import type { Settings } from './settings.ts'

/** A record with its graph built: answers the closed list of structural questions. */
export interface Structure {
  readonly record: TeardownRecord
  readonly graph: TeardownGraph
  answer(query: Query, settings: Pick<Settings, 'counts'>): Found
  /** Whether the pieces of an entry deviate within tolerance each on its own. */
  variesEach(entry: Path): boolean
  stageOf(passage: Path): number | null
  partNode(entry: Path): PartNode
  netsOf(piece: Path): readonly Path[]
  stateOf(piece: Path): PieceState
  potentialOf(net: Path): string | null
}
