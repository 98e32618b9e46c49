import type { Draw, InfluenceSlot } from '../../graph/values.ts'
import { deviations } from './random.ts'
import { type Additive, additiveSamples, additiveVariance, type Columns } from './straight.ts'

/** A value to be drawn: how often at most, and how it is computed under a draw (undefined where there is no result). */
export interface SamplePlan {
  readonly draws: number
  readonly evaluate: (draw: Draw) => number | undefined
  /** What each influence does by itself, when that is known: then fewer draws give the same certainty. */
  readonly additive?: Additive
}

/** Draws before it is first asked whether they are enough; a quarter more each time after. */
const FIRST_DRAWS = 256
const GROWTH = 1.25
/** Standard error of u, relative, at which drawing stops (10,000 plain draws reach 0.7 %). */
const ENOUGH = 0.0075
/** Least length of the column of an influence: what the additive part is known from. */
const COLUMN = 4096

/**
 * Draws values in lockstep: under one draw object every plan is evaluated before the next is made, so that a model they
 * share is solved once a draw. Each influence has its own fixed sequence: the same question gives the same digits.
 * A plan goes on until its u stands (adaptive Monte Carlo, JCGM 101:2008 7.9) or its draws are used up.
 */
export function sampleTogether(
  plans: readonly SamplePlan[],
  influence: (index: number) => InfluenceSlot,
): readonly Sampled[] {
  const most = Math.max(COLUMN, ...plans.map((plan) => plan.draws))
  const columns = columnsOf(influence, most)
  const running = plans.map((plan) => begin(plan, columns))
  for (let k = 0; running.some((one) => !one.done); k++) {
    const draw: NonNullable<Draw> = { moved: 'all', deviation: (index) => columns(index)[k]! }
    for (const one of running) if (!one.done) step(one, draw, k)
  }
  return running.map((one) => one.summary ?? summaryOf(one))
}

interface Running {
  readonly plan: SamplePlan
  readonly values: number[]
  readonly straight: number[]
  readonly known: { readonly sample: Float64Array; readonly variance: number } | null
  readonly atTaken: number | undefined
  next: number
  left: number
  done: boolean
  summary: Sampled | undefined
}

function begin(plan: SamplePlan, columns: Columns): Running {
  const { additive, draws, evaluate } = plan
  const known = additive
    ? { sample: additiveSamples(additive, columns), variance: additiveVariance(additive, columns) }
    : null
  return {
    plan,
    values: [],
    straight: [],
    known: known && known.variance > 0 ? known : null,
    atTaken: evaluate(null),
    next: Math.min(draws, FIRST_DRAWS),
    left: 0,
    done: draws === 0,
    summary: undefined,
  }
}

function step(one: Running, draw: NonNullable<Draw>, k: number): void {
  const value = one.plan.evaluate(draw)
  if (value === undefined) one.left++
  else {
    one.values.push(value)
    if (one.known) one.straight.push(one.known.sample[k]!)
  }
  if (k + 1 >= one.plan.draws) one.done = true
  else if (one.known && k + 1 >= one.next) {
    one.next = Math.ceil(one.next * GROWTH)
    one.summary = summaryOf(one)
    one.done = one.left === 0 && one.summary.standardError <= ENOUGH * one.summary.u
    if (!one.done) one.summary = undefined
  }
}

function summaryOf({ values, straight, known, left, atTaken }: Running): Sampled {
  const plain = summarise(Float64Array.from(values), left, atTaken)
  return known && left === 0 && values.length >= FIRST_DRAWS ? sharpened(plain, values, straight, known) : plain
}

/**
 * The additive part is known from a long column of its own, so only what it leaves is drawn (a control variate):
 * with f = α + β·s + r, u² = β²·var(s) + var(r), and a quantile of f is that of the draws, moved by what the draws of s
 * are off.
 */
function sharpened(
  plain: Sampled,
  values: readonly number[],
  straight: readonly number[],
  { sample, variance }: NonNullable<Running['known']>,
): Sampled {
  const drawn = summarise(Float64Array.from(straight), 0)
  const long = summarise(sample, 0)
  const M = values.length
  let covariance = 0
  for (let k = 0; k < M; k++) covariance += (values[k]! - plain.mean) * (straight[k]! - drawn.mean)
  const slope = drawn.u > 0 ? covariance / (M - 1) / drawn.u ** 2 : 0
  const rest = Math.max(0, plain.u ** 2 - slope ** 2 * drawn.u ** 2)
  const explained = slope ** 2 * variance
  const u = Math.sqrt(explained + rest)
  const standardError = Math.sqrt((2 * rest * rest + 4 * explained * rest) / M) / (2 * u)
  if (!(u > 0) || standardError >= plain.standardError) return plain
  const moved = (of: 'mean' | 'value' | 'low' | 'high'): number => plain[of] + slope * (long[of] - drawn[of])
  const [low, high] = slope >= 0 ? [moved('low'), moved('high')] : [movedAcross('low'), movedAcross('high')]
  return { ...plain, mean: moved('mean'), value: moved('value'), u, low, high, standardError }

  function movedAcross(of: 'low' | 'high'): number {
    const other = of === 'low' ? 'high' : 'low'
    return plain[of] + slope * (long[other] - drawn[other])
  }
}

function columnsOf(influence: (index: number) => InfluenceSlot, length: number): Columns {
  const made: Float64Array[] = []
  return (index) => {
    const known = made[index]
    if (known) return known
    const column = deviations(influence(index), length)
    made[index] = column
    return column
  }
}

/** What the draws of a sampled value say (JCGM 101:2008 clause 7): median, deviation and 95 % quantile interval. */
export interface Sampled {
  readonly mean: number
  readonly value: number
  readonly u: number
  readonly low: number
  readonly high: number
  readonly draws: number
  /** Standard error of u, about u/√(2M). */
  readonly standardError: number
  readonly left: number
}

/**
 * Summary of draws; those without a result are counted as `left`. The interval is the one with equal tails, unless the
 * value taken lies beyond every draw (a smallest or largest possible value): then it is one-sided from there, which is
 * the shortest one (JCGM 101:2008 5.3.4), for an interval must not leave out the value that was taken.
 */
export function summarise(values: Float64Array, left: number, atTaken?: number): Sampled {
  const draws = values.length
  const sorted = Float64Array.from(values).sort()
  let mean = 0
  for (const value of sorted) mean += value / draws
  let squares = 0
  for (const value of sorted) squares += (value - mean) ** 2
  const u = Math.sqrt(squares / Math.max(1, draws - 1))
  return {
    mean,
    value: quantileOf(sorted, 0.5),
    u,
    ...interval(sorted, atTaken),
    draws,
    standardError: u / Math.sqrt(2 * draws),
    left,
  }
}

function interval(sorted: Float64Array, atTaken = Number.NaN): { readonly low: number; readonly high: number } {
  if (atTaken <= sorted[0]!) return { low: atTaken, high: quantileOf(sorted, 0.95) }
  if (atTaken >= sorted.at(-1)!) return { low: quantileOf(sorted, 0.05), high: atTaken }
  return { low: quantileOf(sorted, 0.025), high: quantileOf(sorted, 0.975) }
}

/** Quantile of sorted values by linear interpolation between neighbours. */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const at = p * (sorted.length - 1)
  const below = Math.floor(at)
  const rest = at - below
  const low = sorted[below]!
  return rest === 0 ? low : low + rest * (sorted[below + 1]! - low)
}
