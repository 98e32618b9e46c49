import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import { type Figure, SPECIMEN } from '../figures/figure.ts'
import { defineCheck, type Finding } from './check.ts'

/** What all pieces weigh together less what they weigh one by one: a figure of this check alone. */
const excess = (entry: Path, pieces: number): Figure => ({
  id: `TOTAL_LESS_SUM ${entry}`,
  title: 'Total less sum',
  definition: 'Mass of all pieces together less their number times the mass of one.',
  unit: 'g',
  subject: 'component',
  honours: [],
  method: 'm_all − n m',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view) {
    const { all, each } = view.need({ all: asPath(`${entry}/mass-of-all`), each: asPath(`${entry}/mass`) })
    return all - pieces * each
  },
})

const totalMass = defineCheck({
  id: 'total-not-sum',
  title: 'A stated total is not count times each',
  severity: 'warning',
  run: (view, evaluator) =>
    view.find({ ask: 'parts' }).paths.flatMap((entry): readonly Finding[] => {
      if (view.may(asPath(`${entry}/mass-of-all`)) === undefined || view.may(asPath(`${entry}/mass`)) === undefined)
        return []
      const pieces = view.find({ ask: 'pieces', of: entry }).paths.length
      const { value, low, high } = evaluator.evaluate(excess(entry, pieces), entry)
      if (value === null || low === null || high === null || (low <= 0 && high >= 0)) return []
      return [
        {
          path: `${entry}/mass-of-all`,
          what: `differs by ${value.toFixed(1)} g from ${pieces} times the mass of one, more than both doubts allow`,
          mend: 'count again, and weigh single pieces of each length: are they all alike?',
        },
      ]
    }),
})

export const totalChecks = [totalMass] as const
