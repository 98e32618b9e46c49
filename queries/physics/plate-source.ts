import { DomainError, defineMethod } from './method.ts'
import { type Plate, type PlatePatch, plateResistance, plateTransfer } from './spreading.ts'

const SERIES =
  'M. M. Yovanovich, Y. S. Muzychka, J. R. Culham, J. Thermophys. Heat Transfer 13 (1999) 495-500 (from memory); ' +
  'any number of layers by a recursive surface impedance'

export type PlateSourceInputs = {
  sourceX: number
  sourceY: number
  plateX: number
  plateY: number
  thicknesses: readonly number[]
  thermalConductivities: readonly number[]
  filmCoefficient: number
  centreX?: number
  centreY?: number
}

export type PlateSource = {
  readonly meanResistance: number
  readonly centreResistance: number
  readonly evenResistance: number
  readonly meanSpreading: number
  readonly centreSpreading: number
}

/**
 * One rectangular source on a layered plate, convection on the far face, edges adiabatic: resistance from the mean and
 * from the centre of the source to the coolant (they differ by 6 to 18 %: say which is meant), that of even flow through
 * the whole plate, and the spreading parts, which are the differences.
 *
 * @param sourceX               and sourceY [m], > 0; at most the plate
 * @param plateX                and plateY [m], > 0
 * @param thicknesses           [m] and thermalConductivities [W/(m.K)] of the layers, from the source down
 * @param filmCoefficient       on the far face [W/(m².K)], > 0
 * @param centreX               and centreY of the source from a corner [m]; the middle of the plate if left out
 * @throws {DomainError} as {@link plateTransfer}, and on lists of unequal length
 *
 * @example sourceOnPlate({ sourceX: 0.01, sourceY: 0.01, plateX: 0.03, plateY: 0.03, thicknesses: [3e-3],
 *   thermalConductivities: [390], filmCoefficient: 5000 }).centreResistance // 0.36603
 */
export function sourceOnPlate(inputs: PlateSourceInputs): PlateSource {
  const { sourceX, sourceY, plateX, plateY, thicknesses, thermalConductivities, filmCoefficient } = inputs
  const { centreX = plateX / 2, centreY = plateY / 2 } = inputs
  if (thicknesses.length !== thermalConductivities.length) {
    throw new DomainError(
      'sourceOnPlate',
      'thermalConductivities',
      thermalConductivities.length,
      `${thicknesses.length} numbers`,
    )
  }
  const layers = thicknesses.map((thickness, i) => ({ thickness, thermalConductivity: thermalConductivities[i]! }))
  const plate: Plate = { plateX, plateY, layers, filmCoefficient }
  const source: PlatePatch = { x: sourceX, y: sourceY, centreX, centreY }
  const meanResistance = plateTransfer({ plate, source })
  const centreResistance = plateTransfer({ plate, source, patch: { x: 0, y: 0, centreX, centreY } })
  const evenResistance = plateResistance(plate)
  return {
    meanResistance,
    centreResistance,
    evenResistance,
    meanSpreading: meanResistance - evenResistance,
    centreSpreading: centreResistance - evenResistance,
  }
}

const PLATE_ARGUMENTS = {
  plateX: { unit: 'm', about: 'one side of the plate' },
  plateY: { unit: 'm', about: 'other side of the plate' },
  thicknesses: { unit: 'm', list: true, about: 'of the plate layers, from the source down' },
  thermalConductivities: { unit: 'W/(m.K)', list: true, about: 'of the plate layers' },
  filmCoefficient: { unit: 'W/(m2.K)', about: 'on the far face' },
} as const

export const plateSourceMethod = defineMethod<PlateSourceInputs, PlateSource>({
  id: 'source-on-plate',
  title: 'Spreading resistance of a rectangular source on a layered plate',
  takes: {
    sourceX: { unit: 'm', about: 'one side of the source' },
    sourceY: { unit: 'm', about: 'other side of the source' },
    ...PLATE_ARGUMENTS,
    centreX: { unit: 'm', optional: true, about: 'centre of the source from a corner; the middle if left out' },
    centreY: { unit: 'm', optional: true, about: 'the same in the other direction' },
  },
  gives: {
    meanResistance: { unit: 'K/W', print: 'K/W', about: 'mean over the source to coolant' },
    centreResistance: { unit: 'K/W', print: 'K/W', about: 'centre of the source to coolant' },
    evenResistance: { unit: 'K/W', print: 'K/W', about: 'even flow through the whole plate' },
    meanSpreading: { unit: 'K/W', print: 'K/W', about: 'spreading part of the mean' },
    centreSpreading: { unit: 'K/W', print: 'K/W', about: 'spreading part of the centre' },
  },
  sources: [SERIES],
  compute: sourceOnPlate,
})

