import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { requireNonNegative, requirePositive } from '../../physics/method.ts'
import type { PlateLayer } from '../../physics/spreading.ts'
import { below } from '../paths.ts'
import { ofMaterial } from './material.ts'
import { firstOf } from './reading.ts'
import { areaOf, type Patch } from './spread.ts'
import type { Layer } from './topology.ts'

/** What a layer is made of: a stated resistance, or thickness over conductivity and contacts, per area. */
export interface Slab {
  readonly stated: number | null
  /** From the source side on: one, or of a ceramic with metal on both sides three, for metal spreads and ceramic does not. */
  readonly plates: readonly Ply[]
  /** Thickness over conductivity [m².K/W]. */
  readonly unit: number
  /** Both surfaces together [m².K/W]. */
  readonly contact: number
}

interface Ply {
  readonly thickness: number
  readonly conductivity: number
}

/** What cannot exist is named by its layer. */
export function checkSlab(layer: Path, { stated, plates, contact }: Slab, own: Patch | null): void {
  requireNonNegative(layer, 'contact-resistance', contact)
  if (own) requirePositive(layer, 'area', areaOf(own))
  if (stated !== null) requireNonNegative(layer, 'resistance', stated)
  for (const { thickness, conductivity } of plates) {
    requireNonNegative(layer, 'thickness', thickness)
    requirePositive(layer, 'conductivity', conductivity)
  }
}

export function slabOf(view: View, { id: layer, part }: Layer): Slab {
  const stated = view.may(below(layer, 'resistance')) ?? (part && view.may(below(part, 'thermal-resistance')))
  const contact =
    (view.may(below(layer, 'contact-resistance')) ?? 0) + ((part && view.may(below(part, 'contact-resistance'))) ?? 0)
  if (stated !== undefined) return { stated, plates: [], unit: 0, contact }
  if (part === undefined) {
    const { thickness, conductivity } = view.need({
      thickness: below(layer, 'thickness'),
      conductivity: below(layer, 'conductivity'),
    })
    return slabFrom([{ thickness, conductivity }], contact)
  }
  return slabFrom(partPlies(view, part), contact)
}

function slabFrom(plates: readonly Ply[], contact: number): Slab {
  return { stated: null, plates, unit: plates.reduce((sum, one) => sum + one.thickness / one.conductivity, 0), contact }
}

/** A ceramic with metal on both sides is three layers of one area. */
function partPlies(view: View, part: Path): readonly Ply[] {
  const ceramic = view.may(below(part, 'ceramic-thickness'))
  if (ceramic === undefined) {
    const [thickness, conductivity] = view.all(
      () => firstOf(view, [below(part, 'thickness'), below(part, 'size/height')]),
      () => ofMaterial(view, part, 'conductivity'),
    )
    return [{ thickness, conductivity }]
  }
  const [conductivity, metal] = view.all(
    () => wordConductivity(view, part, 'ceramic'),
    () => metalOf(view, part),
  )
  const middle = { thickness: ceramic, conductivity }
  return metal ? [metal, middle, metal] : [middle]
}

function metalOf(view: View, part: Path): Ply | null {
  const thickness = view.may(below(part, 'metal-thickness'))
  if (thickness === undefined)
    view.note(`no metal on the ceramic of ${part} is counted: its thickness is not on record`)
  if (thickness === undefined || thickness === 0) return null
  return { thickness, conductivity: wordConductivity(view, part, 'metal') }
}

function wordConductivity(view: View, part: Path, of: 'ceramic' | 'metal'): number {
  const own = of === 'ceramic' ? view.may(below(part, 'ceramic-conductivity')) : undefined
  if (own !== undefined) return own
  const word = view.mayWord(below(part, `${of}-material`)) ?? view.mayWord(below(part, 'material'))
  if (word === undefined) return view.need({ value: below(part, `${of}-material`) }).value
  return view.need({ value: below('materials' as Path, `${word}/conductivity`) }).value
}

/** Contacts of both surfaces are taken below the layer. */
export const platesOfSlab = ({ plates, contact }: Slab): readonly PlateLayer[] =>
  plates.map(({ thickness, conductivity }, n) => ({
    thickness,
    thermalConductivity: conductivity,
    contactResistivity: n === plates.length - 1 ? contact : 0,
  }))
