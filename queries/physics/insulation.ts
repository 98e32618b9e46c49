import {
  ALTITUDE,
  CLEARANCE,
  CLEARANCE_FLOOR,
  CREEPAGE,
  PREFERRED_IMPULSE,
  RATED_IMPULSE,
  TABLE_SOURCES,
} from './insulation-tables.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION =
  'Distances of a standard are a floor for design, not a licence to touch: product standards may ask for more, and a unit ' +
  'is proved dead by local codes and licensed practice.'

const MILLIMETRE = 1e-3

export const MATERIAL_GROUPS = ['I', 'II', 'IIIa', 'IIIb'] as const
export type MaterialGroup = (typeof MATERIAL_GROUPS)[number]
export const INSULATIONS = ['functional', 'basic', 'supplementary', 'reinforced'] as const
export type Insulation = (typeof INSULATIONS)[number]

/** Materials by comparative tracking index (IEC 60112): I from 600, II from 400, IIIa from 175, IIIb from 100. */
export function materialGroupOf(trackingIndex: number): MaterialGroup {
  if (!(trackingIndex >= 100 && trackingIndex < 1e4))
    throw new DomainError('materialGroupOf', 'trackingIndex', trackingIndex, '≥ 100 V: below no material is rated')
  return trackingIndex >= 600 ? 'I' : trackingIndex >= 400 ? 'II' : trackingIndex >= 175 ? 'IIIa' : 'IIIb'
}

export type CreepageInputs = {
  voltage: number
  pollutionDegree: number
  materialGroup: MaterialGroup
  insulation?: Insulation
  printedWiring?: 'yes' | 'no'
}

/**
 * Required creepage distance by IEC 60664-1, from the RMS voltage that stands in service (direct voltage counts as it
 * is). Linear interpolation between rows, which the standard allows for creepage; a voltage on a row takes that row,
 * below 10 V the first. Reinforced insulation takes twice the basic distance. Altitude does not enter. Material group III
 * of the table is IIIa and IIIb; IIIb is not for pollution degree 3 above 630 V, nor for the printed-wiring columns.
 *
 * @param voltage         RMS [V], > 0, to 10 kV
 * @param pollutionDegree 1, 2 or 3
 * @param materialGroup   I, II, IIIa or IIIb
 * @param insulation      functional, basic, supplementary (alike) or reinforced; basic if left out
 * @param printedWiring   yes: the narrower columns for printed wiring, degrees 1 and 2, to 1000 V; no if left out
 * @returns [m]
 * @throws {DomainError} on what the table does not hold
 *
 * @example requiredCreepage({ voltage: 450, pollutionDegree: 2, materialGroup: 'IIIa' }) // 4.5e-3
 */
export function requiredCreepage(inputs: CreepageInputs): number {
  const { voltage, insulation = 'basic' } = inputs
  requirePositive('requiredCreepage', 'voltage', voltage)
  const column = creepageColumn(inputs)
  const rows = CREEPAGE.filter((row) => row.length > column)
  const last = rows.at(-1)!
  if (voltage > last[0]!) throw new DomainError('requiredCreepage', 'voltage', voltage, `≤ ${last[0]} V in this column`)
  const above = rows.findIndex((row) => row[0]! >= voltage)
  const [high, low] = [rows[above]!, rows[Math.max(above - 1, 0)]!]
  const share = high === low ? 1 : (voltage - low[0]!) / (high[0]! - low[0]!)
  const basic = low[column]! + Math.max(share, 0) * (high[column]! - low[column]!)
  return MILLIMETRE * basic * (insulation === 'reinforced' ? 2 : 1)
}

