import { createHash } from 'node:crypto'
import type { Edit } from '../graph/edit.ts'
import { describeLack } from '../graph/lack.ts'
import type { DerivedFigure } from '../graph/store/derived.ts'
import { type Conditions, conditionsKey, DEFAULT_CONDITIONS, editsOf } from '../queries/conditions.ts'
import type { Result } from '../queries/evaluate/result.ts'
import type { Session } from '../queries/evaluate/session.ts'
import { figureById, figures } from '../queries/figures/registry.ts'
import { isNamed } from '../queries/subject-names.ts'
import type { Opened } from './corpus.ts'

/** Which figures of one record, under which conditions, on which changes of it. */
export interface FigureRequest {
  /** All when not given. */
  readonly metrics?: readonly string[] | undefined
  readonly subjects?: readonly string[] | undefined
  readonly conditions?: Conditions
  readonly whatIf?: readonly Edit[]
}

/** What a figure says at a glance; its working is read only when it is asked for. */
export type FigureHead = Omit<DerivedFigure, 'components' | 'body' | 'conditions'>

/** A figure as it is handed out. */
export interface FigureAnswer extends FigureHead {
  /** Teardown, metric, subject and conditions: the same for the same question. */
  readonly id: string
  readonly teardown: string
  readonly used: Conditions
  readonly working: () => Working
}

export type Working = Pick<
  Result,
  | 'inputs'
  | 'interaction'
  | 'restsOn'
  | 'weak'
  | 'missing'
  | 'method'
  | 'sources'
  | 'warnings'
  | 'draws'
  | 'standardError'
>

/** The record under conditions and changes: nothing of it is written. */
export function sessionFor(opened: Opened, conditions = DEFAULT_CONDITIONS, whatIf: readonly Edit[] = []): Session {
  const base = opened.session()
  const circuits = base.structure.answer({ ask: 'circuits' }, base.settings).paths
  const edits = [...editsOf(conditions, circuits), ...whatIf]
  return edits.length === 0 && conditions === DEFAULT_CONDITIONS ? base : base.over(edits, conditions.settings)
}

/** Figures computed now, all subjects of the record unless some are named. */
export function computeFigures(opened: Opened, request: FigureRequest): readonly FigureAnswer[] {
  const { metrics, subjects, conditions = DEFAULT_CONDITIONS, whatIf = [] } = request
  const session = sessionFor(opened, conditions, whatIf)
  const results = subjects ? evaluateSubjects(session, metrics, subjects) : session.evaluateAll(metrics)
  return results.map((result) => computedAnswer(opened.id, conditions, whatIf, result))
}

function evaluateSubjects(
  session: Session,
  metrics: readonly string[] | undefined,
  subjects: readonly string[],
): readonly Result[] {
  const wanted = metrics ? metrics.map(figureById) : figures
  const requests = wanted.flatMap((figure) => session.subjects(figure).paths.map((subject) => ({ figure, subject })))
  return session.evaluateMany(requests.filter(({ subject }) => isNamed(subject, subjects)))
}

function computedAnswer(teardown: string, used: Conditions, whatIf: readonly Edit[], result: Result): FigureAnswer {
  const { metric, subject } = result
  return {
    ...headOf(result),
    id: figureId({ teardown, metric, subject, used, whatIf }),
    teardown,
    used,
    working: () => result,
  }
}

/** A result of the record as it stands, or as it would stand, under the default conditions. */
export function figureAnswer(teardown: string, result: Result): FigureAnswer {
  return computedAnswer(teardown, DEFAULT_CONDITIONS, result.edits, result)
}

/** A result at a glance. */
export function headOf(result: Result): FigureHead {
  const { metric, subject, status, unit, value, atTaken, u, low, high, how, weakestBasis, missing } = result
  const reason = missing.length > 0 ? missing.map(describeLack).join('; ') : null
  return { metric, subject, status, unit, value, atTaken, uncertainty: u, low, high, how, basis: weakestBasis, reason }
}

interface Asked {
  readonly teardown: string
  readonly metric: string
  readonly subject: string
  readonly used: Conditions
  readonly whatIf?: readonly Edit[]
}

/** One text for one question: figures of a record under its default conditions have the shortest. */
export function figureId({ teardown, metric, subject, used, whatIf = [] }: Asked): string {
  const under = conditionsKey(used)
  const changes = whatIf.length === 0 ? [] : [`what-if=${digest(JSON.stringify(whatIf))}`]
  return [teardown, metric, subject, ...(under === 'default' ? [] : [under]), ...changes].join(' ')
}

const digest = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 12)
