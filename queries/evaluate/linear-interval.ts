import { bounds, quantile, tFactor95 } from '../../graph/quantity/shape.ts'
import type { InfluenceSlot } from '../../graph/values.ts'

/**
 * 95 % interval of a sum of independent deviations: the largest bounded one is kept in its own shape, all others are
 * taken together as one normal (central limit), widened by the t factor of their effective degrees of freedom
 * (Welch-Satterthwaite, JCGM 100:2008 G.4). Both ends are then bent by the second differences where the causes stand
 * when the sum is there, so that 1/x of a wide rectangle does not leave what x allows. The interval never leaves what
 * the inputs allow when all are bounded.
 */
export function linearInterval(
  atTaken: number,
  influences: readonly InfluenceSlot[],
  components: ReadonlyMap<number, number>,
  bends: ReadonlyMap<number, number> = new Map(),
): { readonly low: number; readonly high: number } {
  const parts = influences
    .filter((influence) => components.has(influence.index))
    .map((influence) => ({
      influence,
      c: components.get(influence.index)!,
      bend: bends.get(influence.index) ?? 0,
    }))
  if (parts.length === 0) return { low: atTaken, high: atTaken }
  const bounded = parts.filter(({ influence }) => bounds(influence.shape) !== null)
  const leader = bounded.reduce<(typeof parts)[number] | null>(
    (best, part) => (best === null || Math.abs(part.c) > Math.abs(best.c) ? part : best),
    null,
  )
  const rest = parts.filter((part) => part !== leader)
  const spread = combined(rest)
  const shift = rest.reduce((sum, part) => sum + meanOf(part), 0)
  const [low, high] = [0.025, 0.975].map((p) => {
    const sum = sumQuantile(leader, spread, p) + shift
    return sum + bentAt(parts, sum)
  })
  const limits = bounded.length === parts.length ? rangeOf(parts) : null
  return {
    low: atTaken + (limits ? Math.max(low!, limits[0]) : low!),
    high: atTaken + (limits ? Math.min(high!, limits[1]) : high!),
  }
}

type Part = { readonly influence: InfluenceSlot; readonly c: number; readonly bend: number }

/**
 * What a straight line leaves out where the sum has moved by so much: each cause stands at its mean given the sum,
 * t = sum·c/Σc² standard uncertainties, and no further than it can.
 */
function bentAt(parts: readonly Part[], sum: number): number {
  const variance = parts.reduce((total, { c }) => total + c * c, 0)
  return parts.reduce((total, { influence, c, bend }) => {
    const limits = bounds(influence.shape)
    const mean = (sum * c) / variance
    const t = limits ? Math.min(Math.max(mean, limits[0] / influence.u), limits[1] / influence.u) : mean
    return total + bend * t * t
  }, 0)
}

/** Quantile of slope·deviation of one influence, slope being c/u. */
function leaderQuantile({ influence, c }: Part, p: number): number {
  const slope = c / influence.u
  return slope * quantile(influence.shape, slope >= 0 ? p : 1 - p)
}

function meanOf({ influence, c }: Part): number {
  const limits = bounds(influence.shape)
  if (!limits) return 0
  const middle = influence.shape.kind === 'triangular' ? (limits[0] + limits[1]) / 3 : (limits[0] + limits[1]) / 2
  return (c / influence.u) * middle
}

/** Standard deviation of the normal part, widened so that 1.96 of it is the t interval. */
function combined(parts: readonly Part[]): number {
  const variance = parts.reduce((sum, { c }) => sum + c * c, 0)
  if (variance === 0) return 0
  const fourth = fourthPowers(parts)
  const widen = fourth === 0 ? 1 : tFactor95(variance ** 2 / fourth) / tFactor95(Number.POSITIVE_INFINITY)
  return Math.sqrt(variance) * widen
}

/** Σ c⁴/ν of Welch-Satterthwaite; parts of one run of readings have their degrees of freedom once, together. */
function fourthPowers(parts: readonly Part[]): number {
  let sum = 0
  const runs = new Map<string, { readonly dof: number; variance: number }>()
  for (const { influence, c } of parts) {
    const { shape } = influence
    if (shape.kind !== 'student') continue
    if (shape.together === undefined) sum += c ** 4 / shape.dof
    else {
      const run = runs.get(shape.together) ?? { dof: shape.dof, variance: 0 }
      run.variance += c * c
      runs.set(shape.together, run)
    }
  }
  for (const { dof, variance } of runs.values()) sum += variance ** 2 / dof
  return sum
}

function rangeOf(parts: readonly Part[]): [number, number] {
  let low = 0
  let high = 0
  for (const { influence, c, bend } of parts) {
    const ends = bounds(influence.shape)!.map((limit) => {
      const t = limit / influence.u
      return c * t + bend * t * t
    })
    low += Math.min(...ends)
    high += Math.max(...ends)
  }
  return [low, high]
}

/** Quantile of (leading + normal of the given deviation), by bisection on the sum's distribution function. */
function sumQuantile(leader: Part | null, deviation: number, p: number): number {
  if (leader === null) return deviation * quantile(STANDARD_NORMAL, p)
  if (deviation === 0) return leaderQuantile(leader, p)
  const below =
    leader.influence.shape.kind === 'triangular' ? mixedBelow(leader, deviation) : smearedBelow(leader, deviation)
  let low = leaderQuantile(leader, 0) - 6 * deviation
  let high = leaderQuantile(leader, 1) + 6 * deviation
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2
    if (below(middle) < p) low = middle
    else high = middle
  }
  return (low + high) / 2
}

const STANDARD_NORMAL = { kind: 'normal', u: 1 } as const

/** Distribution function of rectangle + normal: the mean of the normal's over the rectangle, in closed form. */
function smearedBelow(leader: Part, deviation: number): (x: number) => number {
  const from = leaderQuantile(leader, 0)
  const to = leaderQuantile(leader, 1)
  const integral = (z: number) => z * normalBelow(z) + Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
  return (x) => (deviation / (to - from)) * (integral((x - from) / deviation) - integral((x - to) / deviation))
}

/** The same for any other shape, by mid-point nodes over its quantile function. */
function mixedBelow(leader: Part, deviation: number): (x: number) => number {
  const count = 100
  const nodes = Float64Array.from({ length: count }, (_, k) => leaderQuantile(leader, (k + 0.5) / count))
  return (x) => nodes.reduce((sum, node) => sum + normalBelow((x - node) / deviation), 0) / count
}

/** Normal distribution function, Abramowitz and Stegun 7.1.26 (absolute error below 1.5e-7, from memory). */
export function normalBelow(x: number): number {
  const t = 1 / (1 + (0.3275911 * Math.abs(x)) / Math.SQRT2)
  const series = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
  const tail = (series * Math.exp((-x * x) / 2)) / 2
  return x >= 0 ? 1 - tail : tail
}
