import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

/** One layer between two faces. */
export type StackLayer = {
  readonly thickness: number
  readonly thermalConductivity: number
  readonly area: number
}

/** Resistance of one layer by the heat crossing all of its area evenly, t/(λ A) [K/W]. @throws {DomainError} on a size or conductivity of zero or less */
export function layerResistance({ thickness, thermalConductivity, area }: StackLayer): number {
  requireNonNegative('layerResistance', 'thickness', thickness)
  requirePositive('layerResistance', 'thermalConductivity', thermalConductivity)
  requirePositive('layerResistance', 'area', area)
  return thickness / (thermalConductivity * area)
}

export type LayerStackInputs = {
  thicknesses: readonly number[]
  thermalConductivities: readonly number[]
  areas: readonly number[]
  contactResistivities?: readonly number[]
  filmCoefficient?: number
  filmArea?: number
}

export type LayerStack = {
  readonly layerResistances: readonly number[]
  /** Film to the coolant; absent without a film coefficient. */
  readonly filmResistance?: number
  readonly total: number
  /** Every layer at the largest area: as if heat spread at once. */
  readonly lowerBound: number
  /** Every layer at the smallest area: as if heat never spread. */
  readonly upperBound: number
  /** Total times the first area [m².K/W]. */
  readonly specificResistance: number
}

/**
 * Stack of layers, each crossed evenly over its own area, Σ t/(λ A) + r_c/A + 1/(h A); and the bounds between which the
 * true value lies for a source as large as the smallest layer and centred layers: full spreading (all at the largest
 * area) and none (all at the smallest). The sum over own areas leaves out constriction where the area grows and is
 * itself no bound.
 *
 * @param thicknesses          of the layers [m], ≥ 0, from the source on
 * @param thermalConductivities [W/(m.K)], > 0
 * @param areas                [m²], > 0
 * @param contactResistivities of the contact after each layer, times area [m².K/W], ≥ 0; none if left out
 * @param filmCoefficient      to the coolant [W/(m².K)], > 0; left out for a stack that ends at a face
 * @param filmArea             wetted area [m²]; the last layer's if left out
 * @throws {DomainError} on lists of unequal length and on values outside of the above
 *
 * @example layerStack({ thicknesses: [0.38e-3, 3e-3], thermalConductivities: [24, 390], areas: [9e-4, 16e-4] }).total // 0.0224
 */
export function layerStack(inputs: LayerStackInputs): LayerStack {
  const { thicknesses, thermalConductivities, areas, filmCoefficient } = inputs
  const contacts = inputs.contactResistivities ?? thicknesses.map(() => 0)
  if (areas.length === 0) throw new DomainError('layerStack', 'areas', '[]', 'at least one layer')
  for (const [name, list] of Object.entries({ thicknesses, thermalConductivities, contactResistivities: contacts })) {
    if (list.length !== areas.length) throw new DomainError('layerStack', name, list.length, `${areas.length} numbers`)
  }
  for (const contact of contacts) requireNonNegative('layerStack', 'contactResistivities', contact)
  const resistances = (area: (own: number) => number) =>
    thicknesses.map((thickness, i) => {
      const layer = { thickness, thermalConductivity: thermalConductivities[i]!, area: area(areas[i]!) }
      return layerResistance(layer) + contacts[i]! / layer.area
    })
  const wetted = inputs.filmArea ?? areas.at(-1)!
  const film = (area: number): number => {
    if (filmCoefficient === undefined) return 0
    requirePositive('layerStack', 'filmCoefficient', filmCoefficient)
    requirePositive('layerStack', 'filmArea', area)
    return 1 / (filmCoefficient * area)
  }
  const all = filmCoefficient === undefined ? areas : [...areas, wetted]
  const [least, most] = [Math.min(...all), Math.max(...all)]
  const layerResistances = resistances((own) => own)
  const total = sum(layerResistances) + film(wetted)
  return {
    layerResistances,
    ...(filmCoefficient === undefined ? {} : { filmResistance: film(wetted) }),
    total,
    lowerBound: sum(resistances(() => most)) + film(most),
    upperBound: sum(resistances(() => least)) + film(least),
    specificResistance: total * areas[0]!,
  }
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0)
}

