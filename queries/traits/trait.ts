import type { View } from '../../graph/view.ts'

/** A category told from the graph and explained by it, the way a figure is a number. Filters and groups comparisons. */
export interface Trait {
  readonly id: string
  readonly title: string
  readonly definition: string
  readonly values: readonly string[]
  /** One of `values`; null when the record has nothing of the kind. Lacks are thrown by the view. */
  compute(view: View): string | null
}

export function defineTrait<const T extends Trait>(trait: T): T {
  return trait
}
