import { pinFinEfficiency } from './fins.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

export const PIN_ARRANGEMENTS = ['staggered', 'in-line'] as const
export type PinArrangement = (typeof PIN_ARRANGEMENTS)[number]

/** Žukauskas' row correction of the mean Nusselt number below 20 rows: [rows, in-line, staggered], textbook table, from memory. */
const ROW_CORRECTION = [
  [1, 0.7, 0.64],
  [2, 0.8, 0.76],
  [3, 0.86, 0.84],
  [4, 0.9, 0.89],
  [5, 0.92, 0.92],
  [7, 0.95, 0.95],
  [10, 0.97, 0.97],
  [13, 0.98, 0.98],
  [16, 0.99, 0.99],
  [20, 1, 1],
] as const

/** Row correction C₂ of a pin bank, straight between the table's rows, 1 from 20 rows on. */
export function pinRowCorrection({ arrangement, rows }: { arrangement: PinArrangement; rows: number }): number {
  if (!(rows >= 1)) throw new DomainError('pinRowCorrection', 'rows', rows, '≥ 1')
  const column = arrangement === 'in-line' ? 1 : 2
  const above = ROW_CORRECTION.findIndex(([count]) => count >= rows)
  if (above < 0) return 1
  const [high, low] = [ROW_CORRECTION[above]!, ROW_CORRECTION[Math.max(above - 1, 0)]!]
  return high[0] === low[0]
    ? high[column]
    : low[column] + ((high[column] - low[column]) * (rows - low[0])) / (high[0] - low[0])
}

/**
 * Constants C and m of Nu = C Re^m Pr^0.36 after Žukauskas, by Reynolds number at the narrowest gap. The published pieces
 * do not meet (Re 1000 staggered: 22.5 against 22 … 25), so neighbouring Reynolds numbers may differ by some percent.
 */
export function pinBankConstants(inputs: {
  arrangement: PinArrangement
  reynolds: number
  transversePitch: number
  longitudinalPitch: number
}): { constant: number; exponent: number; prandtlExponent: number } {
  const { arrangement, reynolds, transversePitch, longitudinalPitch } = inputs
  const ratio = transversePitch / longitudinalPitch
  const of = (constant: number, exponent: number, prandtlExponent = 0.36) => ({ constant, exponent, prandtlExponent })
  if (arrangement === 'staggered') {
    if (reynolds < 40) return of(1.04, 0.4)
    if (reynolds < 1000) return of(0.71, 0.5)
    if (reynolds < 2e5) return ratio < 2 ? of(0.35 * ratio ** 0.2, 0.6) : of(0.4, 0.6)
    return of(0.031 * ratio ** 0.2, 0.8, 0.4)
  }
  if (reynolds < 100) return of(0.9, 0.4)
  if (reynolds < 1000) return of(0.52, 0.5)
  return reynolds < 2e5 ? of(0.27, 0.63) : of(0.033, 0.8, 0.4)
}

export type PinBankInputs = {
  arrangement: PinArrangement
  diameter: number
  transversePitch: number
  longitudinalPitch: number
  rows: number
  pinsPerRow: number
  height: number
  flow: number
  density: number
  viscosity: number
  specificHeat: number
  thermalConductivity: number
  pinConductivity: number
  nusseltConstant?: number
  nusseltExponent?: number
  rowCorrection?: number
}

export type PinBank = {
  readonly approachVelocity: number
  readonly maximumVelocity: number
  readonly reynolds: number
  readonly prandtl: number
  readonly nusselt: number
  readonly filmCoefficient: number
  readonly pinEfficiency: number
  readonly surfaceEfficiency: number
  readonly thermalResistance: number
  readonly pressureDrop: number
}

/**
 * Bank of round pins between a heated base and a lid that they touch: velocity in the narrowest gap (if staggered, half
 * the pair of diagonal gaps when that is narrower), Nu = C C₂ Re^m Pr^0.36 (Žukauskas, wall and bulk viscosity taken as
 * equal), pin efficiency with adiabatic tip, resistance of pins and bare base, and pressure drop by {@link pinBankDrop}.
 * Heat transfer is good to about ±15 %, pressure drop to ±30 %; short pins (height below 4 diameters) feel the end walls,
 * which is left out.
 *
 * @param diameter        of a pin, transversePitch, longitudinalPitch and height [m], > 0; passage width is pinsPerRow × transversePitch
 * @param rows            along the flow, and pinsPerRow across, ≥ 1
 * @param flow            through the bank [m³/s], > 0
 * @param pinConductivity of the pins [W/(m.K)]; thermalConductivity is that of the fluid
 * @param nusseltConstant C and nusseltExponent m, both or neither; by Reynolds number if left out
 * @param rowCorrection   C₂; from the table if left out
 * @throws {DomainError} on a size, flow or property of zero or less, pins that touch, or C without m
 *
 * @example pinBank({ arrangement: 'staggered', diameter: 2e-3, transversePitch: 4.5e-3, longitudinalPitch: 3.2e-3, rows: 12,
 *   pinsPerRow: 14, height: 6e-3, flow: 1e-4, density: 1037.06, viscosity: 1.2539e-3, specificHeat: 3523.95,
 *   thermalConductivity: 0.4168, pinConductivity: 390 }).thermalResistance // 0.0174
 */
