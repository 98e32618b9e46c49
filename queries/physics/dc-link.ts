import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

/** Shown with every figure of the link: it keeps a lethal charge after the source is taken away. */
export const LINK_CAUTION =
  'A DC link holds lethal voltage and energy long after the source is off: prove it dead by local codes and licensed practice.'

const KOLAR =
  'J. W. Kolar, S. D. Round, "Analytical calculation of the RMS current stress on the DC-link capacitor of ' +
  'voltage-PWM converter systems", IEE Proc. Electr. Power Appl. 153 (2006) 535-543 (closed form from memory)'

/** Largest modulation index of the linear range, 2/√3, with a zero sequence that uses the link fully. */
export const LINEAR_LIMIT = 2 / Math.sqrt(3)

export type LinkRippleInputs = { phaseCurrent: number; modulationIndex: number; powerFactor: number }

function requireOperatingPoint(method: string, { phaseCurrent, modulationIndex, powerFactor }: LinkRippleInputs): void {
  requireNonNegative(method, 'phaseCurrent', phaseCurrent)
  requireNonNegative(method, 'modulationIndex', modulationIndex)
  if (!(Math.abs(powerFactor) <= 1)) throw new DomainError(method, 'powerFactor', powerFactor, '−1 … 1')
}

/**
 * RMS current in the DC-link capacitor of a two-level three-phase bridge with sinusoidal phase currents:
 *
 *     I_C = I √( 2 M ( √3/4π + cos²φ (√3/π − 9M/16) ) )
 *
 * The same for every zero sequence of the linear range: it depends only on how long the active states last. Left out:
 * switching ripple of the phase current, and the share of the ripple that the supply cable carries (so that a real
 * capacitor sees somewhat less).
 *
 * @param phaseCurrent    fundamental of one phase, RMS [A], ≥ 0
 * @param modulationIndex peak phase voltage over half the link voltage [1], ≥ 0; holds to 2/√3
 * @param powerFactor     cosine of the displacement angle at the bridge terminals [1], −1 … 1
 * @returns capacitor current, RMS [A]
 * @throws {DomainError} on a negative current or index, a power factor beyond ±1, or an index so far beyond the range
 *   that the form has no real value
 *
 * @example linkRippleCurrent({ phaseCurrent: 330, modulationIndex: 0.9, powerFactor: 0.85 }) // 182.76
 */
export function linkRippleCurrent(inputs: LinkRippleInputs): number {
  requireOperatingPoint('linkRippleCurrent', inputs)
  const { phaseCurrent, modulationIndex: m, powerFactor } = inputs
  const activePart = Math.sqrt(3) / Math.PI - (9 * m) / 16
  const square = 2 * m * (Math.sqrt(3) / (4 * Math.PI) + powerFactor ** 2 * activePart)
  // Far beyond the linear range the form runs below zero: there is no such current, and no zero in its place.
  if (square < 0)
    throw new DomainError('linkRippleCurrent', 'modulationIndex', m, 'at most 2/√3: the form has no value')
  return phaseCurrent * Math.sqrt(square)
}

/**
 * Mean link current of that bridge, (3√2/4) M I cos φ, from the balance of power; negative when it feeds back.
 *
 * @param inputs as {@link linkRippleCurrent}
 * @returns mean current into the bridge [A]
 * @throws {DomainError} as {@link linkRippleCurrent}
 *
 * @example linkMeanCurrent({ phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85 }) // 243.42
 */
export function linkMeanCurrent(inputs: LinkRippleInputs): number {
  requireOperatingPoint('linkMeanCurrent', inputs)
  return ((3 * Math.SQRT2) / 4) * inputs.modulationIndex * inputs.phaseCurrent * inputs.powerFactor
}

export type LinkCurrents = { readonly rippleCurrent: number; readonly meanCurrent: number; readonly ratio: number }

export const linkRipple = defineMethod<LinkRippleInputs, LinkCurrents>({
  id: 'link-ripple',
  title: 'DC-link capacitor RMS current of a two-level three-phase bridge, closed form',
  takes: {
    phaseCurrent: { unit: 'A', about: 'fundamental of one phase, RMS' },
    modulationIndex: { unit: '1', about: 'peak phase voltage over half the link voltage' },
    powerFactor: { unit: '1', about: 'cosine of the displacement angle at the bridge terminals' },
  },
  gives: {
    rippleCurrent: { unit: 'A', print: 'A', about: 'capacitor current, RMS' },
    meanCurrent: { unit: 'A', print: 'A', about: 'mean current into the bridge' },
    ratio: { unit: '1', print: '1', about: 'capacitor RMS current over phase RMS current' },
  },
  valid: { modulationIndex: [0, LINEAR_LIMIT], powerFactor: [-1, 1] },
  caution: LINK_CAUTION,
  sources: [KOLAR],
  compute: (inputs) => ({
    rippleCurrent: linkRippleCurrent(inputs),
    meanCurrent: linkMeanCurrent(inputs),
    ratio: linkRippleCurrent({ ...inputs, phaseCurrent: 1 }),
  }),
})

export type WorstLinkRippleInputs = { powerFactor: number; modulationLimit?: number }
export type WorstLinkRipple = { readonly ratio: number; readonly modulationIndex: number }

