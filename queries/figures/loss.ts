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
      { name: 'share of what holds it', read: () => shareOfHolder(view, piece, point) },
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

/** A die in a package that states the loss of the whole: shared equally when all its dies are of one kind. */
function shareOfHolder(view: View, piece: Path, point: string): number {
  if (!isDie(view, piece)) return view.need({ loss: asPath(`${piece}/loss`) }).loss
  const holder = view.some({ ask: 'holder', piece }).paths[0]!
  const dies = view.find({ ask: 'dies-within', piece: holder }).paths
  const kinds = new Set(dies.map((die) => die.replace(/\.[^/]*/g, '')))
  if (kinds.size !== 1)
    view.fail(`${holder} holds dies of several kinds: their shares of its loss are not recorded`, 'refused', piece)
  const { value } = view.first([
    { name: point, read: () => view.need({ loss: asPath(`${holder}/loss/${point}`) }).loss },
    { name: 'any', read: () => view.need({ loss: asPath(`${holder}/loss`) }).loss },
  ])
  if (dies.length > 1) view.note(`the loss of ${holder} is shared equally by its ${dies.length} dies`)
  return value / dies.length
}

function isDie(view: View, piece: Path): boolean {
  return view
    .find({ ask: 'dies-within', piece: view.find({ ask: 'holder', piece }).paths[0] ?? piece })
    .paths.includes(piece)
}
