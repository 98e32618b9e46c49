import {
  capacitancePerPower,
  capacitorNetwork,
  evenBank,
  seriesString,
  storedEnergy,
} from '../../../queries/physics/capacitor-bank.ts'
import { capacitorShares } from '../../../queries/physics/capacitor-share.ts'
import { discharge, dischargeResistor, voltageAfter } from '../../../queries/physics/discharge.ts'
import {
  isolationLimit,
  lowEnergyVoltage,
  SAFETY_LIMITS,
  voltageClass,
} from '../../../queries/physics/safety-limits.ts'
import type { Adapter, Answer, Answers, Case, CaseValue } from '../case.ts'
import { siOf } from './inputs.ts'
import { answersBy, known, need, read, readList, story } from './spelling.ts'

const VOLTAGE = [
  'bank_voltage',
  'voltage',
  'link_voltage',
  'dc_voltage',
  'V',
  'total_voltage',
  'string_voltage',
] as const

function bank(input: Case): Answers | undefined {
  const branches = Object.values(input.inputs).find(isBranches)
  if (branches) return network(input, branches)
  const list = readList(input, 'capacitances', 'capacitance_list', 'capacitors', 'C')
  if (list) return unequal(input, list)
  const power = read(input, 'rated_power', 'power', 'peak_power')
  if (power !== undefined) return perPower(input, power)
  const capacitance = need(input, 'capacitance_each', 'capacitance', 'C_each', 'C')
  const found = evenBank({
    capacitance,
    series: read(input, 'series', 'in_series', 'n_series') ?? 1,
    parallel: read(input, 'parallel', 'in_parallel', 'n_parallel', 'strings', 'count') ?? 1,
    voltage: read(input, ...VOLTAGE) ?? 0,
    ...known({
      resistance: read(input, 'esr_each', 'resistance_each', 'esr'),
      inductance: read(input, 'esl_each', 'inductance_each', 'esl'),
    }),
  })
  return answersBy(input, {
    'C|capacitance|C_bank|C_eq|C_total': found.capacitance,
    'ESR|resistance|ESR_bank': found.resistance,
    'ESL|inductance|ESL_bank': found.inductance,
    'V_each|voltage_each': found.voltageEach,
    'energy|E|energy_total|stored_energy': found.energy,
  })
}

function perPower(input: Case, power: number): Answers | undefined {
  const capacitance = need(input, 'capacitance', 'C')
  const found = capacitancePerPower({ capacitance, voltage: need(input, ...VOLTAGE), power })
  return answersBy(input, {
    'C_per_power|capacitance_per_power|C_per_kW': found.capacitancePerPower,
    'energy|E|stored_energy': found.energy,
    'energy_per_power|energy_per_kW': found.energyPerPower,
  })
}

type Branch = Readonly<Record<string, unknown>>

const isBranches = (found: unknown): found is readonly Branch[] =>
  Array.isArray(found) && found.length > 0 && typeof found[0] === 'object' && 'from' in found[0] && 'to' in found[0]

function network(input: Case, branches: readonly Branch[]): Answers | undefined {
  const rail = (names: RegExp, instead: string): string =>
    String(
      Object.entries(input.inputs).find(([key, value]) => names.test(key) && typeof value !== 'object')?.[1] ?? instead,
    )
  const voltage = read(input, ...VOLTAGE) ?? 1
  const found = capacitorNetwork({
    capacitors: branches.map((one) => ({
      from: String(one.from),
      to: String(one.to),
      capacitance: siOf((one.capacitance ?? one.C) as CaseValue),
    })),
    plusRail: rail(/plus|positive|rail_?a/i, '+'),
    minusRail: rail(/minus|negative|rail_?b/i, '-'),
    voltage,
  })
  return answersBy(input, {
    'C|C_eq|capacitance': found.capacitance,
    'energy|E': found.energy,
    ...numbered('V', found.voltages),
    voltages: found.voltages,
  })
}

const numbered = (name: string, values: readonly number[]): Record<string, Answer> =>
  Object.fromEntries(values.map((value, i) => [`${name}_${i + 1}`, value]))

function unequal(input: Case, capacitance: readonly number[]): Answers | undefined {
  const frequency = read(input, 'frequency', 'ripple_frequency')
  if (frequency !== undefined) {
    const found = capacitorShares({
      frequency,
      capacitance,
      ...known({
        resistance: readList(input, 'esrs', 'esr', 'resistances'),
        inductance: readList(input, 'esls', 'esl', 'inductances'),
      }),
    })
    const total = read(input, 'ripple_current', 'current', 'total_current')
    return answersBy(input, {
      shares: found.shares,
      ...numbered('share', found.shares),
      ...(total === undefined
        ? {}
        : numbered(
            'I',
            found.shares.map((share) => share * total),
          )),
      'impedance|Z': found.impedance,
      resonances: found.resonances,
      ...numbered('f', found.resonances),
    })
  }
  const voltage = read(input, ...VOLTAGE) ?? 0
  if (/parallel/.test(story(input)) && !/series|string/.test(story(input))) {
    const sum = capacitance.reduce((all, one) => all + one, 0)
    return answersBy(input, { 'C|C_eq|capacitance': sum, 'energy|E': storedEnergy({ capacitance: sum, voltage }) })
  }
  const resistance = readList(input, 'balancing_resistances', 'resistances', 'leakage_resistances')
  const found = seriesString({ capacitance, voltage, ...known({ resistance }) })
  return answersBy(input, {
    'C|C_eq|capacitance': found.capacitance,
    'energy|E': storedEnergy({ capacitance: found.capacitance, voltage }),
    voltages: found.quickVoltages,
    ...numbered('V', found.quickVoltages),
    ...numbered('V_resting', found.restingVoltages ?? []),
  })
}

