import { LINEAR_LIMIT } from './dc-link.ts'
import { MODULATIONS, type Modulation, modulationLimit, phaseDuties } from './link-modulation.ts'
import { DomainError, defineMethod, requireNonNegative } from './method.ts'

export const BRIDGE_CAUTION =
  'A loaded bridge is at lethal voltage and its heat sink may be hot: prove it dead by local codes and licensed practice.'

export type DiodePairInputs = {
  phaseCurrent: number
  modulationIndex: number
  powerFactor: number
  switchThreshold: number
  switchSlope: number
  diodeThreshold: number
  diodeSlope: number
  modulation?: Modulation
}

export type PairLoss = { readonly switchLoss: number; readonly diodeLoss: number; readonly bridgeLoss: number }

/** What a method of the bridge asks of its operating point. */
export function requireBridgePoint(
  method: string,
  inputs: {
    readonly phaseCurrent: number
    readonly modulationIndex: number
    readonly powerFactor: number
    readonly modulation?: Modulation
  },
): void {
  requireNonNegative(method, 'phaseCurrent', inputs.phaseCurrent)
  if (!(Math.abs(inputs.powerFactor) <= 1)) throw new DomainError(method, 'powerFactor', inputs.powerFactor, '−1 … 1')
  const limit = modulationLimit(inputs.modulation ?? 'sinusoidal')
  if (!(inputs.modulationIndex >= 0 && inputs.modulationIndex <= limit * (1 + 1e-12)))
    throw new DomainError(method, 'modulationIndex', inputs.modulationIndex, `0 … ${limit.toFixed(4)}`)
}

/**
 * Conduction loss of one transistor and one diode of a two-level three-phase bridge, each with a forward voltage
 * V₀ + r i. Sinusoidal zero sequence, Î = √2 I, in closed form:
 *
 *     transistor V₀Î(1/2π + M cos φ/8) + rÎ²(1/8 + M cos φ/3π)    diode the same with minus signs
 *
 * Other zero sequences by summing over one fundamental. No dead time, no ripple of the phase current.
 *
 * @param phaseCurrent    fundamental of one phase, RMS [A], ≥ 0
 * @param modulationIndex peak phase voltage over half the link voltage [1], within the linear range
 * @param powerFactor     [1], −1 … 1
 * @param switchThreshold and diodeThreshold: forward voltage at no current [V], ≥ 0, at the junction temperature
 * @param switchSlope     and diodeSlope: its rise with current [Ω], ≥ 0
 * @param modulation      zero sequence; sinusoidal if left out
 * @returns loss of one transistor, of one diode and of all six pairs [W]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example diodePairConduction({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85, switchThreshold: 0.9,
 *   switchSlope: 2.5e-3, diodeThreshold: 0.9, diodeSlope: 2.5e-3 }).switchLoss // 190.06
 */
export function diodePairConduction(inputs: DiodePairInputs): PairLoss {
  requireBridgePoint('diodePairConduction', inputs)
  const { switchThreshold, switchSlope, diodeThreshold, diodeSlope } = inputs
  for (const [name, value] of Object.entries({ switchThreshold, switchSlope, diodeThreshold, diodeSlope }))
    requireNonNegative('diodePairConduction', name, value)
  const shares = conductionShares(inputs)
  const peak = Math.SQRT2 * inputs.phaseCurrent
  const switchLoss = switchThreshold * peak * shares.switchMean + switchSlope * peak ** 2 * shares.switchSquare
  const diodeLoss = diodeThreshold * peak * shares.diodeMean + diodeSlope * peak ** 2 * shares.diodeSquare
  return { switchLoss, diodeLoss, bridgeLoss: 6 * (switchLoss + diodeLoss) }
}

type Shares = { switchMean: number; switchSquare: number; diodeMean: number; diodeSquare: number }

/** Mean and mean square of the current in transistor and diode, by peak phase current and its square. */
function conductionShares({ modulationIndex, powerFactor, modulation = 'sinusoidal' }: DiodePairInputs): Shares {
  if (modulation !== 'sinusoidal') return summedShares(modulation, modulationIndex, powerFactor)
  const active = modulationIndex * powerFactor
  return {
    switchMean: 1 / (2 * Math.PI) + active / 8,
    switchSquare: 1 / 8 + active / (3 * Math.PI),
    diodeMean: 1 / (2 * Math.PI) - active / 8,
    diodeSquare: 1 / 8 - active / (3 * Math.PI),
  }
}

function summedShares(modulation: Modulation, modulationIndex: number, powerFactor: number): Shares {
  const steps = 1440
  const lag = Math.acos(powerFactor)
  const sums = { switchMean: 0, switchSquare: 0, diodeMean: 0, diodeSquare: 0 }
  for (let i = 0; i < steps; i++) {
    // Half wave in which the current leaves through the upper transistor or the lower diode.
    const past = -Math.PI / 2 + ((i + 0.5) * Math.PI) / steps
    const current = Math.cos(past)
    const duty = phaseDuties(modulation, modulationIndex, past + lag)[0]!
    sums.switchMean += (duty * current) / (2 * steps)
    sums.switchSquare += (duty * current ** 2) / (2 * steps)
    sums.diodeMean += ((1 - duty) * current) / (2 * steps)
    sums.diodeSquare += ((1 - duty) * current ** 2) / (2 * steps)
  }
  return sums
}

