import { LINK_CAUTION } from './dc-link.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { solveRails } from './rail-network.ts'

/** One capacitor of a network and the two nodes it lies between. */
export type PlacedCapacitor = { readonly from: string; readonly to: string; readonly capacitance: number }

export type CapacitorNetworkInputs = {
  readonly capacitors: readonly PlacedCapacitor[]
  readonly plusRail: string
  readonly minusRail: string
  readonly voltage: number
}

export type CapacitorNetwork = {
  readonly capacitance: number
  readonly energy: number
  readonly voltages: readonly number[]
  readonly energies: readonly number[]
}

/**
 * Capacitance that two rails see of any network of capacitors, and how the voltage divides, both by capacitance alone:
 * as after a quick charge from empty. Over minutes a series string settles by its leakage or balancing resistors
 * instead: see {@link seriesString}. A capacitor on neither rail, or with one end open, holds no voltage.
 *
 * @param capacitors each with its two nodes and capacitance [F], > 0
 * @param plusRail   and minusRail: names of two nodes
 * @param voltage    from plus to minus rail [V]; any sign
 * @returns capacitance [F], energy [J], and voltage [V] (from → to) and energy [J] of each, in the order given
 * @throws {DomainError} when no path of capacitors joins the rails, or a capacitance is zero or less
 *
 * @example capacitorNetwork({ capacitors: [{ from: '+', to: 'm', capacitance: 300e-6 }, { from: 'm', to: '-',
 *   capacitance: 150e-6 }], plusRail: '+', minusRail: '-', voltage: 600 }).voltages // [200, 400]
 */
export function capacitorNetwork(inputs: CapacitorNetworkInputs): CapacitorNetwork {
  const { capacitors, plusRail, minusRail, voltage } = inputs
  if (!Number.isFinite(voltage)) throw new DomainError('capacitorNetwork', 'voltage', voltage, 'a finite number')
  for (const one of capacitors) requirePositive('capacitorNetwork', 'capacitance', one.capacitance)
  const branches = capacitors.map(({ from, to, capacitance }) => ({ from, to, admittance: [capacitance, 0] as const }))
  const { admittance, branchVoltages } = solveRails(branches, plusRail, minusRail)
  const voltages = branchVoltages.map(([share]) => share * voltage)
  const energies = voltages.map((one, i) => (capacitors[i]!.capacitance * one ** 2) / 2)
  return { capacitance: admittance[0], energy: (admittance[0] * voltage ** 2) / 2, voltages, energies }
}

export type NumberedNetworkInputs = {
  from: readonly number[]
  to: readonly number[]
  capacitance: readonly number[]
  plusRail: number
  minusRail: number
  voltage: number
}

export const capacitorNetworkMethod = defineMethod<NumberedNetworkInputs, CapacitorNetwork>({
  id: 'capacitor-network',
  title: 'Equivalent capacitance and voltage division of any network of capacitors between two rails',
  takes: {
    from: { unit: '1', list: true, about: 'number of the node at one end of each capacitor' },
    to: { unit: '1', list: true, about: 'number of the node at the other end' },
    capacitance: { unit: 'F', list: true, about: 'of each' },
    plusRail: { unit: '1', about: 'number of the plus node' },
    minusRail: { unit: '1', about: 'number of the minus node' },
    voltage: { unit: 'V', about: 'between the rails' },
  },
  gives: {
    capacitance: { unit: 'F', print: 'uF', about: 'seen between the rails' },
    energy: { unit: 'J', print: 'J', about: 'stored in all' },
    voltages: { unit: 'V', print: 'V', about: 'over each, by capacitance (after a quick charge)' },
    energies: { unit: 'J', print: 'J', about: 'stored in each' },
  },
  caution: LINK_CAUTION,
  sources: ["nodal analysis by Kirchhoff's current law"],
  compute: ({ from, to, capacitance, plusRail, minusRail, voltage }) => {
    if (from.length !== to.length || from.length !== capacitance.length)
      throw new DomainError('capacitorNetwork', 'to', `${to.length} entries`, `as many as from and capacitance`)
    const capacitors = capacitance.map((one, i) => ({ from: `${from[i]}`, to: `${to[i]}`, capacitance: one }))
    return capacitorNetwork({ capacitors, plusRail: `${plusRail}`, minusRail: `${minusRail}`, voltage })
  },
})

