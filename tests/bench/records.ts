import type { TeardownRecord } from '../../graph/record/record.ts'
import { materialise } from '../../queries/corpus/materialise.ts'
import { openSession } from '../../queries/evaluate/session.ts'
import { DEMO_SHEETS, demoRecord } from './demo.ts'
import { milliseconds, printTable } from './timed.ts'
import { costOfUncertainty } from './uncertainty.ts'

const DEAREST = 10

/** Every demo sheet evaluated whole, at the values written and with uncertainty; then figure by figure of the dearest. */
export function recordsPart(): void {
  const sheets = DEMO_SHEETS.map((id) => ({ id, record: demoRecord(id) }))
  const rows = sheets.map(({ id, record }) => ({ id, record, ...evaluated(record) }))
  const ms = (value: number): string => value.toFixed(0)
  printTable(
    ['all figures, cold', 'values', 'figures', 'without u [ms]', 'with u [ms]', 'times', 'kept by the corpus [ms]'],
    rows.map(({ id, record, figures, plain, full, kept }) => [
      id,
      String(record.facts.size),
      String(figures),
      ms(plain),
      ms(full),
      (full / plain).toFixed(1),
      ms(kept),
    ]),
  )
  const dearest = rows.toSorted((a, b) => b.full - a.full)[0]
  if (dearest) printCosts(dearest.id, dearest.record)
}

/** One run each, in this order: the first run of all pays for what is compiled on the way, so one is made before. */
function evaluated(record: TeardownRecord): { figures: number; plain: number; full: number; kept: number } {
  plainly(record)
  const plain = milliseconds(() => plainly(record))
  let figures = 0
  const full = milliseconds(() => {
    figures = openSession(record).evaluateAll().length
  })
  return { figures, plain, full, kept: milliseconds(() => materialise(record)) }
}

function plainly(record: TeardownRecord): void {
  const session = openSession(record)
  for (const { figure, subject } of session.requests()) session.atTaken(figure, subject)
}

function printCosts(id: string, record: TeardownRecord): void {
  const costs = costOfUncertainty(record)
  process.stdout.write(`\nthe ${DEAREST} dearest of ${costs.length} figures of ${id}, all subjects, each cold\n`)
  printTable(
    ['figure', 'subjects', 'without u [ms]', 'with u [ms]', 'times', 'how'],
    costs
      .slice(0, DEAREST)
      .map(({ figure, subjects, plain, full, how }) => [
        figure,
        String(subjects),
        plain.toFixed(1),
        full.toFixed(0),
        (full / plain).toFixed(1),
        how,
      ]),
  )
  const sum = (values: readonly number[]): string => (values.reduce((a, b) => a + b, 0) / 1000).toFixed(1)
  process.stdout.write(
    `all of them, each cold: ${sum(costs.map(({ plain }) => plain))} s without, ${sum(costs.map(({ full }) => full))} s with uncertainty\n`,
  )
}
