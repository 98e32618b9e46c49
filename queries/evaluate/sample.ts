import type { Draw, InfluenceSlot } from '../../graph/values.ts'
import { deviations } from './random.ts'

/** A value to be drawn: how often, and how it is computed under a draw (undefined where there is no result). */
export interface SamplePlan {
  readonly draws: number
  readonly evaluate: (draw: Draw) => number | undefined
}

/**
 * Draws values in lockstep: under one draw object every plan is evaluated before the next is made, so that a model they
 * share is solved once a draw. Each influence has its own fixed sequence: the same question gives the same digits.
 */
export function sampleTogether(
  plans: readonly SamplePlan[],
  influence: (index: number) => InfluenceSlot,
): readonly Sampled[] {
  const most = Math.max(0, ...plans.map((plan) => plan.draws))
  const columns = new Map<number, Float64Array>()
  const column = (index: number): Float64Array => {
    const known = columns.get(index) ?? deviations(influence(index), most)
    columns.set(index, known)
    return known
  }
  const values = plans.map(() => [] as number[])
  for (let k = 0; k < most; k++) {
    const draw: NonNullable<Draw> = { moved: 'all', deviation: (index) => column(index)[k]! }
    plans.forEach((plan, at) => {
      if (k >= plan.draws) return
      const value = plan.evaluate(draw)
      if (value !== undefined) values[at]!.push(value)
    })
  }
  return plans.map((plan, at) => {
    const drawn = Float64Array.from(values[at]!)
    return summarise(drawn, plan.draws - drawn.length, plan.evaluate(null))
  })
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
