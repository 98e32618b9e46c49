import { defineMethod, requireNonNegative, requirePositive } from './method.ts'

const TEXTBOOK = 'one-dimensional fin with one film coefficient, closed form (any heat-transfer textbook)'

/** tanh(x)/x, with its limit 1 at zero. */
function tanhRatio(x: number): number {
  return x < 1e-4 ? 1 - x ** 2 / 3 : Math.tanh(x) / x
}

export type StraightFinInputs = {
  height: number
  thickness: number
  thermalConductivity: number
  filmCoefficient: number
}

/**
 * Efficiency of a straight fin of constant thickness with an adiabatic tip, tanh(mH)/(mH), m = √(2h/(k t)): heat carried
 * over the heat it would carry if it were at base temperature all over. Fin long in the flow direction (t ≪ length).
 *
 * @param height              from base to tip [m], ≥ 0
 * @param thickness           [m], > 0
 * @param thermalConductivity of the fin [W/(m.K)], > 0
 * @param filmCoefficient     on both sides [W/(m².K)], > 0
 * @throws {DomainError} on a negative height or another argument of zero or less
 *
 * @example straightFinEfficiency({ height: 6e-3, thickness: 0.8e-3, thermalConductivity: 167, filmCoefficient: 5200 }) // 0.55679
 */
export function straightFinEfficiency(inputs: StraightFinInputs): number {
  return tanhRatio(straightFinParameter(inputs))
}

/** m·H of a straight fin [1]. */
export function straightFinParameter({
  height,
  thickness,
  thermalConductivity,
  filmCoefficient,
}: StraightFinInputs): number {
  requireNonNegative('straightFin', 'height', height)
  requirePositive('straightFin', 'thickness', thickness)
  requirePositive('straightFin', 'thermalConductivity', thermalConductivity)
  requirePositive('straightFin', 'filmCoefficient', filmCoefficient)
  return height * Math.sqrt((2 * filmCoefficient) / (thermalConductivity * thickness))
}

export type FinFieldInputs = {
  gapCount: number
  gap: number
  thickness: number
  height: number
  length: number
  thermalConductivity: number
  filmCoefficient: number
}

export type FinField = {
  readonly finParameter: number
  readonly finEfficiency: number
  readonly wettedArea: number
  readonly surfaceEfficiency: number
  readonly thermalResistance: number
  readonly baseCoefficient: number
}

/**
 * Field of straight fins on one heated base, closed by an unheated lid that draws no heat: a periodic array with one fin
 * (two wetted sides) and one channel floor for each gap.
 *
 *     R = 1/(h A_t η_o),  η_o = 1 − (A_f/A_t)(1 − η),  base coefficient = 1/(R A_base), A_base = N (gap + t) L
 *
 * @param gapCount            gaps N, ≥ 1 (count gaps, not fins)
 * @param gap                 between fins, thickness of a fin, height from base to tip and length along the flow [m]
 * @param thermalConductivity of the fins [W/(m.K)]
 * @param filmCoefficient     on all wetted metal [W/(m².K)]
 * @throws {DomainError} on any of them zero or less
 *
 * @example finField({ gapCount: 24, gap: 1e-3, thickness: 0.8e-3, height: 6e-3, length: 0.08,
 *   thermalConductivity: 167, filmCoefficient: 5200 }).thermalResistance // 0.013039
 */
export function finField(inputs: FinFieldInputs): FinField {
  for (const [name, value] of Object.entries(inputs)) requirePositive('finField', name, value)
  const { gapCount, gap, thickness, height, length, filmCoefficient } = inputs
  const finEfficiency = straightFinEfficiency(inputs)
  const finArea = gapCount * 2 * height * length
  const wettedArea = finArea + gapCount * gap * length
  const surfaceEfficiency = 1 - (finArea / wettedArea) * (1 - finEfficiency)
  const thermalResistance = 1 / (filmCoefficient * wettedArea * surfaceEfficiency)
  const baseArea = gapCount * (gap + thickness) * length
  return {
    finParameter: straightFinParameter(inputs),
    finEfficiency,
    wettedArea,
    surfaceEfficiency,
    thermalResistance,
    baseCoefficient: 1 / (thermalResistance * baseArea),
  }
}

