import { airProperties } from './coolant-fluid-air.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const GRAVITY = 9.80665
const STEFAN_BOLTZMANN = 5.670374419e-8

/** How a plate stands in still air. */
export const PLATE_POSITIONS = ['vertical', 'hot-face-up', 'hot-face-down'] as const
export type PlatePosition = (typeof PLATE_POSITIONS)[number]

export type StillAirInputs = {
  position: PlatePosition
  characteristicLength: number
  surfaceTemperature: number
  airTemperature: number
  pressure?: number
  emissivity?: number
}

export type StillAir = {
  readonly rayleigh: number
  readonly nusselt: number
  readonly filmCoefficient: number
  readonly radiationCoefficient: number
  readonly totalCoefficient: number
}

/**
 * Natural convection of a plate in still air, properties at the film temperature, and linearised radiation to
 * surroundings at air temperature, εσ(T_s + T_a)(T_s² + T_a²):
 * - vertical (length = height): Nu = (0.825 + 0.387 Ra^⅙/(1 + (0.492/Pr)^(9/16))^(8/27))²;
 * - hot face up (length = area over perimeter): 0.54 Ra^¼ up to 10⁷, 0.15 Ra^⅓ above, joined without a step;
 * - hot face down: 0.27 Ra^¼.
 * A face colder than the air is the mirror image: say hot-face-up for a cold face that looks down. About ±15 %.
 *
 * @param characteristicLength [m], > 0
 * @param surfaceTemperature   and airTemperature [K], > 0
 * @param pressure             absolute [Pa], 101 325 if left out
 * @param emissivity           0 … 1; 0 (no radiation) if left out
 * @throws {DomainError} on a length, temperature or pressure of zero or less, or an emissivity beyond 0 … 1
 *
 * @example stillAir({ position: 'vertical', characteristicLength: 0.1, surfaceTemperature: 343.15, airTemperature: 313.15 }).filmCoefficient // 5.544
 */
export function stillAir(inputs: StillAirInputs): StillAir {
  const { position, characteristicLength, surfaceTemperature, airTemperature, emissivity = 0 } = inputs
  requirePositive('stillAir', 'characteristicLength', characteristicLength)
  requirePositive('stillAir', 'surfaceTemperature', surfaceTemperature)
  requirePositive('stillAir', 'airTemperature', airTemperature)
  if (!(emissivity >= 0 && emissivity <= 1)) throw new DomainError('stillAir', 'emissivity', emissivity, '0 … 1')
  const film = (surfaceTemperature + airTemperature) / 2
  const { density, viscosity, specificHeat, thermalConductivity } = airProperties({
    temperature: film,
    ...(inputs.pressure === undefined ? {} : { pressure: inputs.pressure }),
  })
  const prandtl = (specificHeat * viscosity) / thermalConductivity
  const drive = (GRAVITY / film) * Math.abs(surfaceTemperature - airTemperature) * characteristicLength ** 3
  const rayleigh = (drive * prandtl * density ** 2) / viscosity ** 2
  const nusselt = stillAirNusselt({ position, rayleigh, prandtl })
  const filmCoefficient = (nusselt * thermalConductivity) / characteristicLength
  const radiationCoefficient =
    emissivity *
    STEFAN_BOLTZMANN *
    (surfaceTemperature + airTemperature) *
    (surfaceTemperature ** 2 + airTemperature ** 2)
  return {
    rayleigh,
    nusselt,
    filmCoefficient,
    radiationCoefficient,
    totalCoefficient: filmCoefficient + radiationCoefficient,
  }
}