export type DiesInputs = {
  plateX: number
  plateY: number
  thicknesses: readonly number[]
  thermalConductivities: readonly number[]
  filmCoefficient: number
  dieX: readonly number[]
  dieY: readonly number[]
  centresX: readonly number[]
  centresY: readonly number[]
  losses: readonly number[]
}

export type Dies = {
  /** Mean rise of each die above the coolant [K]. */
  readonly rises: readonly number[]
  /** Row by row: mean rise of die i per watt in die j [K/W]; symmetric. */
  readonly resistances: readonly number[]
}

/**
 * Several dies on one layered plate that heat each other, by superposition: rise of die i = Σ R_ij P_j, R_ij the mean
 * rise over die i per watt in die j. Dies taken alone would miss the mutual part, which may be a third of the rise.
 *
 * @param dieX     and dieY, sides of the dies [m]; centresX and centresY from a corner of the plate [m]
 * @param losses   of the dies [W]
 * @throws {DomainError} on lists of unequal length or dies off the plate
 *
 * @example diesOnPlate({ plateX: 0.036, plateY: 0.024, thicknesses: [3e-3], thermalConductivities: [390], filmCoefficient: 6000,
 *   dieX: [0.01, 0.01], dieY: [0.01, 0.01], centresX: [0.009, 0.027], centresY: [0.012, 0.012], losses: [1, 1] }).rises // 0.46851 each
 */
export function diesOnPlate(inputs: DiesInputs): Dies {
  const {
    plateX,
    plateY,
    thicknesses,
    thermalConductivities,
    filmCoefficient,
    dieX,
    dieY,
    centresX,
    centresY,
    losses,
  } = inputs
  for (const [name, list] of Object.entries({ dieY, centresX, centresY, losses })) {
    if (list.length !== dieX.length) throw new DomainError('diesOnPlate', name, list.length, `${dieX.length} numbers`)
  }
  if (thicknesses.length !== thermalConductivities.length) {
    throw new DomainError(
      'diesOnPlate',
      'thermalConductivities',
      thermalConductivities.length,
      `${thicknesses.length} numbers`,
    )
  }
  const layers = thicknesses.map((thickness, i) => ({ thickness, thermalConductivity: thermalConductivities[i]! }))
  const plate: Plate = { plateX, plateY, layers, filmCoefficient }
  const dies = dieX.map((x, i) => ({ x, y: dieY[i]!, centreX: centresX[i]!, centreY: centresY[i]! }))
  const matrix = dies.map((): number[] => dies.map(() => 0))
  for (const [i, source] of dies.entries()) {
    for (const [j, patch] of dies.entries()) {
      if (j < i) continue
      matrix[i]![j] = matrix[j]![i] = plateTransfer({ plate, source, patch })
    }
  }
  const rises = matrix.map((row) => row.reduce((sum, resistance, j) => sum + resistance * losses[j]!, 0))
  return { rises, resistances: matrix.flat() }
}

export const diesMethod = defineMethod<DiesInputs, Dies>({
  id: 'dies-on-plate',
  title: 'Dies on one plate that heat each other',
  takes: {
    ...PLATE_ARGUMENTS,
    dieX: { unit: 'm', list: true, about: 'one side of each die' },
    dieY: { unit: 'm', list: true, about: 'other side of each die' },
    centresX: { unit: 'm', list: true, about: 'centre of each die from a corner of the plate' },
    centresY: { unit: 'm', list: true, about: 'the same in the other direction' },
    losses: { unit: 'W', list: true, about: 'loss of each die' },
  },
  gives: {
    rises: { unit: 'K', print: 'K', about: 'mean rise of each die above the coolant' },
    resistances: { unit: 'K/W', print: 'K/W', about: 'row by row: mean rise of one die per watt in another' },
  },
  sources: [
    'Y. S. Muzychka, J. R. Culham, M. M. Yovanovich, J. Electron. Packag. 125 (2003) 178-185 (from memory)',
    SERIES,
  ],
  compute: diesOnPlate,
})

export const plateSourceMethods = [plateSourceMethod, diesMethod] as const
