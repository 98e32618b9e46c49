import { pinFinEfficiency } from './fins.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'
import { PIN_ARRANGEMENTS, type PinArrangement, pinBankDrop } from './pin-drop.ts'

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

type NusseltLaw = { readonly constant: number; readonly exponent: number; readonly prandtlExponent: number }

export type PinNusseltInputs = {
  arrangement: PinArrangement
  reynolds: number
  prandtl: number
  transversePitch: number
  longitudinalPitch: number
}

/** Reynolds numbers at which the published law changes its constants. */
const EDGES = { staggered: [40, 1000, 2e5], 'in-line': [100, 1000, 2e5] } as const
/** How far on both sides of such an edge the two pieces are joined. */
const JOIN = 1.5

/**
 * Nusselt number of a bank of 20 rows or more, Nu = C Re^m Pr^0.36 after Žukauskas with the constants of textbooks. The
 * published pieces do not meet (in line −8 % at Re 100, +27 % at 1000), so that more flow could seem to cool less: within
 * a factor of 1.5 of an edge the straight line in logarithms between both pieces answers.
 *
 * @param reynolds on pin diameter and velocity in the narrowest gap [1], > 0
 * @throws {DomainError} on a Reynolds or Prandtl number or pitch of zero or less
 *
 * @example pinBankNusselt({ arrangement: 'staggered', reynolds: 500, prandtl: 10, transversePitch: 1, longitudinalPitch: 1 }) // 36.4
 */
export function pinBankNusselt({ arrangement, ...numbers }: PinNusseltInputs): number {
  for (const [name, value] of Object.entries(numbers)) requirePositive('pinBankNusselt', name, value)
  const { reynolds, prandtl, transversePitch, longitudinalPitch } = numbers
  const ratio = transversePitch / longitudinalPitch
  const at = (re: number): number => {
    const { constant, exponent, prandtlExponent } =
      arrangement === 'staggered' ? staggeredLaw(re, ratio) : inLineLaw(re)
    return constant * re ** exponent * prandtl ** prandtlExponent
  }
  const edge = EDGES[arrangement].find((one) => reynolds > one / JOIN && reynolds < one * JOIN)
  if (edge === undefined) return at(reynolds)
  const share = Math.log((reynolds * JOIN) / edge) / (2 * Math.log(JOIN))
  return at(edge / JOIN) ** (1 - share) * at(edge * JOIN) ** share
}

const law = (constant: number, exponent: number, prandtlExponent = 0.36): NusseltLaw => ({
  constant,
  exponent,
  prandtlExponent,
})

function staggeredLaw(reynolds: number, ratio: number): NusseltLaw {
  if (reynolds < 40) return law(1.04, 0.4)
  if (reynolds < 1000) return law(0.71, 0.5)
  if (reynolds < 2e5) return ratio < 2 ? law(0.35 * ratio ** 0.2, 0.6) : law(0.4, 0.6)
  return law(0.031 * ratio ** 0.2, 0.8, 0.4)
}

function inLineLaw(reynolds: number): NusseltLaw {
  if (reynolds < 100) return law(0.9, 0.4)
  if (reynolds < 1000) return law(0.52, 0.5)
  return reynolds < 2e5 ? law(0.27, 0.63) : law(0.033, 0.8, 0.4)
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
 *   thermalConductivity: 0.4168, pinConductivity: 390 }).thermalResistance // 0.01718
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
  const long =
    nusseltConstant === undefined || nusseltExponent === undefined
      ? pinBankNusselt({
          arrangement,
          reynolds,
          prandtl,
          transversePitch: inputs.transversePitch,
          longitudinalPitch: inputs.longitudinalPitch,
        })
      : nusseltConstant * reynolds ** nusseltExponent * prandtl ** 0.36
  const nusselt = long * (rowCorrection ?? pinRowCorrection(inputs))
  const filmCoefficient = (nusselt * inputs.thermalConductivity) / inputs.diameter
  return {
    ...velocities,
    reynolds,
    prandtl,
    nusselt,
    filmCoefficient,
    ...pinSurface(inputs, filmCoefficient),
    pressureDrop: dropOf(inputs, velocities.maximumVelocity),
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

function dropOf(inputs: PinBankInputs, maximumVelocity: number): number {
  const { arrangement, diameter, transversePitch, longitudinalPitch, rows, density, viscosity } = inputs
  return pinBankDrop({
    arrangement,
    diameter,
    transversePitch,
    longitudinalPitch,
    rows,
    density,
    viscosity,
    maximumVelocity,
  })
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
