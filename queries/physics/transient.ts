import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION =
  'A loaded unit is at lethal voltage and hot: work on it only when it is proved dead, by local codes and licensed practice.'

/** Sum of exponentials: thermal resistances [K/W] and time constants [s]. Its nodes are no places. */
export type Foster = { readonly thermalResistances: readonly number[]; readonly timeConstants: readonly number[] }

function checkFoster({ thermalResistances, timeConstants }: Foster): void {
  if (thermalResistances.length !== timeConstants.length || timeConstants.length === 0) {
    throw new DomainError(
      'foster',
      'timeConstants',
      timeConstants.length,
      `${thermalResistances.length} numbers, at least one`,
    )
  }
  for (const resistance of thermalResistances) requireNonNegative('foster', 'thermalResistances', resistance)
  for (const tau of timeConstants) requirePositive('foster', 'timeConstants', tau)
}

function sumOver({ thermalResistances, timeConstants }: Foster, share: (tau: number) => number): number {
  return thermalResistances.reduce((sum, resistance, i) => sum + resistance * share(timeConstants[i]!), 0)
}

/**
 * Transient thermal impedance after a step, Z(t) = Σ R (1 − exp(−t/τ)) [K/W].
 *
 * @throws {DomainError} on lists of unequal length, a time constant of zero or less, or a negative time
 *
 * @example transientImpedance({ thermalResistances: [0.1], timeConstants: [1], time: 1 }) // 0.0632
 */
export function transientImpedance({ time, ...foster }: Foster & { time: number }): number {
  checkFoster(foster)
  requireNonNegative('transientImpedance', 'time', time)
  return sumOver(foster, (tau) => -Math.expm1(-time / tau))
}

export type PulseInputs = Foster & { loss: number; pulseDuration: number; times: readonly number[] }
export type Pulse = {
  readonly rises: readonly number[]
  readonly impedances: readonly number[]
  readonly endRise: number
  readonly steadyRise: number
}

/**
 * Temperature rise during and after one rectangular pulse of loss; after it, P Σ R (1 − exp(−t_p/τ)) exp(−(t − t_p)/τ),
 * which keeps its digits however short the pulse.
 *
 * @param loss          [W], finite
 * @param pulseDuration [s], ≥ 0
 * @param times         since the start of the pulse [s], ≥ 0
 * @throws {DomainError} as {@link transientImpedance}
 */
export function pulseRise({ loss, pulseDuration, times, ...foster }: PulseInputs): Pulse {
  checkFoster(foster)
  requireNonNegative('pulseRise', 'pulseDuration', pulseDuration)
  if (!Number.isFinite(loss)) throw new DomainError('pulseRise', 'loss', loss, 'a finite number')
  const riseAt = (time: number): number => {
    requireNonNegative('pulseRise', 'times', time)
    const heated = Math.min(time, pulseDuration)
    return loss * sumOver(foster, (tau) => -Math.expm1(-heated / tau) * Math.exp(-(time - heated) / tau))
  }
  return {
    rises: times.map(riseAt),
    impedances: times.map((time) => transientImpedance({ ...foster, time })),
    endRise: riseAt(pulseDuration),
    steadyRise: loss * sumOver(foster, () => 1),
  }
}

export type RepeatedPulseInputs = Foster & { loss: number; pulseDuration: number; period: number }
export type RepeatedPulse = { readonly peakRise: number; readonly valleyRise: number; readonly meanRise: number }

/**
 * Periodic state of rectangular pulses: peak P Σ R (1 − e^(−t_p/τ))/(1 − e^(−T/τ)), valley the same times e^(−(T − t_p)/τ),
 * mean P ΣR t_p/T; by expm1, so that a period far below a time constant loses nothing.
 *
 * @param pulseDuration [s], 0 … period
 * @param period        [s], > 0
 * @throws {DomainError} as {@link transientImpedance}, and on a pulse longer than the period
 */
export function repeatedPulseRise({ loss, pulseDuration, period, ...foster }: RepeatedPulseInputs): RepeatedPulse {
  checkFoster(foster)
  requirePositive('repeatedPulseRise', 'period', period)
  if (!(pulseDuration >= 0 && pulseDuration <= period)) {
    throw new DomainError('repeatedPulseRise', 'pulseDuration', pulseDuration, `0 … ${period} s, the period`)
  }
  if (!Number.isFinite(loss)) throw new DomainError('repeatedPulseRise', 'loss', loss, 'a finite number')
  const share = (tau: number) => Math.expm1(-pulseDuration / tau) / Math.expm1(-period / tau)
  return {
    peakRise: loss * sumOver(foster, share),
    valleyRise: loss * sumOver(foster, (tau) => share(tau) * Math.exp(-(period - pulseDuration) / tau)),
    meanRise: (loss * sumOver(foster, () => 1) * pulseDuration) / period,
  }
}

