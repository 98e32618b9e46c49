import { chopperCapacitors, chopperRippleVoltage, inductorRipple } from '../../../queries/physics/chopper.ts'
import { bulkRipple, linkMeanCurrent, linkRippleCurrent, worstLinkRipple } from '../../../queries/physics/dc-link.ts'
import { linkChargeSwing, linkRippleVoltage, type Modulation } from '../../../queries/physics/link-modulation.ts'
import type { Adapter, Answers, Case } from '../case.ts'
import { answersBy, need, read, story, text } from './spelling.ts'

/** RMS phase current, from whichever of peak and RMS is given. */
export function phaseCurrent(input: Case): number {
  const peak = read(input, 'phase_current_peak', 'peak_phase_current', 'peak_current', 'current_peak', 'I_peak')
  return peak === undefined
    ? need(input, 'phase_current_rms', 'phase_current', 'current_rms', 'I_rms')
    : peak / Math.SQRT2
}

/** Zero sequence by the names in use; sinusoidal when the case names none. */
export function modulationOf(input: Case): Modulation {
  const name = `${text(input, 'modulation', 'pwm', 'modulation_scheme', 'zero_sequence')} ${story(input)}`
  if (/discontin|dpwm|clamp/.test(name)) return 'discontinuous'
  if (/space.?vector|svpwm|svm|min.?max/.test(name)) return 'space-vector'
  return /third|sixth/.test(name) ? 'third-harmonic' : 'sinusoidal'
}

const operatingPoint = (input: Case) => ({
  phaseCurrent: phaseCurrent(input),
  modulationIndex: need(input, 'modulation_index', 'M', 'm'),
  powerFactor: powerFactor(input),
})

function powerFactor(input: Case): number {
  const angle = read(input, 'displacement_angle', 'phi', 'phase_angle')
  return angle === undefined ? need(input, 'power_factor', 'cos_phi', 'displacement_factor') : Math.cos(angle)
}

function current(input: Case): Answers | undefined {
  if (read(input, 'duty', 'duty_cycle', 'D') !== undefined || /buck|boost/.test(story(input))) return chopper(input)
  if (read(input, 'line_frequency', 'mains_frequency') !== undefined) return bulk(input)
  if (read(input, 'modulation_index', 'M') === undefined) {
    const limit = read(input, 'modulation_limit', 'modulation_index_max')
    const worst = worstLinkRipple({
      powerFactor: powerFactor(input),
      ...(limit === undefined ? {} : { modulationLimit: limit }),
    })
    return answersBy(input, {
      'ratio_max|ratio|worst_ratio': worst.ratio,
      'modulation_index|M|modulation_index_at_max': worst.modulationIndex,
    })
  }
  const point = operatingPoint(input)
  return answersBy(input, {
    'I_capacitor_rms|I_cap_rms|I_C|I_rms|capacitor_current|ripple_current': linkRippleCurrent(point),
    'I_dc_average|I_dc|I_dc_mean|mean_current|dc_current': linkMeanCurrent(point),
    'ratio|ratio_to_phase_rms': linkRippleCurrent({ ...point, phaseCurrent: 1 }),
  })
}

function ripple(input: Case): Answers | undefined {
  if (read(input, 'line_frequency', 'mains_frequency') !== undefined) return bulk(input)
  if (read(input, 'duty', 'duty_cycle', 'D') !== undefined) return chopper(input)
  const point = { ...operatingPoint(input), modulation: modulationOf(input) }
  const link = {
    capacitance: need(input, 'capacitance', 'C'),
    switchingFrequency: need(input, 'switching_frequency', 'carrier_frequency', 'f_sw'),
  }
  return answersBy(input, {
    'V_ripple_pp|ripple_pp|V_pp|ripple_voltage': linkRippleVoltage({ ...point, ...link }),
    'charge_swing|Q_pp': linkChargeSwing(point) / link.switchingFrequency,
    'I_capacitor_rms|I_cap_rms': linkRippleCurrent(point),
    'I_dc_average|I_dc': linkMeanCurrent(point),
  })
}

