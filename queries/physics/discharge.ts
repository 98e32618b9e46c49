import { LINK_CAUTION } from './dc-link.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION = `${LINK_CAUTION} A computed time is no proof: resistors fail open, and a capacitor recovers charge after a short circuit.`

export type DischargeInputs = {
  capacitance: number
  startVoltage: number
  endVoltage: number
  resistance?: number
  power?: number
  current?: number
}

export type Discharge = {
  readonly time: number
  readonly peakPower: number
  readonly energyRemoved: number
  readonly energyLeft: number
}

/**
 * Time for a capacitor to fall from one voltage to another through a resistor, a constant-power load, a
 * constant-current sink, or resistor with one of the two beside it:
 *
 *     C dv/dt = −v/R − P/v − I
 *
 * Resistor alone RC ln(V₀/V₁); power alone C(V₀² − V₁²)/2P; both ½RC ln((V₀²/R + P)/(V₁²/R + P)); current alone
 * C(V₀ − V₁)/I; current and resistor RC ln((V₀ + RI)/(V₁ + RI)).
 *
 * @param capacitance  [F], > 0
 * @param startVoltage [V], > 0
 * @param endVoltage   [V], 0 … startVoltage; above 0 where only a resistor discharges
 * @param resistance   [Ω], > 0, if there is a resistor
 * @param power        [W], > 0, if there is a constant-power load; it stops drawing below its own lowest voltage, so
 *   the end voltage must lie above that
 * @param current      [A], > 0, if there is a constant-current sink
 * @returns time [s], greatest power taken out [W], energy taken out and left [J]
 * @throws {DomainError} without any path of discharge, with power and current both, or on a value out of its bounds
 *
 * @example discharge({ capacitance: 600e-6, resistance: 40e3, startVoltage: 800, endVoltage: 60 }).time // 62.166
 */
export function discharge(inputs: DischargeInputs): Discharge {
  const { capacitance, startVoltage, endVoltage } = inputs
  requireDischarge(inputs)
  const { resistance, power = 0, current = 0 } = inputs
  const drawn = (voltage: number): number =>
    (resistance === undefined ? 0 : voltage ** 2 / resistance) + power + current * voltage
  const energyLeft = (capacitance * endVoltage ** 2) / 2
  return {
    time: capacitance * secondsPerFarad(inputs),
    peakPower: drawn(startVoltage),
    energyRemoved: (capacitance * startVoltage ** 2) / 2 - energyLeft,
    energyLeft,
  }
}

function secondsPerFarad({ startVoltage, endVoltage, resistance, power, current }: DischargeInputs): number {
  if (resistance === undefined) {
    if (power !== undefined) return (startVoltage ** 2 - endVoltage ** 2) / (2 * power)
    return (startVoltage - endVoltage) / current!
  }
  // log1p keeps the small differences of a nearly constant load.
  if (power !== undefined) {
    const drop = (startVoltage ** 2 - endVoltage ** 2) / (endVoltage ** 2 + resistance * power)
    return (resistance / 2) * Math.log1p(drop)
  }
  const offset = resistance * (current ?? 0)
  return resistance * Math.log1p((startVoltage - endVoltage) / (endVoltage + offset))
}

function requireDischarge(inputs: DischargeInputs): void {
  const { capacitance, startVoltage, endVoltage, resistance, power, current } = inputs
  requirePositive('discharge', 'capacitance', capacitance)
  requirePositive('discharge', 'startVoltage', startVoltage)
  requireNonNegative('discharge', 'endVoltage', endVoltage)
  if (endVoltage > startVoltage)
    throw new DomainError('discharge', 'endVoltage', endVoltage, 'no higher than startVoltage')
  for (const [name, value] of Object.entries({ resistance, power, current }))
    if (value !== undefined) requirePositive('discharge', name, value)
  if (resistance === undefined && power === undefined && current === undefined)
    throw new DomainError('discharge', 'resistance', undefined, 'given, or else power or current')
  if (power !== undefined && current !== undefined)
    throw new DomainError('discharge', 'current', current, 'left out where power is given')
  if (power === undefined && current === undefined && endVoltage === 0)
    throw new DomainError('discharge', 'endVoltage', 0, '> 0: a resistor alone never reaches zero')
}

