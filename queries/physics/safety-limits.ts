import { DomainError, defineMethod, requirePositive } from './method.ts'

const CAUTION =
  'Limits of regulations are for type approval, not for working on live parts: prove a unit dead by local codes and licensed practice.'

const REGULATION =
  'UN Regulation No. 100 (definitions, and isolation resistance of separate and of joined DC and AC buses)'

/** A limit with where it comes from: such figures differ between regulations and their amendments. */
export interface SafetyLimit {
  readonly value: number
  readonly unit: string
  readonly source: string
}

/** Limits of road-vehicle practice. A circuit is of voltage class B above the first two, up to the next two. */
export const SAFETY_LIMITS = {
  dcVoltage: { value: 60, unit: 'V', source: 'UN Regulation No. 100; ISO 6469-3, voltage class A up to 60 V DC' },
  acVoltage: { value: 30, unit: 'V', source: 'UN Regulation No. 100; ISO 6469-3, class A up to 30 V AC RMS' },
  dcUpper: { value: 1500, unit: 'V', source: 'UN Regulation No. 100, from memory' },
  acUpper: { value: 1000, unit: 'V', source: 'UN Regulation No. 100, RMS, from memory' },
  lowEnergy: {
    value: 0.2,
    unit: 'J',
    source: 'UN Regulations No. 94, 95 and 100, after an impact; from memory, and not the same in every regulation',
  },
  dcIsolation: { value: 100, unit: 'Ohm/V', source: 'UN Regulation No. 100, DC buses' },
  acIsolation: { value: 500, unit: 'Ohm/V', source: 'UN Regulation No. 100, AC buses' },
} as const satisfies Readonly<Record<string, SafetyLimit>>

/** Which buses share one isolation to the chassis. */
export const BUSES = ['dc', 'ac', 'joined', 'joined-protected'] as const
export type Bus = (typeof BUSES)[number]

export type IsolationInputs = { workingVoltage: number; bus: Bus }
export type Isolation = { readonly resistance: number; readonly current: number; readonly perVolt: number }

/**
 * Smallest isolation resistance to the chassis: 100 Ω/V of working voltage for a DC bus on its own, 500 Ω/V for an AC
 * bus and for DC and AC buses joined without separation, 100 Ω/V for joined buses when every AC bus has double or
 * robust protection beside. Working voltage is the highest in service.
 *
 * @param workingVoltage [V], > 0
 * @param bus            which of the four
 * @returns resistance [Ω], current that flows through it at that voltage [A], resistance per volt [Ω/V]
 * @throws {DomainError} on a voltage of zero or less
 *
 * @example isolationLimit({ workingVoltage: 800, bus: 'dc' }).resistance // 80000
 */
export function isolationLimit({ workingVoltage, bus }: IsolationInputs): Isolation {
  requirePositive('isolationLimit', 'workingVoltage', workingVoltage)
  if (!BUSES.includes(bus)) throw new DomainError('isolationLimit', 'bus', bus, BUSES.join(', '))
  const low = bus === 'dc' || bus === 'joined-protected'
  const perVolt = low ? SAFETY_LIMITS.dcIsolation.value : SAFETY_LIMITS.acIsolation.value
  return { resistance: perVolt * workingVoltage, current: 1 / perVolt, perVolt }
}

export const isolationLimitMethod = defineMethod<IsolationInputs, Isolation>({
  id: 'isolation-limit',
  title: 'Smallest permitted isolation resistance of a high-voltage bus',
  takes: {
    workingVoltage: { unit: 'V', about: 'highest voltage in service; RMS on an AC bus' },
    bus: { words: BUSES, about: 'joined: DC and AC without separation; protected: every AC bus doubly guarded' },
  },
  gives: {
    resistance: { unit: 'Ohm', print: 'kOhm', about: 'smallest permitted, to the chassis' },
    current: { unit: 'A', print: 'mA', about: 'through it at the working voltage' },
    perVolt: { unit: 'Ohm/V', print: 'Ohm/V', about: 'per volt of working voltage' },
  },
  valid: { workingVoltage: [0, SAFETY_LIMITS.dcUpper.value] },
  caution: CAUTION,
  sources: [REGULATION],
  compute: isolationLimit,
})

export type LowEnergyInputs = { capacitance: number; energyLimit?: number }
export type LowEnergy = {
  readonly voltage: number
  readonly energyAtTouchVoltage: number
  readonly energyLimit: number
}

