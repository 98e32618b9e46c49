import type { Path } from '../../graph/quantity/quantity.ts'
import type { Trail } from '../../graph/trail.ts'
import type { InfluenceSlot } from '../../graph/values.ts'
import type { Model, View, Viewer } from '../../graph/view.ts'
import type { Bounds, Figure } from '../figures/figure.ts'
import { figureById } from '../figures/registry.ts'
import { DomainError } from '../physics/method.ts'
import { type Draws, drawsFor } from './draws.ts'
import { type End, finish, type Work, withoutValue } from './finish.ts'
import { type FirstOrder, firstOrder, type Problem, sistersOf } from './propagate.ts'
import type { Result } from './result.ts'
import { type Sampled, type SamplePlan, sampleTogether } from './sample.ts'
import type { Request, Session } from './session.ts'
import type { Additive } from './straight.ts'

/** Draws of a sampled figure at most; fewer, down to the least, when it reads much (the count is printed). */
const MOST_DRAWS = 10_000
const LEAST_DRAWS = 256
/** Of a figure that is costly to compute, whatever it stands on. */
const COSTLY_DRAWS = 128
const BUDGET = 20_000

/**
 * Evaluates figures at the values written, then by first order, then samples those for which a straight line
 * misleads, all of these under the same draws, so that each model is solved once a draw.
 */
export function evaluateMany(session: Session, requests: readonly Request[]): readonly Result[] {
  const draws = drawsFor(session)
  const known = new Map<string, FirstOrder>()
  const begun = requests.map((request) => begin(session, request, draws, known))
  const sampled = sampleAll(session, begun.filter(isWork).filter(needsSampling))
  return begun.map((one) => (isWork(one) ? finish(session, one, sampled) : one))
}

/**
 * Figures drawn whether or not first order is trusted, to hold the one to the other; null where there is no value, no
 * doubt, or only bounds.
 */
export function drawnAnyway(session: Session, requests: readonly Request[]): readonly (Sampled | null)[] {
  const draws = drawsFor(session)
  const known = new Map<string, FirstOrder>()
  const begun = requests.map((request) => begin(session, request, draws, known))
  const works = begun.filter(isWork).filter((work) => !work.ends && work.linear && work.problem.influences.length > 0)
  const sampled = sampleAll(session, works)
  return begun.map((one) => (isWork(one) ? (sampled.get(one.problem) ?? null) : null))
}

const isWork = (one: Work | Result): one is Work => 'problem' in one
const needsSampling = (work: Work): boolean =>
  work.linear !== null && work.problem.influences.length > 0 && (isKink(work.figure) || misleads(work))
/** A bound is a loose thing: curvature of one is let pass, impossible inputs are not. */
const misleads = (work: Work): boolean =>
  work.ends ? endsOf(work).some(({ linear }) => (linear?.notes.length ?? 0) > 0) : (work.linear?.misleads ?? false)
const endsOf = (work: Work): readonly End[] => (work.ends ? [work.ends.low, work.ends.high] : [work])

function isKink(figure: Figure): boolean {
  return figure.kink === true || (figure.uses ?? []).some((id) => isKink(figureById(id)))
}

/** The figure at the values written, and what of it lies outside the range of its method. */
export function atTaken(
  { record }: Viewer,
  figure: Figure,
  subject: Path,
): { readonly value: number | null; readonly outside: readonly string[] } {
  const { trail, value } = record((view) => guarded(view, () => view.model(modelOf(figure), subject)))
  return { value: typeof value === 'number' ? value : null, outside: [...trail.beyond] }
}

/** The same memo as when another figure asks for this one; a figure of a caller's own need not be in the registry. */
function modelOf(figure: Figure): Model<number | Bounds> {
  return { id: `figure ${figure.id}`, compute: (view, about) => figure.compute(view, about) }
}

