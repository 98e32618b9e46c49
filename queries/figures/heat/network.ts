import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import type { NetworkState, ThermalNetwork, ThermalPassage } from '../../physics/network-types.ts'
import { solveNetwork } from '../../physics/thermal-network.ts'
import { lossOf, lossSlope } from '../loss.ts'
import { coolingConductance } from './film.ts'
import { capacityRate, LOSS, openNetwork } from './open.ts'
import { flowGap, type OpenNetwork, type Settled, settle } from './settle.ts'
import { heatTopology, type Island, isSink } from './topology.ts'
import { wayResistance } from './ways.ts'

export interface PassageCoolant {
  readonly inlet: number
  readonly outlet: number
  /** What the parts of the passage see: the mean of its inlet and outlet. */
  readonly local: number
  readonly heatCapacityRate: number
}

/** A solved island: whatever is known of it; what is not has its gaps in `settled`. */
export interface HeatState {
  readonly open: OpenNetwork
  /** What was solved, as the physics took it. */
  readonly network: ThermalNetwork
  readonly settled: Settled
  readonly temperatures: ReadonlyMap<string, number>
  /** Heat through a way (from its start), a cooling (from face to coolant) [W]. */
  readonly heats: ReadonlyMap<string, number>
  readonly losses: ReadonlyMap<string, number>
  readonly coolant: ReadonlyMap<string, PassageCoolant>
  /** What does not add up, relative to all heat that moves. */
  readonly unaccounted: number
}

/**
 * Temperatures and heats of one island: every source, way, face, passage and sink that heat or coolant joins, in one
 * linear solve. Coolant warms along its sequence, heat may flow backwards, losses follow temperature where recorded.
 */
export const heatNetwork: Model<HeatState> = {
  id: 'heat network',
  compute(view, id) {
    const island = heatTopology(view).islands.find((one) => one.id === id)!
    const open = openNetwork(view, island)
    return solved(view, island, open, settle(open))
  },
}

/** By this word a lack says that no steady temperature exists. */
export const RUNAWAY = 'thermal runaway'

/** What of an open network can be solved. */
interface Solvable {
  readonly inside: ReadonlySet<string>
  /** Nodes of which only heats are found. */
  readonly floating: ReadonlySet<string>
  readonly links: readonly (OpenNetwork['links'][number] & { readonly conductance: number })[]
  readonly sinks: readonly (OpenNetwork['sinks'][number] & {
    readonly conductance: number
    readonly temperature: number
  })[]
  /** Coolings by the passages whose temperature can be found. */
  readonly wet: ReadonlyMap<string, readonly (OpenNetwork['coolings'][number] & { readonly conductance: number })[]>
}

function solvableOf(open: OpenNetwork, { temperatureGaps, floating: groups, stranded }: Settled): Solvable {
  const floating = new Set(groups.flatMap(({ nodes }) => nodes))
  const out = new Set(stranded)
  const inside = new Set(
    open.nodes.filter((node) => floating.has(node) || !(temperatureGaps.has(node) || out.has(node))),
  )
  const wet = open.passages
    .filter(({ id, feeds }) => feeds && !temperatureGaps.has(id))
    .map(({ id }) => {
      const own = open.coolings.filter(({ passage, node }) => passage === id && inside.has(node) && !floating.has(node))
      return [id, own.filter(hasConductance)] as const
    })
  return {
    inside,
    floating,
    links: open.links.filter(hasConductance).filter(({ a, b }) => inside.has(a) && inside.has(b)),
    sinks: open.sinks
      .filter(hasConductance)
      .filter(hasTemperature)
      .filter(({ node }) => inside.has(node)),
    wet: new Map(wet),
  }
}

const hasConductance = <T extends { readonly conductance?: number }>(
  one: T,
): one is T & { readonly conductance: number } => one.conductance !== undefined
const hasTemperature = <T extends { readonly temperature?: number }>(
  one: T,
): one is T & { readonly temperature: number } => one.temperature !== undefined

/** The network as the physics takes it. */
function networkOf(open: OpenNetwork, settled: Settled, { inside, links, sinks, wet }: Solvable): ThermalNetwork {
  const pushedInto = (passage: string): number =>
    open.coolings.reduce((sum, { id, passage: one }) => sum + (one === passage ? (settled.pushed.get(id) ?? 0) : 0), 0)
  // Where only heats are known, all of it leaves at one node: any temperature there gives the same heats.
  const anywhere = settled.floating.map(({ at }) => ({
    id: `out of ${at}`,
    node: at,
    temperature: ANY,
    conductance: 1,
  }))
  const sources = open.sources
    .filter(({ node }) => inside.has(node))
    .flatMap(({ node, loss, slope, reference }) =>
      loss === undefined ? [] : [{ node, loss, ...(slope !== undefined && { slope, reference: reference! }) }],
    )
  const passed = open.links.flatMap((link) => pushedThrough(settled, link)).filter(({ node }) => inside.has(node))
  return {
    nodes: open.nodes.filter((node) => inside.has(node)),
    links: links.map(({ a, b, conductance, beside }) => ({ a, b, conductance, ...(beside && { coupled: true }) })),
    sinks: [
      ...sinks.map(({ id, node, conductance, temperature }) => ({ id, node, conductance, temperature })),
      ...anywhere,
    ],
    sources: [...sources, ...passed],
    passages: open.passages
      .filter(({ id }) => wet.has(id))
      .map(
        ({ id, feeds }): ThermalPassage => ({
          id,
          feeds: feeds!,
          cools: wet.get(id)!.map(({ node, conductance }) => ({ node, conductance })),
          heat: pushedInto(id),
        }),
      ),
  }
}