export type EvenBankInputs = {
  capacitance: number
  series: number
  parallel: number
  voltage: number
  resistance?: number
  inductance?: number
}

export type EvenBank = {
  readonly capacitance: number
  readonly voltageEach: number
  readonly energy: number
  readonly resistance?: number
  readonly inductance?: number
}

/**
 * Bank of equal capacitors, `parallel` strings of `series` each: C p/s, resistance and inductance each times s/p,
 * voltage over s. Inductance of the bars between them is not in it.
 *
 * @param capacitance of one [F], > 0
 * @param series      in one string, whole, ≥ 1
 * @param parallel    strings, whole, ≥ 1
 * @param voltage     of the bank [V]
 * @param resistance  equivalent series resistance of one [Ω], ≥ 0, if known
 * @param inductance  equivalent series inductance of one [H], ≥ 0, if known
 * @returns the bank's capacitance [F], voltage of each [V], energy [J]; resistance and inductance only where given
 * @throws {DomainError} on a count that is not whole or below 1, or a value out of its bounds
 *
 * @example evenBank({ capacitance: 220e-6, series: 2, parallel: 3, voltage: 800 }).energy // 105.6
 */
export function evenBank(inputs: EvenBankInputs): EvenBank {
  const { capacitance, series, parallel, voltage, resistance, inductance } = inputs
  requirePositive('evenBank', 'capacitance', capacitance)
  for (const [name, count] of Object.entries({ series, parallel })) {
    if (!(Number.isInteger(count) && count >= 1)) throw new DomainError('evenBank', name, count, 'a whole number ≥ 1')
  }
  if (!Number.isFinite(voltage)) throw new DomainError('evenBank', 'voltage', voltage, 'a finite number')
  for (const [name, value] of Object.entries({ resistance, inductance }))
    if (value !== undefined) requireNonNegative('evenBank', name, value)
  const whole = (capacitance * parallel) / series
  return {
    capacitance: whole,
    voltageEach: voltage / series,
    energy: (whole * voltage ** 2) / 2,
    ...(resistance === undefined ? {} : { resistance: (resistance * series) / parallel }),
    ...(inductance === undefined ? {} : { inductance: (inductance * series) / parallel }),
  }
}

export const evenBankMethod = defineMethod<EvenBankInputs, EvenBank>({
  id: 'capacitor-bank',
  title: 'Bank of equal capacitors in series and parallel',
  takes: {
    capacitance: { unit: 'F', about: 'of one capacitor' },
    series: { unit: '1', about: 'capacitors in one string' },
    parallel: { unit: '1', about: 'strings' },
    voltage: { unit: 'V', about: 'of the bank' },
    resistance: { unit: 'Ohm', optional: true, about: 'equivalent series resistance of one' },
    inductance: { unit: 'H', optional: true, about: 'equivalent series inductance of one' },
  },
  gives: {
    capacitance: { unit: 'F', print: 'uF', about: 'of the bank' },
    voltageEach: { unit: 'V', print: 'V', about: 'over one, evenly shared' },
    energy: { unit: 'J', print: 'J', about: 'stored in all' },
    resistance: { unit: 'Ohm', print: 'mOhm', about: 'of the bank; only where that of one is given' },
    inductance: { unit: 'H', print: 'nH', about: 'of the bank without its bars; only where that of one is given' },
  },
  caution: LINK_CAUTION,
  sources: ['series and parallel algebra of equal parts'],
  compute: evenBank,
})

export type SeriesStringInputs = {
  capacitance: readonly number[]
  resistance?: readonly number[]
  voltage: number
}

export type SeriesString = {
  readonly capacitance: number
  readonly quickVoltages: readonly number[]
  readonly restingVoltages?: readonly number[]
}

/**
 * Voltages along a series string: right after a quick charge they divide by 1/C; at rest by the resistance across each
 * (leakage and balancing resistors). The higher of the two is what each part must stand.
 *
 * @param capacitance of each, in order [F], > 0
 * @param resistance  across each, in the same order [Ω], > 0; without it the resting voltages are not known
 * @param voltage     over the string [V]
 * @throws {DomainError} on an empty list, lists of unequal length, or a value of zero or less
 *
 * @example seriesString({ capacitance: [300e-6, 150e-6], resistance: [47e3, 47e3], voltage: 600 }).restingVoltages // [300, 300]
 */