export function pinBank(inputs: PinBankInputs): PinBank {
  const { arrangement, nusseltConstant, nusseltExponent, rowCorrection, ...sizes } = inputs
  for (const [name, value] of Object.entries(sizes)) requirePositive('pinBank', name, value)
  if ((nusseltConstant === undefined) !== (nusseltExponent === undefined)) {
    throw new DomainError('pinBank', 'nusseltExponent', nusseltExponent, 'given together with nusseltConstant')
  }
  const velocities = pinVelocities(inputs)
  const reynolds = (inputs.density * velocities.maximumVelocity * inputs.diameter) / inputs.viscosity
  const prandtl = (inputs.specificHeat * inputs.viscosity) / inputs.thermalConductivity
  const law =
    nusseltConstant === undefined || nusseltExponent === undefined
      ? pinBankConstants({ ...inputs, reynolds })
      : { constant: nusseltConstant, exponent: nusseltExponent, prandtlExponent: 0.36 }
  const nusselt =
    law.constant *
    (rowCorrection ?? pinRowCorrection(inputs)) *
    reynolds ** law.exponent *
    prandtl ** law.prandtlExponent
  const filmCoefficient = (nusselt * inputs.thermalConductivity) / inputs.diameter
  return {
    ...velocities,
    reynolds,
    prandtl,
    nusselt,
    filmCoefficient,
    ...pinSurface(inputs, filmCoefficient),
    pressureDrop: pinBankDrop({ ...inputs, maximumVelocity: velocities.maximumVelocity }),
  }
}

function pinVelocities(inputs: PinBankInputs): { approachVelocity: number; maximumVelocity: number } {
  const { arrangement, diameter, transversePitch, longitudinalPitch, pinsPerRow, height, flow } = inputs
  const approachVelocity = flow / (pinsPerRow * transversePitch * height)
  const diagonal = Math.hypot(longitudinalPitch, transversePitch / 2)
  const across = transversePitch - diameter
  const narrowest = arrangement === 'staggered' ? Math.min(across, 2 * (diagonal - diameter)) : across
  if (!(narrowest > 0))
    throw new DomainError('pinBank', 'transversePitch', transversePitch, 'wide enough that pins do not touch')
  return { approachVelocity, maximumVelocity: (approachVelocity * transversePitch) / narrowest }
}

function pinSurface(inputs: PinBankInputs, filmCoefficient: number) {
  const { diameter, transversePitch, longitudinalPitch, rows, pinsPerRow, height, pinConductivity } = inputs
  const pins = rows * pinsPerRow
  const pinArea = pins * Math.PI * diameter * height
  const bare = pins * (transversePitch * longitudinalPitch - (Math.PI / 4) * diameter ** 2)
  const pinEfficiency = pinFinEfficiency({
    diameter,
    length: height,
    thermalConductivity: pinConductivity,
    filmCoefficient,
  }).adiabaticTip
  const surfaceEfficiency = 1 - (pinArea / (pinArea + bare)) * (1 - pinEfficiency)
  return {
    pinEfficiency,
    surfaceEfficiency,
    thermalResistance: 1 / (filmCoefficient * (pinArea + bare) * surfaceEfficiency),
  }
}

export type PinBankDropInputs = {
  arrangement: PinArrangement
  diameter: number
  transversePitch: number
  longitudinalPitch: number
  rows: number
  density: number
  viscosity: number
  maximumVelocity: number
}

/**
 * Pressure drop of a bank of long pins by Gaddis and Gnielinski, Δp = ξ N ρ u_max²/2, ξ = ξ_lam + ξ_turb g, continuous in
 * Reynolds number; a and b are transverse and longitudinal pitch over diameter, d the diagonal one where it is narrower:
 *
 *     ξ_lam = 280π ((√b − 0.6)² + 0.75)/((4ab − π) (a or d)^1.6 Re)
 *     staggered: ξ_turb = (2.5 + 1.2/(a − 0.85)^1.08 + 0.4 (b/a − 1)³ − 0.01 (a/b − 1)³)/Re^0.25, g = 1 − e^(−(Re + 200)/1000)
 *     in line:   ξ_turb = ((0.22 + 1.2 (1 − 0.94/b)^0.6/(a − 0.85)^1.3) 10^(0.47 (b/a − 1.5)) + 0.03 (a − 1)(b − 1))/Re^(0.1 b/a),
 *                g = 1 − e^(−(Re + 1000)/2000)
 *
 * @throws {DomainError} on a size, velocity or property of zero or less, or pins that touch
 *
 * @example pinBankDrop({ arrangement: 'staggered', diameter: 2e-3, transversePitch: 4e-3, longitudinalPitch: 4e-3, rows: 10,
 *   density: 1000, viscosity: 1e-3, maximumVelocity: 5 }) // 44500
 */