function begin(
  session: Session,
  { figure, subject }: Request,
  draws: Draws,
  known: Map<string, FirstOrder>,
): Work | Result {
  const model = modelOf(figure)
  const run = (view: View) => guarded(view, () => view.model(model, subject))
  const { trail, value, lack } = session.viewer.record(run)
  if (lack || value === undefined) return withoutValue(session, figure, subject, trail, lack ?? NO_RESULT)
  const influences = figure.exact ? [] : causesOf(session, trail)
  const endAt = (name: string, pick: (value: number | Bounds) => number): End => {
    const problem: Problem = {
      atTaken: pick(value),
      influences: influences.filter((influence) => influence.u > 0),
      evaluate: (draw) => {
        const drawn = session.viewer.under(draw, run)
        return drawn === undefined ? undefined : finite(pick(drawn))
      },
      ...draws,
    }
    return { problem, linear: figure.exact ? null : firstOrder(problem, sistersOf(known, `${figure.id} ${name}`)) }
  }
  const main = endAt('', middleOf)
  const ends = typeof value === 'number' ? null : { low: endAt('low', lowOf), high: endAt('high', highOf) }
  return { figure, subject, trail, atTaken: main.problem.atTaken, ...main, ends }
}

/** In the order of their names: sums then come out the same to the last digit, whatever was asked before. */
function causesOf({ values }: Session, { influences }: Trail): readonly InfluenceSlot[] {
  return [...influences]
    .map((index) => values.influence(index))
    .sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
}

const lowOf = (value: number | Bounds): number => (typeof value === 'number' ? value : value.low)
const highOf = (value: number | Bounds): number => (typeof value === 'number' ? value : value.high)
const middleOf = (value: number | Bounds): number => (lowOf(value) + highOf(value)) / 2

const NO_RESULT = { reason: 'the computation gave no finite number', kind: 'refused' } as const

/** An impossible argument is a gap of the record with the method's own words, not a crash. */
function guarded(view: View, run: () => number | Bounds): number | Bounds {
  try {
    const value = run()
    return Number.isFinite(middleOf(value)) ? value : view.fail(NO_RESULT.reason)
  } catch (error) {
    if (error instanceof DomainError) return view.fail(error.message)
    throw error
  }
}

const finite = (value: number): number | undefined => (Number.isFinite(value) ? value : undefined)

/** Figures that must be sampled, all under the same draws; those that are one function are drawn once. */
function sampleAll(session: Session, works: readonly Work[]): ReadonlyMap<Problem, Sampled> {
  const influence = (index: number): InfluenceSlot => session.values.influence(index)
  const ends = works.flatMap((work) => endsOf(work).map((end) => ({ end, work, key: functionOf(work, end) })))
  const once = [...new Map(ends.map((one) => [one.key, one])).values()]
  const plans = once.map(({ end: { problem, linear }, work }): SamplePlan => {
    const additive = linear && additiveOf(linear, influence)
    return { evaluate: problem.evaluate, draws: mostDraws(work), ...(additive && { additive }) }
  })
  const sampled = sampleTogether(plans, influence)
  const byKey = new Map(once.map(({ key }, at) => [key, sampled[at]!]))
  return new Map(ends.map(({ end, key }) => [end.problem, byKey.get(key)!]))
}

/** Two with one first order were found to be one function; a few influences are told by their differences. */
function functionOf({ figure, subject }: Work, { problem, linear }: End): string {
  if (!linear) return `${figure.id} ${subject}`
  const { components, bends, curvature } = linear
  const shown = (value: number | undefined): string => (value === undefined ? '' : value.toPrecision(DIGITS))
  const causes = problem.influences.map(
    ({ index }) => `${index}:${shown(components.get(index))}:${shown(bends.get(index))}`,
  )
  return [figure.id, shown(problem.atTaken), shown(curvature), ...causes].join(' ')
}

/** Sums in another order differ in the digits behind these. */
const DIGITS = 10

function additiveOf({ components, bends }: FirstOrder, influence: (index: number) => InfluenceSlot): Additive {
  const indices = new Set([...components.keys(), ...bends.keys()])
  return {
    parts: [...indices].map((index) => ({
      index,
      u: influence(index).u,
      slope: components.get(index) ?? 0,
      bend: bends.get(index) ?? 0,
    })),
  }
}

function mostDraws({ figure, trail }: Work): number {
  if (figure.costly) return COSTLY_DRAWS
  return Math.max(LEAST_DRAWS, Math.min(MOST_DRAWS, Math.round(BUDGET / Math.max(1, trail.influences.size))))
}
