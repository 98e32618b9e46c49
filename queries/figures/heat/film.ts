import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { ductFilmMethod } from '../../physics/duct-film.ts'
import { finField } from '../../physics/fins.ts'
import { jetArrayMethod } from '../../physics/jets.ts'
import { requirePositive } from '../../physics/method.ts'
import { pinBankMethod } from '../../physics/pin-fins.ts'
import { apply } from '../apply.ts'
import { below } from '../paths.ts'
import { passageFlow } from './flow.ts'
import { circuitFluid } from './fluid.ts'
import { ofMaterial } from './material.ts'
import { type DuctSizes, finThickness, type JetSizes, type PinSizes, passageForm } from './passage.ts'
import { firstOf, sound } from './reading.ts'
import { type Cooling, heatTopology, streamOf } from './topology.ts'

/** From a face to the coolant that touches it. */
export interface FaceFilm {
  readonly conductance: number
  /** On the wetted metal. */
  readonly filmCoefficient: number
  /** Absent where nobody says how much is wetted. */
  readonly wettedArea?: number
}

/** Half-widths of what correlations of heat transfer are good for: as their authors say, or common practice. */
const FILM_DOUBT = { ducts: 0.1, pins: 0.15, jets: 0.15 } as const

/**
 * Conductance of one cooled face, by the id of its cooling: a stated film coefficient on the wetted area, else the
 * correlation of the passage’s form at its flow. Neither: missing, with what to measure.
 */
export const coolingConductance: Model<FaceFilm> = {
  id: 'film',
  compute: (view, id) =>
    sound(view, id, () => {
      const cooling = heatTopology(view).coolingById.get(id)!
      const film = view.may(below(id, 'film-coefficient'))
      const found = film === undefined ? byForm(view, cooling) : byStatedFilm(view, cooling, film)
      requirePositive(id, 'conductance (film coefficient times wetted area)', found.conductance)
      return found
    }),
}

function byStatedFilm(view: View, { id, face, passage }: Cooling, filmCoefficient: number): FaceFilm {
  const wetted = view.may(below(id, 'wetted-area'))
  const { form } = streamOf(view, passage)
  if (wetted === undefined && form === 'fins') {
    const sizes = view.model(passageForm, passage).sizes as DuctSizes
    return { ...throughFins(view, { passage, face, sizes, filmCoefficient }), filmCoefficient }
  }
  const wettedArea = wetted ?? firstOf(view, [below(id, 'wetted-area'), below(face, 'area')])
  return { conductance: filmCoefficient * wettedArea, filmCoefficient, wettedArea }
}

interface Streamed extends Cooling {
  readonly fluid: {
    readonly flow: number
    readonly density: number
    readonly viscosity: number
    readonly specificHeat: number
    readonly thermalConductivity: number
  }
}

function byForm(view: View, cooling: Cooling): FaceFilm {
  const { passage } = cooling
  const { circuit } = streamOf(view, passage)
  const [made, { density, viscosity, specificHeat, thermalConductivity }, flow] = view.all(
    () => view.model(passageForm, passage),
    () => view.model(circuitFluid, circuit),
    () => passageFlow(view, passage),
  )
  const stream = { ...cooling, fluid: { flow, density, viscosity, specificHeat, thermalConductivity } }
  if (made.form === 'duct') return inDuct(view, stream, made.kind, made.sizes)
  return made.form === 'pins' ? amongPins(view, stream, made.sizes) : underJets(view, stream, made.sizes)
}

function doubted(view: View, form: keyof typeof FILM_DOUBT): number {
  const width = FILM_DOUBT[form]
  const shape = { kind: 'rectangular', low: -width, high: width } as const
  return 1 + view.doubt(`tables/film/${form}` as Path, shape, `correlation of heat transfer of ${form}`)
}

function inDuct(view: View, stream: Streamed, kind: 'channel' | 'pipe' | 'fins', sizes: DuctSizes): FaceFilm {
  const { entrance: _entrance, ...section } = sizes
  const found = apply(view, ductFilmMethod, { ...section, ...stream.fluid })
  const filmCoefficient = found.filmCoefficient * doubted(view, 'ducts')
  if (kind === 'fins') return { ...throughFins(view, { ...stream, sizes, filmCoefficient }), filmCoefficient }
  const wettedArea = view.may(below(stream.id, 'wetted-area')) ?? facingWall(view, stream, sizes)
  return { conductance: filmCoefficient * wettedArea, filmCoefficient, wettedArea }
}

/** One wall of a channel when nobody measured what is wetted; a pipe is wetted all round. */
function facingWall(
  view: View,
  { passage, id }: Cooling,
  { shape, diameter, width, length, count }: DuctSizes,
): number {
  if (facesOf(view, passage) > 1) return view.need({ wetted: below(id, 'wetted-area') }).wetted
  if (shape === 'circular') return Math.PI * diameter! * length * count
  view.note(`${passage}: only the wall of its width is taken as wetted and cooled; no wetted area is recorded`)
  return width! * length * count
}

const facesOf = (view: View, passage: Path): number => streamOf(view, passage).faces

interface Fins {
  readonly passage: Path
  readonly face: Path
  readonly sizes: DuctSizes
  readonly filmCoefficient: number
}

/** Fins between two cooled faces carry the heat of each to the middle. */
function throughFins(view: View, { passage, face, sizes, filmCoefficient }: Fins) {
  const faces = facesOf(view, passage)
  if (faces > 2) view.fail(`${passage} cools ${faces} faces with one field of fins: state a film coefficient for each`)
  const part = heatTopology(view).pieceOf.get(face)!
  const [thickness, thermalConductivity] = view.all(
    () => finThickness(view, passage),
    () => view.may(below(passage, 'fins/conductivity')) ?? ofMaterial(view, part, 'conductivity'),
  )
  const { width, height, length, count } = sizes
  const field = { gapCount: count, gap: width!, thickness, height: height! / faces, length, thermalConductivity }
  const { thermalResistance, wettedArea } = finField({ ...field, filmCoefficient })
  return { conductance: 1 / thermalResistance, wettedArea }
}

function amongPins(view: View, { passage, face, id, fluid }: Streamed, sizes: PinSizes): FaceFilm {
  if (facesOf(view, passage) > 1)
    view.fail(`${passage} cools several faces with one field of pins: state film coefficient and wetted area of ${id}`)
  const part = heatTopology(view).pieceOf.get(face)!
  const pinConductivity = view.may(below(passage, 'pins/conductivity')) ?? ofMaterial(view, part, 'conductivity')
  const found = apply(view, pinBankMethod, { ...sizes, ...fluid, pinConductivity })
  const factor = doubted(view, 'pins')
  // Pins and the bare base between them: what the resistance stands on.
  const wettedArea = 1 / (found.thermalResistance * found.filmCoefficient * found.surfaceEfficiency)
  return { conductance: factor / found.thermalResistance, filmCoefficient: factor * found.filmCoefficient, wettedArea }
}

function underJets(view: View, { id, face, fluid }: Streamed, sizes: JetSizes): FaceFilm {
  const found = apply(view, jetArrayMethod, { ...sizes, ...fluid })
  const filmCoefficient = found.filmCoefficient * doubted(view, 'jets')
  const wettedArea = view.may(below(id, 'wetted-area')) ?? view.may(below(face, 'area')) ?? jetField(view, sizes)
  return { conductance: filmCoefficient * wettedArea, filmCoefficient, wettedArea }
}

function jetField(view: View, { jetCount, pitch }: JetSizes): number {
  view.note('the jets are taken to wet one square of their pitch each; no wetted area is recorded')
  return jetCount * pitch ** 2
}
