import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { coolingConductance } from './film.ts'
import { portsOf } from './mutual.ts'
import { known } from './reading.ts'
import { heatTopology, isSink } from './topology.ts'
import { wayResistance } from './ways.ts'

/** Nodes that the heat of some of them comes to on its ways, themselves among them. */
export function onwards(view: View, starts: readonly Path[]): ReadonlySet<Path> {
  const seen = new Set(starts)
  for (const node of seen)
    for (const { from, to } of heatTopology(view).islandOf.get(node)?.ways ?? [])
      if (from === node && !isSink(to)) seen.add(to)
  return seen
}

/**
 * Passes on what is noted of the ways, plates and films that the heat of these nodes takes. The network is read quietly,
 * for it holds the ways of everybody: a temperature or a resistance calls this for its own.
 */
export function sayOnwards(view: View, starts: readonly Path[]): void {
  view.choice(`what is said of the ways from ${starts.join(' ')}`, () => {
    for (const node of onwards(view, starts)) {
      const island = heatTopology(view).islandOf.get(node)
      for (const { id, from } of island?.ways ?? [])
        if (from === node)
          known(view, () =>
            view.all(
              () => view.model(wayResistance, id),
              () => portsOf(view, id),
            ),
          )
      for (const { id, face } of island?.coolings ?? [])
        if (face === node) known(view, () => view.model(coolingConductance, id))
    }
    return null
  })
}
