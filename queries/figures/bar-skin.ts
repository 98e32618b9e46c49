import type { Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { barSkin, pairSkin } from '../physics/bar-skin.ts'
import { widePairImpedance } from '../physics/skin-effect.ts'
import { sayBeyond } from './apply.ts'
import { metalOfPart } from './metal/geometry.ts'
import { below } from './paths.ts'

interface Section {
  readonly width: number
  readonly thickness: number
}

/** Section of a bar, or of a plate from end to end along its longer side. */
const sectionOfPart: Model<Section> = {
  id: 'bar section',
  compute(view, part) {
    if (view.find({ ask: 'shape-of', part }).paths.length === 0)
      return view.fail(`no width and thickness of ${part} on record: give its run or plate`, 'refused', part)
    const metal = view.model(metalOfPart, part)
    if (metal.shape === 'run') return metal.stretches[0]!
    const [thickness, width] = metal.size.toSorted((a, b) => a - b) as [number, number, number]
    return { width, thickness }
  },
}

/** Gap to the metal of the other rail that a bar lies face to face with; undefined where it lies with none. */
function gapToReturn(view: View, part: Path): number | undefined {
  const rails = view.find({ ask: 'rails' }).paths.map((net) => view.find({ ask: 'metal-of', net }).paths)
  const own = rails.findIndex((metal) => metal.includes(part))
  const others = rails.flatMap((metal, i) => (own < 0 || i === own ? [] : metal))
  const besideOf = (one: Path): Path | undefined => view.find({ ask: 'beside', part: one }).paths[0]
  const neighbour = besideOf(part)
  const placed =
    neighbour !== undefined && others.includes(neighbour) ? part : others.find((one) => besideOf(one) === part)
  return placed === undefined ? undefined : view.need({ gap: below(placed, 'beside/gap') }).gap
}

type Place = Section & { readonly gap: number | undefined; readonly conductivity: number; readonly frequency: number }

interface Skin {
  readonly ratio: number
  readonly resistanceError: number
  readonly inductanceError: number
}

/** Resistance over that of direct current, by filaments: alone, or with the return face to face. */
function solved({ gap, ...bar }: Place): Skin {
  if (gap === undefined) {
    const { resistanceRatio, resistanceError, inductanceError } = barSkin.compute(bar)
    return { ratio: resistanceRatio, resistanceError, inductanceError }
  }
  const { resistancePerLength, resistanceError, inductanceError } = pairSkin.compute({
    ...bar,
    gap,
    arrangement: 'laminated',
  })
  const direct = 2 / (bar.conductivity * bar.width * bar.thickness)
  return { ratio: resistancePerLength / direct, resistanceError, inductanceError }
}

/** The same in one dimension: fed from the face to the return, or alone from both. It carries doubts, not values. */
function smooth({ width, thickness, gap, conductivity, frequency }: Place): number {
  const depth = gap === undefined ? thickness / 2 : thickness
  const { resistancePerLength } = widePairImpedance({ width, thickness: depth, gap: 0, conductivity, frequency })
  return (resistancePerLength * conductivity * width * depth) / 2
}

/** A ratio as solved, and the power of thickness over skin depth by which it grows faster than the closed form. */
interface Written extends Skin {
  readonly smooth: number
  readonly beyondSmooth: number
}

const STEP = 1.1

/** Three solutions: where it is written, a tenth thicker and a tenth thinner. */
function writtenAt(place: Place): Written {
  const at = (thickness: number): number => solved({ ...place, thickness }).ratio / smooth({ ...place, thickness })
  const beyondSmooth = Math.log(at(place.thickness * STEP) / at(place.thickness / STEP)) / (2 * Math.log(STEP))
  return { ...solved(place), smooth: smooth(place), beyondSmooth }
}

/** Solved before: bars of three phases are alike. */
const known = new Map<string, Written>()
const MOST = 256

function remembered(place: Place): Written {
  const key = JSON.stringify(place)
  const before = known.get(key)
  if (before) return before
  const written = writtenAt(place)
  if (known.size >= MOST) known.clear()
  known.set(key, written)
  return written
}

/** Thickness over skin depth, but for a factor: the ratio depends on sizes over skin depth only. */
const inDepths = ({ thickness, conductivity, frequency }: Place): number =>
  thickness * Math.sqrt(conductivity * frequency)

interface Alternating {
  /** Which current: keeps the solved ratios of one bar apart. */
  readonly of: 'switching' | 'output'
  readonly frequency: number
  readonly resistivity: number
}

/**
 * Resistance of a bar at a frequency over that for direct current [1]. Filaments give the value; a doubt moves it as it
 * moves the one-dimensional closed form and what the solution adds to it near by, for a mesh that follows every draw
 * would add its own steps.
 */
export function skinRatio(view: View, part: Path, { of, frequency, resistivity }: Alternating): number {
  const [{ width, thickness }, gap] = view.all(
    () => view.model(sectionOfPart, part),
    () => gapToReturn(view, part),
  )
  const place: Place = { width, thickness, gap, conductivity: 1 / resistivity, frequency }
  const written = view.choice(`skin of ${part}, ${of}`, () => ({ ...remembered(place), depths: inDepths(place) }))
  sayBeyond(view, barSkin, { ...written, frequency })
  const shown = `${Number((frequency / 1e3).toPrecision(3))} kHz`
  view.note(
    gap === undefined
      ? `skin effect at ${shown} of the bar alone: metal close by adds to it`
      : `skin and proximity effect at ${shown}, a return of the same section face to face at ${Number((1e3 * gap).toPrecision(2))} mm`,
  )
  const bent = (inDepths(place) / written.depths) ** written.beyondSmooth
  return (bent * written.ratio * smooth(place)) / written.smooth
}
