import { offText, sweeps } from '../bench/methods.ts'
import type { Sweep, Worst } from '../bench/sweeps/sweep.ts'
import { markdownTable, type Tables } from './tables.ts'

export interface Found {
  readonly sweep: Sweep
  readonly worst: Worst
}

/** Every sweep of the bench, run. */
export const foundWorst = (): readonly Found[] => sweeps.map((sweep) => ({ sweep, worst: sweep.run() }))

/** A row of the page, without its number. */
export const rowOf = ({ method, range, against }: Sweep): string => `${method} | ${range} | ${against} |`

export function methodTables(all: readonly Found[] = foundWorst()): Tables {
  const table = (field: Sweep['field']): string =>
    markdownTable(
      ['worst', 'points', 'method', 'range', 'against'],
      all
        .filter(({ sweep }) => sweep.field === field)
        .map(({ sweep, worst }) => [offText(worst), String(worst.points), sweep.method, sweep.range, sweep.against]),
    )
  return { electrical: table('electrical'), thermal: table('thermal') }
}
