import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { factorise, type SparseFactors } from '../../physics/sparse-solve.ts'
import { lossOf } from '../loss.ts'
import { entriesWithin, noPath } from './at.ts'
import { coolingConductance } from './film.ts'
import { patchOf } from './layers.ts'
import { raise } from './network.ts'
import { onwards, sayOnwards } from './onwards.ts'
import { heatConduction } from './open.ts'
import { type OpenNetwork, type Settled, settle } from './settle.ts'
import { areaOf } from './spread.ts'
import { heatTopology, isSink } from './topology.ts'
import { wayResistance } from './ways.ts'

type Conduction = Pick<OpenNetwork, 'nodes' | 'links' | 'sinks' | 'coolings'>

interface Grounded {
  readonly conduction: Conduction
  readonly settled: Settled
  readonly index: ReadonlyMap<string, number>
  readonly factors: SparseFactors
  /** Where heat leaves: the end, the place of its node, the conductance. */
  readonly exits: readonly (readonly [end: Path, node: number, conductance: number])[]
}

/** An island with every coolant, air and frame at one temperature: what a watt somewhere does everywhere. */
const grounded: Model<Grounded> = {
  id: 'grounded heat network',
  compute: (view, id) => ground(view.quietly(() => view.model(heatConduction, id))),
}

function ground(conduction: Conduction): Grounded {
  const settled = settle({
    ...conduction,
    sinks: conduction.sinks.map((one) => ({ ...one, temperature: 0 })),
    sources: [],
    passages: [...new Set(conduction.coolings.map(({ passage }) => passage))].map((passage) => ({
      id: passage,
      upstream: [],
      feeds: [],
    })),
  })
  const lost = new Set([...settled.temperatureGaps.keys(), ...settled.stranded])
  const nodes = conduction.nodes.filter((node) => !lost.has(node))
  const index = new Map(nodes.map((node, n) => [node, n]))
  const rows = nodes.map(() => new Map<number, number>())
  const add = (i: number, j: number, value: number): void => void rows[i]!.set(j, (rows[i]!.get(j) ?? 0) + value)
  for (const { a, b, conductance } of conduction.links) {
    const [i, j] = [index.get(a), index.get(b)]
    if (i === undefined || j === undefined || conductance === undefined) continue
    add(i, i, conductance)
    add(j, j, conductance)
    add(i, j, -conductance)
    add(j, i, -conductance)
  }
  const ending = [
    ...conduction.sinks.map(({ sink, node, conductance }) => ({ end: sink, node, conductance })),
    ...conduction.coolings.map(({ passage, node, conductance }) => ({ end: passage, node, conductance })),
  ]
  const exits = ending.flatMap(({ end, node, conductance }) => {
    const i = index.get(node)
    return i === undefined || conductance === undefined ? [] : [[end as Path, i, conductance] as const]
  })
  for (const [, i, conductance] of exits) add(i, i, conductance)
  return { conduction, settled, index, factors: factorise(rows), exits }
}

/** Where one watt of a piece goes, and how warm the piece gets of it. */
export interface Transfer {
  /** Hottest place where its heat arises, above coolant and air of one temperature [K/W]. */
  readonly resistance: number
  /** Share of the heat at each end: passages, air, frame; all of them, so that they sum to one. */
  readonly ends: readonly { readonly end: Path; readonly share: number }[]
  /** Places where its heat arises. */
  readonly places: number
}

/** Resistance of a die, switch, device or module to where its heat ends, by itself: what is beside it gives no heat. */
export const transfer: Model<Transfer> = {
  id: 'heat transfer',
  compute(view, piece) {
    const weighted = weights(view, piece)
    const islands = new Set(weighted.map(({ node }) => heatTopology(view).islandOf.get(node)!))
    if (islands.size > 1) view.fail(`the heat of ${piece} goes several ways that nothing joins`, 'refused', piece)
    const network = view.model(grounded, [...islands][0]!.id)
    view.each(weighted, ({ node }) => requireNode(view, network, node))
    sayOnwards(
      view,
      weighted.map(({ node }) => node),
    )
    return respond(network, weighted)
  },
}

interface Weighted {
  readonly node: Path
  readonly weight: number
}

function requireNode(view: View, { index, settled }: Grounded, node: Path): void {
  if (index.has(node)) return
  const gaps = settled.temperatureGaps.get(node)
  if (gaps) raise(view, gaps)
  noPath(view, node)
}

/** Ends that nothing joins to the piece come out as rounding of the solve. */
const ROUNDING = 1e-12

