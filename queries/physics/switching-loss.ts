import { BRIDGE_CAUTION } from './conduction-loss.ts'
import { LINEAR_LIMIT } from './dc-link.ts'
import { MODULATIONS, type Modulation, phaseDuties } from './link-modulation.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type SwitchingInputs = {
  phaseCurrent: number
  linkVoltage: number
  switchingFrequency: number
  turnOnEnergy: number
  turnOffEnergy: number
  recoveryEnergy?: number
  referenceCurrent: number
  referenceVoltage: number
  currentExponent?: number
  voltageExponent?: number
  modulation?: Modulation
  modulationIndex?: number
  powerFactor?: number
}

export type SwitchingLoss = {
  readonly switchLoss: number
  readonly diodeLoss: number
  readonly bridgeLoss: number
  readonly scale: number
}

/**
 * Switching loss of one transistor and one diode of a two-level three-phase bridge, from energies at a reference point:
 * E = E_ref (i/I_ref)^k (V/V_ref)^m, summed over the half wave in which the device switches. With k = 1 and a
 * continuous zero sequence that is f E (Î/I_ref)(V/V_ref)^m/π. A discontinuous one leaves a phase unswitched for a third
 * of the time; how much that saves hangs on the power factor.
 *
 * @param phaseCurrent       fundamental of one phase, RMS [A], ≥ 0
 * @param linkVoltage        [V], ≥ 0
 * @param switchingFrequency [Hz], ≥ 0
 * @param turnOnEnergy       turnOffEnergy, recoveryEnergy at the reference point and junction temperature [J], ≥ 0;
 *   recovery 0 if left out (often counted into turn-on)
 * @param referenceCurrent   and referenceVoltage of those energies [A], [V], > 0
 * @param currentExponent    k [1], ≥ 0; 1 if left out (diodes nearer 0.6)
 * @param voltageExponent    m [1], ≥ 0; 1 if left out (common practice 1 … 1.4 for transistors)
 * @param modulation         zero sequence; continuous if left out. The discontinuous one needs modulationIndex and
 *   powerFactor
 * @returns loss of one transistor, of one diode, of six of both [W]; peak current over reference current [1]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example switchingLoss({ phaseCurrent: 300, linkVoltage: 450, switchingFrequency: 10e3, turnOnEnergy: 12e-3,
 *   turnOffEnergy: 14e-3, referenceCurrent: 400, referenceVoltage: 400 }).switchLoss // 98.753
 */
export function switchingLoss(inputs: SwitchingInputs): SwitchingLoss {
  const { phaseCurrent, linkVoltage, switchingFrequency, turnOnEnergy, turnOffEnergy, recoveryEnergy = 0 } = inputs
  const { referenceCurrent, referenceVoltage, currentExponent = 1, voltageExponent = 1 } = inputs
  const bounded = { phaseCurrent, linkVoltage, switchingFrequency, turnOnEnergy, turnOffEnergy, recoveryEnergy }
  for (const [name, value] of Object.entries({ ...bounded, currentExponent, voltageExponent }))
    requireNonNegative('switchingLoss', name, value)
  requirePositive('switchingLoss', 'referenceCurrent', referenceCurrent)
  requirePositive('switchingLoss', 'referenceVoltage', referenceVoltage)
  const scale = (Math.SQRT2 * phaseCurrent) / referenceCurrent
  const per = switchingFrequency * scale ** currentExponent * (linkVoltage / referenceVoltage) ** voltageExponent
  const mean = phaseCurrent === 0 ? 0 : halfWaveMean(inputs, currentExponent)
  const switchLoss = per * mean * (turnOnEnergy + turnOffEnergy)
  const diodeLoss = per * mean * recoveryEnergy
  return { switchLoss, diodeLoss, bridgeLoss: 6 * (switchLoss + diodeLoss), scale }
}

/** Mean over a whole fundamental of cosᵏ in the half wave in which the device switches. */
function halfWaveMean({ modulation, modulationIndex, powerFactor }: SwitchingInputs, exponent: number): number {
  if (modulation !== 'discontinuous' && exponent === 1) return 1 / Math.PI
  if (modulation === 'discontinuous' && (modulationIndex === undefined || powerFactor === undefined))
    throw new DomainError(
      'switchingLoss',
      'modulationIndex',
      modulationIndex,
      'given, as powerFactor, when discontinuous',
    )
  const steps = 1440
  const lag = Math.acos(powerFactor ?? 1)
  let sum = 0
  for (let i = 0; i < steps; i++) {
    const past = -Math.PI / 2 + ((i + 0.5) * Math.PI) / steps
    if (modulation === 'discontinuous') {
      const duty = phaseDuties(modulation, modulationIndex!, past + lag)[0]!
      if (duty < 1e-9 || duty > 1 - 1e-9) continue
    }
    sum += Math.cos(past) ** exponent
  }
  return sum / (2 * steps)
}

export const switchingLossMethod = defineMethod<SwitchingInputs, SwitchingLoss>({
  id: 'bridge-switching',
  title: 'Switching loss of a two-level bridge scaled from energies at a reference point',
  takes: {
    phaseCurrent: { unit: 'A', about: 'fundamental of one phase, RMS' },
    linkVoltage: { unit: 'V', about: 'of the DC link' },
    switchingFrequency: { unit: 'Hz', about: 'carrier frequency' },
    turnOnEnergy: { unit: 'J', about: 'of a transistor at the reference point' },
    turnOffEnergy: { unit: 'J', about: 'of a transistor at the reference point' },
    recoveryEnergy: { unit: 'J', optional: true, about: 'of a diode at the reference point; 0 if left out' },
    referenceCurrent: { unit: 'A', about: 'at which the energies hold' },
    referenceVoltage: { unit: 'V', about: 'at which the energies hold' },
    currentExponent: { unit: '1', optional: true, about: 'of energy over current; 1 if left out' },
    voltageExponent: { unit: '1', optional: true, about: 'of energy over voltage; 1 if left out' },
    modulation: { words: MODULATIONS, optional: true, about: 'continuous if left out' },
    modulationIndex: { unit: '1', optional: true, about: 'needed for the discontinuous zero sequence' },
    powerFactor: { unit: '1', optional: true, about: 'needed for the discontinuous zero sequence' },
  },
  gives: {
    switchLoss: { unit: 'W', print: 'W', about: 'of one transistor' },
    diodeLoss: { unit: 'W', print: 'W', about: 'of one diode' },
    bridgeLoss: { unit: 'W', print: 'W', about: 'of six of both' },
    scale: { unit: '1', print: '1', about: 'peak phase current over the reference current' },
  },
  // Energies bend away from a straight line far from their reference point.
  valid: { scale: [0, 2], modulationIndex: [0, LINEAR_LIMIT] },
  caution: BRIDGE_CAUTION,
  sources: ['half-wave mean of switching energies (textbook); exponents: common practice'],
  compute: switchingLoss,
})

export const switchingLossMethods = [switchingLossMethod] as const
