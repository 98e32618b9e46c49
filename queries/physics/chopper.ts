import { LINK_CAUTION } from './dc-link.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const METHOD = 'chopperCapacitors'

/** Which way a two-switch stage turns the voltage; the same circuit, seen from its two ends. */
export const STAGES = ['buck', 'boost'] as const

export type ChopperInputs = {
  stage: (typeof STAGES)[number]
  duty: number
  inductorCurrent: number
  inductorRipple: number
}

export type ChopperCurrents = { readonly switchedSideRipple: number; readonly inductorSideRipple: number }

/**
 * RMS currents of the capacitors on both sides of a buck or boost stage in continuous conduction, the far ends drawing
 * steady current. On the switched side (buck input, boost output) √(w(1 − w) I² + w ΔI²/12), w being the share of time
 * for which the inductor is connected there: D for a buck, 1 − D for a boost. On the inductor's side ΔI/√12.
 *
 * @param stage           buck or boost
 * @param duty            of the active switch [1], 0 … 1
 * @param inductorCurrent mean [A]: the output current of a buck, the input current of a boost
 * @param inductorRipple  peak to peak, triangular [A], ≥ 0
 * @throws {DomainError} on a duty beyond 0 … 1, a negative current or ripple, or a ripple so large that the current
 *   would stop (discontinuous conduction)
 *
 * @example chopperCapacitors({ stage: 'buck', duty: 0.4, inductorCurrent: 100, inductorRipple: 30 }).switchedSideRipple // 49.295
 */
export function chopperCapacitors({ stage, duty, inductorCurrent, inductorRipple }: ChopperInputs): ChopperCurrents {
  if (!(duty >= 0 && duty <= 1)) throw new DomainError(METHOD, 'duty', duty, '0 … 1')
  requireNonNegative(METHOD, 'inductorCurrent', inductorCurrent)
  requireNonNegative(METHOD, 'inductorRipple', inductorRipple)
  const connected = stage === 'buck' ? duty : 1 - duty
  const square = connected * (1 - connected) * inductorCurrent ** 2 + (connected * inductorRipple ** 2) / 12
  return { switchedSideRipple: Math.sqrt(square), inductorSideRipple: inductorRipple / Math.sqrt(12) }
}

export const chopperCapacitorsMethod = defineMethod<ChopperInputs, ChopperCurrents & { readonly rippleShare: number }>({
  id: 'chopper-capacitors',
  title: 'RMS currents of the capacitors of a buck or boost stage',
  takes: {
    stage: { words: STAGES, about: 'buck steps down, boost steps up' },
    duty: { unit: '1', about: 'share of time for which the active switch is on' },
    inductorCurrent: { unit: 'A', about: 'mean: output current of a buck, input current of a boost' },
    inductorRipple: { unit: 'A', about: 'peak to peak' },
  },
  gives: {
    switchedSideRipple: { unit: 'A', print: 'A', about: 'RMS, buck input or boost output capacitor' },
    inductorSideRipple: { unit: 'A', print: 'A', about: 'RMS, buck output or boost input capacitor' },
    rippleShare: { unit: '1', print: '1', about: 'peak-to-peak ripple over mean; beyond 2 the current would reverse' },
  },
  valid: { rippleShare: [0, 2] },
  caution: LINK_CAUTION,
  sources: ['mean square of a trapezoidal current, derived; continuous conduction, steady current at the far ends'],
  compute: (inputs) => ({
    ...chopperCapacitors(inputs),
    rippleShare: inputs.inductorCurrent > 0 ? inputs.inductorRipple / inputs.inductorCurrent : 0,
  }),
})

export type InductorRippleInputs = {
  highVoltage: number
  lowVoltage: number
  inductance: number
  switchingFrequency: number
}

export type InductorRipple = { readonly inductorRipple: number; readonly duty: number }

/**
 * Peak-to-peak inductor current of a buck or boost stage, U_low (1 − U_low/U_high)/(L f), and the share of time for
 * which the inductor is connected to the high side (duty of a buck, one less the duty of a boost).
 *
 * @param highVoltage        [V], > 0
 * @param lowVoltage         [V], 0 … highVoltage
 * @param inductance         [H], > 0
 * @param switchingFrequency [Hz], > 0
 * @throws {DomainError} on any of them out of its bounds
 *
 * @example inductorRipple({ highVoltage: 650, lowVoltage: 260, inductance: 200e-6, switchingFrequency: 10e3 }).inductorRipple // 78
 */
