import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { requirePositive } from '../../physics/method.ts'
import { below } from '../paths.ts'
import { coolingConductance } from './film.ts'
import { type Bed, patchOf, platesOf, throughPath, type WayResistance, whole } from './layers.ts'
import { sound } from './reading.ts'
import { areaOf } from './spread.ts'
import { heatTopology, isSink } from './topology.ts'

/** Resistance of one way of heat, by the id that the topology gives it. */
export const wayResistance: Model<WayResistance> = {
  id: 'way of heat',
  compute: (view, way) =>
    sound(view, way, () => {
      const found = way.startsWith('heat/')
        ? throughPath(view, heatTopology(view).wayById.get(way)!, (node) => view.quietly(() => bedBelow(view, node)))
        : caseResistance(view, way)
      requirePositive(way, 'resistance', found.resistance)
      saySudden(view, way, found)
      sayAlone(view, way, found)
      return found
    }),
}

/** From here on, heat that is taken as even over a whole face has spread further than anybody computed. */
const SUDDEN = 2

/** Heat that comes to a face by less than its area is taken as even over it: without a layer that spreads, too good. */
function saySudden(view: View, way: Path, { layers }: WayResistance): void {
  const exit = layers.at(-1)?.exit
  const { to } = heatTopology(view).wayById.get(way)!
  const face = exit && !isSink(to) ? patchOf(view, to) : null
  if (!exit || !face) return
  const beside = heatTopology(view)
    .islandOf.get(way)!
    .ways.filter((one) => one.to === to).length
  if (areaOf(face) < SUDDEN * beside * areaOf(exit)) return
  const [small, large] = [areaOf(exit), areaOf(face)].map((area) => Number((area * 1e6).toPrecision(3)))
  // One word for all pieces of a path.
  const [path, end] = [way, to].map((one) => one.replace(/\.[^/]*/g, ''))
  view.note(
    `a lower bound: heat reaches ${end} on ${small} mm² and is taken as even over its ${large} mm²; a part that spreads it belongs into ${path} as a layer with spread: series`,
  )
}

/** A layer without a part has no name by which several sources could be said to stand on it. */
function sayAlone(view: View, way: Path, { layers }: WayResistance): void {
  const { wayById, islandOf } = heatTopology(view)
  const { path, to, layers: made } = wayById.get(way)!
  const entry = path?.replace(/\.[^/]*/g, '')
  const sisters = islandOf.get(way)!.ways.filter((one) => one.to === to && one.path?.replace(/\.[^/]*/g, '') === entry)
  if (path === null || sisters.length < 2) return
  for (const [n, { spreading, layer }] of layers.entries()) {
    if (!spreading || made[n]!.part) continue
    view.note(
      `${layer.replace(/\.[^/]*/g, '')} is taken as a plate of its own under each of ${sisters.length} sources: if it is one, write it as a part, so that they heat each other`,
    )
  }
}

/** Where one path alone leads on through plates, they spread as well; further down only the resistance is taken. */
function bedBelow(view: View, node: Path): Bed {
  const island = heatTopology(view).islandOf.get(node)
  const ways = (island?.ways ?? []).filter(({ from }) => from === node)
  const cooled = island?.coolings.some(({ face }) => face === node) ?? false
  const [only] = ways
  if (ways.length === 1 && !cooled && only && view.may(below(only.id, 'resistance')) === undefined) {
    const layers = platesOf(view, only)
    const size = view.model(wayResistance, only.id).column.area
    if (layers && size !== null) {
      const bed = bedBelow(view, only.to)
      return { ...bed, layers: [...layers, ...bed.layers] }
    }
  }
  return { layers: [], resistance: view.model(resistanceBelow, node) }
}

/** From the inside of a package to one of its faces: the recorded resistance of the part, junction to case. */
function caseResistance(view: View, way: Path): WayResistance {
  const piece = heatTopology(view).wayById.get(way)!.from
  const sisters = heatTopology(view)
    .islandOf.get(piece)
    ?.ways.filter(({ from, path }) => from === piece && path === null)
  if ((sisters?.length ?? 0) > 1)
    view.fail(
      `${piece} gives its heat to several faces: record a heat path from it to each of them, with its resistance`,
      'refused',
      piece,
    )
  return whole(view.need({ value: below(piece, 'thermal-resistance') }).value)
}

/**
 * From a node on to where its heat ends, all its ways in parallel [K/W]: how strongly a plate that ends there is cooled.
 * Heat that takes a way back through another part is left out, which is small where plates spread.
 */
export const resistanceBelow: Model<number> = {
  id: 'resistance below',
  compute(view, node) {
    if (isSink(node)) return 0
    const island = heatTopology(view).islandOf.get(node)
    const ways = (island?.ways ?? []).filter(({ from }) => from === node)
    const coolings = (island?.coolings ?? []).filter(({ face }) => face === node)
    if (ways.length + coolings.length === 0) view.fail(`no heat path leads on from ${node}`, 'refused', node)
    const conductances = view.each([...ways, ...coolings], (one) =>
      'passage' in one
        ? view.model(coolingConductance, one.id).conductance
        : 1 / (view.model(wayResistance, one.id).resistance + view.model(resistanceBelow, one.to)),
    )
    return 1 / conductances.reduce((sum, one) => sum + one, 0)
  },
}