export function seriesString({ capacitance, resistance, voltage }: SeriesStringInputs): SeriesString {
  for (const one of capacitance) requirePositive('seriesString', 'capacitance', one)
  for (const one of resistance ?? []) requirePositive('seriesString', 'resistance', one)
  if (capacitance.length === 0 || (resistance && resistance.length !== capacitance.length))
    throw new DomainError(
      'seriesString',
      'resistance',
      `${resistance?.length ?? 0}`,
      'one entry per capacitor, at least one',
    )
  const elastance = capacitance.reduce((sum, one) => sum + 1 / one, 0)
  const total = resistance?.reduce((sum, one) => sum + one, 0)
  return {
    capacitance: 1 / elastance,
    quickVoltages: capacitance.map((one) => voltage / one / elastance),
    ...(resistance && total ? { restingVoltages: resistance.map((one) => (voltage * one) / total) } : {}),
  }
}

export const seriesStringMethod = defineMethod<SeriesStringInputs, SeriesString>({
  id: 'capacitor-string',
  title: 'Voltages along a series string of capacitors, after a quick charge and at rest',
  takes: {
    capacitance: { unit: 'F', list: true, about: 'of each, in order' },
    resistance: { unit: 'Ohm', list: true, optional: true, about: 'leakage and balancing resistance across each' },
    voltage: { unit: 'V', about: 'over the string' },
  },
  gives: {
    capacitance: { unit: 'F', print: 'uF', about: 'of the string' },
    quickVoltages: { unit: 'V', print: 'V', about: 'over each, right after a quick charge' },
    restingVoltages: { unit: 'V', print: 'V', about: 'over each, at rest; only where the resistances are given' },
  },
  caution: LINK_CAUTION,
  sources: ['charge balance of a series string; Ohm’s law at rest'],
  compute: seriesString,
})

export type CapacitancePerPowerInputs = { capacitance: number; voltage: number; power: number }

export type CapacitancePerPower = {
  readonly capacitancePerPower: number
  readonly energy: number
  readonly energyPerPower: number
}

/**
 * Link capacitance and stored energy by rated power: C/P, ½ C V², ½ C V²/P.
 *
 * @param capacitance [F], > 0
 * @param voltage     at which the energy is stated [V]
 * @param power       rated [W], > 0; which power must be said beside the figure
 * @throws {DomainError} on a capacitance or power of zero or less
 *
 * @example capacitancePerPower({ capacitance: 560e-6, voltage: 450, power: 150e3 }).energy // 56.7
 */
export function capacitancePerPower({ capacitance, voltage, power }: CapacitancePerPowerInputs): CapacitancePerPower {
  requirePositive('capacitancePerPower', 'power', power)
  const energy = storedEnergy({ capacitance, voltage })
  return { capacitancePerPower: capacitance / power, energy, energyPerPower: energy / power }
}

/**
 * Energy of a charged capacitor, ½ C V² [J].
 *
 * @throws {DomainError} on a capacitance of zero or less, or a voltage that is not finite
 *
 * @example storedEnergy({ capacitance: 560e-6, voltage: 450 }) // 56.7
 */
export function storedEnergy({ capacitance, voltage }: { capacitance: number; voltage: number }): number {
  requirePositive('storedEnergy', 'capacitance', capacitance)
  if (!Number.isFinite(voltage)) throw new DomainError('storedEnergy', 'voltage', voltage, 'a finite number')
  return (capacitance * voltage ** 2) / 2
}

export const capacitancePerPowerMethod = defineMethod<CapacitancePerPowerInputs, CapacitancePerPower>({
  id: 'capacitance-per-power',
  title: 'Link capacitance and stored energy by rated power',
  takes: {
    capacitance: { unit: 'F', about: 'seen between the rails' },
    voltage: { unit: 'V', about: 'at which the energy is stated' },
    power: { unit: 'W', about: 'rated; say which' },
  },
  gives: {
    capacitancePerPower: { unit: 'F/W', print: 'uF/kW', about: 'C/P' },
    energy: { unit: 'J', print: 'J', about: 'stored' },
    energyPerPower: { unit: 'J/W', print: 'J/kW', about: 'stored energy by power' },
  },
  caution: LINK_CAUTION,
  sources: ['definition; ISO 80000-6 for stored energy'],
  compute: capacitancePerPower,
})

export const capacitorBankMethods = [
  evenBankMethod,
  capacitorNetworkMethod,
  seriesStringMethod,
  capacitancePerPowerMethod,
] as const
