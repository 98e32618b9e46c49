import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'

/**
 * Heat that a piece gives off under the operating point asked for [W]: what is stated for it, for that operating point
 * or for any, else the sum over the pieces inside it that state theirs. Neither is missing, never zero.
 */
export const lossOf: Model<number> = {
  id: 'loss',
  compute(view, piece) {
    const point = view.setting('power') === 'PEAK' ? 'peak' : 'continuous'
    return view.first([
      { name: `stated at ${point}`, read: () => view.need({ loss: asPath(`${piece}/loss/${point}`) }).loss },
      { name: 'stated', read: () => view.need({ loss: asPath(`${piece}/loss`) }).loss },
      { name: 'sum of what is inside', read: () => lossInside(view, piece) },
    ]).value
  },
}

function lossInside(view: View, piece: Path): number {
  const inside = view.find({ ask: 'inside', part: piece }).paths
  const losing = inside.filter((held) => givesHeat(view, held))
  if (losing.length === 0) return view.need({ loss: asPath(`${piece}/loss`) }).loss
  return view.each(losing, (held) => view.model(lossOf, held)).reduce((sum, loss) => sum + loss, 0)
}

/** Whether a piece, or something inside it, is said to give off heat or is a die, which always does. */
function givesHeat(view: View, piece: Path): boolean {
  const stated = view.find({ ask: 'heat-sources-within', piece }).paths
  return stated.length > 0
}
