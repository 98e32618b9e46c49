import { DomainError, defineMethod, requirePositive } from './method.ts'

/** Molar masses [kg/mol]. */
const WATER = 0.018015
const GLYCOL = 0.062068

export type BoilingInputs = { pressure: number; glycolMassFraction?: number }

/**
 * Boiling point of water, and of ethylene glycol in water as an ideal mixture whose vapour is water alone (Raoult):
 * p = x_w p_s(T), with p_s by Antoine, log₁₀(p/Pa) = 10.19621 − 1730.63/(t/°C + 233.426).
 *
 * Good to about 0.3 K for water from 60 to 140 °C, to about 2 K for mixtures up to 60 % glycol: half and half by mass
 * boils near 107 °C at 101 kPa.
 *
 * @param pressure           absolute [Pa], > 0
 * @param glycolMassFraction by MASS [1], 0 … below 1; 0 if left out
 * @returns boiling point [K]
 * @throws {DomainError} on a pressure of zero or less or a fraction beyond 0 … below 1
 *
 * @example boilingPoint({ pressure: 101_325 }) - 273.15 // 100.0
 */
export function boilingPoint({ pressure, glycolMassFraction = 0 }: BoilingInputs): number {
  requirePositive('boilingPoint', 'pressure', pressure)
  if (!(glycolMassFraction >= 0 && glycolMassFraction < 1))
    throw new DomainError('boilingPoint', 'glycolMassFraction', glycolMassFraction, '0 … below 1')
  const water = (1 - glycolMassFraction) / WATER
  const share = water / (water + glycolMassFraction / GLYCOL)
  return 1730.63 / (10.19621 - Math.log10(pressure / share)) - 233.426 + 273.15
}

export const boilingMethod = defineMethod<BoilingInputs, { boilingPoint: number }>({
  id: 'coolant-boiling-point',
  title: 'Boiling point of water and of ethylene glycol in water',
  takes: {
    pressure: { unit: 'Pa', about: 'absolute pressure' },
    glycolMassFraction: { unit: '1', optional: true, about: 'share of glycol by mass; 0 if left out' },
  },
  gives: { boilingPoint: { unit: 'K', print: 'Cel', about: 'where it begins to boil' } },
  valid: { pressure: [2e4, 3.6e5], glycolMassFraction: [0, 0.6] },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: [
    'Antoine equation of water, handbook coefficients (from memory)',
    'Raoult’s law; vapour taken as water alone',
  ],
  compute: (inputs) => ({ boilingPoint: boilingPoint(inputs) }),
})

export const boilingMethods = [boilingMethod] as const
