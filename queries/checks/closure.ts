import { SPECIMEN } from '../figures/figure.ts'
import { figureById } from '../figures/registry.ts'
import { type Check, defineCheck } from './check.ts'

/** Share of the whole that may stay unexplained when every part has a value: cables, sealant, rounding (common practice). */
const OPEN_REMAINDER = 5

const closes = (id: string, metric: string, what: string): Check =>
  defineCheck({
    id,
    title: `Part ${what} and unit ${what} do not close`,
    severity: 'warning',
    run(_, evaluator) {
      const result = evaluator.evaluate(figureById(metric), SPECIMEN.paths[0]!)
      if (result.value === null || result.low === null || result.high === null) return []
      const complete = !result.warnings.some((text) => text.includes(`state no ${what}`))
      const share = `${result.value.toFixed(1)} %`
      if (result.high < 0) {
        return [
          {
            path: `specimen/${what}`,
            what: `the parts sum to more than the whole (${share} unexplained)`,
            mend: `check the largest ${what} entries and their counts: is a part listed twice?`,
          },
        ]
      }
      if (complete && result.low > OPEN_REMAINDER) {
        return [
          {
            path: `specimen/${what}`,
            what: `${share} of the unit ${what} is explained by no part`,
            mend: `look for parts without an entry, and for a ${what} given for one piece instead of all`,
          },
        ]
      }
      return []
    },
  })

export const closureChecks = [
  closes('mass-closure', 'MASS_CLOSURE', 'mass'),
  closes('volume-closure', 'VOLUME_CLOSURE', 'volume'),
] as const
