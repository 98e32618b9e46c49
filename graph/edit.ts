import type { Nothing } from './quantity/basis.ts'
import type { Influence, Path, Quantity } from './quantity/quantity.ts'
import type { Tree } from './record/record.ts'

/**
 * The one language of change: what-if, scenario, mutation, undo, difference, invalidation.
 * `set` keeps the structure; any other patches the record, passes the same invariants and rebuilds its graph.
 */
export type Edit =
  | { readonly set: Path; readonly to: Quantity | Nothing; readonly influences?: readonly Influence[] }
  | { readonly add: Path; readonly entry: Tree }
  | { readonly drop: Path }
  | { readonly relate: Relation; readonly from: Path; readonly to: Path; readonly on: boolean }

export type Relation = 'contains' | 'terminal' | 'conducts' | 'cools' | 'flows' | 'joins'
