import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { type PassageDrop, powerLawPassage } from '../../physics/coolant-network.ts'
import { type DuctDropInputs, ductDropLaw } from '../../physics/duct.ts'
import { type JetArrayInputs, jetArray } from '../../physics/jets.ts'
import { FITTING_LOSS } from '../../physics/minor-loss.ts'
import { type PinBankInputs, pinBank } from '../../physics/pin-fins.ts'
import { below } from '../paths.ts'
import { circuitFluid } from './fluid.ts'
import { firstOf, known, sound } from './reading.ts'
import { streamOf } from './topology.ts'

/** Sizes of a passage without what flows in it. */
export type PassageForm =
  | { readonly form: 'duct'; readonly kind: 'channel' | 'pipe' | 'fins'; readonly sizes: DuctSizes }
  | { readonly form: 'pins'; readonly sizes: PinSizes }
  | { readonly form: 'jets'; readonly sizes: JetSizes }

export type DuctSizes = Pick<DuctDropInputs, 'shape' | 'diameter' | 'width' | 'height' | 'entrance'> & {
  readonly length: number
  readonly count: number
  readonly roughness: number
}
export type PinSizes = Omit<PinBankInputs, FluidKeys | 'flow' | 'pinConductivity'>
export type JetSizes = Omit<JetArrayInputs, FluidKeys | 'flow'>
type FluidKeys = 'density' | 'viscosity' | 'specificHeat' | 'thermalConductivity'

/** How a passage is made, as recorded: all sizes that lack are named at once. */
export const passageForm: Model<PassageForm> = {
  id: 'form of a passage',
  compute(view, passage) {
    const form = streamOf(view, passage).form ?? view.fail(`${passage} has no form`, 'refused', passage)
    const at = (name: string): Path => below(passage, `${form}/${name}`)
    if (form === 'pins') return { form, sizes: pinSizes(view, at) }
    if (form === 'jets') return { form, sizes: jetSizes(view, at) }
    if (form === 'fins') return { form: 'duct', kind: form, sizes: finSizes(view, at) }
    return { form: 'duct', kind: form === 'pipe' ? 'pipe' : 'channel', sizes: ductSizes(view, form, at) }
  },
}

type At = (name: string) => Path

function ductSizes(view: View, form: string, at: At): DuctSizes {
  const roughness = view.may(at('roughness')) ?? 0
  if (form === 'pipe') {
    const sizes = view.need({ diameter: at('diameter'), length: at('length') })
    return { shape: 'circular', ...sizes, count: view.may(at('pipes')) ?? 1, roughness }
  }
  const sizes = view.need({ width: at('width'), height: at('height'), length: at('length') })
  return { shape: 'rectangular', ...sizes, count: view.may(at('channels')) ?? 1, roughness }
}

function finSizes(view: View, at: At): DuctSizes {
  const [{ height, length, count }, width] = view.all(
    () => view.need({ height: at('height'), length: at('length'), count: at('gaps') }),
    () => gapOf(view, at),
  )
  const roughness = view.may(at('roughness')) ?? 0
  return { shape: 'rectangular', width, height, length, count, roughness, entrance: 'developing' }
}

function gapOf(view: View, at: At): number {
  const gap = view.may(at('gap'))
  if (gap !== undefined) return gap
  const [pitch, fin] = [view.may(at('pitch')), view.may(at('fin'))]
  return pitch !== undefined && fin !== undefined ? pitch - fin : view.need({ gap: at('gap') }).gap
}

/** Thickness of a fin: recorded, or what the pitch leaves beside the gap. */
export function finThickness(view: View, passage: Path): number {
  const at = (name: string): Path => below(passage, `fins/${name}`)
  const [fin, pitch, gap] = [view.may(at('fin')), view.may(at('pitch')), view.may(at('gap'))]
  if (fin !== undefined) return fin
  return pitch !== undefined && gap !== undefined ? pitch - gap : view.need({ fin: at('fin') }).fin
}

function pinSizes(view: View, at: At): PinSizes {
  const [{ diameter, height, rows }, pinsPerRow, across, along, word] = view.all(
    () => view.need({ diameter: at('diameter'), height: at('height'), rows: at('rows') }),
    () => pinColumns(view, at),
    () => firstOf(view, [at('pitch-across'), at('pitch')]),
    () => firstOf(view, [at('pitch-along'), at('pitch')]),
    () => view.word(at('arrangement')),
  )
  const arrangement = word === 'staggered' ? 'staggered' : 'in-line'
  return { arrangement, diameter, height, rows, pinsPerRow, transversePitch: across, longitudinalPitch: along }
}