export const dischargeMethod = defineMethod<DischargeInputs, Discharge>({
  id: 'discharge',
  title: 'Discharge of a capacitor by resistor, constant power or constant current',
  takes: {
    capacitance: { unit: 'F', about: 'of the link' },
    startVoltage: { unit: 'V', about: 'at the start' },
    endVoltage: { unit: 'V', about: 'to be reached; 60 V is the usual limit of touch voltage' },
    resistance: { unit: 'Ohm', optional: true, about: 'discharge resistor' },
    power: { unit: 'W', optional: true, about: 'constant-power load' },
    current: { unit: 'A', optional: true, about: 'constant-current sink' },
  },
  gives: {
    time: { unit: 's', print: 's', about: 'from start to end voltage' },
    peakPower: { unit: 'W', print: 'W', about: 'greatest power taken out, at the start' },
    energyRemoved: { unit: 'J', print: 'J', about: 'turned into heat' },
    energyLeft: { unit: 'J', print: 'J', about: 'still stored at the end voltage' },
  },
  caution: CAUTION,
  sources: ['closed forms of C dv/dt = −v/R − P/v − I'],
  compute: discharge,
})

export type VoltageAfterInputs = { capacitance: number; resistance: number; startVoltage: number; time: number }

/**
 * Voltage left on a capacitor after a time on a resistor: V₀ exp(−t/RC).
 *
 * @param capacitance [F], > 0
 * @param resistance  [Ω], > 0
 * @param startVoltage [V], > 0
 * @param time        [s], ≥ 0
 * @throws {DomainError} on a value out of its bounds
 *
 * @example voltageAfter({ capacitance: 600e-6, resistance: 40e3, startVoltage: 800, time: 60 }) // 65.668
 */
export function voltageAfter({ capacitance, resistance, startVoltage, time }: VoltageAfterInputs): number {
  for (const [name, value] of Object.entries({ capacitance, resistance, startVoltage }))
    requirePositive('voltageAfter', name, value)
  requireNonNegative('voltageAfter', 'time', time)
  return startVoltage * Math.exp(-time / (resistance * capacitance))
}

export const voltageAfterMethod = defineMethod<
  VoltageAfterInputs,
  { readonly voltage: number; readonly energy: number; readonly timeConstant: number }
>({
  id: 'voltage-after',
  title: 'Voltage left on a capacitor after a time on a resistor',
  takes: {
    capacitance: { unit: 'F', about: 'of the link' },
    resistance: { unit: 'Ohm', about: 'discharge resistor' },
    startVoltage: { unit: 'V', about: 'at the start' },
    time: { unit: 's', about: 'since the start' },
  },
  gives: {
    voltage: { unit: 'V', print: 'V', about: 'left' },
    energy: { unit: 'J', print: 'J', about: 'left' },
    timeConstant: { unit: 's', print: 's', about: 'resistance times capacitance' },
  },
  caution: CAUTION,
  sources: ['exponential discharge (textbook)'],
  compute: (inputs) => {
    const voltage = voltageAfter(inputs)
    const { capacitance, resistance } = inputs
    return { voltage, energy: (capacitance * voltage ** 2) / 2, timeConstant: resistance * capacitance }
  },
})

export type DischargeResistorInputs = {
  capacitance: number
  startVoltage: number
  endVoltage: number
  time: number
}

/**
 * Largest resistor that brings a capacitor down within a time: R = t/(C ln(V₀/V₁)), and what it must stand.
 *
 * @param capacitance  [F], > 0
 * @param startVoltage [V], > endVoltage
 * @param endVoltage   [V], > 0
 * @param time         [s], > 0
 * @returns resistance [Ω], power while the link is held at the start voltage [W]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example dischargeResistor({ capacitance: 600e-6, startVoltage: 800, endVoltage: 60, time: 60 }).resistance // 38606
 */
export function dischargeResistor(inputs: DischargeResistorInputs): {
  readonly resistance: number
  readonly standingPower: number
} {
  const { capacitance, startVoltage, endVoltage, time } = inputs
  for (const [name, value] of Object.entries(inputs)) requirePositive('dischargeResistor', name, value)
  if (endVoltage >= startVoltage)
    throw new DomainError('dischargeResistor', 'endVoltage', endVoltage, 'below startVoltage')
  const resistance = time / (capacitance * Math.log(startVoltage / endVoltage))
  return { resistance, standingPower: startVoltage ** 2 / resistance }
}

export const dischargeResistorMethod = defineMethod<
  DischargeResistorInputs,
  { readonly resistance: number; readonly standingPower: number }
>({
  id: 'discharge-resistor',
  title: 'Resistor that discharges a capacitor within a time',
  takes: {
    capacitance: { unit: 'F', about: 'of the link' },
    startVoltage: { unit: 'V', about: 'at the start' },
    endVoltage: { unit: 'V', about: 'to be reached' },
    time: { unit: 's', about: 'allowed' },
  },
  gives: {
    resistance: { unit: 'Ohm', print: 'kOhm', about: 'largest that is quick enough' },
    standingPower: { unit: 'W', print: 'W', about: 'its loss while the link is at the start voltage' },
  },
  caution: CAUTION,
  sources: ['exponential discharge (textbook)'],
  compute: dischargeResistor,
})

export const dischargeMethods = [dischargeMethod, voltageAfterMethod, dischargeResistorMethod] as const
