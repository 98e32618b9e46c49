import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { backward, choleskyInPlace, forward } from '../../physics/dense.ts'
import { type Plate, type PlatePatch, plateResistance, plateTransfer, plateTransfers } from '../../physics/spreading.ts'
import { place } from '../paths.ts'
import type { Spreading } from './layers.ts'
import { known } from './reading.ts'
import { asPlate, type Patch } from './spread.ts'
import { heatTopology, type Way } from './topology.ts'
import { wayResistance } from './ways.ts'

/** Ways that lead through one and the same plate: their sources heat each other through it. */
interface Shared {
  readonly plate: Path
  readonly ways: readonly { readonly way: Way; readonly layer: Path }[]
}

/** Plates on which several sources stand, by the way that leads through them. */
function sharedPlates(view: View): ReadonlyMap<Path, Shared> {
  return view.choice('shared plates', () => {
    const groups = new Map<string, { way: Way; layer: Path }[]>()
    for (const way of heatTopology(view).wayById.values()) {
      // Where heat does not spread, each source has a column of its own.
      const layer = way.layers.find(({ part, spread }) => part && (spread === 'series' || spread === undefined))
      if (!layer?.part || view.find({ ask: 'pieces', of: layer.part }).paths.length > 1) continue
      const key = `${layer.part} ${way.to}`
      groups.set(key, [...(groups.get(key) ?? []), { way, layer: layer.id }])
    }
    const found = new Map<Path, Shared>()
    for (const [key, ways] of groups) {
      if (ways.length < 2) continue
      const shared = { plate: key.split(' ')[0] as Path, ways }
      for (const { way } of ways) found.set(way.id, shared)
    }
    return found
  })
}

/** The plate as one way crosses it, and what it and the layers behind it resist to even flow [K/W]. */
function crossing(view: View, { way, layer }: Shared['ways'][number]): { spreading?: Spreading; even: number } {
  const { layers } = view.quietly(() => view.model(wayResistance, way.id))
  const from = layers.findIndex((one) => one.layer === layer)
  const { spreading, resistance } = layers[from]!
  const behind = layers.slice(from + 1).reduce((sum, one) => sum + one.resistance, 0)
  return { ...(spreading && { spreading }), even: (spreading?.even ?? resistance) + behind }
}

/** Ways through one plate as conductances: each to what lies behind, and between the places where they start [W/K]. */
export interface PlatePorts {
  readonly behind: ReadonlyMap<Path, number>
  readonly beside: readonly { readonly ways: readonly [Path, Path]; readonly conductance: number }[]
}

/** Centre of a piece in the frame of what holds the plate: places of what is inside count from what holds it. */
function centreOf(view: View, piece: Path): { x: number; y: number } | undefined {
  let [x, y, told] = [0, 0, false]
  for (let at: Path | undefined = piece; at !== undefined; at = view.find({ ask: 'holder', piece: at }).paths[0]) {
    const own = place(`${at}/at` as Path)
    const [dx, dy] = [view.may(own.x), view.may(own.y)]
    if (dx === undefined || dy === undefined) continue
    x += dx
    y += dy
    told = true
  }
  return told ? { x, y } : undefined
}

/** Cosines for a mutual mean good to about 1 % of it: further ones of two places hardly meet. */
const TERMS = 40
/** Enough to say how a doubt moves it. */
const ROUGH_TERMS = 8

/**
 * Of all ways through one plate; the subject is the first of them. Each way counts the even resistance of the plate for
 * its own heat; the heat of the others crosses it as well. Beyond that, what one spreads to another follows from places.
 * The rises of all by the heat of all, turned round, are conductances, so that one solve finds how heat parts.
 */
export const platePorts: Model<PlatePorts | null> = {
  id: 'shared plate',
  compute(view, first) {
    const { ways, plate } = sharedPlates(view).get(first)!
    const tried = ways.map((one) => ({ one, found: known(view, () => crossing(view, one)) }))
    const lacking = tried.flatMap(({ one, found }) => (found ? [] : [one.way.from]))
    if (lacking.length > 0)
      view.note(
        `a lower bound: the heat of ${lacking.join(', ')} on ${plate} warms what is beside by an unknown amount`,
      )
    const crossed = tried.flatMap(({ one, found }) => (found ? [{ ...one, ...found }] : []))
    if (crossed.length < 2) return null
    const rises = risesOf(view, plate, crossed)
    const ids = crossed.map(({ way }) => way.id)
    const ports = turned(ids, rises)
    if (!ports) view.note(`the sources on ${plate} cannot be told apart: what they give each other is not in it`)
    return ports
  },
}

/** What is said of one way of a plate is no matter of those beside it. */
const ownResistance = (view: View, { id }: Way): number => view.quietly(() => view.model(wayResistance, id)).resistance

type Crossed = Shared['ways'][number] & ReturnType<typeof crossing>

