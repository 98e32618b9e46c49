import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { lossOf, lossSlope } from '../loss.ts'
import { coolingConductance } from './film.ts'
import { passageFlow } from './flow.ts'
import { circuitFluid, heatPerVolume } from './fluid.ts'
import { portsOf } from './mutual.ts'
import { known } from './reading.ts'
import type { OpenNetwork, OpenPassage, OpenSource } from './settle.ts'
import { heatTopology, type Island, isSink, streamOf } from './topology.ts'
import { wayResistance } from './ways.ts'

/** Ways and films of an island without heat or temperatures; what is not known of them is left out. */
export const heatConduction: Model<Pick<OpenNetwork, 'nodes' | 'links' | 'sinks' | 'coolings'>> = {
  id: 'heat conduction',
  compute(view, id) {
    const island = heatTopology(view).islands.find((one) => one.id === id)!
    const conductanceOf = (way: Path): { conductance?: number } => {
      const behind = portsOf(view, way)?.behind.get(way)
      if (behind !== undefined) return { conductance: behind }
      const resistance = known(view, () => view.model(wayResistance, way).resistance)
      return resistance === undefined ? {} : { conductance: 1 / resistance }
    }
    return {
      nodes: island.nodes,
      links: [
        ...island.ways
          .filter(({ to }) => !isSink(to))
          .map(({ id: way, from, to }) => ({ id: way, a: from, b: to, ...conductanceOf(way) })),
        ...besideEachOther(view, island),
      ],
      sinks: island.ways
        .filter(({ to }) => isSink(to))
        .map(({ id: way, from, to }) => ({ id: way, sink: to, node: from, ...conductanceOf(way) })),
      coolings: island.coolings.map(({ id: cooling, passage, face }) => {
        const film = known(view, () => view.model(coolingConductance, cooling))
        return { id: cooling, passage, node: face, ...(film && { conductance: film.conductance }) }
      }),
    }
  },
}

/** Between places whose ways lead through one plate. */
function besideEachOther(view: View, { ways }: Island): OpenNetwork['links'] {
  const from = new Map(ways.map((way) => [way.id, way.from]))
  const plates = new Set(ways.flatMap(({ id }) => portsOf(view, id) ?? []))
  return [...plates].flatMap(({ beside }) =>
    beside.map(({ ways: [a, b], conductance }) => ({
      id: `${a} beside ${b}`,
      a: from.get(a)!,
      b: from.get(b)!,
      conductance,
      beside: [a, b] as const,
    })),
  )
}

/** What is known of an island: its conduction, sources, and what flows through its passages. */
export function openNetwork(view: View, island: Island): OpenNetwork {
  const conduction = view.quietly(() => view.model(heatConduction, island.id))
  return {
    ...conduction,
    sinks: conduction.sinks.map((one) => {
      const temperature = view.may(one.sink as Path)
      return { ...one, ...(temperature !== undefined && { temperature }) }
    }),
    sources: island.entries.map(({ of, node }): OpenSource => {
      const found = known(view, () =>
        view.all(
          () => view.model(lossOf, of),
          () => view.model(lossSlope, of),
        ),
      )
      return found === undefined ? { id: lossGap(of), node } : { id: lossGap(of), node, loss: found[0], ...found[1] }
    }),
    passages: island.passages.map((passage) => openPassage(view, passage)),
  }
}

/** How the gap of an unknown loss is named: this and the piece. */
export const LOSS = 'loss '
const lossGap = (piece: Path): string => `${LOSS}${piece}`

/** Heat capacity rate of a passage [W/K]. */
export const capacityRate: Model<number> = {
  id: 'heat capacity rate',
  compute(view, passage) {
    const { circuit } = streamOf(view, passage)
    const [flow, fluid] = view.all(
      () => passageFlow(view, passage),
      () => view.model(circuitFluid, circuit),
    )
    return flow * heatPerVolume(fluid)
  },
}

/** What flows into a passage: what leaves those before it, mixed, in the share that this passage takes. */
function openPassage(view: View, passage: Path): OpenPassage {
  const { circuit, before } = streamOf(view, passage)
  const upstream = before.filter((one) => one !== `${circuit}/inlet`)
  const rates = known(view, () =>
    view.all(
      () => view.model(capacityRate, passage),
      () => view.model(circuitFluid, circuit).inlet,
      () => view.each(upstream, (one) => view.model(capacityRate, one)),
    ),
  )
  if (rates === undefined || before.length === 0) return { id: passage, upstream }
  const [own, inlet, above] = rates
  if (upstream.length === 0) return { id: passage, upstream, feeds: [{ temperature: inlet, heatCapacityRate: own }] }
  const all = above.reduce((sum, rate) => sum + rate, 0)
  const feeds = upstream.map((one, n) => ({ passage: one, heatCapacityRate: own * (above[n]! / all) }))
  return { id: passage, upstream, feeds }
}