/**
 * Voltage at which a capacitor holds no more than the low-energy limit, √(2E/C), and the energy it still holds at
 * 60 V. The two criteria are different: a large link at 60 V is far above 0.2 J.
 *
 * @param capacitance [F], > 0
 * @param energyLimit [J], > 0; 0.2 J if left out
 * @throws {DomainError} on a value of zero or less
 *
 * @example lowEnergyVoltage({ capacitance: 500e-6 }) // { voltage: 28.284, energyAtTouchVoltage: 0.9, energyLimit: 0.2 }
 */
export function lowEnergyVoltage(inputs: LowEnergyInputs): LowEnergy {
  const { capacitance, energyLimit = SAFETY_LIMITS.lowEnergy.value } = inputs
  requirePositive('lowEnergyVoltage', 'capacitance', capacitance)
  requirePositive('lowEnergyVoltage', 'energyLimit', energyLimit)
  return {
    voltage: Math.sqrt((2 * energyLimit) / capacitance),
    energyAtTouchVoltage: (capacitance * SAFETY_LIMITS.dcVoltage.value ** 2) / 2,
    energyLimit,
  }
}

export const lowEnergyMethod = defineMethod<LowEnergyInputs, LowEnergy>({
  id: 'low-energy',
  title: 'Voltage at which a capacitor holds the low-energy limit',
  takes: {
    capacitance: { unit: 'F', about: 'seen between the rails' },
    energyLimit: { unit: 'J', optional: true, about: '0.2 J if left out; state the regulation meant' },
  },
  gives: {
    voltage: { unit: 'V', print: 'V', about: 'at which that much is stored' },
    energyAtTouchVoltage: { unit: 'J', print: 'J', about: 'stored at 60 V' },
    energyLimit: { unit: 'J', print: 'J', about: 'the limit used' },
  },
  caution: CAUTION,
  sources: [SAFETY_LIMITS.lowEnergy.source, 'energy of a capacitor, ½ C V²'],
  compute: lowEnergyVoltage,
})

export type VoltageClassInputs = { voltage: number; kind: 'dc' | 'ac' }
export type VoltageClass = { readonly classB: boolean; readonly limit: number; readonly upper: number }

/**
 * Whether a circuit is "high voltage" (voltage class B) in a road vehicle: above 60 V DC or 30 V AC RMS. A voltage equal
 * to the limit is not.
 *
 * @param voltage working voltage [V], ≥ 0, RMS for AC
 * @param kind    dc or ac
 * @returns the verdict, the limit it starts above and the upper end of the class [V]
 * @throws {DomainError} on a negative voltage or one that is not finite
 *
 * @example voltageClass({ voltage: 48, kind: 'dc' }).classB // false
 */
export function voltageClass({ voltage, kind }: VoltageClassInputs): VoltageClass {
  if (!(voltage >= 0 && Number.isFinite(voltage))) throw new DomainError('voltageClass', 'voltage', voltage, '≥ 0')
  const limit = kind === 'dc' ? SAFETY_LIMITS.dcVoltage.value : SAFETY_LIMITS.acVoltage.value
  const upper = kind === 'dc' ? SAFETY_LIMITS.dcUpper.value : SAFETY_LIMITS.acUpper.value
  return { classB: voltage > limit, limit, upper }
}

export const voltageClassMethod = defineMethod<VoltageClassInputs, VoltageClass>({
  id: 'voltage-class',
  title: 'Whether a circuit is high voltage (voltage class B) in a road vehicle',
  takes: {
    voltage: { unit: 'V', about: 'working voltage; RMS for AC' },
    kind: { words: ['dc', 'ac'], about: 'direct or alternating' },
  },
  gives: {
    classB: { unit: '1', print: '1', about: 'true above the limit: high voltage' },
    limit: { unit: 'V', print: 'V', about: 'above which the class begins' },
    upper: { unit: 'V', print: 'V', about: 'to which the class reaches' },
  },
  caution: CAUTION,
  sources: [SAFETY_LIMITS.dcVoltage.source, SAFETY_LIMITS.acVoltage.source],
  compute: voltageClass,
})

export const safetyLimitMethods = [isolationLimitMethod, lowEnergyMethod, voltageClassMethod] as const
