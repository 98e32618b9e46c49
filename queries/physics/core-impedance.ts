import { CORE_FAMILIES, complexPermeability, type PermeabilityInputs } from './core-material.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { MU0, type RingInputs, ringDimensions } from './ring-core.ts'

export type CoreImpedanceInputs = RingInputs & {
  frequency: number
  realPermeability: number
  imaginaryPermeability?: number
  turns?: number
}

export type CoreImpedance = {
  readonly resistance: number
  readonly reactance: number
  readonly impedance: number
  readonly inductance: number
}

/**
 * Impedance of a winding or bar through a ring core, jω (µ′ − jµ″) µ₀N²/C₁: the losing part of the permeability is a
 * resistance. Capacitance of the winding is not in it (none worth counting for one turn).
 *
 * @param frequency             [Hz], > 0
 * @param realPermeability      µ′ at that frequency [1]; below zero past a resonance
 * @param imaginaryPermeability µ″ at that frequency [1], ≥ 0; 0 if left out
 * @param turns                 > 0; 1 if left out
 * @returns resistance, reactance and size [Ω], series inductance [H]
 * @throws {DomainError} as ringDimensions, or on a value out of its bounds
 *
 * @example coreImpedance({ outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3, frequency: 1e6,
 *   realPermeability: 2000, imaginaryPermeability: 1500 }).impedance // 22.148
 */
export function coreImpedance(inputs: CoreImpedanceInputs): CoreImpedance {
  const { frequency, realPermeability, imaginaryPermeability = 0, turns = 1, ...ring } = inputs
  requirePositive('coreImpedance', 'frequency', frequency)
  requirePositive('coreImpedance', 'turns', turns)
  requireNonNegative('coreImpedance', 'imaginaryPermeability', imaginaryPermeability)
  if (!Number.isFinite(realPermeability))
    throw new DomainError('coreImpedance', 'realPermeability', realPermeability, 'a finite number')
  const airInductance = (MU0 * turns ** 2) / ringDimensions(ring).c1
  const omega = 2 * Math.PI * frequency
  const resistance = omega * airInductance * imaginaryPermeability
  const reactance = omega * airInductance * realPermeability
  return {
    resistance,
    reactance,
    impedance: Math.hypot(resistance, reactance),
    inductance: airInductance * realPermeability,
  }
}

const RING_TAKES = {
  outerDiameter: { unit: 'm', about: 'of the bare core' },
  innerDiameter: { unit: 'm', about: 'of the bare core' },
  height: { unit: 'm', about: 'of the bare core, along its axis' },
  stackingFactor: { unit: '1', optional: true, about: 'share of metal in a tape-wound core; 1 if left out' },
} as const

const IMPEDANCE_GIVES = {
  resistance: { unit: 'Ohm', print: 'Ohm', about: 'from the losing part' },
  reactance: { unit: 'Ohm', print: 'Ohm', about: 'from the storing part' },
  impedance: { unit: 'Ohm', print: 'Ohm', about: 'size of both' },
  inductance: { unit: 'H', print: 'uH', about: 'series inductance at that frequency' },
} as const

export const coreImpedanceMethod = defineMethod<CoreImpedanceInputs, CoreImpedance>({
  id: 'core-impedance',
  title: 'Impedance of a winding or bar through a ring core from its complex permeability',
  takes: {
    ...RING_TAKES,
    frequency: { unit: 'Hz', about: 'of the current' },
    realPermeability: { unit: '1', about: "µ' at that frequency" },
    imaginaryPermeability: { unit: '1', optional: true, about: "µ'' at that frequency; 0 if left out" },
    turns: { unit: '1', optional: true, about: '1 if left out' },
  },
  gives: IMPEDANCE_GIVES,
  sources: ['IEC 62044-2, complex permeability of a ring (from memory)'],
  compute: coreImpedance,
})

export type FamilyImpedanceInputs = RingInputs & PermeabilityInputs & { turns?: number }