const SOURCES = ['one-dimensional conduction, closed form'] as const

export const layerStackMethod = defineMethod<LayerStackInputs, LayerStack>({
  id: 'layer-stack',
  title: 'Stack of layers: resistance by own areas, with lower and upper bound',
  takes: {
    thicknesses: { unit: 'm', list: true, about: 'of the layers, from the source on' },
    thermalConductivities: { unit: 'W/(m.K)', list: true, about: 'of the layers' },
    areas: { unit: 'm2', list: true, about: 'of the layers' },
    contactResistivities: {
      unit: 'm2.K/W',
      list: true,
      optional: true,
      about: 'contact after each layer; none if left out',
    },
    filmCoefficient: {
      unit: 'W/(m2.K)',
      optional: true,
      about: 'to the coolant; left out if the stack ends at a face',
    },
    filmArea: { unit: 'm2', optional: true, about: 'wetted area; that of the last layer if left out' },
  },
  gives: {
    layerResistances: { unit: 'K/W', print: 'K/W', about: 'of each layer with the contact after it' },
    filmResistance: { unit: 'K/W', print: 'K/W', about: 'to the coolant' },
    total: { unit: 'K/W', print: 'K/W', about: 'every layer on its own area' },
    lowerBound: { unit: 'K/W', print: 'K/W', about: 'full spreading: all at the largest area' },
    upperBound: { unit: 'K/W', print: 'K/W', about: 'no spreading: all at the smallest area' },
    specificResistance: { unit: 'm2.K/W', print: 'mm2.K/W', about: 'total times the area of the first layer' },
  },
  sources: SOURCES,
  compute: layerStack,
})

export type InterfaceInputs = {
  thickness: number
  thermalConductivity: number
  area: number
  firstContact?: number
  secondContact?: number
}
export type Interface = { readonly bulk: number; readonly total: number; readonly apparentConductivity: number }

/**
 * Thermal interface sheet with contact resistance on both faces: (t/λ + r₁ + r₂)/A, and the conductivity that the whole
 * seems to have. A datasheet conductivity may already be that apparent one: then contact must not be added again.
 *
 * @param thickness           [m], > 0
 * @param thermalConductivity of the sheet itself [W/(m.K)], > 0
 * @param area                [m²], > 0
 * @param firstContact        and secondContact [m².K/W], ≥ 0; 0 if left out
 * @throws {DomainError} on values outside of the above
 *
 * @example interfaceSheet({ thickness: 0.2e-3, thermalConductivity: 4, area: 36e-4, firstContact: 8e-6, secondContact: 6e-6 }).total // 0.017778
 */
export function interfaceSheet(inputs: InterfaceInputs): Interface {
  const { thickness, thermalConductivity, area, firstContact = 0, secondContact = 0 } = inputs
  requirePositive('interfaceSheet', 'thickness', thickness)
  requireNonNegative('interfaceSheet', 'firstContact', firstContact)
  requireNonNegative('interfaceSheet', 'secondContact', secondContact)
  const bulk = layerResistance({ thickness, thermalConductivity, area })
  const total = bulk + (firstContact + secondContact) / area
  return { bulk, total, apparentConductivity: thickness / (total * area) }
}