/**
 * Worst modulation index for the DC-link capacitor at a given power factor, and the ratio of capacitor to phase RMS
 * current there: M* = (8/9)(√3/(4π cos²φ) + √3/π), or the limit where that lies beyond it.
 *
 * @param powerFactor     [1], −1 … 1
 * @param modulationLimit largest index in use [1], > 0; 2/√3 if left out
 * @throws {DomainError} on a power factor beyond ±1 or a limit of zero or less
 *
 * @example worstLinkRipple({ powerFactor: 1 }) // { ratio: 0.64975, modulationIndex: 0.61259 }
 */
export function worstLinkRipple(inputs: WorstLinkRippleInputs): WorstLinkRipple {
  const { powerFactor, modulationLimit = LINEAR_LIMIT } = inputs
  requirePositive('worstLinkRipple', 'modulationLimit', modulationLimit)
  if (!(Math.abs(powerFactor) <= 1)) throw new DomainError('worstLinkRipple', 'powerFactor', powerFactor, '−1 … 1')
  const peak = (8 / 9) * (Math.sqrt(3) / (4 * Math.PI * powerFactor ** 2) + Math.sqrt(3) / Math.PI)
  const modulationIndex = Math.min(peak, modulationLimit)
  return { ratio: linkRippleCurrent({ phaseCurrent: 1, modulationIndex, powerFactor }), modulationIndex }
}

export const worstLinkRippleMethod = defineMethod<WorstLinkRippleInputs, WorstLinkRipple>({
  id: 'link-ripple-worst',
  title: 'Largest DC-link capacitor RMS current over all modulation indices',
  takes: {
    powerFactor: { unit: '1', about: 'cosine of the displacement angle at the bridge terminals' },
    modulationLimit: { unit: '1', optional: true, about: 'largest modulation index in use; 2/√3 if left out' },
  },
  gives: {
    ratio: { unit: '1', print: '1', about: 'capacitor RMS current over phase RMS current' },
    modulationIndex: { unit: '1', print: '1', about: 'where it occurs' },
  },
  valid: { modulationIndex: [0, LINEAR_LIMIT] },
  caution: LINK_CAUTION,
  sources: [KOLAR, 'maximum taken analytically'],
  compute: worstLinkRipple,
})

export type BulkRippleInputs = { power: number; linkVoltage: number; lineFrequency: number; capacitance: number }

export type BulkRipple = {
  readonly rippleVoltage: number
  readonly rippleCurrent: number
  readonly highest: number
  readonly lowest: number
}

/**
 * Ripple at twice the line frequency on the bulk capacitor of a single-phase charger stage at unity power factor and
 * constant DC load. Small-ripple forms: voltage P/(2π f C V) peak to peak, current P/(√2 V) RMS. Crest and trough come
 * from the exact balance of energy ½C v² = ½C V² ± P/(4π f), V then being the RMS of the voltage. Switching-frequency
 * current adds to the current as root of squares and is not in it.
 *
 * @param power         [W], ≥ 0
 * @param linkVoltage   [V], > 0
 * @param lineFrequency [Hz], > 0
 * @param capacitance   [F], > 0
 * @throws {DomainError} on any of them out of its bounds, or a ripple that empties the capacitor
 *
 * @example bulkRipple({ power: 6600, linkVoltage: 400, lineFrequency: 50, capacitance: 2e-3 }).rippleVoltage // 26.261
 */
export function bulkRipple({ power, linkVoltage, lineFrequency, capacitance }: BulkRippleInputs): BulkRipple {
  requireNonNegative('bulkRipple', 'power', power)
  for (const [name, value] of Object.entries({ linkVoltage, lineFrequency, capacitance }))
    requirePositive('bulkRipple', name, value)
  const swing = power / (2 * Math.PI * lineFrequency * capacitance)
  if (swing >= linkVoltage ** 2)
    throw new DomainError('bulkRipple', 'capacitance', capacitance, 'large enough not to run empty')
  return {
    rippleVoltage: swing / linkVoltage,
    rippleCurrent: power / (Math.SQRT2 * linkVoltage),
    highest: Math.sqrt(linkVoltage ** 2 + swing),
    lowest: Math.sqrt(linkVoltage ** 2 - swing),
  }
}

export const bulkRippleMethod = defineMethod<BulkRippleInputs, BulkRipple & { readonly share: number }>({
  id: 'bulk-ripple',
  title: 'Ripple at twice the line frequency on the bulk capacitor of a single-phase charger stage',
  takes: {
    power: { unit: 'W', about: 'constant DC power' },
    linkVoltage: { unit: 'V', about: 'RMS (near enough mean) link voltage' },
    lineFrequency: { unit: 'Hz', about: 'of the mains' },
    capacitance: { unit: 'F', about: 'of the bank' },
  },
  gives: {
    rippleVoltage: { unit: 'V', print: 'V', about: 'peak to peak, small-ripple form' },
    rippleCurrent: { unit: 'A', print: 'A', about: 'at twice the line frequency, RMS' },
    highest: { unit: 'V', print: 'V', about: 'crest of the link voltage' },
    lowest: { unit: 'V', print: 'V', about: 'trough of the link voltage' },
    share: { unit: '1', print: '%', about: 'peak-to-peak ripple over link voltage' },
  },
  // Against the exact balance of energy the small-ripple form is 0.5 % low at a share of 0.2.
  valid: { share: [0, 0.2] },
  caution: LINK_CAUTION,
  sources: ['balance of energy of a single-phase stage at unity power factor (textbook)'],
  compute: (inputs) => {
    const ripple = bulkRipple(inputs)
    return { ...ripple, share: ripple.rippleVoltage / inputs.linkVoltage }
  },
})

export const dcLinkMethods = [linkRipple, worstLinkRippleMethod, bulkRippleMethod] as const
