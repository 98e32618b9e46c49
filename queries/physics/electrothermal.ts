import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { findRoot } from './root.ts'

const CAUTION =
  'A loaded unit is at lethal voltage and hot: work on it only when it is proved dead, by local codes and licensed practice.'

export type LinearLossInputs = {
  loss: number
  temperatureCoefficient: number
  referenceTemperature: number
  coolantTemperature: number
  thermalResistance: number
}

export type LinearLoss = {
  readonly stable: boolean
  readonly loopGain: number
  /** Resistance at which the loop gain is 1; absent for a loss that does not rise. */
  readonly runawayResistance?: number
  /** Absent in a runaway. */
  readonly junctionTemperature?: number
  readonly loss?: number
}

/**
 * Junction temperature with a loss that is linear in it, P = P₀ (1 + a (T − T₀)): T = (T_c + R P₀ (1 − a T₀))/(1 − R P₀ a).
 * With a loop gain R P₀ a of 1 or more no steady temperature exists; the formula would still print one, so none is given.
 *
 * @param loss                   P₀ at the reference temperature [W], ≥ 0
 * @param temperatureCoefficient a [1/K], of either sign
 * @param referenceTemperature   and coolantTemperature [K], > 0
 * @param thermalResistance      junction to coolant [K/W], > 0
 * @throws {DomainError} on values outside of the above
 *
 * @example linearLossJunction({ loss: 310, temperatureCoefficient: 0.0065, referenceTemperature: 298.15,
 *   coolantTemperature: 338.15, thermalResistance: 0.19 }).junctionTemperature // 458.4
 */
export function linearLossJunction(inputs: LinearLossInputs): LinearLoss {
  const { loss, temperatureCoefficient, referenceTemperature, coolantTemperature, thermalResistance } = inputs
  requireNonNegative('linearLossJunction', 'loss', loss)
  requirePositive('linearLossJunction', 'referenceTemperature', referenceTemperature)
  requirePositive('linearLossJunction', 'coolantTemperature', coolantTemperature)
  requirePositive('linearLossJunction', 'thermalResistance', thermalResistance)
  if (!Number.isFinite(temperatureCoefficient)) {
    throw new DomainError('linearLossJunction', 'temperatureCoefficient', temperatureCoefficient, 'a finite number')
  }
  const slope = loss * temperatureCoefficient
  const loopGain = thermalResistance * slope
  const limit = slope > 0 ? { runawayResistance: 1 / slope } : {}
  if (loopGain >= 1) return { stable: false, loopGain, ...limit }
  const atCoolant = loss + slope * (coolantTemperature - referenceTemperature)
  const settled = atCoolant / (1 - loopGain)
  return {
    stable: true,
    loopGain,
    ...limit,
    junctionTemperature: coolantTemperature + thermalResistance * settled,
    loss: settled,
  }
}

const SETTLED = {
  stable: { unit: '1', print: '1', about: 'whether a steady temperature exists' },
  junctionTemperature: { unit: 'K', print: 'Cel', about: 'of the stable state; absent in a runaway' },
  loss: { unit: 'W', print: 'W', about: 'at that temperature; absent in a runaway' },
} as const

export const linearLossMethod = defineMethod<LinearLossInputs, LinearLoss>({
  id: 'electrothermal-linear',
  title: 'Junction temperature with a loss that rises in a straight line',
  takes: {
    loss: { unit: 'W', about: 'at the reference temperature' },
    temperatureCoefficient: { unit: '1/K', about: 'relative rise of the loss per kelvin' },
    referenceTemperature: { unit: 'K', about: 'at which the loss is stated' },
    coolantTemperature: { unit: 'K', about: 'local coolant' },
    thermalResistance: { unit: 'K/W', about: 'junction to coolant' },
  },
  gives: {
    ...SETTLED,
    loopGain: { unit: '1', print: '1', about: 'extra loss that comes back per extra loss; 1 or more is a runaway' },
    runawayResistance: { unit: 'K/W', print: 'K/W', about: 'at which the loop gain is 1' },
  },
  caution: CAUTION,
  sources: ['closed form of the linear fixed point'],
  compute: linearLossJunction,
})

export type ExponentialLossInputs = {
  loss: number
  leakLoss: number
  referenceTemperature: number
  temperatureScale: number
  coolantTemperature: number
  thermalResistance: number
}

export type ExponentialLoss = {
  readonly stable: boolean
  readonly junctionTemperature?: number
  readonly unstableTemperature?: number
  readonly loss?: number
  readonly loopGain?: number
  readonly criticalResistance: number
  readonly criticalTemperature: number
}