export const BRIDGE_TAKES = {
  phaseCurrent: { unit: 'A', about: 'fundamental of one phase, RMS' },
  modulationIndex: { unit: '1', about: 'peak phase voltage over half the link voltage' },
  powerFactor: { unit: '1', about: 'cosine of the displacement angle at the bridge terminals' },
  modulation: { words: MODULATIONS, optional: true, about: 'zero sequence; sinusoidal if left out' },
} as const

export const PAIR_TAKES = {
  switchThreshold: { unit: 'V', about: 'of a transistor at no current, at its junction temperature' },
  switchSlope: { unit: 'Ohm', about: 'rise of its voltage with current' },
  diodeThreshold: { unit: 'V', about: 'of a diode at no current' },
  diodeSlope: { unit: 'Ohm', about: 'rise of its voltage with current' },
} as const

export const diodePairConductionMethod = defineMethod<DiodePairInputs, PairLoss>({
  id: 'bridge-conduction',
  title: 'Conduction loss of a two-level bridge with transistors and diodes',
  takes: { ...BRIDGE_TAKES, ...PAIR_TAKES },
  gives: {
    switchLoss: { unit: 'W', print: 'W', about: 'of one transistor' },
    diodeLoss: { unit: 'W', print: 'W', about: 'of one diode' },
    bridgeLoss: { unit: 'W', print: 'W', about: 'of six pairs' },
  },
  valid: { modulationIndex: [0, LINEAR_LIMIT], powerFactor: [-1, 1] },
  caution: BRIDGE_CAUTION,
  sources: ['averages over the fundamental of a sinusoidal-PWM bridge (textbook, from memory; confirmed by summing)'],
  compute: diodePairConduction,
})

export type ChannelInputs = {
  phaseCurrent: number
  onResistance: number
  deadTime?: number
  switchingFrequency?: number
  diodeThreshold?: number
}

export type ChannelLoss = {
  readonly channelLoss: number
  readonly deadTimeLoss: number
  readonly bridgeLoss: number
}

/**
 * Conduction loss of a bridge of field-effect transistors whose channels carry current both ways: each leg always
 * conducts through one channel, so RÎ²/4 = RI²/2 per transistor, whatever the modulation. In the dead times, two per
 * switching period, the body diode carries the current instead.
 *
 * @param phaseCurrent       fundamental of one phase, RMS [A], ≥ 0
 * @param onResistance       at the junction temperature [Ω], ≥ 0
 * @param deadTime           [s], ≥ 0; 0 if left out
 * @param switchingFrequency [Hz], > 0, needed with a dead time
 * @param diodeThreshold     forward voltage of the body diode [V], ≥ 0, needed with a dead time
 * @returns loss of one channel, of one body diode in the dead times, of all six transistors [W]
 * @throws {DomainError} on a value out of its bounds, or a dead time without what it needs
 *
 * @example channelConduction({ phaseCurrent: 282.8427, onResistance: 3e-3 }).channelLoss // 120
 */
export function channelConduction(inputs: ChannelInputs): ChannelLoss {
  const { phaseCurrent, onResistance, deadTime = 0, switchingFrequency, diodeThreshold } = inputs
  for (const [name, value] of Object.entries({ phaseCurrent, onResistance, deadTime }))
    requireNonNegative('channelConduction', name, value)
  if (deadTime > 0 && !(Number(switchingFrequency) > 0 && Number(diodeThreshold) >= 0))
    throw new DomainError(
      'channelConduction',
      'diodeThreshold',
      diodeThreshold,
      'given, as the frequency, with dead time',
    )
  const dead = deadTime === 0 ? 0 : 2 * deadTime * switchingFrequency!
  if (dead > 1) throw new DomainError('channelConduction', 'deadTime', deadTime, 'shorter than half the period')
  const channelLoss = ((onResistance * phaseCurrent ** 2) / 2) * (1 - dead)
  // Mean of the rectified phase current is 2√2 I/π; each of the two diodes of a leg takes half of it.
  const deadTimeLoss = dead === 0 ? 0 : (dead * diodeThreshold! * Math.SQRT2 * phaseCurrent) / Math.PI
  return { channelLoss, deadTimeLoss, bridgeLoss: 6 * (channelLoss + deadTimeLoss) }
}

export const channelConductionMethod = defineMethod<ChannelInputs, ChannelLoss>({
  id: 'bridge-conduction-channel',
  title: 'Conduction loss of a two-level bridge of field-effect transistors',
  takes: {
    phaseCurrent: { unit: 'A', about: 'fundamental of one phase, RMS' },
    onResistance: { unit: 'Ohm', about: 'of one transistor, at its junction temperature' },
    deadTime: { unit: 's', optional: true, about: 'both transistors off; 0 if left out' },
    switchingFrequency: { unit: 'Hz', optional: true, about: 'needed with a dead time' },
    diodeThreshold: { unit: 'V', optional: true, about: 'of the body diode, needed with a dead time' },
  },
  gives: {
    channelLoss: { unit: 'W', print: 'W', about: 'of one channel' },
    deadTimeLoss: { unit: 'W', print: 'W', about: 'of one body diode' },
    bridgeLoss: { unit: 'W', print: 'W', about: 'of six transistors' },
  },
  caution: BRIDGE_CAUTION,
  sources: ['mean square of a sinusoidal current; equal resistance both ways (common practice)'],
  compute: channelConduction,
})

export const conductionLossMethods = [diodePairConductionMethod, channelConductionMethod] as const
