import { describeLack, type Lack, notApplicable, rulingOut } from '../../graph/lack.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import { fromSI } from '../../graph/quantity/units.ts'
import type { Trail } from '../../graph/trail.ts'
import type { Figure } from '../figures/figure.ts'
import { budget, weakShare } from './budget.ts'
import { frame } from './frame.ts'
import type { FirstOrder, Problem } from './propagate.ts'
import type { Result } from './result.ts'
import type { Sampled } from './sample.ts'
import type { Session } from './session.ts'

/** A figure with its number and first order, before draws. */
export interface Work {
  readonly figure: Figure
  readonly subject: Path
  readonly trail: Trail
  /** The number, or the middle of two bounds: what the inputs' shares are shares of. */
  readonly atTaken: number
  readonly problem: Problem
  readonly linear: FirstOrder | null
  /** Of a figure known only between bounds. */
  readonly ends: { readonly low: End; readonly high: End } | null
}

/** One bound with the doubt of its own inputs. */
export interface End {
  readonly problem: Problem
  readonly linear: FirstOrder | null
}

/** The result of a figure, drawn or by first order. */
export function finish(session: Session, work: Work, samples: ReadonlyMap<Problem, Sampled>): Result {
  return work.ends ? between(session, work, work.ends, samples) : valued(session, work, samples.get(work.problem))
}

/** The lowest and highest it can be, with the doubt of the inputs at each end; no value, hence no variance of one. */
function between(
  session: Session,
  work: Work,
  ends: NonNullable<Work['ends']>,
  samples: ReadonlyMap<Problem, Sampled>,
): Result {
  const { figure, subject, trail } = work
  const exact = work.linear === null || work.problem.influences.length === 0
  const limit = ({ problem, linear }: End, side: 'low' | 'high'): number =>
    fromSI(exact ? problem.atTaken : (samples.get(problem) ?? linear!)[side], figure.unit)
  const sampled = samples.get(ends.low.problem)
  return {
    ...frame(session, figure, subject, trail),
    status: trail.beyond.size > 0 ? 'OUT_OF_RANGE' : 'OK',
    atTaken: null,
    value: null,
    u: null,
    low: limit(ends.low, 'low'),
    high: limit(ends.high, 'high'),
    how: exact ? 'exact' : sampled ? 'sampled' : 'first-order',
    ...(sampled && { draws: sampled.draws }),
    components: {},
    ...working(session, work, 0),
    interaction: null,
    missing: [],
    warnings: warningsOf(session, work, sampled),
  }
}

function valued(session: Session, work: Work, sampled: Sampled | undefined): Result {
  const { figure, subject, trail, atTaken, linear } = work
  const scale = (si: number): number => fromSI(si, figure.unit)
  const offset = scale(0)
  const width = (si: number): number => scale(si) - offset
  const exact = linear === null || work.problem.influences.length === 0
  const u = exact ? null : width(sampled ? sampled.u : linear.u)
  const components = linear ? componentsOf(session, linear, width) : {}
  const { inputs, interaction, weak } = working(session, work, sampled?.u ?? linear?.u ?? 0)
  return {
    ...frame(session, figure, subject, trail),
    status: trail.beyond.size > 0 ? 'OUT_OF_RANGE' : 'OK',
    atTaken: scale(atTaken),
    value: scale(sampled ? sampled.value : atTaken),
    u,
    low: exact ? scale(atTaken) : scale(sampled ? sampled.low : linear.low),
    high: exact ? scale(atTaken) : scale(sampled ? sampled.high : linear.high),
    how: exact ? 'exact' : sampled ? 'sampled' : 'first-order',
    ...(sampled && { draws: sampled.draws, standardError: width(sampled.standardError) }),
    components,
    inputs,
    weak,
    interaction: exact ? null : interaction,
    missing: [],
    warnings: warningsOf(session, work, sampled),
  }
}

/** The budget in the unit of the figure, and how much of it stands on judged and assumed inputs. */
function working(session: Session, work: Work, u: number): Pick<Result, 'inputs' | 'weak'> & { interaction: number } {
  const { unit } = work.figure
  const offset = fromSI(0, unit)
  const { inputs, interaction } = budget(session, work, u)
  const shownOf = (si: number | null): number | null => (si === null ? null : fromSI(si, unit) - offset)
  const shown = inputs.map((input) => ({
    ...input,
    sensitivity: shownOf(input.sensitivity),
    remaining: shownOf(input.remaining),
  }))
  return { inputs: shown, interaction, weak: weakShare(shown, work.trail) }
}

function componentsOf(
  session: Session,
  linear: FirstOrder,
  width: (si: number) => number,
): Readonly<Record<string, number>> {
  return Object.fromEntries([...linear.components].map(([index, c]) => [nameOf(session, index), width(c)]))
}

/** A cause of this record alone is named after it: what stands at the same path of another record is another cause. */
function nameOf({ values, record }: Session, index: number): string {
  const { id, scope } = values.influence(index)
  return scope === 'corpus' ? id : `${record.id}: ${id}`
}

function warningsOf(session: Session, work: Work, sampled: Sampled | undefined): readonly string[] {
  const defaulted = [...work.trail.slots].filter((slot) => session.values.slotAt(slot).quantity?.defaulted).length
  return [
    ...work.trail.notes,
    ...[...work.trail.beyond].map((text) => `outside the validated range: ${text}`),
    ...(work.linear?.notes ?? []),
    ...(defaulted > 0 ? [`${defaulted} input(s) carry the default width of their basis`] : []),
    ...(sampled && sampled.left > 0 ? [`${sampled.left} of ${sampled.draws + sampled.left} draws had no result`] : []),
  ]
}

/** The result of a figure that has no value here, with what keeps it from one. */
export function withoutValue(session: Session, figure: Figure, subject: Path, trail: Trail, lack: Lack): Result {
  const none = notApplicable(lack)
  return {
    ...frame(session, figure, subject, trail),
    status: none ? 'NOT_APPLICABLE' : 'MISSING',
    atTaken: null,
    value: null,
    u: null,
    low: null,
    high: null,
    how: 'exact',
    components: {},
    inputs: [],
    weak: weakShare([], trail),
    interaction: null,
    missing: [none ? rulingOut(lack) : lack],
    warnings: none ? [...trail.notes] : [...trail.notes, describeLack(lack)],
  }
}
