import { DomainError, defineMethod, requirePositive } from './method.ts'

/** Resistivity at 20 °C [Ω m] and its temperature coefficient there [1/K]. */
export const CONDUCTORS = {
  // IEC 60028, standard annealed copper: 1/58 Ω mm²/m exactly; coefficient 0.00393 1/K.
  copper: { resistivity: 1e-6 / 58, coefficient: 0.00393 },
  // IEC 60889, hard-drawn aluminium wire: 0.028264 Ω mm²/m, 0.00403 1/K (from memory).
  aluminium: { resistivity: 2.8264e-8, coefficient: 0.00403 },
  // Handbook value of a usual two-phase brass, from memory; alloys differ by a fifth either way.
  brass: { resistivity: 6.6e-8, coefficient: 0.0015 },
} as const

const MATERIALS = ['copper', 'aluminium', 'brass'] as const
const REFERENCE = 293.15

export type ResistivityInputs = { material: keyof typeof CONDUCTORS; temperature: number }

/**
 * Resistivity of a conductor metal at a temperature, ρ₂₀ (1 + α(T − 20 °C)).
 *
 * @param material    copper, aluminium or brass
 * @param temperature [K], > 0; held to −50 … 200 °C
 * @returns [Ω m]
 * @throws {DomainError} on a temperature of zero or less, or so low that the line would cross zero
 *
 * @example resistivityOf({ material: 'copper', temperature: 353.15 }) // 2.1307e-8
 */
export function resistivityOf({ material, temperature }: ResistivityInputs): number {
  requirePositive('resistivityOf', 'temperature', temperature)
  const { resistivity, coefficient } = CONDUCTORS[material]
  const factor = 1 + coefficient * (temperature - REFERENCE)
  if (factor <= 0)
    throw new DomainError('resistivityOf', 'temperature', temperature, 'where the straight line is above 0')
  return resistivity * factor
}

export type BarConductionInputs = {
  length: number
  width: number
  thickness: number
  current: number
  resistivity: number
}

export type BarConduction = {
  readonly resistance: number
  readonly currentDensity: number
  readonly voltageDrop: number
  readonly loss: number
}

/**
 * Straight conductor of rectangular section with the current spread evenly: R = ρl/(wt), J = I/(wt), U = RI, P = RI².
 * For alternating current above the frequency at which the skin depth nears the half thickness it is a lower bound.
 *
 * @param length      along the current [m], > 0
 * @param width       [m], > 0
 * @param thickness   [m], > 0
 * @param current     RMS or direct [A]
 * @param resistivity at the conductor's temperature [Ω m], > 0
 * @returns resistance [Ω], current density [A/m²], voltage drop [V], loss [W]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example barConduction({ length: 0.05, width: 2e-3, thickness: 70e-6, current: 10, resistivity: 1.7241e-8 }).resistance // 6.1575e-3
 */
export function barConduction({ length, width, thickness, current, resistivity }: BarConductionInputs): BarConduction {
  for (const [name, value] of Object.entries({ length, width, thickness, resistivity }))
    requirePositive('barConduction', name, value)
  if (!Number.isFinite(current)) throw new DomainError('barConduction', 'current', current, 'a finite number')
  const area = width * thickness
  const resistance = (resistivity * length) / area
  return {
    resistance,
    currentDensity: current / area,
    voltageDrop: resistance * current,
    loss: resistance * current ** 2,
  }
}

export const barConductionMethod = defineMethod<BarConductionInputs, BarConduction>({
  id: 'bar-conduction',
  title: 'Resistance, current density and loss of a straight bar or trace',
  takes: {
    length: { unit: 'm', about: 'along the current' },
    width: { unit: 'm', about: 'of the section' },
    thickness: { unit: 'm', about: 'of the section' },
    current: { unit: 'A', about: 'direct or RMS' },
    resistivity: { unit: 'Ohm.m', about: 'at the temperature of the conductor' },
  },
  gives: {
    resistance: { unit: 'Ohm', print: 'mOhm', about: 'direct current' },
    currentDensity: { unit: 'A/m2', print: 'A/mm2', about: 'mean over the section' },
    voltageDrop: { unit: 'V', print: 'mV', about: 'along the length' },
    loss: { unit: 'W', print: 'W', about: 'heat made' },
  },
  caution:
    'Bus bars are at lethal voltage and may be hot: prove dead by local codes and licensed practice before touching.',
  sources: ['Ohm’s law, current evenly spread'],
  compute: barConduction,
})

export const resistivityMethod = defineMethod<
  ResistivityInputs,
  { readonly resistivity: number; readonly coefficient: number }
>({
  id: 'resistivity',
  title: 'Resistivity of a conductor metal at a temperature',
  takes: {
    material: { words: MATERIALS, about: 'metal' },
    temperature: { unit: 'K', about: 'of the conductor' },
  },
  gives: {
    resistivity: { unit: 'Ohm.m', print: 'uOhm.cm', about: 'at that temperature' },
    coefficient: { unit: '/K', print: '/K', about: 'temperature coefficient at 20 °C' },
  },
  valid: { temperature: [223.15, 473.15] },
  sources: ['copper: IEC 60028', 'aluminium: IEC 60889 (from memory)', 'brass: handbook value, from memory'],
  compute: (inputs) => ({
    resistivity: resistivityOf(inputs),
    coefficient: CONDUCTORS[inputs.material].coefficient,
  }),
})

export const conductorMethods = [barConductionMethod, resistivityMethod] as const