export function inductorRipple(inputs: InductorRippleInputs): InductorRipple {
  const { highVoltage, lowVoltage, inductance, switchingFrequency } = inputs
  for (const [name, value] of Object.entries({ highVoltage, inductance, switchingFrequency }))
    requirePositive('inductorRipple', name, value)
  if (!(lowVoltage >= 0 && lowVoltage <= highVoltage))
    throw new DomainError('inductorRipple', 'lowVoltage', lowVoltage, '0 … the high voltage')
  const duty = lowVoltage / highVoltage
  return { inductorRipple: (lowVoltage * (1 - duty)) / (inductance * switchingFrequency), duty }
}

export const inductorRippleMethod = defineMethod<InductorRippleInputs, InductorRipple>({
  id: 'inductor-ripple',
  title: 'Peak-to-peak inductor current of a buck or boost stage',
  takes: {
    highVoltage: { unit: 'V', about: 'the higher side' },
    lowVoltage: { unit: 'V', about: 'the lower side' },
    inductance: { unit: 'H', about: 'at that current' },
    switchingFrequency: { unit: 'Hz', about: 'of one phase' },
  },
  gives: {
    inductorRipple: { unit: 'A', print: 'A', about: 'peak to peak' },
    duty: { unit: '1', print: '1', about: 'share of time connected to the high side' },
  },
  caution: LINK_CAUTION,
  sources: ['volt-second balance of an inductor in continuous conduction (textbook)'],
  compute: inductorRipple,
})

export type ChopperVoltageInputs = ChopperInputs & { capacitance: number; switchingFrequency: number }

/**
 * Peak-to-peak ripple voltage of the capacitor on the switched side, I w(1 − w)/(C f) with an inductor current that
 * hardly ripples, and of a capacitor of the same size on the inductor's side, ΔI/(8 C f). Ideal capacitors.
 *
 * @param inputs             as chopperCapacitors
 * @param capacitance        [F], > 0
 * @param switchingFrequency [Hz], > 0
 * @throws {DomainError} as chopperCapacitors, or on a value of zero or less
 *
 * @example chopperRippleVoltage({ stage: 'buck', duty: 0.4, inductorCurrent: 100, inductorRipple: 0, capacitance: 1e-4,
 *   switchingFrequency: 20e3 }).switchedSide // 12
 */
export function chopperRippleVoltage(inputs: ChopperVoltageInputs): {
  readonly switchedSide: number
  readonly inductorSide: number
} {
  const { stage, duty, inductorCurrent, inductorRipple, capacitance, switchingFrequency } = inputs
  chopperCapacitors({ stage, duty, inductorCurrent, inductorRipple })
  requirePositive('chopperRippleVoltage', 'capacitance', capacitance)
  requirePositive('chopperRippleVoltage', 'switchingFrequency', switchingFrequency)
  const per = 1 / (capacitance * switchingFrequency)
  return { switchedSide: inductorCurrent * duty * (1 - duty) * per, inductorSide: (inductorRipple / 8) * per }
}

export const chopperRippleVoltageMethod = defineMethod<
  ChopperVoltageInputs,
  { readonly switchedSide: number; readonly inductorSide: number; readonly rippleShare: number }
>({
  id: 'chopper-ripple-voltage',
  title: 'Ripple voltage of the capacitors of a buck or boost stage',
  takes: {
    ...chopperCapacitorsMethod.takes,
    capacitance: { unit: 'F', about: 'of the capacitor' },
    switchingFrequency: { unit: 'Hz', about: 'of one phase' },
  },
  gives: {
    switchedSide: { unit: 'V', print: 'V', about: 'peak to peak, buck input or boost output' },
    inductorSide: { unit: 'V', print: 'V', about: 'peak to peak, buck output or boost input' },
    rippleShare: { unit: '1', print: '1', about: 'peak-to-peak inductor ripple over its mean' },
  },
  // Ripple of the inductor current bends the ramps: at a share of 0.4 the switched side is up to some per cent higher.
  valid: { rippleShare: [0, 0.4] },
  caution: LINK_CAUTION,
  sources: ['charge balance of a capacitor over one switching period (textbook)'],
  compute: (inputs) => ({
    ...chopperRippleVoltage(inputs),
    rippleShare: inputs.inductorCurrent > 0 ? inputs.inductorRipple / inputs.inductorCurrent : 0,
  }),
})

export const chopperMethods = [chopperCapacitorsMethod, inductorRippleMethod, chopperRippleVoltageMethod] as const