export const finFieldMethod = defineMethod<FinFieldInputs, FinField>({
  id: 'straight-fin-field',
  title: 'Field of straight fins under a lid: efficiency and resistance',
  takes: {
    gapCount: { unit: '1', about: 'gaps between fins' },
    gap: { unit: 'm', about: 'clear width between fins' },
    thickness: { unit: 'm', about: 'thickness of a fin' },
    height: { unit: 'm', about: 'height of the fins' },
    length: { unit: 'm', about: 'length along the flow' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the fins' },
    filmCoefficient: { unit: 'W/(m2.K)', about: 'on all wetted metal' },
  },
  gives: {
    finParameter: { unit: '1', print: '1', about: 'fin parameter m times height' },
    finEfficiency: { unit: '1', print: '%', about: 'of a fin with an adiabatic tip' },
    wettedArea: { unit: 'm2', print: 'cm2', about: 'fins and floor' },
    surfaceEfficiency: { unit: '1', print: '%', about: 'of the whole wetted surface' },
    thermalResistance: { unit: 'K/W', print: 'K/W', about: 'base to local coolant' },
    baseCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'referred to the base area' },
  },
  sources: [TEXTBOOK],
  compute: finField,
})

export type PinFinInputs = { diameter: number; length: number; thermalConductivity: number; filmCoefficient: number }

export type PinFin = {
  readonly adiabaticTip: number
  readonly correctedLength: number
  readonly convectingTip: number
}

/**
 * Efficiency of a round pin, m = √(4h/(k D)):
 * - adiabatic tip, tanh(mL)/(mL): right when the pin touches the lid; refers to the side area only;
 * - corrected length, the same with L + D/4; and convecting tip, exact: both refer to side plus tip area.
 *
 * @param diameter            [m], > 0
 * @param length              [m], > 0
 * @param thermalConductivity of the pin [W/(m.K)], > 0
 * @param filmCoefficient     [W/(m².K)], > 0
 * @throws {DomainError} on any of them zero or less
 *
 * @example pinFinEfficiency({ diameter: 2.2e-3, length: 6e-3, thermalConductivity: 390, filmCoefficient: 15000 }).adiabaticTip // 0.57961
 */
export function pinFinEfficiency({ diameter, length, thermalConductivity, filmCoefficient }: PinFinInputs): PinFin {
  requirePositive('pinFinEfficiency', 'diameter', diameter)
  requirePositive('pinFinEfficiency', 'length', length)
  requirePositive('pinFinEfficiency', 'thermalConductivity', thermalConductivity)
  requirePositive('pinFinEfficiency', 'filmCoefficient', filmCoefficient)
  const m = Math.sqrt((4 * filmCoefficient) / (thermalConductivity * diameter))
  const tip = filmCoefficient / (m * thermalConductivity)
  const slope = Math.tanh(m * length)
  // Heat into the base over √(h P k A) θ, sinh and cosh divided by cosh so that long pins do not overflow.
  const carried = (slope + tip) / (1 + tip * slope)
  return {
    adiabaticTip: tanhRatio(m * length),
    correctedLength: tanhRatio(m * (length + diameter / 4)),
    convectingTip: carried / (m * (length + diameter / 4)),
  }
}

export const pinFinMethod = defineMethod<PinFinInputs, PinFin>({
  id: 'pin-fin-efficiency',
  title: 'Efficiency of a round pin fin',
  takes: {
    diameter: { unit: 'm', about: 'diameter of the pin' },
    length: { unit: 'm', about: 'length of the pin' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the pin' },
    filmCoefficient: { unit: 'W/(m2.K)', about: 'on the pin' },
  },
  gives: {
    adiabaticTip: { unit: '1', print: '%', about: 'pin touches the lid; side area only' },
    correctedLength: { unit: '1', print: '%', about: 'free tip, length plus a quarter diameter; side and tip area' },
    convectingTip: { unit: '1', print: '%', about: 'free tip, exact; side and tip area' },
  },
  sources: [TEXTBOOK],
  compute: pinFinEfficiency,
})

export const finMethods = [finFieldMethod, pinFinMethod] as const
