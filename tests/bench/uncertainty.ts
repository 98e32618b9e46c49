import type { TeardownRecord } from '../../graph/record/record.ts'
import { openSession } from '../../queries/evaluate/session.ts'
import { figures } from '../../queries/figures/registry.ts'
import { milliseconds } from './timed.ts'

export interface Cost {
  readonly figure: string
  readonly subjects: number
  /** At the values written, and with uncertainty [ms]. */
  readonly plain: number
  readonly full: number
  readonly how: string
}

/** What knowing how well costs: every figure that has a value, all its subjects, each cold on a session of its own. */
export function costOfUncertainty(record: TeardownRecord): readonly Cost[] {
  return figures
    .flatMap((figure): readonly Cost[] => {
      const plain = milliseconds(() => {
        const session = openSession(record)
        for (const subject of session.subjects(figure).paths) session.atTaken(figure, subject)
      })
      const start = performance.now()
      const results = openSession(record).evaluateAll([figure.id])
      const full = performance.now() - start
      const known = results.filter(({ value }) => value !== null)
      if (known.length === 0) return []
      const how = [...new Set(known.map((one) => wayOf(one.how, one.draws)))].join('; ')
      return [{ figure: figure.id, subjects: results.length, plain, full, how }]
    })
    .toSorted((a, b) => b.full - a.full)
}

const wayOf = (how: string, draws: number | undefined): string => (draws === undefined ? how : `${how}, ${draws} draws`)