export const interfaceSheetMethod = defineMethod<InterfaceInputs, Interface>({
  id: 'interface-sheet',
  title: 'Thermal interface sheet with contact on both faces',
  takes: {
    thickness: { unit: 'm', about: 'of the sheet when clamped' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the sheet itself' },
    area: { unit: 'm2', about: 'of contact' },
    firstContact: { unit: 'm2.K/W', optional: true, about: 'contact resistance times area on one face; 0 if left out' },
    secondContact: { unit: 'm2.K/W', optional: true, about: 'the same on the other face; 0 if left out' },
  },
  gives: {
    bulk: { unit: 'K/W', print: 'K/W', about: 'without contact' },
    total: { unit: 'K/W', print: 'K/W', about: 'with both contacts' },
    apparentConductivity: { unit: 'W/(m.K)', print: 'W/(m.K)', about: 'thickness over total times area' },
  },
  sources: SOURCES,
  compute: interfaceSheet,
})

export type DoubleSidedInputs = {
  loss: number
  bottomResistances: readonly number[]
  topResistances: readonly number[]
  bottomCoolant: number
  topCoolant: number
}
export type DoubleSided = {
  readonly junctionTemperature: number
  readonly bottomHeat: number
  readonly topHeat: number
  readonly equivalentResistance: number
}

/**
 * Part cooled from two sides through unequal stacks: T = (P + T₁/R₁ + T₂/R₂)/(1/R₁ + 1/R₂), and the heat to each side,
 * which is negative where a coolant warmer than the junction heats the part. The equivalent resistance 1/(1/R₁ + 1/R₂)
 * holds with both coolants at one temperature; it lies below either side alone.
 *
 * @param loss              [W], finite
 * @param bottomResistances and topResistances, junction to coolant in series [K/W], sums > 0
 * @param bottomCoolant     and topCoolant, local temperatures [K], > 0
 * @throws {DomainError} on values outside of the above
 *
 * @example doubleSided({ loss: 280, bottomResistances: [0.137], topResistances: [0.261], bottomCoolant: 338.15,
 *   topCoolant: 339.95 }).junctionTemperature // 363.925
 */
export function doubleSided(inputs: DoubleSidedInputs): DoubleSided {
  const { loss, bottomResistances, topResistances, bottomCoolant, topCoolant } = inputs
  if (!Number.isFinite(loss)) throw new DomainError('doubleSided', 'loss', loss, 'a finite number')
  requirePositive('doubleSided', 'bottomCoolant', bottomCoolant)
  requirePositive('doubleSided', 'topCoolant', topCoolant)
  for (const one of [...bottomResistances, ...topResistances]) requireNonNegative('doubleSided', 'resistances', one)
  const [bottom, top] = [sum(bottomResistances), sum(topResistances)]
  requirePositive('doubleSided', 'bottomResistances', bottom)
  requirePositive('doubleSided', 'topResistances', top)
  // Rises above the bottom coolant keep the heats exact when both coolants are nearly equal.
  const equivalentResistance = 1 / (1 / bottom + 1 / top)
  const difference = topCoolant - bottomCoolant
  const rise = (loss + difference / top) * equivalentResistance
  return {
    junctionTemperature: bottomCoolant + rise,
    bottomHeat: rise / bottom,
    topHeat: (rise - difference) / top,
    equivalentResistance,
  }
}

export const doubleSidedMethod = defineMethod<DoubleSidedInputs, DoubleSided>({
  id: 'double-sided-cooling',
  title: 'Part cooled from two sides: junction temperature and split of heat',
  takes: {
    loss: { unit: 'W', about: 'loss of the part' },
    bottomResistances: { unit: 'K/W', list: true, about: 'junction to bottom coolant, in series' },
    topResistances: { unit: 'K/W', list: true, about: 'junction to top coolant, in series' },
    bottomCoolant: { unit: 'K', about: 'local temperature of the bottom coolant' },
    topCoolant: { unit: 'K', about: 'local temperature of the top coolant' },
  },
  gives: {
    junctionTemperature: { unit: 'K', print: 'Cel', about: 'junction' },
    bottomHeat: { unit: 'W', print: 'W', about: 'into the bottom coolant; negative if it heats the part' },
    topHeat: { unit: 'W', print: 'W', about: 'into the top coolant; negative if it heats the part' },
    equivalentResistance: { unit: 'K/W', print: 'K/W', about: 'with both coolants at one temperature' },
  },
  caution:
    'A loaded module is at lethal voltage and hot: work on it only when it is proved dead, by local codes and licensed practice.',
  sources: ['two resistances in parallel, closed form'],
  compute: doubleSided,
})

export const layerStackMethods = [layerStackMethod, interfaceSheetMethod, doubleSidedMethod] as const
