import type { View } from '../../graph/view.ts'
import type { Session } from '../evaluate/session.ts'

/** What a check may ask beside the view: figures, with their intervals. */
export type Evaluator = Pick<Session, 'evaluate' | 'over' | 'settings'>

/** Something wrong or unlikely in a record: it names its place and what would settle it. */
export interface Finding {
  readonly path: string
  readonly what: string
  readonly mend: string
}

export interface Check {
  readonly id: string
  readonly title: string
  readonly severity: 'error' | 'warning' | 'question'
  run(view: View, evaluator: Evaluator): readonly Finding[]
}

export function defineCheck<const C extends Check>(check: C): C {
  return check
}