function pinColumns(view: View, at: At): number {
  const columns = view.may(at('columns'))
  if (columns !== undefined) return columns
  return view.first([
    { name: 'columns', read: () => view.need({ columns: at('columns') }).columns },
    {
      name: 'all pins over rows',
      read: () => {
        const { pins, rows } = view.need({ pins: at('pins'), rows: at('rows') })
        return pins / rows
      },
    },
  ]).value
}

function jetSizes(view: View, at: At): JetSizes {
  return view.need({
    nozzleDiameter: at('diameter'),
    standOff: at('distance'),
    pitch: at('pitch'),
    jetCount: at('jets'),
  })
}

/** Doubt of what the fittings of a duct lose, friction, and drag of pins and nozzles: half-widths, common practice. */
const DROP_DOUBT = { duct: 0.05, pins: 0.3, jets: 0.15 } as const
const BEND_DOUBT = 0.3

/** Pressure drop of a passage at any flow: as measured across it, scaled by the square of the flow, else by its form. */
export const passageDrop: Model<PassageDrop> = {
  id: 'pressure drop of a passage',
  compute: (view, passage) => sound(view, passage, () => measuredDrop(view, passage) ?? dropByForm(view, passage)),
}

function measuredDrop(view: View, passage: Path): PassageDrop | undefined {
  const path = below(passage, 'pressure-drop')
  const drop = view.may(path)
  if (drop === undefined) return undefined
  const flow = firstOf(view, [below(path, 'at/flow'), below(path, 'at/coolant-flow')])
  view.note(`the drop measured across ${passage} is scaled by the square of the flow`)
  return powerLawPassage({ id: passage, factor: drop / flow ** 2, exponent: 2 })
}

function dropByForm(view: View, passage: Path): PassageDrop {
  const { circuit } = streamOf(view, passage)
  const [made, { density, viscosity, specificHeat, thermalConductivity }] = view.all(
    () => view.model(passageForm, passage),
    () => view.model(circuitFluid, circuit),
  )
  const fluid = { density, viscosity }
  const of = made.form
  const factor =
    1 +
    view.doubt(
      `tables/pressure-drop/${of}` as Path,
      { kind: 'rectangular', low: -DROP_DOUBT[of], high: DROP_DOUBT[of] },
      `law of pressure drop of ${of === 'duct' ? 'ducts' : of}`,
    )
  if (made.form === 'duct') {
    const law = ductDropLaw({ ...made.sizes, ...fluid, minorLoss: minorLossOf(view, passage, made.kind) })
    return { id: passage, drop: (flow) => factor * law(flow) }
  }
  const extra = recordedLosses(view, passage)
  if (extra > 0) view.note(`loss factors of ${passage} are not in it: no velocity is said for them`)
  const all = { ...fluid, specificHeat, thermalConductivity }
  if (made.form === 'jets')
    return { id: passage, drop: (flow) => factor * jetArray({ ...made.sizes, ...all, flow }).pressureDrop }
  // The conductivity of the pins has no part in their drag.
  const pins = { ...made.sizes, ...all, pinConductivity: 1 }
  return { id: passage, drop: (flow) => factor * pinBank({ ...pins, flow }).pressureDrop }
}

/** Recorded loss factors, and right-angle bends by the handbook. */
function minorLossOf(view: View, passage: Path, kind: 'channel' | 'pipe' | 'fins'): number {
  const bends = view.may(below(passage, `${kind}/bends`)) ?? 0
  const own = recordedLosses(view, passage)
  if (bends === 0) return own
  const doubt = view.doubt(
    'tables/loss-factor/bend' as Path,
    { kind: 'rectangular', low: -BEND_DOUBT, high: BEND_DOUBT },
    'loss factor of a right-angle bend',
  )
  return own + bends * FITTING_LOSS['elbow-90'] * (1 + doubt)
}

function recordedLosses(view: View, passage: Path): number {
  const { fittings } = streamOf(view, passage)
  const factors = fittings.map((fitting) => {
    const factor = known(view, () => view.need({ factor: below(fitting, 'loss-factor') }).factor)
    if (factor === undefined) view.note(`a lower bound: ${fitting} has no loss factor`)
    return (factor ?? 0) * (view.may(below(fitting, 'count')) ?? 1)
  })
  return factors.reduce((sum, one) => sum + one, 0)
}
