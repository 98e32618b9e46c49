import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { type HeatState, heatNetwork, type PassageCoolant, raise, sayCoarse } from './network.ts'
import { onwards, sayOnwards } from './onwards.ts'
import { known } from './reading.ts'
import { type Entry, heatTopology } from './topology.ts'

/** The solved part of the network that a node, way, passage or source belongs to. */
export function stateOf(view: View, thing: Path): HeatState {
  const island = heatTopology(view).islandOf.get(thing)
  return island ? view.model(heatNetwork, island.id) : noPath(view, thing)
}

export function noPath(view: View, thing: Path): never {
  return view.fail(`no heat path leads from ${thing} to coolant, air or frame: record it under heat`, 'refused', thing)
}

/** Temperature of a node, or the lacks that keep it from being known [K]. */
export function temperatureAt(view: View, node: Path): number {
  const { temperatures, settled } = stateOf(view, node)
  return temperatures.get(node) ?? missing(view, node, settled.temperatureGaps.get(node))
}

/** Heat through a way or a cooling, or the lacks that keep it from being known [W]. */
export function heatThrough(view: View, id: Path): number {
  const { heats, settled } = stateOf(view, id)
  return heats.get(id) ?? missing(view, id, settled.heatGaps.get(id))
}

function missing(view: View, thing: Path, gaps: ReadonlySet<string> | undefined): never {
  return gaps ? raise(view, gaps) : noPath(view, thing)
}

export function coolantAt(view: View, passage: Path): PassageCoolant {
  const { coolant, settled } = stateOf(view, passage)
  return coolant.get(passage) ?? raise(view, settled.temperatureGaps.get(passage) ?? [])
}

/** Heat that a passage takes up from all the faces it cools [W]. */
export function heatInto(view: View, passage: Path): number {
  const coolings =
    heatTopology(view)
      .islandOf.get(passage)
      ?.coolings.filter((one) => one.passage === passage) ?? []
  return view.each(coolings, ({ id }) => heatThrough(view, id)).reduce((sum, heat) => sum + heat, 0)
}

/** Heat that crosses a face: what its ways bring, else what leaves it [W]. */
export function heatAcross(view: View, face: Path): number {
  const island = heatTopology(view).islandOf.get(face)
  const into = island?.ways.filter(({ to }) => to === face) ?? []
  const out = [
    ...(island?.ways.filter(({ from }) => from === face) ?? []),
    ...(island?.coolings.filter((one) => one.face === face) ?? []),
  ]
  const crossing = into.length > 0 ? into : out
  if (crossing.length === 0) view.fail('no heat path crosses this face', 'not-applicable', face)
  return view.each(crossing, ({ id }) => heatThrough(view, id)).reduce((sum, heat) => sum + heat, 0)
}

/** Where the heat of a piece enters the network: itself, what is inside of it, or what it stands in. */
export const entriesWithin = (view: View, piece: Path): readonly Entry[] => heatTopology(view).entriesOf(piece)

/** Temperature where the heat of a piece arises; of a piece with several such places, the hottest. */
export function hottest(view: View, piece: Path): number {
  const entries = entriesWithin(view, piece)
  if (entries.length === 0) return noPath(view, piece)
  const nodes = entries.map(({ node }) => node)
  for (const { of, node } of entries) sayPackage(view, of, node)
  sayOnwards(view, nodes)
  view.choice(`coarse coolant of ${nodes.join(' ')}`, () => known(view, () => sayCoolant(view, nodes)))
  return Math.max(...view.each(entries, ({ node }) => temperatureAt(view, node)))
}

/** Of the coolant that takes this heat up. */
function sayCoolant(view: View, nodes: readonly Path[]): void {
  for (const node of onwards(view, nodes)) {
    const coolings = heatTopology(view).islandOf.get(node)?.coolings ?? []
    for (const { face, passage } of coolings) if (face === node) sayCoarse(view, stateOf(view, node), passage)
  }
}

/** A path that starts at the part itself goes before its resistance from junction to case: that one is then in no way. */
function sayPackage(view: View, of: Path, node: Path): void {
  const topology = heatTopology(view)
  const starting = topology.islandOf.get(node)?.ways.filter(({ from }) => from === node) ?? []
  if (of !== node || starting.every(({ path }) => path === null)) return
  if (view.may(`${node}/thermal-resistance` as Path) === undefined) return
  view.note(
    `the resistance from junction to case of ${node} is not in it: ${starting.map(({ id }) => id).join(', ')} starts at the part itself; start it at a face of the part to count it`,
  )
}
