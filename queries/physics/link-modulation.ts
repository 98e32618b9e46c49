import { LINEAR_LIMIT, LINK_CAUTION, type LinkRippleInputs, linkMeanCurrent } from './dc-link.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

/** Zero sequences by trade name; all centre-aligned, two-level, three-phase. */
export const MODULATIONS = ['sinusoidal', 'third-harmonic', 'space-vector', 'discontinuous'] as const
export type Modulation = (typeof MODULATIONS)[number]

/** Largest modulation index without over-modulation. */
export const modulationLimit = (modulation: Modulation): number => (modulation === 'sinusoidal' ? 1 : LINEAR_LIMIT)

/**
 * Duties of the three upper switches at one angle of the fundamental, from the phase references M cos(θ − k 120°) and
 * the zero sequence: none; −1/6 of the third harmonic; half of largest and smallest, negated (space-vector, both zero
 * states equally long); or the phase of largest size clamped to its rail (discontinuous).
 *
 * @param modulation      zero sequence
 * @param modulationIndex peak phase voltage over half the link voltage [1], 0 … 1 (sinusoidal) or 0 … 2/√3
 * @param angle           of phase a [rad]
 * @returns three duties, 0 … 1
 * @throws {DomainError} on an index beyond the linear range of that zero sequence
 */
export function phaseDuties(modulation: Modulation, modulationIndex: number, angle: number): readonly number[] {
  const limit = modulationLimit(modulation)
  if (!(modulationIndex >= 0 && modulationIndex <= limit * (1 + 1e-12)))
    throw new DomainError('phaseDuties', 'modulationIndex', modulationIndex, `0 … ${limit.toFixed(4)} (${modulation})`)
  const references = phases(angle).map((one) => modulationIndex * Math.cos(one))
  const zero = zeroSequence(modulation, modulationIndex, angle, Math.max(...references), Math.min(...references))
  return references.map((one) => Math.min(Math.max((1 + one + zero) / 2, 0), 1))
}

const phases = (angle: number): readonly number[] => [0, 1, 2].map((phase) => angle - (phase * 2 * Math.PI) / 3)

function zeroSequence(modulation: Modulation, index: number, angle: number, largest: number, smallest: number): number {
  if (modulation === 'third-harmonic') return (-index / 6) * Math.cos(3 * angle)
  if (modulation === 'space-vector') return -(largest + smallest) / 2
  // The sign of cos 3θ tells which of the two is the larger in size, also where there is hardly any voltage.
  if (modulation === 'discontinuous') return Math.cos(3 * angle) >= 0 ? 1 - largest : -1 - smallest
  return 0
}

/** One stretch of a carrier half period, from its middle to its edge: its share of the whole period and what the bridge draws. */
type Stretch = { readonly share: number; readonly current: number }

/** Bridge input current over half a carrier period: the order in which the phases switch off, and what is left on. */
function stretches(duties: readonly number[], currents: readonly number[]): readonly Stretch[] {
  const [first, second, third] = [0, 1, 2].sort((a, b) => duties[b]! - duties[a]!) as [number, number, number]
  return [
    { share: duties[third]! / 2, current: currents[0]! + currents[1]! + currents[2]! },
    { share: (duties[second]! - duties[third]!) / 2, current: currents[first]! + currents[second]! },
    { share: (duties[first]! - duties[second]!) / 2, current: currents[first]! },
    { share: (1 - duties[first]!) / 2, current: 0 },
  ]
}

/** What the bridge draws at one angle of the fundamental, phase currents taken as steady over one carrier period. */
function drawn(modulation: Modulation, inputs: LinkRippleInputs, angle: number): readonly Stretch[] {
  const lag = Math.acos(inputs.powerFactor)
  const currents = phases(angle).map((one) => Math.SQRT2 * inputs.phaseCurrent * Math.cos(one - lag))
  return stretches(phaseDuties(modulation, inputs.modulationIndex, angle), currents)
}

export type LinkRippleVoltageInputs = LinkRippleInputs & {
  modulation: Modulation
  capacitance: number
  switchingFrequency: number
}

/**
 * Largest peak-to-peak ripple of the link voltage that the switching causes, over one fundamental period: exact
 * piecewise-linear charge of an ideal capacitor within each centre-aligned carrier period, many of them to one
 * fundamental. Unlike the RMS current it depends on the zero sequence: the sinusoidal one gives about a quarter more
 * than the space-vector one. Left out: series resistance and inductance of the capacitor, ripple of the phase
 * currents, and the share that the source carries.
 *
 * @param phaseCurrent       fundamental of one phase, RMS [A], ≥ 0
 * @param modulationIndex    peak phase voltage over half the link voltage [1], within the linear range
 * @param powerFactor        [1], −1 … 1
 * @param modulation         zero sequence
 * @param capacitance        [F], > 0
 * @param switchingFrequency [Hz], > 0
 * @returns peak to peak [V]
 * @throws {DomainError} on any of them out of its bounds
 *
 * @example linkRippleVoltage({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85,
 *   modulation: 'space-vector', capacitance: 500e-6, switchingFrequency: 10e3 }) // 11.926
 */