/** Impedance by the model of a material family: see complexPermeability for what the model leaves out. */
export function familyImpedance(inputs: FamilyImpedanceInputs): CoreImpedance {
  const { outerDiameter, innerDiameter, height, frequency, turns = 1, stackingFactor = 1 } = inputs
  const { real, imaginary } = complexPermeability(inputs)
  return coreImpedance({
    outerDiameter,
    innerDiameter,
    height,
    stackingFactor,
    frequency,
    turns,
    realPermeability: real,
    imaginaryPermeability: imaginary,
  })
}

export const familyImpedanceMethod = defineMethod<FamilyImpedanceInputs, CoreImpedance>({
  id: 'core-impedance-by-family',
  title: 'Impedance of a ring core against frequency by the model of its material family',
  takes: {
    ...RING_TAKES,
    turns: { unit: '1', optional: true, about: '1 if left out' },
    family: { words: CORE_FAMILIES, about: 'of the core material' },
    initialPermeability: { unit: '1', about: 'of the core at low frequency' },
    frequency: { unit: 'Hz', about: 'of the current' },
    saturationMagnetisation: { unit: 'T', optional: true, about: 'ferrite; 0.5 or 0.35 T stand in' },
    relaxationFrequency: { unit: 'Hz', optional: true, about: "ferrite, measured; Snoek's limit stands in" },
    thickness: { unit: 'm', optional: true, about: 'of the tape or diameter of the grains; 20 or 60 µm stand in' },
    resistivity: { unit: 'Ohm.m', optional: true, about: 'of the metal; 1.2 or 0.1 µΩ m stand in' },
  },
  gives: IMPEDANCE_GIVES,
  valid: { initialPermeability: [5, 2e5], frequency: [100, 1e9] },
  sources: ['complex-permeability and core-impedance of this list'],
  compute: familyImpedance,
})

export type CornerInputs = { inductance: number; capacitance: readonly number[] }

/**
 * Corner frequency of a common-mode filter, 1/(2π√(LC)): the Y capacitors of both rails are in parallel for
 * common-mode current, so C is the sum of all between the core and the chassis.
 *
 * @param inductance  common-mode, at about that frequency [H], > 0
 * @param capacitance of each Y capacitor on that side [F], > 0
 * @returns [Hz]
 * @throws {DomainError} on an empty list or a value of zero or less
 *
 * @example commonModeCorner({ inductance: 7e-6, capacitance: [100e-9, 100e-9] }) // 134.5e3
 */
export function commonModeCorner({ inductance, capacitance }: CornerInputs): number {
  requirePositive('commonModeCorner', 'inductance', inductance)
  for (const one of capacitance) requirePositive('commonModeCorner', 'capacitance', one)
  const total = capacitance.reduce((sum, one) => sum + one, 0)
  if (total === 0) throw new DomainError('commonModeCorner', 'capacitance', 'an empty list', 'at least one Y capacitor')
  return 1 / (2 * Math.PI * Math.sqrt(inductance * total))
}

export const commonModeCornerMethod = defineMethod<
  CornerInputs,
  { readonly frequency: number; readonly capacitance: number; readonly impedance: number }
>({
  id: 'common-mode-corner',
  title: 'Corner frequency of a common-mode core with its Y capacitors',
  takes: {
    inductance: { unit: 'H', about: 'common-mode, at about the corner frequency' },
    capacitance: { unit: 'F', list: true, about: 'of each Y capacitor on that side of the core' },
  },
  gives: {
    frequency: { unit: 'Hz', print: 'kHz', about: 'above which the filter begins to act' },
    capacitance: { unit: 'F', print: 'nF', about: 'sum, as common-mode current sees it' },
    impedance: { unit: 'Ohm', print: 'Ohm', about: 'characteristic, √(L/C)' },
  },
  sources: ['resonance of one inductance and one capacitance (textbook)'],
  compute: (inputs) => {
    const capacitance = inputs.capacitance.reduce((sum, one) => sum + one, 0)
    return { frequency: commonModeCorner(inputs), capacitance, impedance: Math.sqrt(inputs.inductance / capacitance) }
  },
})

export const coreImpedanceMethods = [coreImpedanceMethod, familyImpedanceMethod, commonModeCornerMethod] as const
