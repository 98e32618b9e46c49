import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { plateResistance, plateTransfer } from '../../physics/spreading.ts'
import { place } from '../paths.ts'
import { known } from './reading.ts'
import { asPlate, type Patch } from './spread.ts'
import { heatTopology, type Way } from './topology.ts'
import { plateOfWay } from './ways.ts'

/** Ways that spread in one plate by the series solution: their sources heat each other through it. */
interface Shared {
  readonly plate: Path
  readonly ways: readonly Way[]
}

/** Plates on which several sources stand, by the way that leads through them. */
function sharedPlates(view: View): ReadonlyMap<Path, Shared> {
  return view.choice('shared plates', () => {
    const groups = new Map<string, Way[]>()
    for (const way of heatTopology(view).wayById.values()) {
      const layer = way.layers.find(({ spread }) => spread === 'series')
      if (!layer?.part) continue
      const key = `${layer.part} ${way.to}`
      groups.set(key, [...(groups.get(key) ?? []), way])
    }
    const found = new Map<Path, Shared>()
    for (const [key, ways] of groups) {
      if (ways.length < 2) continue
      const shared = { plate: key.split(' ')[0] as Path, ways }
      for (const { id } of ways) found.set(id, shared)
    }
    return found
  })
}

/** Rise of one source for each watt through each way beside it, beyond what the shared face already counts [K/W]. */
export interface Mutual {
  readonly of: ReadonlyMap<Path, ReadonlyMap<Path, number>>
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

/** Of all ways through one plate; the subject is the first of them. */
export const mutualHeating: Model<Mutual> = {
  id: 'mutual heating',
  compute(view, way) {
    const { ways, plate } = sharedPlates(view).get(way)!
    const centres = ways.map(({ from }) => centreOf(view, from))
    const own = view.may(place(`${ways[0]!.from}/at` as Path).x)
    if (own === undefined || centres.some((one) => one === undefined)) {
      view.note(
        `places of the sources on ${plate} are not recorded: their mutual heating beyond the shared face is not in it`,
      )
      return { of: new Map() }
    }
    const spread = view.each(ways, ({ id }) => plateOfWay(view, id))
    const middle = middleOf(centres as readonly { x: number; y: number }[])
    view.note(`the sources on ${plate} are taken to lie about its middle`)
    const physical = asPlate(spread[0]!)
    const { size } = spread[0]!
    const patches = ways.map((_, n) => patchAt(centres[n]!, middle, spread[n]!.entry, size))
    const even = plateResistance(physical)
    const mean = (i: number, j: number, terms: number): number =>
      plateTransfer({ plate: physical, source: patches[j]!, patch: patches[i]!, terms }) - even
    const rows = ways.map(() => new Map<Path, number>())
    ways.forEach((one, i) => {
      ways.slice(0, i).forEach((other, j) => {
        const rough = mean(i, j, ROUGH_TERMS)
        const rise = rough + view.choice(`mutual ${one.id} ${other.id}`, () => mean(i, j, TERMS) - rough)
        rows[i]!.set(other.id, rise) // what one gives the other, it gives back (reciprocity)
        rows[j]!.set(one.id, rise)
      })
    })
    return { of: new Map(ways.map(({ id }, i) => [id, rows[i]!])) }
  },
}

function middleOf(centres: readonly { x: number; y: number }[]): { x: number; y: number } {
  const [xs, ys] = [centres.map(({ x }) => x), centres.map(({ y }) => y)]
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 }
}

function patchAt(centre: { x: number; y: number }, middle: { x: number; y: number }, entry: Patch, plate: Patch) {
  return { ...entry, centreX: plate.x / 2 + centre.x - middle.x, centreY: plate.y / 2 + centre.y - middle.y }
}

/** Extra rise of a source by the heat of those beside it on one plate [K]; `heat` gives that through each way [W]. */
export function mutualRise(view: View, node: Path, heat: (way: Path) => number | undefined): number {
  const plates = sharedPlates(view)
  const ways =
    heatTopology(view)
      .islandOf.get(node)
      ?.ways.filter(({ id, from }) => from === node && plates.has(id)) ?? []
  return ways.reduce((sum, { id }) => {
    const first = plates.get(id)!.ways[0]!.id
    const row = known(view, () => view.model(mutualHeating, first))?.of.get(id)
    if (!row) return sum
    let rise = 0
    for (const [other, resistance] of row) rise += resistance * (heat(other) ?? 0)
    return sum + rise
  }, 0)
}
