import type { TeardownRecord } from '../../graph/record/record.ts'
import { openSession } from '../../queries/evaluate/session.ts'
import { figures } from '../../queries/figures/registry.ts'
import { timed } from './timed.ts'

interface Cost {
  readonly figure: string
  readonly subjects: number
  readonly 'plain [ms]': number
  readonly 'with u [ms]': number
  readonly times: number
  readonly how: string
}

/** What knowing how well costs: every figure, all its subjects, at the values written and with its uncertainty, each cold. */
export function costOfUncertainty(record: TeardownRecord): readonly Cost[] {
  return figures
    .flatMap((figure): readonly Cost[] => {
      const results = openSession(record).evaluateAll([figure.id])
      if (results.every(({ value }) => value === null)) return []
      const plain = timed('', 2, () => {
        const session = openSession(record)
        for (const subject of session.subjects(figure).paths) session.atTaken(figure, subject)
      }).median
      const full = timed('', 2, () => openSession(record).evaluateAll([figure.id])).median
      return [
        {
          figure: figure.id,
          subjects: results.length,
          'plain [ms]': rounded(plain),
          'with u [ms]': rounded(full),
          times: rounded(full / plain),
          how: [
            ...new Set(results.flatMap(({ value, how, draws }) => (value === null ? [] : [wayOf(how, draws)]))),
          ].join('; '),
        },
      ]
    })
    .toSorted((a, b) => b['with u [ms]'] - a['with u [ms]'])
}

const wayOf = (how: string, draws: number | undefined): string => (draws === undefined ? how : `${how}, ${draws} draws`)
const rounded = (value: number): number => Number(value.toPrecision(3))
