import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type GateDriveInputs = {
  gateCharge: number
  voltageHigh: number
  voltageLow: number
  switchingFrequency: number
  gateResistance?: number
  quiescentPower?: number
}

export type GateDrive = {
  readonly power: number
  readonly averageCurrent: number
  readonly energy: number
  readonly peakCurrent?: number
}

/**
 * Power to charge and discharge a gate: P = Q ΔV f, average supply current Q f, energy per cycle Q ΔV. All of it turns to
 * heat in driver and gate resistors. With a resistance the greatest current is ΔV/R, an upper limit that inductance and
 * the driver's own limit lower.
 *
 * @param gateCharge         for the whole swing from low to high, all dies of the switch together [C], ≥ 0
 * @param voltageHigh        on voltage [V], > voltageLow
 * @param voltageLow         off voltage [V], often negative
 * @param switchingFrequency [Hz], ≥ 0
 * @param gateResistance     whole loop: driver, outer and inner resistor [Ω], > 0, if known
 * @param quiescentPower     of the driver at rest [W], ≥ 0; 0 if left out
 * @returns power [W], average current [A], energy per cycle [J]; greatest current [A] only with a resistance
 * @throws {DomainError} on a value out of its bounds
 *
 * @example gateDrive({ gateCharge: 1.2e-6, voltageHigh: 18, voltageLow: -5, switchingFrequency: 20e3 }).power // 0.552
 */
export function gateDrive(inputs: GateDriveInputs): GateDrive {
  const { gateCharge, voltageHigh, voltageLow, switchingFrequency, gateResistance, quiescentPower = 0 } = inputs
  for (const [name, value] of Object.entries({ gateCharge, switchingFrequency, quiescentPower }))
    requireNonNegative('gateDrive', name, value)
  const swing = voltageHigh - voltageLow
  if (!(swing > 0 && Number.isFinite(swing)))
    throw new DomainError('gateDrive', 'voltageHigh', voltageHigh, 'above voltageLow')
  if (gateResistance !== undefined) requirePositive('gateDrive', 'gateResistance', gateResistance)
  const energy = gateCharge * swing
  return {
    power: energy * switchingFrequency + quiescentPower,
    averageCurrent: gateCharge * switchingFrequency,
    energy,
    ...(gateResistance === undefined ? {} : { peakCurrent: swing / gateResistance }),
  }
}

export const gateDriveMethod = defineMethod<GateDriveInputs, GateDrive>({
  id: 'gate-drive',
  title: 'Gate-drive power and current of one switch',
  takes: {
    gateCharge: { unit: 'C', about: 'for the whole swing, all dies of the switch together' },
    voltageHigh: { unit: 'V', about: 'on voltage' },
    voltageLow: { unit: 'V', about: 'off voltage, often negative' },
    switchingFrequency: { unit: 'Hz', about: 'switching cycles per second' },
    gateResistance: { unit: 'Ohm', optional: true, about: 'of the whole gate loop' },
    quiescentPower: { unit: 'W', optional: true, about: 'of the driver at rest; 0 if left out' },
  },
  gives: {
    power: { unit: 'W', print: 'W', about: 'from the isolated supply' },
    averageCurrent: { unit: 'A', print: 'mA', about: 'for the gate, from the supply' },
    energy: { unit: 'J', print: 'uJ', about: 'per switching cycle' },
    peakCurrent: { unit: 'A', print: 'A', about: 'upper limit; only where the resistance is given' },
  },
  caution: 'A gate driver of the high side is at lethal voltage: prove dead by local codes and licensed practice.',
  sources: ['charge balance of a gate (textbook); gate charge by IEC 60747-8'],
  compute: gateDrive,
})

export const gateDriveMethods = [gateDriveMethod] as const
