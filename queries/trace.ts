import { describeLack } from '../graph/lack.ts'
import type { Path } from '../graph/quantity/quantity.ts'
import type { View } from '../graph/view.ts'
import type { Session } from './evaluate/session.ts'
import { coolantAt, entriesWithin, heatThrough, hottest } from './figures/heat/at.ts'
import { coolingConductance } from './figures/heat/film.ts'
import { known } from './figures/heat/reading.ts'
import { type Cooling, heatTopology, holdersOf, isSink, type Way } from './figures/heat/topology.ts'
import { wayResistance } from './figures/heat/ways.ts'

/** A number at the values written, or what the record lacks for it. */
export type Known = { readonly value: number } | { readonly lacks: string }

export interface TracedLayer {
  readonly path: Path
  readonly part: Path | null
  /** [K/W]; of a path whose resistance is stated whole there is none of its layers. */
  readonly resistance: number | null
}

/** One way of heat on the way down: a recorded path, or from inside a package through its case. */
export interface TracedWay {
  readonly path: Path
  readonly from: Path
  readonly to: Path
  /** [K/W] */
  readonly resistance: Known
  /** Along it, negative against it [W]. */
  readonly heat: Known
  readonly layers: readonly TracedLayer[]
}

/** Where heat finally ends, with what is beside it there. */
export interface TracedEnd {
  readonly kind: 'passage' | 'air' | 'frame' | 'nowhere'
  readonly path: Path
  /** From the last face to the coolant [K/W]; absent for air and frame. */
  readonly film?: Known
  /** Into this end from the last face or path [W]. */
  readonly heat: Known
  /** Local coolant, air or frame [K]. */
  readonly temperature: Known
  /** Place along the coolant, 0 first; null for what stands in no sequence. */
  readonly stage: number | null
  /** Passages that the coolant visits before. */
  readonly upstream: readonly Path[]
  /** Other sources whose heat ends in the same passage. */
  readonly shares: readonly Path[]
}

export interface HeatRoute {
  readonly ways: readonly TracedWay[]
  readonly end: TracedEnd
}

export interface HeatTrace {
  readonly piece: Path
  /** Hottest place where its heat arises [K]. */
  readonly temperature: Known
  readonly routes: readonly HeatRoute[]
}

/** Every way of the heat of a piece, layer by layer, to the passage, air or frame where it ends. */
export function traceHeat(session: Session, piece: Path): HeatTrace {
  return {
    piece,
    temperature: attempt(session, (view) => hottest(view, piece)),
    routes: startsOf(session, piece).flatMap((node) => routesFrom(session, piece, node, [])),
  }
}

function startsOf(session: Session, piece: Path): readonly Path[] {
  return reading(session, (view) => {
    const entered = entriesWithin(view, piece).map(({ node }) => node)
    if (entered.length > 0) return [...new Set(entered)]
    const { islands } = heatTopology(view)
    const own = new Set([piece, ...view.find({ ask: 'faces', part: piece }).paths])
    const starting = islands.flatMap(({ ways }) => ways.map(({ from }) => from)).filter((from) => own.has(from))
    const cooled = islands.flatMap(({ coolings }) => coolings.map(({ face }) => face)).filter((face) => own.has(face))
    return [...new Set([...starting, ...cooled])]
  })
}

/** Heat paths never lead back (an invariant of the graph), so that this ends. */
function routesFrom(session: Session, piece: Path, node: Path, before: readonly TracedWay[]): readonly HeatRoute[] {
  if (isSink(node)) return [{ ways: before, end: sinkEnd(session, node, before) }]
  const { ways, coolings } = reading(session, (view) => exitsOf(view, node))
  const on = ways.flatMap((way) => routesFrom(session, piece, way.to, [...before, traceWay(session, way)]))
  const wet = coolings.map((cooling) => ({ ways: before, end: passageEnd(session, piece, cooling) }))
  if (on.length + wet.length > 0) return [...on, ...wet]
  const lacks = { lacks: `no heat path leads on from ${node}` }
  const end = { kind: 'nowhere', path: node, heat: lacks, temperature: lacks, ...NOT_COOLANT } as const
  return [{ ways: before, end }]
}

function exitsOf(view: View, node: Path): { readonly ways: readonly Way[]; readonly coolings: readonly Cooling[] } {
  const island = heatTopology(view).islandOf.get(node)
  return {
    ways: island?.ways.filter(({ from }) => from === node) ?? [],
    coolings: island?.coolings.filter(({ face }) => face === node) ?? [],
  }
}

function traceWay(session: Session, { id, from, to, layers }: Way): TracedWay {
  const resolved = reading(session, (view) => known(view, () => view.model(wayResistance, id)))
  const of = new Map(resolved?.layers.map(({ layer, resistance }) => [layer, resistance]))
  return {
    path: id,
    from,
    to,
    resistance: attempt(session, (view) => view.model(wayResistance, id).resistance),
    heat: attempt(session, (view) => heatThrough(view, id)),
    layers: layers.map((layer) => ({
      path: layer.id,
      part: layer.part ?? null,
      resistance: of.get(layer.id) ?? null,
    })),
  }
}

const NOT_COOLANT = { stage: null, upstream: [], shares: [] } as const

function sinkEnd(session: Session, sink: Path, before: readonly TracedWay[]): TracedEnd {
  return {
    kind: sink === 'ambient/frame' ? 'frame' : 'air',
    path: sink,
    heat: before.at(-1)?.heat ?? { lacks: `no heat path leads to ${sink}` },
    temperature: attempt(session, (view) => view.need({ temperature: sink }).temperature),
    ...NOT_COOLANT,
  }
}

function passageEnd(session: Session, piece: Path, { id, passage }: Cooling): TracedEnd {
  const ask = (query: Parameters<View['find']>[0]): readonly Path[] =>
    reading(session, (view) => view.find(query).paths)
  const sources = new Set(ask({ ask: 'heat-sources' }))
  const holders = (one: Path): readonly Path[] => reading(session, (view) => holdersOf(view, one))
  const own = (other: Path): boolean =>
    other === piece || holders(other).includes(piece) || holders(piece).includes(other)
  return {
    kind: 'passage',
    path: passage,
    film: attempt(session, (view) => 1 / view.model(coolingConductance, id).conductance),
    heat: attempt(session, (view) => heatThrough(view, id)),
    temperature: attempt(session, (view) => coolantAt(view, passage).local),
    stage: session.structure.stageOf(passage),
    upstream: ask({ ask: 'upstream', passage }),
    shares: ask({ ask: 'heated-by', passage }).filter((other) => sources.has(other) && !own(other)),
  }
}

function attempt(session: Session, read: (view: View) => number): Known {
  const { value, lack } = session.viewer.record(read)
  return value === undefined ? { lacks: lack ? describeLack(lack) : 'no result' } : { value }
}

/** Structure that is always there. */
function reading<T>(session: Session, read: (view: View) => T): T {
  return session.viewer.record(read).value as T
}
