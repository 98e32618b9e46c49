import type { FluidCore } from './coolant-fluid-water.ts'
import { requirePositive } from './method.ts'

/** Specific gas constant of dry air [J/(kg.K)]: 8.314462618 J/(mol.K) over 28.9586 g/mol. */
const AIR_GAS_CONSTANT = 8.314462618 / 0.0289586

export type AirInputs = { temperature: number; pressure?: number }

/**
 * Properties of dry air as an ideal gas: density from the gas law; viscosity from a Lennard-Jones collision integral;
 * conductivity of the dilute gas; specific heat of the ideal gas (the real one is 0.15 % higher at 0.1 MPa).
 *
 *     μ = 0.0266958 √(M T)/(σ² Ω),  ln Ω = Σ b_i (ln T/103.3 K)^i
 *     λ = 1.308 μ + 1.405 τ^−1.1 − 1.036 τ^−0.3  [mW/(m.K), μ in µPa.s],  τ = 132.6312 K/T
 *
 * @param temperature [K], > 0; good from 200 to 1000 K
 * @param pressure    absolute [Pa]; 101 325 if left out; good to 1 MPa
 * @throws {DomainError} on a temperature or pressure of zero or less
 *
 * @example airProperties({ temperature: 300 }).viscosity // 18.523e-6
 */
export function airProperties({ temperature, pressure = 101_325 }: AirInputs): FluidCore {
  requirePositive('airProperties', 'temperature', temperature)
  requirePositive('airProperties', 'pressure', pressure)
  const microViscosity = diluteViscosity(temperature)
  const tau = 132.6312 / temperature
  return {
    density: pressure / (AIR_GAS_CONSTANT * temperature),
    specificHeat: AIR_GAS_CONSTANT * idealHeatRatio(temperature),
    viscosity: 1e-6 * microViscosity,
    thermalConductivity: 1e-3 * (1.308 * microViscosity + 1.405 * tau ** -1.1 - 1.036 * tau ** -0.3),
  }
}

/** [µPa.s] */
function diluteViscosity(temperature: number): number {
  const l = Math.log(temperature / 103.3)
  const collision = Math.exp(0.431 + l * (-0.4623 + l * (0.08406 + l * (0.005341 - l * 0.00331))))
  return (0.0266958 * Math.sqrt(28.9586 * temperature)) / (0.36 ** 2 * collision)
}

/** Isobaric heat capacity over the gas constant: polynomial and two vibrations. */
function idealHeatRatio(t: number): number {
  const smooth =
    3.490888032 + 2.395525583e-6 * t + 7.172111248e-9 * t ** 2 - 3.115413101e-13 * t ** 3 + 0.223806688 * t ** -1.5
  return smooth + 0.791309509 * vibration(3364.011 / t) + 0.212236768 * vibration(2242.45 / t)
}

function vibration(u: number): number {
  return (u ** 2 * Math.exp(u)) / Math.expm1(u) ** 2
}