export type Ladder = { readonly heatCapacities: readonly number[]; readonly ladderResistances: readonly number[] }

/**
 * Turns a Cauer ladder (heat capacity of each node to reference, resistance from it to the next, the last to coolant)
 * into the Foster terms of its heated node: eigenvalues of the symmetrised ladder, R = v₁²/(C₁ λ), τ = 1/λ. The ladder's
 * nodes are places, the terms are not.
 *
 * @param heatCapacities    from the heated node on [J/K], > 0
 * @param ladderResistances from each node to the next, the last to coolant [K/W], > 0
 * @returns terms by rising time constant
 * @throws {DomainError} on lists of unequal length or values of zero or less
 *
 * @example ladderToFoster({ heatCapacities: [0.35, 6], ladderResistances: [0.06, 0.09] }).timeConstants // [0.0198, 0.5727]
 */
export function ladderToFoster({ heatCapacities, ladderResistances }: Ladder): Foster {
  const n = heatCapacities.length
  if (n === 0 || ladderResistances.length !== n) {
    throw new DomainError('ladderToFoster', 'ladderResistances', ladderResistances.length, `${n} numbers, at least one`)
  }
  for (const capacity of heatCapacities) requirePositive('ladderToFoster', 'heatCapacities', capacity)
  for (const resistance of ladderResistances) requirePositive('ladderToFoster', 'ladderResistances', resistance)
  const g = ladderResistances.map((resistance) => 1 / resistance)
  const matrix = heatCapacities.map((c, i) =>
    heatCapacities.map((d, j) => {
      if (i === j) return (g[i]! + (i > 0 ? g[i - 1]! : 0)) / c
      return Math.abs(i - j) === 1 ? -g[Math.min(i, j)]! / Math.sqrt(c * d) : 0
    }),
  )
  const terms = symmetricEigen(matrix)
    .map(({ value, first }) => ({ tau: 1 / value, resistance: first ** 2 / (heatCapacities[0]! * value) }))
    .sort((a, b) => a.tau - b.tau)
  return { thermalResistances: terms.map(({ resistance }) => resistance), timeConstants: terms.map(({ tau }) => tau) }
}

/** Eigenvalues of a symmetric matrix with the first component of each unit eigenvector, by Jacobi rotations. */
function symmetricEigen(matrix: readonly (readonly number[])[]): { value: number; first: number }[] {
  const n = matrix.length
  const a = matrix.map((row) => [...row])
  const first = a.map((_, i) => (i === 0 ? 1 : 0))
  for (let sweep = 0; sweep < 60; sweep++) {
    let rotated = false
    for (let p = 0; p < n; p++) {
      for (let q = p + 1; q < n; q++) {
        const off = a[p]![q]!
        if (Math.abs(off) <= 1e-17 * Math.sqrt(Math.abs(a[p]![p]! * a[q]![q]!))) continue
        rotated = true
        rotate({ a, first, p, q })
      }
    }
    if (!rotated) break
  }
  return a.map((row, i) => ({ value: row[i]!, first: first[i]! }))
}

function rotate({ a, first, p, q }: { a: number[][]; first: number[]; p: number; q: number }): void {
  const theta = (a[q]![q]! - a[p]![p]!) / (2 * a[p]![q]!)
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1))
  const c = 1 / Math.hypot(t, 1)
  const s = t * c
  const shift = t * a[p]![q]!
  a[p]![p]! -= shift
  a[q]![q]! += shift
  a[p]![q] = a[q]![p] = 0
  for (let k = 0; k < a.length; k++) {
    if (k === p || k === q) continue
    const [x, y] = [a[k]![p]!, a[k]![q]!]
    a[k]![p] = a[p]![k] = c * x - s * y
    a[k]![q] = a[q]![k] = s * x + c * y
  }
  const [x, y] = [first[p]!, first[q]!]
  first[p] = c * x - s * y
  first[q] = s * x + c * y
}

export type HoldTimeInputs = {
  masses: readonly number[]
  specificHeats: readonly number[]
  allowedRise: number
  loss: number
}
export type HoldTime = { readonly heatCapacity: number; readonly holdTime: number }

/**
 * How long a loss can be borne without cooling while all masses warm together, t = Σ m c ΔT/P. A lower bound is not
 * implied: what is heated first is hotter than the mean, so the true time is shorter.
 *
 * @param masses        [kg] and specificHeats [J/(kg.K)], lists of one length, ≥ 0
 * @param allowedRise   [K], ≥ 0
 * @param loss          [W], > 0
 * @throws {DomainError} on values outside of the above
 *
 * @example adiabaticHoldTime({ masses: [0.5], specificHeats: [385], allowedRise: 40, loss: 900 }).holdTime // 8.56
 */