function discharging(input: Case): Answers | undefined {
  const capacitance = need(input, 'capacitance', 'C')
  const startVoltage = need(input, 'start_voltage', 'initial_voltage', 'V0', 'V_start', 'voltage')
  const endVoltage = read(input, 'end_voltage', 'final_voltage', 'V1', 'V_end', 'target_voltage')
  const resistance = read(input, 'resistance', 'R', 'bleed_resistance', 'discharge_resistance')
  const time = read(input, 'time', 't', 'time_limit', 'allowed_time')
  if (time !== undefined && resistance !== undefined) {
    const voltage = voltageAfter({ capacitance, resistance, startVoltage, time })
    return answersBy(input, {
      'voltage|V|V_end|end_voltage': voltage,
      'energy|E|energy_left': storedEnergy({ capacitance, voltage }),
      'time_constant|tau': resistance * capacitance,
    })
  }
  if (time !== undefined) {
    const found = dischargeResistor({ capacitance, startVoltage, endVoltage: endVoltage ?? 60, time })
    return answersBy(input, {
      'resistance|R|R_max': found.resistance,
      'standing_power|continuous_power|peak_power|power': found.standingPower,
    })
  }
  const load = known({
    resistance,
    power: read(input, 'power', 'P', 'load_power'),
    current: read(input, 'current', 'I', 'load_current'),
  })
  const found = discharge({ capacitance, startVoltage, endVoltage: endVoltage ?? 60, ...load })
  return answersBy(input, {
    'time|t|discharge_time': found.time,
    'peak_power|P_peak|initial_power': found.peakPower,
    'energy|energy_removed|E|dissipated_energy': found.energyRemoved,
    'energy_left|remaining_energy': found.energyLeft,
    'initial_energy|stored_energy|energy_start': found.energyRemoved + found.energyLeft,
    'time_constant|tau': resistance === undefined ? undefined : resistance * capacitance,
  })
}

function limits(input: Case): Answers | undefined {
  const workingVoltage = read(input, 'working_voltage', 'voltage', 'bus_voltage')
  const capacitance = read(input, 'capacitance', 'C')
  if (capacitance !== undefined) return energyLimits(input, capacitance)
  if (workingVoltage === undefined) {
    return answersBy(input, {
      'dc_limit|dc_lower': SAFETY_LIMITS.dcVoltage.value,
      'ac_rms_limit|ac_limit|ac_lower': SAFETY_LIMITS.acVoltage.value,
      dc_upper: SAFETY_LIMITS.dcUpper.value,
      'ac_upper|ac_rms_upper': SAFETY_LIMITS.acUpper.value,
      low_energy_limit: SAFETY_LIMITS.lowEnergy.value,
    })
  }
  const at = (bus: Parameters<typeof isolationLimit>[0]['bus']) => isolationLimit({ workingVoltage, bus })
  const own = at(busOf(story(input)))
  const kind = /\bac\b/.test(story(input)) && !/\bdc\b/.test(story(input)) ? 'ac' : 'dc'
  return answersBy(input, {
    'R_min|resistance|isolation_resistance': own.resistance,
    'current_at_limit|current': own.current,
    'per_volt|ohm_per_volt': own.perVolt,
    'R_min_dc|R_dc': at('dc').resistance,
    'R_min_ac|R_ac': at('ac').resistance,
    'R_min_without_extra_protection|R_min_combined|R_combined': at('joined').resistance,
    'R_min_with_extra_protection|R_combined_protected': at('joined-protected').resistance,
    'high_voltage|voltage_class_b|class_b': voltageClass({ voltage: workingVoltage, kind }).classB,
  })
}

function busOf(about: string): Parameters<typeof isolationLimit>[0]['bus'] {
  if (/dc only|separate from ac|dc bus|of a dc/.test(about)) return 'dc'
  if (/connected|combined|joined/.test(about))
    return /without/.test(about) || !/protect/.test(about) ? 'joined' : 'joined-protected'
  return /\bac\b/.test(about) ? 'ac' : 'dc'
}

function energyLimits(input: Case, capacitance: number): Answers | undefined {
  const energyLimit = read(input, 'energy_limit', 'limit')
  const found = lowEnergyVoltage({ capacitance, ...known({ energyLimit }) })
  const voltage = read(input, 'voltage', 'working_voltage', 'link_voltage')
  const energy = voltage === undefined ? undefined : storedEnergy({ capacitance, voltage })
  return answersBy(input, {
    'voltage|V|voltage_at_limit|safe_voltage': found.voltage,
    'energy_at_60V|energy_60V': found.energyAtTouchVoltage,
    'energy|E|stored_energy': energy,
    'below_limit|low_energy': energy === undefined ? undefined : energy < found.energyLimit,
  })
}

export const capacitorAdapters: readonly Adapter[] = [
  { topics: ['capacitor-bank'], answer: bank },
  { topics: ['discharge'], answer: discharging },
  { topics: ['safety-limits'], answer: limits },
]
