import { GLYCOL_BASE, GLYCOL_TERMS } from './coolant-data.ts'
import type { FluidCore } from './coolant-fluid-water.ts'
import { waterProperties } from './coolant-fluid-water.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

/** Density of pure ethylene glycol at 20 °C [kg/m³], handbook value from memory. */
export const GLYCOL_DENSITY_20C = 1113
/** Density of water at 20 °C [kg/m³]. */
export const WATER_DENSITY_20C = 998.2

export type GlycolInputs = { glycolMassFraction: number; temperature: number }

/** Column of each property in GLYCOL_TERMS. */
const COLUMN = { freezing: 2, density: 3, specificHeat: 4, thermalConductivity: 5, lnViscosity: 6 } as const

function polynomial(column: 2 | 3 | 4 | 5 | 6, massPercent: number, celsius: number): number {
  const x = massPercent - GLYCOL_BASE.massPercent
  const t = celsius - GLYCOL_BASE.celsius
  return GLYCOL_TERMS.reduce((sum, term) => sum + term[column] * x ** term[0] * t ** term[1], 0)
}

/**
 * Properties of uninhibited ethylene glycol in water: Σ c (x − 30.8462 %)^i (t − 31.728 °C)^j for each property, for
 * viscosity of its logarithm. Without glycol the water formula answers; the polynomial at 0 % would differ from it by
 * up to 1.7 % in viscosity (70 °C) and 1.0 % in conductivity (0 °C), which is within its own uncertainty.
 *
 * @param glycolMassFraction of glycol in the mixture, by MASS [1], 0 … 1; data reach to 0.6
 * @param temperature        [K]; data reach from the freezing point to 373.15 K
 * @throws {DomainError} on a fraction beyond 0 … 1 or a temperature of zero or less
 *
 * @example glycolWaterProperties({ glycolMassFraction: 0.5, temperature: 338.15 }).viscosity // 1.25389e-3
 */
export function glycolWaterProperties({ glycolMassFraction, temperature }: GlycolInputs): FluidCore {
  requireFraction('glycolWaterProperties', 'glycolMassFraction', glycolMassFraction)
  requirePositive('glycolWaterProperties', 'temperature', temperature)
  if (glycolMassFraction === 0) return waterProperties(temperature)
  const massPercent = 100 * glycolMassFraction
  const celsius = temperature - 273.15
  return {
    density: polynomial(COLUMN.density, massPercent, celsius),
    specificHeat: polynomial(COLUMN.specificHeat, massPercent, celsius),
    viscosity: 1e-3 * Math.exp(polynomial(COLUMN.lnViscosity, massPercent, celsius)),
    thermalConductivity: polynomial(COLUMN.thermalConductivity, massPercent, celsius),
  }
}

/**
 * Freezing point of ethylene glycol in water. Terms in temperature of that column are fit residue (below 0.002 K) and
 * are left out. Below it the mixture turns to slush, not at once to solid ice.
 *
 * @param glycolMassFraction by MASS [1], 0 … 1; data reach to 0.6, the mixture freezes lowest near 0.6
 * @returns freezing point [K]
 * @throws {DomainError} on a fraction beyond 0 … 1
 *
 * @example glycolFreezingPoint(0.5) - 273.15 // −35.99
 */
export function glycolFreezingPoint(glycolMassFraction: number): number {
  requireFraction('glycolFreezingPoint', 'glycolMassFraction', glycolMassFraction)
  if (glycolMassFraction === 0) return 273.15
  return 273.15 + polynomial(COLUMN.freezing, 100 * glycolMassFraction, GLYCOL_BASE.celsius)
}

export type VolumeToMassInputs = { glycolVolumeFraction: number; glycolDensity?: number; waterDensity?: number }
export type MassToVolumeInputs = { glycolMassFraction: number; glycolDensity?: number; waterDensity?: number }

/**
 * Mass fraction of glycol from its volume fraction, volumes taken before mixing (the usual trade meaning):
 * w = φ ρ_g / (φ ρ_g + (1 − φ) ρ_w).
 *
 * @param glycolVolumeFraction [1], 0 … 1
 * @param glycolDensity        of pure glycol [kg/m³]; 1113 (20 °C) if left out
 * @param waterDensity         [kg/m³]; 998.2 (20 °C) if left out
 * @throws {DomainError} on a fraction beyond 0 … 1 or a density of zero or less
 *
 * @example glycolMassFraction({ glycolVolumeFraction: 0.5 }) // 0.52719
 */
export function glycolMassFraction(inputs: VolumeToMassInputs): number {
  const { glycolVolumeFraction, glycolDensity = GLYCOL_DENSITY_20C, waterDensity = WATER_DENSITY_20C } = inputs
  requireFraction('glycolMassFraction', 'glycolVolumeFraction', glycolVolumeFraction)
  requirePositive('glycolMassFraction', 'glycolDensity', glycolDensity)
  requirePositive('glycolMassFraction', 'waterDensity', waterDensity)
  const glycol = glycolVolumeFraction * glycolDensity
  return glycol / (glycol + (1 - glycolVolumeFraction) * waterDensity)
}

/** Volume fraction before mixing from mass fraction; the inverse of {@link glycolMassFraction}. */
export function glycolVolumeFraction(inputs: MassToVolumeInputs): number {
  const { glycolMassFraction, glycolDensity = GLYCOL_DENSITY_20C, waterDensity = WATER_DENSITY_20C } = inputs
  requireFraction('glycolVolumeFraction', 'glycolMassFraction', glycolMassFraction)
  requirePositive('glycolVolumeFraction', 'glycolDensity', glycolDensity)
  requirePositive('glycolVolumeFraction', 'waterDensity', waterDensity)
  const glycol = glycolMassFraction / glycolDensity
  return glycol / (glycol + (1 - glycolMassFraction) / waterDensity)
}

function requireFraction(method: string, argument: string, value: number): void {
  if (!(value >= 0 && value <= 1)) throw new DomainError(method, argument, value, '0 … 1')
}

const DENSITIES = {
  glycolDensity: { unit: 'kg/m3', optional: true, about: 'density of pure glycol; 1113 kg/m3 (20 °C) if left out' },
  waterDensity: { unit: 'kg/m3', optional: true, about: 'density of water; 998.2 kg/m3 (20 °C) if left out' },
} as const

export const glycolVolumeToMass = defineMethod<VolumeToMassInputs, { glycolMassFraction: number }>({
  id: 'glycol-volume-to-mass',
  title: 'Glycol share by mass from share by volume',
  takes: { glycolVolumeFraction: { unit: '1', about: 'share by volume, before mixing' }, ...DENSITIES },
  gives: { glycolMassFraction: { unit: '1', print: '%', about: 'share by mass' } },
  sources: ['arithmetic: masses of the unmixed components'],
  compute: (inputs) => ({ glycolMassFraction: glycolMassFraction(inputs) }),
})

export const glycolMassToVolume = defineMethod<MassToVolumeInputs, { glycolVolumeFraction: number }>({
  id: 'glycol-mass-to-volume',
  title: 'Glycol share by volume from share by mass',
  takes: { glycolMassFraction: { unit: '1', about: 'share by mass' }, ...DENSITIES },
  gives: { glycolVolumeFraction: { unit: '1', print: '%', about: 'share by volume, before mixing' } },
  sources: ['arithmetic: volumes of the unmixed components'],
  compute: (inputs) => ({ glycolVolumeFraction: glycolVolumeFraction(inputs) }),
})
