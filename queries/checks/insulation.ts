import { type Check, defineCheck, type Finding } from './check.ts'
import { valuesOf } from './values.ts'

const short = (id: string, metric: string, what: string): Check =>
  defineCheck({
    id,
    title: `${what} shorter than required`,
    severity: 'warning',
    run: (view, evaluator) =>
      valuesOf(view, evaluator, metric)
        .filter(({ value }) => value < 0)
        .map(
          ({ path, value }): Finding => ({
            path,
            what: `${what.toLowerCase()} is ${(-value).toFixed(1)} mm shorter than IEC 60664-1 asks for (${metric} shows from what)`,
            mend: 'measure it again along the true path, check voltages, pollution degree and material group; a qualified person decides on use',
          }),
        ),
  })

const doubtful = defineCheck({
  id: 'insulation-doubtful',
  title: 'A creepage distance or clearance that may be too short',
  severity: 'question',
  run: (view, evaluator) =>
    ['CREEPAGE_MARGIN', 'CLEARANCE_MARGIN'].flatMap((metric) =>
      valuesOf(view, evaluator, metric)
        .filter(({ value, low }) => value >= 0 && low < 0)
        .map(
          ({ path, value, low }): Finding => ({
            path,
            what: `${metric} is ${value.toFixed(2)} mm, but within its doubt down to ${low.toFixed(2)} mm`,
            mend: 'measure the distance more narrowly, and state the voltages under voltages:',
          }),
        ),
    ),
})

export const insulationChecks = [
  short('creepage-short', 'CREEPAGE_MARGIN', 'Creepage'),
  short('clearance-short', 'CLEARANCE_MARGIN', 'Clearance'),
  doubtful,
] as const