function respond({ index, factors, exits }: Grounded, weighted: readonly Weighted[]): Transfer {
  const right = new Float64Array(index.size)
  for (const { node, weight } of weighted) right[index.get(node)!]! += weight
  const rises = factors.solve(right)
  const heat = new Map<Path, number>()
  for (const [end, node, conductance] of exits) heat.set(end, (heat.get(end) ?? 0) + conductance * rises[node]!)
  return {
    resistance: Math.max(...weighted.map(({ node }) => rises[index.get(node)!]!)),
    ends: [...heat].map(([end, share]) => ({ end, share })).filter(({ share }) => Math.abs(share) > ROUNDING),
    places: weighted.length,
  }
}

/** Shares by end of a watt that enters at a node, whatever its piece. */
export function sharesFrom(view: View, node: Path): Transfer['ends'] {
  const network = view.model(grounded, heatTopology(view).islandOf.get(node)!.id)
  requireNode(view, network, node)
  return respond(network, [{ node, weight: 1 }]).ends
}

/** Shares of the heat of a piece by place: alike for dies of one kind, else in proportion to their losses. */
function weights(view: View, piece: Path): readonly Weighted[] {
  const entries = entriesWithin(view, piece)
  if (entries.length === 0) return noPath(view, piece)
  const kinds = new Set(entries.map(({ of }) => of.replace(/\.[^/]*/g, '')))
  if (kinds.size === 1) return entries.map(({ node }) => ({ node, weight: 1 / entries.length }))
  const losses = view.each(entries, ({ of }) => view.model(lossOf, of))
  const all = losses.reduce((sum, loss) => sum + loss, 0)
  if (!(all > 0)) view.fail(`the losses of ${piece} sum to ${all} W: they give no shares`, 'refused', piece)
  return entries.map(({ node }, n) => ({ node, weight: losses[n]! / all }))
}

/** The same island with every path at its largest area. */
const widest: Model<Grounded> = {
  id: 'heat network of full spreading',
  compute(view, id) {
    const { conduction } = view.model(grounded, id)
    const atLargest = <L extends { readonly id: string; readonly conductance?: number }>(link: L): L =>
      link.conductance === undefined
        ? link
        : { ...link, conductance: 1 / view.quietly(() => view.model(wayResistance, link.id as Path)).low }
    const links = conduction.links.filter(({ beside }) => !beside).map(atLargest)
    return ground({ ...conduction, links, sinks: conduction.sinks.map(atLargest) })
  },
}

/** As if heat spread at once over the largest area of each path; and as if it never spread, down to the coolant. */
export function transferBounds(view: View, piece: Path): { readonly low: number; readonly high: number } {
  const weighted = weights(view, piece)
  const island = heatTopology(view).islandOf.get(weighted[0]!.node)!
  const columns = weighted.map(({ node, weight }) => {
    const crowd = (at: Path): number => through(view, weighted, at) / weight
    return weight === 0 ? 0 : weight * columnBelow(view, { node, area: areaAt(view, node), crowd })
  })
  return { low: respond(view.model(widest, island.id), weighted).resistance, high: Math.max(...columns) }
}

/** Share of the heat whose ways lead to a node. */
function through(view: View, weighted: readonly Weighted[], node: Path): number {
  return weighted.reduce((sum, one) => sum + (onwards(view, [one.node]).has(node) ? one.weight : 0), 0)
}

function areaAt(view: View, node: Path): number | null {
  const patch = patchOf(view, node)
  return patch ? areaOf(patch) : null
}

interface Column {
  readonly node: Path
  readonly area: number | null
  /** Heat through a node over that of the column: a resistance that is no column of its own carries all of it. */
  readonly crowd: (node: Path) => number
}

/** Resistance of a column of one area from a node to coolant or air, its ways side by side, for its own heat [K/W]. */
function columnBelow(view: View, { node, area, crowd }: Column): number {
  if (isSink(node)) return 0
  const island = heatTopology(view).islandOf.get(node)!
  const all = crowd(node)
  const ways = island.ways
    .filter(({ from }) => from === node)
    .map(({ id, to }) => {
      const { column, resistance } = view.model(wayResistance, id)
      if (area === null) return all * resistance + columnBelow(view, { node: to, area, crowd })
      const narrow = Math.min(area, column.narrowest ?? area)
      return all * column.stated + column.unit / narrow + columnBelow(view, { node: to, area: narrow, crowd })
    })
  const wet = island.coolings
    .filter(({ face }) => face === node)
    .map(({ id }) => {
      const { conductance } = view.model(coolingConductance, id)
      const largest = Math.max(
        0,
        ...island.ways.filter(({ to }) => to === node).map((way) => view.model(wayResistance, way.id).column.area ?? 0),
      )
      return Math.max(all, area === null ? 0 : largest / area) / conductance
    })
  return 1 / [...ways, ...wet].reduce((sum, one) => sum + 1 / one, 0)
}
