import type { Session } from './evaluate/session.ts'
import { type SideBySide, sideBySide } from './side-by-side.ts'
import { changes } from './what-if.ts'

/** A finding with the figures that stand or fall with it. */
export interface Dependence {
  readonly finding: string
  readonly status: string | null
  /** As `METRIC subject`. */
  readonly figures: readonly string[]
}

/** Which figures depend on which finding, through values and relations alike. */
export function dependence(session: Session, metrics?: readonly string[]): readonly Dependence[] {
  const results = session.evaluateAll(metrics)
  return (session.record.sheet.findings ?? []).map(({ id, status }) => ({
    finding: `findings/${id}`,
    status: status ?? null,
    figures: results
      .filter(({ restsOn }) => restsOn.includes(`findings/${id}`))
      .map(({ metric, subject }) => `${metric} ${subject}`),
  }))
}

/** What changes when a finding is refuted: what rests on it is then lacking, or stands on the next best claim. */
export function refute(session: Session, finding: string, metrics?: readonly string[]): SideBySide {
  return sideBySide(session, session.over(changes(session.record, finding, 'refuted')), metrics)
}