function solved(view: View, island: Island, open: OpenNetwork, settled: Settled): HeatState {
  const solvable = solvableOf(open, settled)
  const network = networkOf(open, settled, solvable)
  const state = solveNetwork(network)
  if (!state.stable)
    return view.fail(
      `${RUNAWAY}: losses grow faster with temperature than their heat can leave (loop gain ${state.loopGain.toPrecision(3)}); no steady temperature exists`,
      'refused',
      island.id,
    )
  const { floating } = solvable
  return {
    open,
    network,
    settled,
    temperatures: new Map(Object.entries(state.temperatures).filter(([node]) => !floating.has(node))),
    heats: heatsOf(settled, solvable, state),
    losses: lossesOf(open, state.temperatures, floating),
    coolant: new Map(
      Object.entries(state.passages).map(([id, { inlet, outlet, local }]) => [
        id,
        { inlet, outlet, local, heatCapacityRate: rateInto(network, id) },
      ]),
    ),
    unaccounted: state.ledger.unaccounted,
  }
}

/** Above this conductance over heat capacity rate, what the wall is like matters more than a few per cent. */
const COARSE = 1

/** Parts see the mean of inlet and outlet, which is exact for even flux and too good for a wall of one temperature. */
export function sayCoarse(view: View, { network }: HeatState, passage: Path): void {
  const found = network.passages?.find((one) => one.id === passage)
  if (!found) return
  const { id, feeds, cools } = found
  const rate = feeds.reduce((sum, { heatCapacityRate }) => sum + heatCapacityRate, 0)
  const ratio = cools.reduce((sum, { conductance }) => sum + conductance, 0) / rate
  if (ratio <= COARSE) return
  const less = 100 * (1 + (Math.expm1(-ratio) * (1 + ratio / 2)) / ratio)
  view.note(
    `${id} comes near the temperature of what it cools (conductance over heat capacity rate ${ratio.toFixed(1)}): the mean of its inlet and outlet fits even heat flux; from a wall of one temperature it would take ${less.toFixed(0)} % less at the same difference`,
  )
}

function heatsOf(settled: Settled, { links, sinks, wet }: Solvable, state: Solved): ReadonlyMap<string, number> {
  const heats = new Map<string, number>(settled.pushed)
  for (const { id, a, b, conductance } of links)
    heats.set(id, conductance * (state.temperatures[a]! - state.temperatures[b]!))
  for (const { id } of sinks) heats.set(id, state.sinkHeats[id]!)
  for (const [passage, coolings] of wet)
    for (const [n, { id }] of coolings.entries()) heats.set(id, state.passages[passage]!.from[n]!)
  // What passes from one way to another within a plate has crossed what lies before it: it is heat of the way it came by.
  for (const { id, beside } of links) {
    if (!beside) continue
    const [from, to] = beside
    const passed = heats.get(id)!
    heats.delete(id)
    heats.set(from, heats.get(from)! + passed)
    heats.set(to, heats.get(to)! - passed)
  }
  return heats
}

type Solved = Extract<NetworkState, { readonly stable: true }>

const rateInto = ({ passages = [] }: ThermalNetwork, id: string): number =>
  passages.find((one) => one.id === id)!.feeds.reduce((sum, { heatCapacityRate }) => sum + heatCapacityRate, 0)

/** Any temperature will do where only differences are used [K]. */
const ANY = 300

function pushedThrough({ pushed }: Settled, { id, a, b }: { id: string; a: string; b: string }) {
  const heat = pushed.get(id)
  if (heat === undefined) return []
  return [
    { node: a, loss: -heat },
    { node: b, loss: heat },
  ]
}

/** Loss of each source at its temperature; one that follows a temperature that is not known has none. */
function lossesOf(
  { sources }: OpenNetwork,
  temperatures: Readonly<Record<string, number>>,
  floating: ReadonlySet<string>,
): ReadonlyMap<string, number> {
  const losses = new Map<string, number>()
  for (const { id, node, loss, slope = 0, reference = 0 } of sources) {
    const at = floating.has(node) ? undefined : temperatures[node]
    if (loss === undefined || (slope !== 0 && at === undefined)) continue
    losses.set(id.slice(LOSS.length), slope === 0 ? loss : loss * (1 + slope * (at! - reference)))
  }
  return losses
}

/** Raises what keeps something from being known as lacks of the caller, all at once. */
export function raise(view: View, gaps: Iterable<string>): never {
  view.each([...gaps], (gap) => readGap(view, gap))
  return view.fail('a part of the heat network is not known')
}

function readGap(view: View, gap: string): unknown {
  const topology = heatTopology(view)
  if (gap.startsWith(LOSS)) {
    const piece = gap.slice(LOSS.length) as Path
    return view.all(
      () => view.model(lossOf, piece),
      () => view.model(lossSlope, piece),
    )
  }
  if (gap.startsWith(flowGap(''))) return view.model(capacityRate, gap.slice(flowGap('').length) as Path)
  const cooling = topology.coolingById.get(gap as Path)
  if (cooling)
    return view.all(
      () => view.model(coolingConductance, cooling.id),
      () => view.model(capacityRate, cooling.passage),
    )
  const way = topology.wayById.get(gap as Path)!
  return view.all(
    () => view.model(wayResistance, way.id),
    () => isSink(way.to) && view.need({ temperature: way.to }),
  )
}