export function linkRippleVoltage(inputs: LinkRippleVoltageInputs): number {
  requirePositive('linkRippleVoltage', 'capacitance', inputs.capacitance)
  requirePositive('linkRippleVoltage', 'switchingFrequency', inputs.switchingFrequency)
  return linkChargeSwing(inputs) / (inputs.capacitance * inputs.switchingFrequency)
}

/**
 * Peak-to-peak charge of the capacitor over one carrier period, times the carrier frequency [A]. Between 0° and 60° of the
 * fundamental phase a stands highest and phase c lowest, so that the order of switching is known there; sixty degrees are
 * a full cycle. Charge is odd about the middle of the carrier period: what is above on one side is below on the other.
 */
export function linkChargeSwing(inputs: LinkRippleInputs & { modulation: Modulation }): number {
  const { modulation, modulationIndex } = inputs
  phaseDuties(modulation, modulationIndex, 0) // refuses an index beyond the linear range
  const mean = linkMeanCurrent(inputs)
  const lag = Math.acos(inputs.powerFactor)
  const peak = Math.SQRT2 * inputs.phaseCurrent
  const swing = (angle: number): number => {
    const high = modulationIndex * Math.cos(angle)
    const low = modulationIndex * Math.cos(angle + THIRD)
    const zero = zeroSequence(modulation, modulationIndex, angle, high, low)
    const duty = (reference: number): number => Math.min(Math.max((1 + reference + zero) / 2, 0), 1)
    const [first, second, third] = [duty(high), duty(-high - low), duty(low)]
    const allOn = (third / 2) * mean
    const twoOn = allOn + ((second - third) / 2) * (mean + peak * Math.cos(angle + THIRD - lag))
    const oneOn = twoOn + ((first - second) / 2) * (mean - peak * Math.cos(angle - lag))
    return 2 * Math.max(Math.abs(allOn), Math.abs(twoOn), Math.abs(oneOn))
  }
  return largestOver(swing, 0, Math.PI / 3)
}

const THIRD = (2 * Math.PI) / 3

/** Largest value over a stretch: a scan, then a golden-section search beside the best of it. Sixty degrees are a full cycle. */
function largestOver(f: (x: number) => number, from: number, to: number): number {
  const steps = 180
  const width = (to - from) / steps
  const scan = Array.from({ length: steps + 1 }, (_, i) => f(from + i * width))
  const best = scan.indexOf(Math.max(...scan))
  const golden = (Math.sqrt(5) - 1) / 2
  let [low, high] = [Math.max(from, from + (best - 1) * width), Math.min(to, from + (best + 1) * width)]
  let found = scan[best]!
  for (let i = 0; i < 40; i++) {
    const [left, right] = [high - golden * (high - low), low + golden * (high - low)]
    const [atLeft, atRight] = [f(left), f(right)]
    found = Math.max(found, atLeft, atRight)
    if (atLeft > atRight) high = right
    else low = left
  }
  return found
}

/**
 * RMS current of the link capacitor by adding up the switching states over a fundamental period: the slow way, which
 * shows that the zero sequence does not matter.
 *
 * @param inputs as {@link linkRippleVoltage}, without capacitor and frequency
 * @param steps  angles over one fundamental period
 * @returns [A]
 */
export function linkRippleCurrentByStates(inputs: LinkRippleInputs & { modulation: Modulation }, steps = 3600): number {
  let square = 0
  let mean = 0
  for (let i = 0; i < steps; i++) {
    for (const { share, current } of drawn(inputs.modulation, inputs, ((i + 0.5) * 2 * Math.PI) / steps)) {
      square += (2 * share * current ** 2) / steps
      mean += (2 * share * current) / steps
    }
  }
  return Math.sqrt(Math.max(square - mean ** 2, 0))
}

export const linkRippleVoltageMethod = defineMethod<
  LinkRippleVoltageInputs,
  { readonly rippleVoltage: number; readonly chargeSwing: number }
>({
  id: 'link-ripple-voltage',
  title: 'Largest peak-to-peak ripple of the DC-link voltage from the switching of a three-phase bridge',
  takes: {
    phaseCurrent: { unit: 'A', about: 'fundamental of one phase, RMS' },
    modulationIndex: { unit: '1', about: 'peak phase voltage over half the link voltage' },
    powerFactor: { unit: '1', about: 'cosine of the displacement angle at the bridge terminals' },
    modulation: { words: MODULATIONS, about: 'zero sequence' },
    capacitance: { unit: 'F', about: 'of the link' },
    switchingFrequency: { unit: 'Hz', about: 'carrier frequency' },
  },
  gives: {
    rippleVoltage: { unit: 'V', print: 'V', about: 'peak to peak, ideal capacitor' },
    chargeSwing: { unit: 'C', print: 'mC', about: 'peak-to-peak charge of the capacitor' },
  },
  valid: { modulationIndex: [0, LINEAR_LIMIT], powerFactor: [-1, 1] },
  caution: LINK_CAUTION,
  sources: ['charge balance of the switching states within one carrier period; confirmed by simulation over time'],
  compute: (inputs) => ({
    rippleVoltage: linkRippleVoltage(inputs),
    chargeSwing: linkChargeSwing(inputs) / inputs.switchingFrequency,
  }),
})

export const linkModulationMethods = [linkRippleVoltageMethod] as const
