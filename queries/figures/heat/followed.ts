import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import type { HeatState } from './network.ts'
import { sharesFrom, type Transfer } from './transfer.ts'

/**
 * Where the heat of a node ends when resistances on its way are not known: it takes the only way out, from one group of
 * nodes to the next, as far as a place from which the rest is known.
 */
export function followed(view: View, state: HeatState, node: Path): Transfer['ends'] {
  const group = state.settled.floating.find(({ nodes }) => nodes.includes(node))
  if (!group) return sharesFrom(view, node)
  const { through, beyond } = group
  if (beyond !== null) return followed(view, state, beyond as Path)
  return [{ end: endOf(state, through), share: 1 }]
}

const endOf = ({ open }: HeatState, id: string): Path =>
  (open.sinks.find((one) => one.id === id)?.sink ?? open.coolings.find((one) => one.id === id)!.passage) as Path