function bulk(input: Case): Answers | undefined {
  const found = bulkRipple({
    power: need(input, 'power', 'P', 'output_power'),
    linkVoltage: need(input, 'dc_voltage', 'voltage', 'link_voltage', 'bus_voltage'),
    lineFrequency: need(input, 'line_frequency', 'mains_frequency'),
    capacitance: need(input, 'capacitance', 'C'),
  })
  return answersBy(input, {
    'V_ripple_pp|ripple_pp|V_pp': found.rippleVoltage,
    'V_ripple_pp_exact|V_pp_exact': found.highest - found.lowest,
    'I_low_frequency_rms|I_rms|I_capacitor_rms': found.rippleCurrent,
    'V_max|highest': found.highest,
    'V_min|lowest': found.lowest,
  })
}

/** Buck or boost, and on which side the capacitor asked about stands. */
function chopper(input: Case): Answers | undefined {
  const stage = /boost/.test(story(input)) ? 'boost' : 'buck'
  const duty = dutyOf(input, stage)
  const output = read(input, 'output_current', 'I_out', 'load_current')
  const inductor = read(input, 'inductor_current', 'I_L', ...(stage === 'boost' ? ['input_current', 'I_in'] : []))
  const inductorCurrent = inductor ?? (stage === 'boost' ? output! / (1 - duty) : output!)
  const given = read(input, 'inductor_ripple_pp', 'inductor_ripple', 'ripple_pp', 'current_ripple_pp')
  const inputs = { stage, duty, inductorCurrent, inductorRipple: given ?? rippleOf(input) } as const
  const side = stage === 'buck' ? 'output' : 'input'
  const onInductor = new RegExp(`${side}[ _-]?(side )?cap`).test(story(input))
  const currents = chopperCapacitors(inputs)
  const [capacitance, switchingFrequency] = [
    read(input, 'capacitance', 'C'),
    read(input, 'switching_frequency', 'f_sw'),
  ]
  const voltages =
    capacitance && switchingFrequency ? chopperRippleVoltage({ ...inputs, capacitance, switchingFrequency }) : undefined
  const [buckIn, buckOut] = stage === 'buck' ? ['input', 'output'] : ['output', 'input']
  return answersBy(input, {
    'I_capacitor_rms|I_cap_rms|I_C': onInductor ? currents.inductorSideRipple : currents.switchedSideRipple,
    [`I_${buckIn}_capacitor_rms|I_${buckIn}_cap_rms`]: currents.switchedSideRipple,
    [`I_${buckOut}_capacitor_rms|I_${buckOut}_cap_rms`]: currents.inductorSideRipple,
    'V_ripple_pp|ripple_pp': onInductor ? voltages?.inductorSide : voltages?.switchedSide,
    'inductor_ripple_pp|ripple_current_pp': inputs.inductorRipple,
    duty,
  })
}

function dutyOf(input: Case, stage: 'buck' | 'boost'): number {
  const given = read(input, 'duty', 'duty_cycle', 'D')
  if (given !== undefined) return given
  const [from, to] = [need(input, 'input_voltage', 'V_in'), need(input, 'output_voltage', 'V_out')]
  return stage === 'buck' ? to / from : 1 - from / to
}

/** Inductor ripple from voltages, inductance and frequency; none when the case states nothing of it. */
function rippleOf(input: Case): number {
  const [from, to] = [read(input, 'input_voltage', 'V_in'), read(input, 'output_voltage', 'V_out')]
  const [inductance, switchingFrequency] = [read(input, 'inductance', 'L'), read(input, 'switching_frequency', 'f_sw')]
  if (!from || !to || !inductance || !switchingFrequency) return 0
  const [highVoltage, lowVoltage] = [Math.max(from, to), Math.min(from, to)]
  return inductorRipple({ highVoltage, lowVoltage, inductance, switchingFrequency }).inductorRipple
}

export const dcLinkAdapters: readonly Adapter[] = [
  { topics: ['dc-link-current'], answer: current },
  { topics: ['dc-link-voltage-ripple'], answer: ripple },
]
