import { DomainError, defineMethod, requirePositive } from './method.ts'

const MARTIN = 'H. Martin, Adv. Heat Transfer 13 (1977) 1-60, round nozzles (from memory)'

export type JetArrayInputs = {
  nozzleDiameter: number
  standOff: number
  pitch: number
  jetCount: number
  flow: number
  density: number
  viscosity: number
  specificHeat: number
  thermalConductivity: number
  dischargeCoefficient?: number
}

export type JetArray = {
  readonly velocity: number
  readonly reynolds: number
  readonly relativeOpenArea: number
  readonly relativeStandOff: number
  readonly nusselt: number
  readonly filmCoefficient: number
  readonly pressureDrop: number
}

/**
 * Array of round submerged jets on a square grid, spent fluid leaving between the nozzles: mean Nusselt number on nozzle
 * diameter and pressure drop of the nozzles.
 *
 *     Nu = Pr^0.42 K G F,  F = 0.5 Re^⅔,  G = 2√f (1 − 2.2√f)/(1 + 0.2 (H/D − 6)√f),  K = (1 + (H/D · √f/0.6)⁶)^−0.05
 *
 * with f = (π/4) D²/pitch². About ±15 % in its range; crossflow of spent fluid lowers it.
 *
 * @param nozzleDiameter       D, standOff H between nozzle and wall, pitch of the square grid [m], > 0
 * @param jetCount             ≥ 1
 * @param flow                 through all nozzles [m³/s], > 0
 * @param dischargeCoefficient of the nozzles for the pressure drop (ρ/2)(u/C_d)² [1], 0.8 if left out
 * @throws {DomainError} on an argument of zero or less, or nozzles so close that √f reaches 1/2.2
 *
 * @example jetArray({ nozzleDiameter: 1e-3, standOff: 3e-3, pitch: 5e-3, jetCount: 25, flow: 6e-5, density: 1037,
 *   viscosity: 1.254e-3, specificHeat: 3524, thermalConductivity: 0.4168 }).nusselt // 59.33
 */
export function jetArray(inputs: JetArrayInputs): JetArray {
  for (const [name, value] of Object.entries(inputs)) requirePositive('jetArray', name, value)
  const { nozzleDiameter, standOff, pitch, jetCount, flow, density, viscosity, dischargeCoefficient = 0.8 } = inputs
  const velocity = flow / (jetCount * (Math.PI / 4) * nozzleDiameter ** 2)
  const reynolds = (density * velocity * nozzleDiameter) / viscosity
  const prandtl = (inputs.specificHeat * viscosity) / inputs.thermalConductivity
  const relativeOpenArea = (Math.PI / 4) * (nozzleDiameter / pitch) ** 2
  const relativeStandOff = standOff / nozzleDiameter
  const root = Math.sqrt(relativeOpenArea)
  const spread = (2 * root * (1 - 2.2 * root)) / (1 + 0.2 * (relativeStandOff - 6) * root)
  if (!(spread > 0)) throw new DomainError('jetArray', 'pitch', pitch, 'at least two nozzle diameters')
  const crowding = (1 + (relativeStandOff * (root / 0.6)) ** 6) ** -0.05
  const nusselt = prandtl ** 0.42 * crowding * spread * 0.5 * reynolds ** (2 / 3)
  return {
    velocity,
    reynolds,
    relativeOpenArea,
    relativeStandOff,
    nusselt,
    filmCoefficient: (nusselt * inputs.thermalConductivity) / nozzleDiameter,
    pressureDrop: (density / 2) * (velocity / dischargeCoefficient) ** 2,
  }
}

