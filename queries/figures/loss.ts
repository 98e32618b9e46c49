import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { type DeviceLoss, deviceLoss } from './device-loss.ts'
import { below } from './paths.ts'

/**
 * Heat that a piece gives off under the operating point asked for [W]: what is stated for it, for that operating point
 * or for any; the computed one where the sheet says so; else the sum over the pieces inside it that state theirs. Neither is missing, never zero.
 */
export const lossOf: Model<number> = {
  id: 'loss',
  compute(view, piece) {
    const point = view.setting('power') === 'PEAK' ? 'peak' : 'continuous'
    if (asksComputed(view, piece, point)) return computedLoss(view, piece)
    return view.first([
      { name: `stated at ${point}`, read: () => view.need({ loss: asPath(`${piece}/loss/${point}`) }).loss },
      { name: 'stated', read: () => view.need({ loss: asPath(`${piece}/loss`) }).loss },
      { name: 'sum of what is inside', read: () => lossInside(view, piece) },
      { name: 'share of what holds it', read: () => shareOfHolder(view, piece, point) },
    ]).value
  },
}

/** How a stated loss follows the temperature of its part: only where the sheet says by how much, and from where on. */
export const lossSlope: Model<{ readonly slope?: number; readonly reference?: number }> = {
  id: 'loss over temperature',
  compute(view, piece) {
    const slope = view.may(below(piece, 'loss-coefficient'))
    if (slope === undefined) return {}
    const point = view.setting('power') === 'PEAK' ? 'peak' : 'continuous'
    const paths = [`loss/${point}`, 'loss'].flatMap((loss) =>
      ['junction', 'temperature'].map((at) => `${loss}/at/${at}`),
    )
    const reference = paths.map((path) => view.may(below(piece, path))).find((one) => one !== undefined)
    if (reference !== undefined) return { slope, reference }
    return view.fail(
      `the loss of ${piece} grows with temperature: say at which it was stated (at: { junction: … })`,
      'refused',
      piece,
    )
  },
}

/** Whether the sheet asks for the computed loss of a piece, by the word `computed`. */
function asksComputed(view: View, piece: Path, point: string): boolean {
  return [`${piece}/loss/${point}`, `${piece}/loss`].some((path) => view.mayWord(asPath(path)) === 'computed')
}

/** Of a die or device of the bridge; of what holds several, the sum over them. */
export function computedLoss(view: View, piece: Path): number {
  const dies = view.find({ ask: 'dies-within', piece }).paths
  return view.first([
    { name: 'of itself', read: () => total(view.model(deviceLoss, piece)) },
    ...(dies.length > 0
      ? [{ name: 'of its dies', read: () => sum(view.each(dies, (die) => total(view.model(deviceLoss, die)))) }]
      : []),
  ]).value
}

const total = ({ conduction, switching }: DeviceLoss): number => conduction + switching
const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0)

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
  if (asksComputed(view, holder, point)) return computedLoss(view, holder) / dies.length
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
