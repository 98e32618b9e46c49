import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { requirePositive } from '../../physics/method.ts'
import type { PlateLayer } from '../../physics/spreading.ts'
import { below } from '../paths.ts'
import { checkSlab, platesOfSlab, type Slab, slabOf } from './slab.ts'
import { areaOf, type CompoundPlate, coneThrough, onto, type Patch, seriesSpreading, squareOf } from './spread.ts'
import type { Layer, Way } from './topology.ts'

/** One layer of a path as it was computed. */
export interface LayerResistance {
  readonly layer: Path
  /** With the contacts of its surfaces [K/W]. */
  readonly resistance: number
  /** Where heat leaves it; unknown where the sheet states only a resistance. */
  readonly exit: Patch | null
  /** Of a layer that spreads by the series solution: what heat enters, and the plate. */
  readonly spreading?: Spreading
}

/** One source on a compound plate. */
export interface Spreading extends CompoundPlate {
  readonly entry: Patch
  /** What the plate itself would resist to even flow, which is the same for all sources on it [K/W]. */
  readonly even: number
}

export interface WayResistance {
  readonly resistance: number
  /** Every layer at the largest area of the path, and at the smallest: as if heat spread at once, and never. */
  readonly low: number
  readonly high: number
  readonly layers: readonly LayerResistance[]
  /** For a column of any area through the same layers. */
  readonly column: Column
}

export interface Column {
  /** Thickness over conductivity and contacts [m².K/W]. */
  readonly unit: number
  /** Resistances stated whole [K/W]. */
  readonly stated: number
  /** Largest area of the path; unknown where only resistances are stated. */
  readonly area: number | null
  /** Smallest area of the path: heat that never spread is no wider behind it. */
  readonly narrowest: number | null
}

/** What a plate lies on: further layers, and the resistance of all that follows them [K/W]. */
export interface Bed {
  readonly layers: readonly PlateLayer[]
  readonly resistance: number
}

/** What lies below a node on the way to where its heat ends. */
export type Below = (node: Path) => Bed

/** A heat path from its start to its end: stated whole, else layer by layer. */
export function throughPath(view: View, { id: path, from, to, layers }: Way, further: Below): WayResistance {
  const stated = view.may(below(path, 'resistance'))
  if (stated !== undefined) return whole(stated)
  if (layers.length === 0) return whole(view.need({ value: below(path, 'resistance') }).value)
  return throughLayers(view, { from, to, layers, further })
}

export const whole = (resistance: number): WayResistance => ({
  resistance,
  low: resistance,
  high: resistance,
  layers: [],
  column: { unit: 0, stated: resistance, area: null, narrowest: null },
})

interface Stack {
  readonly from: Path
  readonly to: Path
  readonly layers: readonly Layer[]
  readonly further: Below
}

function throughLayers(view: View, { from, to, layers, further }: Stack): WayResistance {
  const start = patchOf(view, from)
  const owns = layers.map((layer) => ownPatch(view, layer, [from, to]))
  const slabs = view.each(layers, (layer) => slabOf(view, layer))
  for (const [n, layer] of layers.entries()) checkSlab(layer.id, slabs[n]!, owns[n]!)
  if (start) requirePositive(from, 'area', areaOf(start))
  let entry = start
  const done = layers.map((layer, n): LayerResistance => {
    const own = owns[n]!
    const bed = () => bedOf({ owns, slabs, from: n + 1 }, () => further(to))
    const one = throughOne(view, { layer, slab: slabs[n]!, entry, own, bed })
    entry = one.exit ?? own
    return { layer: layer.id, ...one }
  })
  const areas = [start, ...owns].flatMap((patch) => (patch ? [areaOf(patch)] : []))
  const narrowest = Math.min(...areas)
  const crowded = done.findLast(({ spreading }) => spreading)?.exit
  const at = (area: number): number =>
    slabs.reduce(
      (sum, slab, n) => sum + (slab.stated === null ? (slab.unit + slab.contact) / area : done[n]!.resistance),
      0,
    )
  return {
    resistance: done.reduce((sum, { resistance }) => sum + resistance, 0),
    low: at(Math.max(...areas)),
    high: at(narrowest) + (crowded ? crowding(further(to), areaOf(crowded), narrowest) : 0),
    layers: done,
    column: {
      unit: slabs.reduce((sum, slab) => sum + (slab.stated === null ? slab.unit + slab.contact : 0), 0),
      stated: slabs.reduce((sum, slab) => sum + (slab.stated ?? 0), 0),
      area: areas.length > 0 ? Math.max(...areas) : null,
      narrowest: areas.length > 0 ? narrowest : null,
    },
  }
}