function creepageColumn({ voltage, pollutionDegree, materialGroup, printedWiring = 'no' }: CreepageInputs): number {
  const degree = (allowed: readonly number[]) => {
    if (!allowed.includes(pollutionDegree))
      throw new DomainError('requiredCreepage', 'pollutionDegree', pollutionDegree, allowed.join(', '))
  }
  if (!MATERIAL_GROUPS.includes(materialGroup))
    throw new DomainError('requiredCreepage', 'materialGroup', materialGroup, MATERIAL_GROUPS.join(', '))
  if (printedWiring === 'yes') {
    degree([1, 2])
    if (materialGroup === 'IIIb' && pollutionDegree === 2)
      throw new DomainError('requiredCreepage', 'materialGroup', materialGroup, 'I, II or IIIa for printed wiring')
    return 7 + pollutionDegree
  }
  degree([1, 2, 3])
  if (materialGroup === 'IIIb' && pollutionDegree === 3 && voltage > 630)
    throw new DomainError('requiredCreepage', 'materialGroup', materialGroup, 'I, II or IIIa in degree 3 above 630 V')
  const group = materialGroup === 'I' ? 0 : materialGroup === 'II' ? 1 : 2
  return pollutionDegree === 1 ? 1 : 2 + 3 * (pollutionDegree - 2) + group
}

/**
 * Factor on clearances above 2000 m, by the thinner air. Linear between the rows of the table: the curve is hollow, so
 * that lies on the safe side. 1 up to 2000 m.
 *
 * @param altitude [m], ≥ 0, to 20 km
 * @throws {DomainError} on an altitude out of its bounds
 *
 * @example altitudeFactor(5000) // 1.48
 */
export function altitudeFactor(altitude: number): number {
  requireNonNegative('altitudeFactor', 'altitude', altitude)
  if (altitude > 20_000) throw new DomainError('altitudeFactor', 'altitude', altitude, '≤ 20 000 m')
  const above = ALTITUDE.findIndex(([one]) => one >= altitude)
  if (above === 0) return 1
  const [[low, from], [high, to]] = [ALTITUDE[above - 1]!, ALTITUDE[above]!]
  return from + ((to - from) * (altitude - low)) / (high - low)
}

export type ClearanceInputs = {
  impulseVoltage: number
  pollutionDegree: number
  altitude?: number
  insulation?: Insulation
  field?: 'inhomogeneous' | 'homogeneous'
}

/**
 * Required clearance by IEC 60664-1, from the impulse voltage that must be withstood. A voltage between rows takes the
 * row above: the standard gives preferred steps, no interpolation is used. Not less than the floor of the pollution
 * degree; times the altitude factor. Reinforced insulation takes the next preferred impulse voltage, or 1.6 times one
 * that is not preferred. Steady or recurring peaks may ask for more.
 *
 * @param impulseVoltage  peak [V], > 0
 * @param pollutionDegree 1 … 4
 * @param altitude        [m], ≥ 0; up to 2000 m if left out
 * @param insulation      functional, basic, supplementary (alike) or reinforced; basic if left out
 * @param field           homogeneous only where shape is proved by test; inhomogeneous if left out
 * @returns [m]
 * @throws {DomainError} on what the table does not hold
 *
 * @example requiredClearance({ impulseVoltage: 2500, pollutionDegree: 2, altitude: 5000 }) // 2.22e-3
 */
export function requiredClearance(inputs: ClearanceInputs): number {
  const { impulseVoltage, pollutionDegree, altitude = 0, insulation = 'basic', field = 'inhomogeneous' } = inputs
  requirePositive('requiredClearance', 'impulseVoltage', impulseVoltage)
  if (![1, 2, 3, 4].includes(pollutionDegree))
    throw new DomainError('requiredClearance', 'pollutionDegree', pollutionDegree, '1, 2, 3 or 4')
  const withstood = insulation === 'reinforced' ? reinforcedImpulse(impulseVoltage) : impulseVoltage
  const row = CLEARANCE.find(([voltage]) => voltage >= withstood * (1 - 1e-9))
  if (!row) throw new DomainError('requiredClearance', 'impulseVoltage', withstood, '≤ 100 kV')
  const plain = Math.max(row[field === 'homogeneous' ? 2 : 1], CLEARANCE_FLOOR[pollutionDegree as 1 | 2 | 3 | 4])
  return MILLIMETRE * plain * altitudeFactor(altitude)
}

/** Impulse voltage that reinforced insulation is dimensioned for. */
export function reinforcedImpulse(impulseVoltage: number): number {
  const step = PREFERRED_IMPULSE.indexOf(impulseVoltage)
  return step === -1 ? 1.6 * impulseVoltage : (PREFERRED_IMPULSE[step + 1] ?? 1.6 * impulseVoltage)
}