/**
 * Junction temperature with a part of the loss that grows exponentially, P = P₁ + P₂ exp((T − T_r)/T_s). Below the
 * critical resistance two temperatures balance, of which only the lower is stable; above there is none. Both touch where
 * R P₂ exp((T − T_r)/T_s) = T_s, at T = T_c + R P₁ + T_s.
 *
 * @param loss                 constant part P₁ [W], ≥ 0
 * @param leakLoss             P₂ at the reference temperature [W], > 0
 * @param referenceTemperature T_r, coolantTemperature T_c and temperatureScale T_s [K], > 0
 * @param thermalResistance    junction to coolant [K/W], > 0
 * @throws {DomainError} on values outside of the above
 *
 * @example exponentialLossJunction({ loss: 150, leakLoss: 4, referenceTemperature: 423.15, temperatureScale: 20,
 *   coolantTemperature: 343.15, thermalResistance: 0.4 }).junctionTemperature // 403.757
 */
export function exponentialLossJunction(inputs: ExponentialLossInputs): ExponentialLoss {
  const { loss, ...positive } = inputs
  requireNonNegative('exponentialLossJunction', 'loss', loss)
  for (const [name, value] of Object.entries(positive)) requirePositive('exponentialLossJunction', name, value)
  const { leakLoss, referenceTemperature, temperatureScale, coolantTemperature, thermalResistance } = positive
  const critical = criticalPoint(inputs)
  // In u = (T − T_r)/T_s the balance is u − offset = gain eᵘ; its left side less its right side is concave.
  const gain = (thermalResistance * leakLoss) / temperatureScale
  const offset = (coolantTemperature + thermalResistance * loss - referenceTemperature) / temperatureScale
  const balance = (u: number) => u - offset - gain * Math.exp(u)
  const top = -Math.log(gain)
  if (!(thermalResistance < critical.criticalResistance) || !(balance(top) > 0)) return { stable: false, ...critical }
  const stable = findRoot(balance, { low: offset, high: top })
  let above = top + 1
  while (balance(above) > 0) above += above - top
  const unstable = findRoot(balance, { low: top, high: above })
  const junctionTemperature = referenceTemperature + temperatureScale * stable
  return {
    stable: true,
    junctionTemperature,
    unstableTemperature: referenceTemperature + temperatureScale * unstable,
    loss: loss + leakLoss * Math.exp(stable),
    loopGain: gain * Math.exp(stable),
    ...critical,
  }
}

/** Resistance at which both balances touch: ln R + (T_c + R P₁ + T_s − T_r)/T_s = ln(T_s/P₂), rising in R. */
function criticalPoint(inputs: ExponentialLossInputs): { criticalResistance: number; criticalTemperature: number } {
  const { loss, leakLoss, referenceTemperature, temperatureScale, coolantTemperature } = inputs
  const start =
    1 + (coolantTemperature - referenceTemperature) / temperatureScale - Math.log(temperatureScale / leakLoss)
  // In x = ln R: x + e^x P₁/T_s + start = 0, so x lies at or below −start.
  const excess = (x: number) => x + (Math.exp(x) * loss) / temperatureScale + start
  const high = -start
  let low = high - 1
  while (excess(low) > 0) low -= high - low
  const criticalResistance = Math.exp(loss === 0 ? high : findRoot(excess, { low, high }))
  return { criticalResistance, criticalTemperature: coolantTemperature + criticalResistance * loss + temperatureScale }
}

export const exponentialLossMethod = defineMethod<ExponentialLossInputs, ExponentialLoss>({
  id: 'electrothermal-exponential',
  title: 'Junction temperature with a part of the loss that grows exponentially',
  takes: {
    loss: { unit: 'W', about: 'constant part' },
    leakLoss: { unit: 'W', about: 'growing part at the reference temperature' },
    referenceTemperature: { unit: 'K', about: 'at which the growing part is stated' },
    temperatureScale: { unit: 'K', about: 'rise over which the growing part grows by a factor of e' },
    coolantTemperature: { unit: 'K', about: 'local coolant' },
    thermalResistance: { unit: 'K/W', about: 'junction to coolant' },
  },
  gives: {
    ...SETTLED,
    unstableTemperature: { unit: 'K', print: 'Cel', about: 'above it the junction runs away' },
    loopGain: { unit: '1', print: '1', about: 'at the stable temperature' },
    criticalResistance: { unit: 'K/W', print: 'K/W', about: 'above it no steady temperature exists' },
    criticalTemperature: { unit: 'K', print: 'Cel', about: 'where stable and unstable temperature meet' },
  },
  caution: CAUTION,
  sources: ['fixed point of an exponential; both branches, closed form by the Lambert function'],
  compute: exponentialLossJunction,
})

export const electrothermalMethods = [linearLossMethod, exponentialLossMethod] as const
