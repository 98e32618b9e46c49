import type { View } from '../../../graph/view.ts'
import { type Plate, type PlateLayer, plateResistance, plateTransfer } from '../../physics/spreading.ts'
import { spreadingCone } from '../../physics/spreading-closed.ts'

/** A rectangle that heat crosses [m]. */
export interface Patch {
  readonly x: number
  readonly y: number
}

export const areaOf = ({ x, y }: Patch): number => x * y
export const squareOf = (area: number): Patch => ({ x: Math.sqrt(area), y: Math.sqrt(area) })

/** The part of a patch that lies on another, both centred: heat does not cross where there is nothing below. */
export const onto = (patch: Patch, plate: Patch): Patch => ({
  x: Math.min(patch.x, plate.x),
  y: Math.min(patch.y, plate.y),
})

interface Slab {
  readonly from: Patch
  readonly plate: Patch
  readonly thickness: number
  readonly conductivity: number
}

/** Widening by 45° until the edges of the plate are reached, each direction by itself [K/W]. */
export function coneThrough({ from, plate, thickness, conductivity }: Slab): { resistance: number; exit: Patch } {
  const start = onto(from, plate)
  const reach = (side: number, edge: number): number => Math.min(thickness, (edge - side) / 2)
  const cuts = [...new Set([0, reach(start.x, plate.x), reach(start.y, plate.y), thickness])].sort((a, b) => a - b)
  const at = (z: number): Patch => onto({ x: start.x + 2 * z, y: start.y + 2 * z }, plate)
  const resistance = cuts
    .slice(1)
    .reduce((sum, z, i) => sum + piece(at(cuts[i]!), at(z), z - cuts[i]!, conductivity), 0)
  return { resistance, exit: at(thickness) }
}

/** One stretch in which each side either grows by 45° or stands still. */
function piece(top: Patch, bottom: Patch, thickness: number, conductivity: number): number {
  if (thickness <= 0) return 0
  const [growsX, growsY] = [bottom.x - top.x > 1e-12, bottom.y - top.y > 1e-12]
  if (growsX && growsY)
    return spreadingCone({ sourceX: top.x, sourceY: top.y, thickness, thermalConductivity: conductivity }).resistance
  if (!growsX && !growsY) return thickness / (conductivity * areaOf(top))
  const [still, small, large] = growsX ? [top.y, top.x, bottom.x] : [top.x, top.y, bottom.y]
  return Math.log(large / small) / (2 * conductivity * still)
}

/** Cosines for a mean that is good to about 0.05 % of the spreading part, which falls as 1/N². */
const TERMS = 16
/** So many that the mean is within a few per cent: enough to say how a doubt moves it. */
const ROUGH_TERMS = 3

/** Layers of one size, from the source side on, cooled below by a film coefficient on the whole of them. */
export interface CompoundPlate {
  readonly size: Patch
  readonly layers: readonly PlateLayer[]
  readonly film: number
}

export const asPlate = ({ size, layers, film }: CompoundPlate): Plate => ({
  plateX: size.x,
  plateY: size.y,
  layers,
  filmCoefficient: film,
})

/**
 * Spreading part of a centred source on a compound plate: mean over the source by the series solution, less what even
 * flow through the whole plate would give [K/W].
 */
function spreadingBy(termsPerRatio: number, from: Patch, compound: CompoundPlate): number {
  const { size, layers, film } = compound
  const source = onto(from, size)
  const key = [
    termsPerRatio,
    source.x,
    source.y,
    size.x,
    size.y,
    film,
    ...layers.flatMap((one) => Object.values(one)),
  ].join(' ')
  const before = remembered.get(key)
  if (before !== undefined) return before
  const plate = asPlate(compound)
  const middle = { centreX: size.x / 2, centreY: size.y / 2 }
  const terms = Math.min(600, Math.ceil(termsPerRatio * Math.max(size.x / source.x, size.y / source.y)))
  const spreading = plateTransfer({ plate, source: { ...source, ...middle }, terms }) - plateResistance(plate)
  if (remembered.size >= MOST) remembered.clear()
  remembered.set(key, spreading)
  return spreading
}

/**
 * The same as a view needs it: the value is that of the long series, and a doubt moves it as it moves a short one. The
 * ratio of the two is kept under every draw, for a sampled evaluation asks thousands of times.
 *
 * @param name of the layer, under which the ratio is kept
 */
export function seriesSpreading(view: View, name: string, from: Patch, compound: CompoundPlate): number {
  const short = spreadingBy(ROUGH_TERMS, from, compound)
  if (!(short > 0)) return spreadingBy(TERMS, from, compound)
  return short * view.choice(`series ${name}`, () => spreadingBy(TERMS, from, compound) / short)
}

/** Equal dies on equal plates are one sum; the memory is bounded. */
const remembered = new Map<string, number>()
const MOST = 4096