export type RatedImpulseInputs = { voltage: number; overvoltageCategory: number }

/**
 * Rated impulse voltage of equipment fed from the mains by IEC 60664-1: the row of the voltage line to neutral or the one
 * above, by overvoltage category. A vehicle's own DC network is no mains: there the impulse is measured or agreed.
 *
 * @param voltage             line to neutral, AC RMS or DC [V], > 0, to 1000 V
 * @param overvoltageCategory 1 … 4
 * @returns [V]
 * @throws {DomainError} on what the table does not hold
 *
 * @example ratedImpulse({ voltage: 230, overvoltageCategory: 2 }) // 2500
 */
export function ratedImpulse({ voltage, overvoltageCategory }: RatedImpulseInputs): number {
  requirePositive('ratedImpulse', 'voltage', voltage)
  if (![1, 2, 3, 4].includes(overvoltageCategory))
    throw new DomainError('ratedImpulse', 'overvoltageCategory', overvoltageCategory, '1, 2, 3 or 4')
  const row = RATED_IMPULSE.find(([upTo]) => upTo >= voltage)
  if (!row) throw new DomainError('ratedImpulse', 'voltage', voltage, '≤ 1000 V')
  return row[overvoltageCategory as 1 | 2 | 3 | 4]
}

const INSULATION_TAKES = { words: INSULATIONS, optional: true, about: 'basic if left out' } as const

export const creepageMethod = defineMethod<CreepageInputs, { readonly creepage: number }>({
  id: 'required-creepage',
  title: 'Required creepage distance by IEC 60664-1',
  takes: {
    voltage: { unit: 'V', about: 'RMS, in service' },
    pollutionDegree: { unit: '1', about: '1, 2 or 3' },
    materialGroup: { words: MATERIAL_GROUPS, about: 'by comparative tracking index' },
    insulation: INSULATION_TAKES,
    printedWiring: { words: ['yes', 'no'], optional: true, about: 'columns for printed wiring; no if left out' },
  },
  gives: { creepage: { unit: 'm', print: 'mm', about: 'least distance along the surface' } },
  caution: CAUTION,
  sources: [TABLE_SOURCES.creepage],
  compute: (inputs) => ({ creepage: requiredCreepage(inputs) }),
})

export const clearanceMethod = defineMethod<
  ClearanceInputs,
  { readonly clearance: number; readonly altitudeFactor: number }
>({
  id: 'required-clearance',
  title: 'Required clearance by IEC 60664-1',
  takes: {
    impulseVoltage: { unit: 'V', about: 'impulse withstand voltage, peak' },
    pollutionDegree: { unit: '1', about: '1 … 4' },
    altitude: { unit: 'm', optional: true, about: 'of use; up to 2000 m if left out' },
    insulation: INSULATION_TAKES,
    field: { words: ['inhomogeneous', 'homogeneous'], optional: true, about: 'inhomogeneous if left out' },
  },
  gives: {
    clearance: { unit: 'm', print: 'mm', about: 'least distance in air' },
    altitudeFactor: { unit: '1', print: '1', about: 'that is in it' },
  },
  caution: CAUTION,
  sources: [TABLE_SOURCES.clearance, TABLE_SOURCES.altitude],
  compute: (inputs) => ({
    clearance: requiredClearance(inputs),
    altitudeFactor: altitudeFactor(inputs.altitude ?? 0),
  }),
})

export const ratedImpulseMethod = defineMethod<RatedImpulseInputs, { readonly impulseVoltage: number }>({
  id: 'rated-impulse',
  title: 'Rated impulse voltage by IEC 60664-1',
  takes: {
    voltage: { unit: 'V', about: 'line to neutral, AC RMS or DC' },
    overvoltageCategory: { unit: '1', about: '1 … 4' },
  },
  gives: { impulseVoltage: { unit: 'V', print: 'kV', about: 'peak' } },
  caution: CAUTION,
  sources: [TABLE_SOURCES.impulse],
  compute: (inputs) => ({ impulseVoltage: ratedImpulse(inputs) }),
})

export const insulationMethods = [creepageMethod, clearanceMethod, ratedImpulseMethod] as const