/** Nusselt number of {@link stillAir} from Rayleigh and Prandtl number. */
export function stillAirNusselt({
  position,
  rayleigh,
  prandtl,
}: {
  position: PlatePosition
  rayleigh: number
  prandtl: number
}): number {
  requireNonNegative('stillAirNusselt', 'rayleigh', rayleigh)
  requirePositive('stillAirNusselt', 'prandtl', prandtl)
  if (position === 'hot-face-up') return Math.max(0.54 * rayleigh ** 0.25, 0.15 * Math.cbrt(rayleigh))
  if (position === 'hot-face-down') return 0.27 * rayleigh ** 0.25
  return (0.825 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2
}

export const stillAirMethod = defineMethod<StillAirInputs, StillAir>({
  id: 'still-air',
  title: 'Plate in still air: natural convection and radiation',
  takes: {
    position: { words: PLATE_POSITIONS, about: 'how the plate stands' },
    characteristicLength: { unit: 'm', about: 'height of a vertical plate; area over perimeter of a level one' },
    surfaceTemperature: { unit: 'K', about: 'surface' },
    airTemperature: { unit: 'K', about: 'air and surroundings' },
    pressure: { unit: 'Pa', optional: true, about: 'absolute; 101.325 kPa if left out' },
    emissivity: { unit: '1', optional: true, about: 'of the surface; 0 (no radiation) if left out' },
  },
  gives: {
    rayleigh: { unit: '1', print: '1', about: 'Rayleigh number' },
    nusselt: { unit: '1', print: '1', about: 'Nusselt number' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'natural convection' },
    radiationCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'radiation, linearised' },
    totalCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'both' },
  },
  valid: { rayleigh: [1e4, 1e11] },
  caution: 'Surfaces above 60 °C burn skin; a housing in still air may be hotter than it looks.',
  sources: [
    'S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329 (from memory)',
    'W. H. McAdams, Heat Transmission, 3rd ed., 1954, level plates, as in textbooks (from memory)',
  ],
  compute: stillAir,
})

export type BlownPlateInputs = {
  length: number
  velocity: number
  density: number
  viscosity: number
  prandtl: number
  thermalConductivity: number
}

/**
 * Mean film coefficient of a flat plate blown along, one curve through transition: the root of the sum of squares of
 * laminar 0.664 √Re Pr^⅓ and turbulent 0.037 Re^0.8 Pr/(1 + 2.443 Re^−0.1 (Pr^⅔ − 1)) flow.
 *
 * @throws {DomainError} on any argument of zero or less
 *
 * @example blownPlate({ length: 0.1, velocity: 5, density: 1.13, viscosity: 1.91e-5, prandtl: 0.706, thermalConductivity: 0.0272 }).reynolds // 29581
 */
export function blownPlate(inputs: BlownPlateInputs): { reynolds: number; nusselt: number; filmCoefficient: number } {
  for (const [name, value] of Object.entries(inputs)) requirePositive('blownPlate', name, value)
  const { length, velocity, density, viscosity, prandtl, thermalConductivity } = inputs
  const reynolds = (density * velocity * length) / viscosity
  const laminar = 0.664 * Math.sqrt(reynolds) * Math.cbrt(prandtl)
  const turbulent = (0.037 * reynolds ** 0.8 * prandtl) / (1 + 2.443 * reynolds ** -0.1 * (prandtl ** (2 / 3) - 1))
  const nusselt = Math.hypot(laminar, turbulent)
  return { reynolds, nusselt, filmCoefficient: (nusselt * thermalConductivity) / length }
}

export const blownPlateMethod = defineMethod<
  BlownPlateInputs,
  { reynolds: number; nusselt: number; filmCoefficient: number }
>({
  id: 'blown-plate',
  title: 'Flat plate blown along',
  takes: {
    length: { unit: 'm', about: 'length along the flow' },
    velocity: { unit: 'm/s', about: 'velocity of the stream' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
    prandtl: { unit: '1', about: 'Prandtl number of the fluid' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the fluid' },
  },
  gives: {
    reynolds: { unit: '1', print: '1', about: 'Reynolds number on length' },
    nusselt: { unit: '1', print: '1', about: 'mean Nusselt number' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'mean film coefficient' },
  },
  valid: { reynolds: [10, 1e7], prandtl: [0.6, 2000] },
  sources: ['V. Gnielinski, in VDI Heat Atlas, Springer, 2010, part G4; laminar: E. Pohlhausen 1921 (from memory)'],
  compute: blownPlate,
})

export const airCoolingMethods = [stillAirMethod, blownPlateMethod] as const
