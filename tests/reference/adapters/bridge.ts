import { bridgeLoss, bridgeOutput, channelBridgeLoss } from '../../../queries/physics/bridge-loss.ts'
import { channelConduction, diodePairConduction } from '../../../queries/physics/conduction-loss.ts'
import { gateDrive } from '../../../queries/physics/gate-drive.ts'
import { switchingLoss } from '../../../queries/physics/switching-loss.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { modulationOf, phaseCurrent } from './dc-link.ts'
import { answersBy, known, need, read } from './spelling.ts'

const FREQUENCY = ['switching_frequency', 'f_sw', 'frequency', 'carrier_frequency'] as const
const LINK = ['dc_voltage', 'link_voltage', 'voltage', 'V_dc'] as const

function gate(input: Case): Answers | undefined {
  const found = gateDrive({
    gateCharge: need(input, 'gate_charge', 'Q_g', 'charge'),
    voltageHigh: need(input, 'voltage_high', 'V_on', 'on_voltage', 'gate_voltage', 'swing'),
    voltageLow: read(input, 'voltage_low', 'V_off', 'off_voltage') ?? 0,
    switchingFrequency: need(input, ...FREQUENCY),
    ...known({
      gateResistance: read(input, 'gate_resistance', 'R_g', 'total_gate_resistance'),
      quiescentPower: read(input, 'quiescent_power', 'static_power'),
    }),
  })
  const count = read(input, 'switches', 'count', 'number_of_switches')
  return answersBy(input, {
    'power|P|power_per_switch|gate_drive_power': found.power,
    'average_current|current|I_avg': found.averageCurrent,
    'energy|energy_per_cycle|E': found.energy,
    'peak_current|I_peak': found.peakCurrent,
    'power_total|P_total|total_power': count === undefined ? undefined : count * found.power,
  })
}

const point = (input: Case) => ({
  phaseCurrent: phaseCurrent(input),
  modulationIndex: need(input, 'modulation_index', 'M'),
  powerFactor: need(input, 'power_factor', 'cos_phi', 'displacement_factor'),
  modulation: modulationOf(input),
})

/** Threshold and slope of both devices; those of the transistor stand for the diode's when it has none of its own. */
function devices(input: Case) {
  const switchThreshold = read(input, 'threshold_voltage', 'switch_threshold', 'transistor_threshold', 'V_ce0', 'V0')
  const switchSlope = read(input, 'slope_resistance', 'switch_slope', 'transistor_slope', 'r_ce', 'r')
  if (switchThreshold === undefined || switchSlope === undefined) return undefined
  const diodeThreshold = read(input, 'diode_threshold', 'diode_threshold_voltage', 'V_f0') ?? switchThreshold
  const diodeSlope = read(input, 'diode_slope', 'diode_slope_resistance', 'r_f') ?? switchSlope
  return { switchThreshold, switchSlope, diodeThreshold, diodeSlope }
}

function energies(input: Case) {
  const turnOnEnergy = read(input, 'E_on_ref', 'E_on', 'turn_on_energy')
  const turnOffEnergy = read(input, 'E_off_ref', 'E_off', 'turn_off_energy')
  if (turnOnEnergy === undefined && turnOffEnergy === undefined) return undefined
  return {
    turnOnEnergy: turnOnEnergy ?? 0,
    turnOffEnergy: turnOffEnergy ?? 0,
    referenceCurrent: need(input, 'current_ref', 'reference_current', 'I_ref'),
    referenceVoltage: need(input, 'voltage_ref', 'reference_voltage', 'V_ref'),
    linkVoltage: need(input, ...LINK),
    switchingFrequency: need(input, ...FREQUENCY),
    phaseCurrent: phaseCurrent(input),
    ...known({
      recoveryEnergy: read(input, 'E_rr_ref', 'E_rec_ref', 'E_rr', 'recovery_energy'),
      currentExponent: read(input, 'current_exponent', 'k_i'),
      voltageExponent: read(input, 'voltage_exponent', 'k_v'),
    }),
  }
}

const channel = (input: Case) => {
  const onResistance = read(input, 'on_resistance', 'R_on', 'R_ds_on')
  if (onResistance === undefined) return undefined
  return {
    onResistance,
    ...known({
      deadTime: read(input, 'dead_time'),
      switchingFrequency: read(input, ...FREQUENCY),
      diodeThreshold: read(input, 'diode_threshold', 'diode_voltage', 'body_diode_voltage'),
    }),
  }
}

const hasPoint = (input: Case): boolean =>
  read(input, 'modulation_index', 'M') !== undefined &&
  read(input, 'power_factor', 'cos_phi', 'displacement_factor') !== undefined

function losses(input: Case): Answers | undefined {
  return answersBy(input, { ...conduction(input), ...channels(input), ...switching(input), ...whole(input) })
}

function conduction(input: Case) {
  const pair = devices(input)
  if (!pair || !hasPoint(input)) return {}
  const found = diodePairConduction({ ...pair, ...point(input) })
  return {
    'P_switch|P_transistor|P_switch_conduction|switch_loss': found.switchLoss,
    'P_diode|P_diode_conduction|diode_loss': found.diodeLoss,
    'P_six_pairs|P_six|P_total|P_bridge|P_conduction': found.bridgeLoss,
  }
}

function channels(input: Case) {
  const one = channel(input)
  if (!one) return {}
  const found = channelConduction({ ...one, phaseCurrent: phaseCurrent(input) })
  return {
    'P_channel_total|P_channel|P_switch|P_per_switch': found.channelLoss,
    'P_dead_time|P_diode': found.deadTimeLoss,
    'P_six|P_total|P_bridge|P_conduction': found.bridgeLoss,
  }
}

function switching(input: Case) {
  const all = energies(input)
  if (!all) return {}
  const modulation = modulationOf(input)
  const found = switchingLoss({ ...all, ...(modulation === 'discontinuous' ? point(input) : {}) })
  const alone = devices(input) === undefined && channel(input) === undefined
  return {
    ...(alone
      ? {
          'P_switch|P_total_switch': found.switchLoss,
          'P_diode|P_recovery': found.diodeLoss,
          'P_six|P_total|P_bridge': found.bridgeLoss,
        }
      : {}),
    'P_switch_switching|P_sw': found.switchLoss,
    'P_diode_switching|P_rr': found.diodeLoss,
    'P_switching|P_switching_total': found.bridgeLoss,
  }
}

/** Everything together, where the case states it all. */
function whole(input: Case) {
  const linkVoltage = read(input, ...LINK)
  if (!hasPoint(input) || linkVoltage === undefined) return {}
  const outputPower = { 'P_out|output_power': bridgeOutput({ ...point(input), linkVoltage }) }
  const [pair, one, all] = [devices(input), channel(input), energies(input)]
  if (!all || (!pair && !one)) return outputPower
  const found = pair
    ? bridgeLoss({ ...pair, ...all, ...point(input) })
    : channelBridgeLoss({ ...one!, ...all, ...point(input) })
  return { ...outputPower, 'P_total|P_loss|total_loss': found.totalLoss, efficiency: found.efficiency }
}

export const bridgeAdapters: readonly Adapter[] = [
  { topics: ['gate-drive'], answer: gate },
  { topics: ['inverter-losses'], answer: losses },
]