export function adiabaticHoldTime({ masses, specificHeats, allowedRise, loss }: HoldTimeInputs): HoldTime {
  if (masses.length !== specificHeats.length) {
    throw new DomainError('adiabaticHoldTime', 'specificHeats', specificHeats.length, `${masses.length} numbers`)
  }
  for (const mass of masses) requireNonNegative('adiabaticHoldTime', 'masses', mass)
  for (const heat of specificHeats) requireNonNegative('adiabaticHoldTime', 'specificHeats', heat)
  requireNonNegative('adiabaticHoldTime', 'allowedRise', allowedRise)
  requirePositive('adiabaticHoldTime', 'loss', loss)
  const heatCapacity = masses.reduce((sum, mass, i) => sum + mass * specificHeats[i]!, 0)
  return { heatCapacity, holdTime: (heatCapacity * allowedRise) / loss }
}

const FOSTER = {
  thermalResistances: { unit: 'K/W', list: true, about: 'of the Foster terms' },
  timeConstants: { unit: 's', list: true, about: 'of the Foster terms' },
} as const
const SUPERPOSITION = ['superposition of steps on a linear network, closed form'] as const

export const pulseMethod = defineMethod<PulseInputs, Pulse>({
  id: 'thermal-pulse',
  title: 'Temperature rise during and after one pulse of loss',
  takes: {
    ...FOSTER,
    loss: { unit: 'W', about: 'during the pulse' },
    pulseDuration: { unit: 's', about: 'length of the pulse' },
    times: { unit: 's', list: true, about: 'since the start of the pulse' },
  },
  gives: {
    rises: { unit: 'K', print: 'K', about: 'at each time' },
    impedances: { unit: 'K/W', print: 'K/W', about: 'transient impedance of a lasting step at each time' },
    endRise: { unit: 'K', print: 'K', about: 'at the end of the pulse' },
    steadyRise: { unit: 'K', print: 'K', about: 'if the loss lasted' },
  },
  caution: CAUTION,
  sources: SUPERPOSITION,
  compute: pulseRise,
})

export const repeatedPulseMethod = defineMethod<RepeatedPulseInputs, RepeatedPulse>({
  id: 'repeated-thermal-pulse',
  title: 'Peak and valley of the temperature rise under repeated pulses',
  takes: {
    ...FOSTER,
    loss: { unit: 'W', about: 'during each pulse' },
    pulseDuration: { unit: 's', about: 'length of a pulse' },
    period: { unit: 's', about: 'from pulse to pulse' },
  },
  gives: {
    peakRise: { unit: 'K', print: 'K', about: 'at the end of a pulse' },
    valleyRise: { unit: 'K', print: 'K', about: 'before the next pulse' },
    meanRise: { unit: 'K', print: 'K', about: 'over a period' },
  },
  caution: CAUTION,
  sources: SUPERPOSITION,
  compute: repeatedPulseRise,
})

export const ladderMethod = defineMethod<Ladder, Foster>({
  id: 'ladder-to-foster',
  title: 'Foster terms of a Cauer ladder',
  takes: {
    heatCapacities: { unit: 'J/K', list: true, about: 'of the nodes, from the heated one on' },
    ladderResistances: { unit: 'K/W', list: true, about: 'from each node to the next, the last to coolant' },
  },
  gives: {
    thermalResistances: { unit: 'K/W', print: 'K/W', about: 'of the terms, by rising time constant' },
    timeConstants: { unit: 's', print: 's', about: 'of the terms' },
  },
  sources: ['eigenvalues of the symmetrised ladder'],
  compute: ladderToFoster,
})

export const holdTimeMethod = defineMethod<HoldTimeInputs, HoldTime>({
  id: 'adiabatic-hold-time',
  title: 'Time until masses without cooling have warmed by a given rise',
  takes: {
    masses: { unit: 'kg', list: true, about: 'that warm together' },
    specificHeats: { unit: 'J/(kg.K)', list: true, about: 'of these masses' },
    allowedRise: { unit: 'K', about: 'temperature rise to reach' },
    loss: { unit: 'W', about: 'heat that stays in' },
  },
  gives: {
    heatCapacity: { unit: 'J/K', print: 'J/K', about: 'of all masses' },
    holdTime: { unit: 's', print: 's', about: 'if all warm evenly; a part heated first is sooner too hot' },
  },
  caution: CAUTION,
  sources: ['energy balance without exchange'],
  compute: adiabaticHoldTime,
})

export const transientMethods = [pulseMethod, repeatedPulseMethod, ladderMethod, holdTimeMethod] as const