/**
 * What a column that never spread finds more behind the path than even flow does [K/W]. A layer that spreads by the series
 * solution counts how unevenly heat enters what follows, and so must the bound of its path.
 */
function crowding({ layers, resistance }: Bed, even: number, narrow: number): number {
  const unit = layers.reduce((sum, one) => sum + one.thickness / one.thermalConductivity + one.contactResistivity!, 0)
  return (unit + resistance * even) * (1 / narrow - 1 / even)
}

interface Step {
  readonly layer: Layer
  readonly slab: Slab
  readonly entry: Patch | null
  readonly own: Patch | null
  readonly bed: () => Bed
}

function throughOne(view: View, { layer, slab, entry, own, bed }: Step): Omit<LayerResistance, 'layer'> {
  const { stated, plates, contact } = slab
  if (stated !== null) return { resistance: stated + (own ? contact / areaOf(own) : 0), exit: own ?? entry }
  const { spread } = layer
  const plate = own ?? entry
  if (plate === null) return { resistance: view.need({ area: below(layer.part ?? layer.id, 'area') }).area, exit: null }
  if (own === null) view.note(`area of ${layer.id} is taken as that of what lies above it: none is recorded`)
  const even = (patch: Patch) => ({ resistance: slab.unit / areaOf(patch) + contact / areaOf(patch), exit: patch })
  if (entry === null || spread === undefined) return even(plate)
  const from = onto(entry, plate)
  if (spread === 'none') return even(from)
  if (spread === 'cone-45') {
    let [resistance, exit] = [0, from]
    for (const ply of plates) {
      const through = coneThrough({ from: exit, plate, ...ply })
      resistance += through.resistance
      exit = through.exit
    }
    return { resistance: resistance + contact / areaOf(exit), exit }
  }
  const covers = areaOf(from) >= areaOf(plate) * (1 - 1e-9)
  if (covers) return even(plate)
  const under = bed()
  const evenPart = (slab.unit + contact) / areaOf(plate)
  const compound: CompoundPlate = {
    size: plate,
    layers: [...platesOfSlab(slab), ...under.layers],
    film: 1 / (areaOf(plate) * under.resistance),
  }
  return {
    resistance: evenPart + seriesSpreading(view, layer.id, from, compound),
    exit: plate,
    spreading: { entry: from, even: evenPart, ...compound },
  }
}

interface Rest {
  readonly owns: readonly (Patch | null)[]
  readonly slabs: readonly Slab[]
  readonly from: number
}

/** Further layers of the path as plates of one size, down to the first of which only a resistance is known. */
function bedOf({ owns, slabs, from }: Rest, further: () => Bed): Bed {
  const following = slabs.slice(from)
  const end = following.findIndex(({ stated }) => stated !== null)
  if (end < 0) {
    const bed = further()
    return { ...bed, layers: [...following.flatMap(platesOfSlab), ...bed.layers] }
  }
  const rest = following.slice(end).reduce((sum, slab, n) => {
    const area = owns[from + end + n]
    return sum + (slab.stated ?? (area ? (slab.unit + slab.contact) / areaOf(area) : 0))
  }, 0)
  const under = further().resistance // plates behind a stated resistance hardly spread: their even resistance is in it
  return { layers: following.slice(0, end).flatMap(platesOfSlab), resistance: rest + under }
}

/** Layers of a way as plates, when all of them are known by thickness and conductivity. */
export function platesOf(view: View, { layers }: Way): readonly PlateLayer[] | null {
  const slabs = layers.map((layer) => slabOf(view, layer))
  return slabs.length > 0 && slabs.every(({ stated }) => stated === null) ? slabs.flatMap(platesOfSlab) : null
}

/** The layer's own area: stated, of its part, or that of the face of the same part where the path starts or ends. */
function ownPatch(view: View, { id: layer, part }: Layer, ends: readonly [Path, Path]): Patch | null {
  if (part === undefined) return stated(view, layer)
  const own = patchOf(view, part)
  if (own !== null) return own
  const face = ends.find((end) => end.startsWith(`${part}/`))
  return face === undefined ? null : stated(view, face)
}

function stated(view: View, place: Path): Patch | null {
  const area = view.may(below(place, 'area'))
  return area === undefined ? null : squareOf(area)
}

/** Rectangle of a piece or face: its length and width, else a square of its area; null when neither is recorded. */
export function patchOf(view: View, place: Path): Patch | null {
  const [x, y] = [view.may(below(place, 'size/length')), view.may(below(place, 'size/width'))]
  const area = view.may(below(place, 'area'))
  if (x === undefined || y === undefined) return area === undefined ? null : squareOf(area)
  if (area === undefined) return { x, y }
  const scale = Math.sqrt(area / (x * y))
  return { x: x * scale, y: y * scale }
}