/** Rise of each source above what lies behind the plate, per watt of each [K/W]. */
function risesOf(view: View, plate: Path, ways: readonly Crossed[]): readonly number[][] {
  const rises = ways.map(({ way, even }, i) =>
    ways.map((other, j) => (i === j ? ownResistance(view, way) : (even + other.even) / 2)),
  )
  const spreadings = ways.flatMap(({ spreading }) => (spreading ? [spreading] : []))
  if (spreadings.length < ways.length) return rises
  const places = placesOn(view, ways)
  if (places === null)
    view.note(`places of the sources on ${plate} are not recorded: what they spread to each other is not in it`)
  else {
    view.note(`the sources on ${plate} are taken to lie about its middle`)
    addSpread(view, { ids: ways.map(({ way }) => way.id), spreadings, places }, rises)
  }
  return rises
}

/** Conductances whose solution gives these rises; null where the rises of sources are not to be told apart. */
function turned(ids: readonly Path[], rises: readonly (readonly number[])[]): PlatePorts | null {
  const n = ids.length
  const factor = Float64Array.from(rises.flat())
  if (choleskyInPlace(factor, n) !== undefined) return null
  const columns = ids.map((_, j) => {
    const column = Float64Array.from({ length: n }, (_, i) => (i === j ? 1 : 0))
    forward(factor, n, column)
    backward(factor, n, column)
    return column
  })
  const behind = ids.map((_, i) => columns.reduce((sum, column) => sum + column[i]!, 0))
  if (behind.some((one) => !(one > 0))) return null
  return {
    behind: new Map(ids.map((id, i) => [id, behind[i]!])),
    beside: ids.flatMap((a, i) =>
      ids.slice(0, i).map((b, j) => ({ ways: [a, b] as const, conductance: -columns[j]![i]! })),
    ),
  }
}

/** Ports of the plate that a way leads through together with others. */
export function portsOf(view: View, way: Path): PlatePorts | null {
  const shared = sharedPlates(view).get(way)
  return shared ? view.model(platePorts, shared.ways[0]!.way.id) : null
}

/** Ways that lead through the same plate as this one, itself among them, and the layer that is the plate. */
export function throughPlateOf(view: View, way: Path): { readonly ways: readonly Path[]; readonly layer: Path } | null {
  const shared = sharedPlates(view).get(way)
  if (!shared) return null
  return { ways: shared.ways.map((one) => one.way.id), layer: shared.ways.find((one) => one.way.id === way)!.layer }
}

interface Place {
  readonly x: number
  readonly y: number
}

/** Where the sources lie; null unless each has a place of its own. */
function placesOn(view: View, ways: Shared['ways']): readonly Place[] | null {
  const places = ways.map(({ way }) => {
    const own = view.may(place(`${way.from}/at` as Path).x)
    return own === undefined ? undefined : centreOf(view, way.from)
  })
  return places.every((one): one is Place => one !== undefined) ? places : null
}

interface Sources {
  readonly ids: readonly Path[]
  readonly spreadings: readonly Spreading[]
  readonly places: readonly Place[]
}

function addSpread(view: View, { ids, spreadings, places }: Sources, rises: readonly number[][]): void {
  const plate = asPlate(spreadings[0]!)
  const { size } = spreadings[0]!
  const middle = middleOf(places)
  const patches = ids.map((_, n) => patchAt(places[n]!, middle, spreadings[n]!.entry, size))
  const [rough, fine] = [ROUGH_TERMS, TERMS].map((terms) => spreadBetween(plate, patches, size, terms))
  for (const [i, id] of ids.entries()) {
    for (const [j, other] of ids.slice(0, i + 1).entries()) {
      const short = rough!(i, j)
      const rise = short + view.choice(`mutual ${id} ${other}`, () => fine!(i, j) - short)
      rises[i]![j]! += rise
      if (i !== j) rises[j]![i]! += rise // what one gives the other, it gives back (reciprocity)
    }
  }
}

/**
 * What source j spreads to source i beyond even flow [K/W]. Of a source to itself, what it warms itself more by where it
 * is than in the middle of the plate, where it was taken to be alone. Computed when first asked.
 */
function spreadBetween(
  plate: Plate,
  patches: readonly PlatePatch[],
  size: Patch,
  terms: number,
): (i: number, j: number) => number {
  const n = patches.length
  const even = plateResistance(plate)
  const central = patches.map((patch) => ({ ...patch, centreX: size.x / 2, centreY: size.y / 2 }))
  let all: Float64Array | undefined
  let middle: readonly number[] | undefined
  return (i, j) => {
    all ??= plateTransfers({ plate, patches, terms })
    middle ??= central.map((source) => plateTransfer({ plate, source, terms }))
    return all[i * n + j]! - (i === j ? middle[i]! : even)
  }
}

function middleOf(centres: readonly Place[]): Place {
  const [xs, ys] = [centres.map(({ x }) => x), centres.map(({ y }) => y)]
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 }
}

function patchAt(
  centre: { x: number; y: number },
  middle: { x: number; y: number },
  entry: Patch,
  plate: Patch,
): PlatePatch {
  return { ...entry, centreX: plate.x / 2 + centre.x - middle.x, centreY: plate.y / 2 + centre.y - middle.y }
}
