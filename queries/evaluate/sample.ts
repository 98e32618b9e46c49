import type { Draw, InfluenceSlot } from '../../graph/values.ts'
import { deviations } from './random.ts'
import {
  type Additive,
  additiveAt,
  additiveSamples,
  additiveVariance,
  type Columns,
  type Moments,
  momentsOf,
} from './straight.ts'

/** A value to be drawn: how often at most, and how it is computed under a draw (undefined where there is no result). */
export interface SamplePlan {
  readonly draws: number
  readonly evaluate: (draw: Draw) => number | undefined
  /** What each influence does by itself, when that is known: then fewer draws give the same certainty. */
  readonly additive?: Additive
}

/** Draws before it is first asked whether they are enough; a quarter more each time after. */
const FIRST_DRAWS = 64
const GROWTH = 1.25
/** Standard error of u, relative, at which drawing stops (1,250 plain draws reach as much): two digits of u are shown. */
const ENOUGH = 0.02
/** Draws of an influence come in blocks of this length; the additive part is known from the first. */
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
  const block = blocksOf(influence)
  const columns: Columns = (index) => block(index, 0)
  const moments = momentsOf(columns)
  const running = plans.map((plan) => begin(plan, columns, moments))
  for (let k = 0; running.some((one) => !one.done); k++) {
    const draw: NonNullable<Draw> = {
      moved: 'all',
      deviation: (index) => block(index, Math.floor(k / COLUMN))[k % COLUMN]!,
    }
    for (const one of running) if (!one.done) step(one, draw, k)
  }
  return running.map(summaryOf)
}

interface Running {
  readonly plan: SamplePlan
  readonly values: number[]
  readonly straight: number[]
  readonly known: Known | null
  readonly atTaken: number | undefined
  next: number
  left: number
  done: boolean
}

/** The additive part: under every draw of the columns, and its variance. */
interface Known {
  readonly sample: Float64Array
  readonly variance: number
}

function begin(plan: SamplePlan, columns: Columns, moments: Moments): Running {
  const { additive, draws, evaluate } = plan
  const variance = additive ? additiveVariance(additive, moments) : 0
  return {
    plan,
    values: [],
    straight: [],
    known: additive && variance > 0 ? { sample: additiveSamples(additive, columns), variance } : null,
    atTaken: evaluate(null),
    next: Math.min(draws, FIRST_DRAWS),
    left: 0,
    done: draws === 0,
  }
}

function step(one: Running, draw: NonNullable<Draw>, k: number): void {
  const value = one.plan.evaluate(draw)
  if (value === undefined) one.left++
  else {
    one.values.push(value)
    if (one.known) one.straight.push(k < COLUMN ? one.known.sample[k]! : additiveAt(one.plan.additive!, draw.deviation))
  }
  if (k + 1 >= one.plan.draws) one.done = true
  else if (one.known && one.left === 0 && k + 1 >= one.next) {
    one.next = Math.ceil(one.next * GROWTH)
    const { u, standardError } = split(one.values, one.straight, one.known)
    one.done = standardError <= ENOUGH * u
  }
}

function summaryOf({ values, straight, known, left, atTaken }: Running): Sampled {
  const plain = summarise(Float64Array.from(values), left, atTaken)
  if (!known || left > 0 || values.length < FIRST_DRAWS) return plain
  const parted = split(values, straight, known)
  return parted.u > 0 && parted.standardError < plain.standardError ? sharpened(plain, straight, known, parted) : plain
}

/** What the additive part explains of some draws, and how well u is then known. */
interface Split {
  readonly slope: number
  readonly u: number
  readonly standardError: number
}

/**
 * The additive part is known from a long column of its own, so only what it leaves is drawn (a control variate):
 * with f = α + β·s + r, u² = β²·var(s) + var(r).
 */
