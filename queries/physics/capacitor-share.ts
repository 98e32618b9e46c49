import { LINK_CAUTION } from './dc-link.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { over, type Phasor, plus, size } from './phasor.ts'

const METHOD = 'capacitorShares'

export type CapacitorSharesInputs = {
  frequency: number
  capacitance: readonly number[]
  resistance?: readonly number[]
  inductance?: readonly number[]
}

export type CapacitorShares = {
  /** RMS current of each over that of the bank; they add up to more than one where phases differ. */
  readonly shares: readonly number[]
  readonly impedance: number
  readonly resistance: number
  readonly reactance: number
  readonly resonances: readonly number[]
}

/**
 * How capacitors in parallel share a sinusoidal current: each by its admittance 1/(R + j(ωL − 1/ωC)). Between the own
 * resonances of two of them a small capacitor can carry more than the whole bank does. R and L of each should include
 * its branch of the bars; the mutual inductance of branches is not in it.
 *
 * @param frequency   of the current [Hz], > 0; the ripple of a three-phase bridge is strongest at twice its carrier
 * @param capacitance of each [F], > 0
 * @param resistance  series resistance of each, at that frequency [Ω], ≥ 0; 0 if left out
 * @param inductance  series inductance of each [H], ≥ 0; 0 if left out
 * @returns share of each [1]; size, real and imaginary part of the bank's impedance [Ω]; own resonance of each that
 *   has an inductance [Hz], in order
 * @throws {DomainError} on lists of unequal length, a value out of its bounds, or a branch at its own resonance
 *   without resistance
 *
 * @example capacitorShares({ frequency: 20e3, capacitance: [400e-6, 100e-6] }).shares // [0.8, 0.2]
 */
export function capacitorShares(inputs: CapacitorSharesInputs): CapacitorShares {
  const { frequency, capacitance } = inputs
  const zeros = capacitance.map(() => 0)
  const { resistance = zeros, inductance = zeros } = inputs
  requirePositive(METHOD, 'frequency', frequency)
  if (capacitance.length === 0) throw new DomainError(METHOD, 'capacitance', 'an empty list', 'at least one')
  for (const [name, list] of Object.entries({ capacitance, resistance, inductance })) {
    if (list.length !== capacitance.length)
      throw new DomainError(METHOD, name, `${list.length} entries`, `${capacitance.length} entries`)
    for (const one of list) (name === 'capacitance' ? requirePositive : requireNonNegative)(METHOD, name, one)
  }
  const omega = 2 * Math.PI * frequency
  const admittances = capacitance.map((c, i): Phasor => {
    const impedance: Phasor = [resistance[i]!, omega * inductance[i]! - 1 / (omega * c)]
    if (size(impedance) === 0) throw new DomainError(METHOD, 'resistance', 0, '> 0 at the own resonance of a branch')
    return over([1, 0], impedance)
  })
  const total = admittances.reduce(plus)
  const [real, imaginary] = over([1, 0], total)
  return {
    shares: admittances.map((one) => size(one) / size(total)),
    impedance: Math.hypot(real, imaginary),
    resistance: real,
    reactance: imaginary,
    resonances: capacitance.flatMap((c, i) =>
      inductance[i]! > 0 ? [1 / (2 * Math.PI * Math.sqrt(inductance[i]! * c))] : [],
    ),
  }
}

export const capacitorSharesMethod = defineMethod<CapacitorSharesInputs, CapacitorShares>({
  id: 'capacitor-shares',
  title: 'Share of a sinusoidal current that each of several parallel capacitors carries',
  takes: {
    frequency: { unit: 'Hz', about: 'of the current' },
    capacitance: { unit: 'F', list: true, about: 'of each' },
    resistance: { unit: 'Ohm', list: true, optional: true, about: 'series resistance of each; 0 if left out' },
    inductance: { unit: 'H', list: true, optional: true, about: 'series inductance of each; 0 if left out' },
  },
  gives: {
    shares: { unit: '1', print: '%', about: 'current of each over that of the bank' },
    impedance: { unit: 'Ohm', print: 'mOhm', about: 'size of the impedance of the bank' },
    resistance: { unit: 'Ohm', print: 'mOhm', about: 'real part' },
    reactance: { unit: 'Ohm', print: 'mOhm', about: 'imaginary part; negative below resonance' },
    resonances: { unit: 'Hz', print: 'kHz', about: 'own resonance of each that has an inductance' },
  },
  caution: LINK_CAUTION,
  sources: ["parallel admittances (Kirchhoff's laws for phasors)"],
  compute: capacitorShares,
})

export const capacitorShareMethods = [capacitorSharesMethod] as const
