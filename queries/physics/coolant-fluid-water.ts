import {
  WATER_COLD_TERMS,
  WATER_CONDUCTIVITY_TERMS,
  WATER_DILUTE_VISCOSITY,
  WATER_GAS_CONSTANT,
  WATER_HOT_TERMS,
  WATER_RESIDUAL_VISCOSITY,
  WATER_VISCOSITY_TERMS,
} from './coolant-data.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

/** The four properties that heat transfer and pumping need, in SI. */
export type FluidCore = {
  readonly density: number
  readonly specificHeat: number
  readonly viscosity: number
  readonly thermalConductivity: number
}

/**
 * Density, specific heat, viscosity and thermal conductivity of liquid water at 0.1 MPa.
 *
 *     v  = (R·10/10⁵) (a₅ + Σ a_i α^n_i + Σ b_i β^m_i)
 *     c_p = −R (c₃ + τ Σ n(n+1) a α^(n+2) + τ Σ m(m+1) b β^(m+2)),   τ = T/10 K
 *
 * Pressure is left out: 3 MPa adds 0.13 % to density and takes 0.2 % off specific heat.
 *
 * @param temperature [K]; formulas hold from 253.15 to 383.15 K (conductivity from 273.15 K), poles at 232 and 593 K
 * @throws {DomainError} outside of 235 … 590 K, where the formulas have no meaning
 * @see coolantProperties for range and source as data
 *
 * @example waterProperties(298.15).density // 997.047
 */
export function waterProperties(temperature: number): FluidCore {
  if (!(temperature > 235 && temperature < 590)) {
    throw new DomainError('waterProperties', 'temperature', temperature, '235 … 590 K')
  }
  const alpha = 10 / (593 - temperature)
  const beta = 10 / (temperature - 232)
  const tau = temperature / 10
  const specificVolume =
    WATER_GAS_CONSTANT *
    1e-4 *
    (WATER_HOT_TERMS.volumeConstant + powerSum(WATER_HOT_TERMS.volume, alpha) + powerSum(WATER_COLD_TERMS.volume, beta))
  const curvature =
    curvatureSum(WATER_HOT_TERMS.specificHeat, alpha) + curvatureSum(WATER_COLD_TERMS.specificHeat, beta)
  const scaled = temperature / 300
  return {
    density: 1 / specificVolume,
    specificHeat: -WATER_GAS_CONSTANT * (WATER_COLD_TERMS.specificHeatConstant + tau * curvature),
    viscosity: 1e-6 * powerSum(WATER_VISCOSITY_TERMS, scaled),
    thermalConductivity: powerSum(WATER_CONDUCTIVITY_TERMS, scaled),
  }
}

type Terms = readonly (readonly [factor: number, power: number])[]

function powerSum(terms: Terms, base: number): number {
  return terms.reduce((sum, [factor, power]) => sum + factor * base ** power, 0)
}

function curvatureSum(terms: Terms, base: number): number {
  return terms.reduce((sum, [factor, power]) => sum + power * (power + 1) * factor * base ** (power + 2), 0)
}

export type WaterViscosityInputs = { density: number; temperature: number }

/**
 * Viscosity of water and steam from density and temperature, without the critical enhancement:
 *
 *     μ = 1 µPa.s · 100 √T̄ / Σ H_i T̄^−i · exp( ρ̄ Σ H_ij (1/T̄ − 1)^i (ρ̄ − 1)^j )
 *
 * @param density     [kg/m³], > 0
 * @param temperature [K], > 0
 * @returns viscosity [Pa.s]
 * @throws {DomainError} on a density or temperature of zero or less
 *
 * @example waterViscosity({ density: 998, temperature: 298.15 }) // 889.7351e-6
 */
export function waterViscosity({ density, temperature }: WaterViscosityInputs): number {
  requirePositive('waterViscosity', 'density', density)
  requirePositive('waterViscosity', 'temperature', temperature)
  const t = temperature / 647.096
  const r = density / 322
  const dilute = (100 * Math.sqrt(t)) / WATER_DILUTE_VISCOSITY.reduce((sum, h, i) => sum + h / t ** i, 0)
  const residual = WATER_RESIDUAL_VISCOSITY.reduce((sum, [i, j, h]) => sum + h * (1 / t - 1) ** i * (r - 1) ** j, 0)
  return 1e-6 * dilute * Math.exp(r * residual)
}

export const waterViscosityMethod = defineMethod<WaterViscosityInputs, { viscosity: number }>({
  id: 'water-viscosity',
  title: 'Viscosity of water from density and temperature',
  takes: {
    density: { unit: 'kg/m3', about: 'density of the water' },
    temperature: { unit: 'K', about: 'temperature of the water' },
  },
  gives: { viscosity: { unit: 'Pa.s', print: 'mPa.s', about: 'dynamic viscosity' } },
  valid: { temperature: [253.15, 1173.15], density: [0.001, 1200] },
  sources: [
    'IAPWS R12-08(2008), Release on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance, eqs. 10-12',
  ],
  compute: (inputs) => ({ viscosity: waterViscosity(inputs) }),
})