function split(values: readonly number[], straight: readonly number[], { variance }: Known): Split {
  const count = values.length
  const f = mean(values)
  const s = mean(straight)
  let ff = 0
  let fs = 0
  let ss = 0
  for (let k = 0; k < count; k++) {
    const df = values[k]! - f
    const ds = straight[k]! - s
    ff += df * df
    fs += df * ds
    ss += ds * ds
  }
  const slope = ss > 0 ? fs / ss : 0
  const rest = Math.max(0, ff - slope * fs) / (count - 1)
  const explained = slope ** 2 * variance
  const u = Math.sqrt(explained + rest)
  const standardError = u > 0 ? Math.sqrt((2 * rest * rest + 4 * explained * rest) / count) / (2 * u) : 0
  return { slope, u, standardError }
}

function mean(values: readonly number[]): number {
  let sum = 0
  for (const value of values) sum += value
  return sum / values.length
}

/** Mean and quantiles of the draws, moved by what those of the additive part are off under the same draws. */
function sharpened(
  plain: Sampled,
  straight: readonly number[],
  { sample }: Known,
  { slope, u, standardError }: Split,
): Sampled {
  const drawn = summarise(Float64Array.from(straight), 0)
  const long = summarise(sample, 0)
  type Mark = 'mean' | 'value' | 'low' | 'high' | 'least' | 'most'
  const moved = (of: Mark, like = of): number => plain[of] + slope * (long[like] - drawn[like])
  const [lower, upper] = slope >= 0 ? (['low', 'high'] as const) : (['high', 'low'] as const)
  const [least, most] = slope >= 0 ? (['least', 'most'] as const) : (['most', 'least'] as const)
  // Never beyond what the inputs allow: what was drawn, or would have been in the long column. A few draws end well
  // inside that. An end that is the value taken stays there.
  const low = Math.max(Math.min(plain.least, moved('least', least)), moved('low', lower))
  const high = Math.min(Math.max(plain.most, moved('most', most)), moved('high', upper))
  return {
    ...plain,
    mean: moved('mean'),
    value: moved('value'),
    u,
    low: plain.oneSided === 'low' ? plain.low : low,
    high: plain.oneSided === 'high' ? plain.high : high,
    standardError,
  }
}

function blocksOf(influence: (index: number) => InfluenceSlot): (index: number, block: number) => Float64Array {
  const made: Float64Array[][] = []
  return (index, block) => {
    const own = made[index] ?? []
    made[index] = own
    const known = own[block] ?? deviations(influence(index), COLUMN, block)
    own[block] = known
    return known
  }
}

/** What the draws of a sampled value say (JCGM 101:2008 clause 7): median, deviation and 95 % quantile interval. */
export interface Sampled {
  readonly mean: number
  readonly value: number
  readonly u: number
  readonly low: number
  readonly high: number
  /** Smallest and largest draw. */
  readonly least: number
  readonly most: number
  /** The end of the interval that is the value taken, when no draw lies beyond it. */
  readonly oneSided: 'low' | 'high' | null
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
    least: sorted[0] ?? Number.NaN,
    most: sorted.at(-1) ?? Number.NaN,
    draws,
    standardError: u / Math.sqrt(2 * draws),
    left,
  }
}

function interval(sorted: Float64Array, atTaken = Number.NaN): Pick<Sampled, 'low' | 'high' | 'oneSided'> {
  if (atTaken <= sorted[0]!) return { low: atTaken, high: quantileOf(sorted, 0.95), oneSided: 'low' }
  if (atTaken >= sorted.at(-1)!) return { low: quantileOf(sorted, 0.05), high: atTaken, oneSided: 'high' }
  return { low: quantileOf(sorted, 0.025), high: quantileOf(sorted, 0.975), oneSided: null }
}

/** Quantile of sorted values by linear interpolation between neighbours. */
export function quantileOf(sorted: ArrayLike<number>, p: number): number {
  const at = p * (sorted.length - 1)
  const below = Math.floor(at)
  const rest = at - below
  const low = sorted[below]!
  return rest === 0 ? low : low + rest * (sorted[below + 1]! - low)
}