export const jetArrayMethod = defineMethod<JetArrayInputs, JetArray>({
  id: 'jet-array',
  title: 'Array of round submerged jets on a wall',
  takes: {
    nozzleDiameter: { unit: 'm', about: 'diameter of a nozzle' },
    standOff: { unit: 'm', about: 'distance from nozzle to wall' },
    pitch: { unit: 'm', about: 'pitch of the square grid of nozzles' },
    jetCount: { unit: '1', about: 'nozzles' },
    flow: { unit: 'm3/s', about: 'volume flow through all nozzles' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
    specificHeat: { unit: 'J/(kg.K)', about: 'specific heat of the fluid' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the fluid' },
    dischargeCoefficient: { unit: '1', optional: true, about: 'of the nozzles; 0.8 if left out (common practice)' },
  },
  gives: {
    velocity: { unit: 'm/s', print: 'm/s', about: 'in a nozzle' },
    reynolds: { unit: '1', print: '1', about: 'on nozzle diameter' },
    relativeOpenArea: { unit: '1', print: '%', about: 'nozzle area over wall area' },
    relativeStandOff: { unit: '1', print: '1', about: 'distance over nozzle diameter' },
    nusselt: { unit: '1', print: '1', about: 'mean Nusselt number on nozzle diameter' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'mean over the wall' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'of the nozzles' },
  },
  valid: { reynolds: [2000, 1e5], relativeOpenArea: [0.004, 0.04], relativeStandOff: [2, 12] },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: [MARTIN],
  compute: jetArray,
})

export type SingleJetInputs = { reynolds: number; prandtl: number; relativeStandOff: number; relativeRadius: number }

/**
 * Mean Nusselt number (on nozzle diameter) of one round jet over a disc around its foot:
 * Nu = Pr^0.42 G F, F = 2 Re^½ (1 + 0.005 Re^0.55)^½, G = (D/r)(1 − 1.1 D/r)/(1 + 0.1 (H/D − 6) D/r).
 *
 * @param reynolds         on nozzle diameter [1], > 0
 * @param prandtl          [1], > 0
 * @param relativeStandOff H/D [1], > 0
 * @param relativeRadius   of the disc, r/D [1], > 1.1
 * @throws {DomainError} on arguments of zero or less, or a disc within 1.1 nozzle diameters
 *
 * @example singleJetNusselt({ reynolds: 20000, prandtl: 0.7, relativeStandOff: 6, relativeRadius: 5 }) // 55.83
 */
export function singleJetNusselt({ reynolds, prandtl, relativeStandOff, relativeRadius }: SingleJetInputs): number {
  requirePositive('singleJetNusselt', 'reynolds', reynolds)
  requirePositive('singleJetNusselt', 'prandtl', prandtl)
  requirePositive('singleJetNusselt', 'relativeStandOff', relativeStandOff)
  if (!(relativeRadius > 1.1)) throw new DomainError('singleJetNusselt', 'relativeRadius', relativeRadius, '> 1.1')
  const near = 1 / relativeRadius
  const spread = (near * (1 - 1.1 * near)) / (1 + 0.1 * (relativeStandOff - 6) * near)
  return prandtl ** 0.42 * spread * 2 * Math.sqrt(reynolds * (1 + 0.005 * reynolds ** 0.55))
}

export const singleJetMethod = defineMethod<SingleJetInputs, { nusselt: number }>({
  id: 'single-jet',
  title: 'One round submerged jet on a wall',
  takes: {
    reynolds: { unit: '1', about: 'on nozzle diameter' },
    prandtl: { unit: '1', about: 'Prandtl number of the fluid' },
    relativeStandOff: { unit: '1', about: 'distance from nozzle to wall over nozzle diameter' },
    relativeRadius: { unit: '1', about: 'radius of the cooled disc over nozzle diameter' },
  },
  gives: { nusselt: { unit: '1', print: '1', about: 'mean over the disc, on nozzle diameter' } },
  valid: { reynolds: [2000, 4e5], relativeStandOff: [2, 12], relativeRadius: [2.5, 7.5] },
  sources: [MARTIN],
  compute: (inputs) => ({ nusselt: singleJetNusselt(inputs) }),
})

export const jetMethods = [jetArrayMethod, singleJetMethod] as const