export function pinBankDrop({ arrangement, ...numbers }: PinBankDropInputs): number {
  for (const [name, value] of Object.entries(numbers)) requirePositive('pinBankDrop', name, value)
  const { diameter, transversePitch, longitudinalPitch, rows, density, viscosity, maximumVelocity } = numbers
  const [a, b] = [transversePitch / diameter, longitudinalPitch / diameter]
  if (!(a > 1) || (arrangement === 'in-line' && !(b > 1))) {
    throw new DomainError(
      'pinBankDrop',
      'transversePitch',
      transversePitch,
      'above the diameter, as the pitch of pins in line',
    )
  }
  const reynolds = (density * maximumVelocity * diameter) / viscosity
  const diagonal = Math.hypot(a / 2, b)
  const narrow = arrangement === 'staggered' && 2 * (diagonal - 1) < a - 1 ? diagonal : a
  const laminar =
    (280 * Math.PI * ((Math.sqrt(b) - 0.6) ** 2 + 0.75)) / ((4 * a * b - Math.PI) * narrow ** 1.6 * reynolds)
  const turbulent = arrangement === 'staggered' ? staggeredDrag(a, b, reynolds) : inLineDrag(a, b, reynolds)
  return ((laminar + turbulent) * rows * density * maximumVelocity ** 2) / 2
}

function staggeredDrag(a: number, b: number, reynolds: number): number {
  const factor = 2.5 + 1.2 / (a - 0.85) ** 1.08 + 0.4 * (b / a - 1) ** 3 - 0.01 * (a / b - 1) ** 3
  return factor * reynolds ** -0.25 * -Math.expm1(-(reynolds + 200) / 1000)
}

function inLineDrag(a: number, b: number, reynolds: number): number {
  const near = (0.22 + (1.2 * (1 - 0.94 / b) ** 0.6) / (a - 0.85) ** 1.3) * 10 ** (0.47 * (b / a - 1.5))
  const factor = near + 0.03 * (a - 1) * (b - 1)
  return factor * reynolds ** ((-0.1 * b) / a) * -Math.expm1(-(reynolds + 1000) / 2000)
}

export const pinBankMethod = defineMethod<PinBankInputs, PinBank>({
  id: 'pin-bank',
  title: 'Bank of round pins between base and lid: film coefficient, resistance, pressure drop',
  takes: {
    arrangement: { words: PIN_ARRANGEMENTS, about: 'rows shifted by half a pitch, or one behind the other' },
    diameter: { unit: 'm', about: 'diameter of a pin' },
    transversePitch: { unit: 'm', about: 'pitch across the flow' },
    longitudinalPitch: { unit: 'm', about: 'pitch of rows along the flow' },
    rows: { unit: '1', about: 'rows along the flow' },
    pinsPerRow: { unit: '1', about: 'pins across the flow' },
    height: { unit: 'm', about: 'height of the pins, base to lid' },
    flow: { unit: 'm3/s', about: 'volume flow through the bank' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
    specificHeat: { unit: 'J/(kg.K)', about: 'specific heat of the fluid' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the fluid' },
    pinConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the pins' },
    nusseltConstant: { unit: '1', optional: true, about: 'constant C; by Reynolds number if left out' },
    nusseltExponent: { unit: '1', optional: true, about: 'exponent m; by Reynolds number if left out' },
    rowCorrection: { unit: '1', optional: true, about: 'correction for few rows; from the table if left out' },
  },
  gives: {
    approachVelocity: { unit: 'm/s', print: 'm/s', about: 'before the pins' },
    maximumVelocity: { unit: 'm/s', print: 'm/s', about: 'in the narrowest gap' },
    reynolds: { unit: '1', print: '1', about: 'on pin diameter and maximum velocity' },
    prandtl: { unit: '1', print: '1', about: 'Prandtl number' },
    nusselt: { unit: '1', print: '1', about: 'mean Nusselt number on pin diameter' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'on pins and bare base' },
    pinEfficiency: { unit: '1', print: '%', about: 'of a pin with an adiabatic tip' },
    surfaceEfficiency: { unit: '1', print: '%', about: 'of pins and bare base together' },
    thermalResistance: { unit: 'K/W', print: 'K/W', about: 'base to mean coolant' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'across the bank, end walls left out' },
  },
  valid: { reynolds: [10, 2e5], prandtl: [0.7, 500], rows: [1, 1000] },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: [
    'A. Žukauskas, Adv. Heat Transfer 8 (1972) 93-160, constants as in heat-transfer textbooks (from memory)',
    'E. S. Gaddis, V. Gnielinski, Int. Chem. Eng. 25 (1985) 1-15, pressure drop across tube banks (from memory)',
  ],
  compute: pinBank,
})

export const pinBankMethods = [pinBankMethod] as const
