import { flowSweeps } from './sweeps/flow.ts'
import { frequencySweeps } from './sweeps/frequency.ts'
import { inductanceSweeps } from './sweeps/inductance.ts'
import { powerSweeps } from './sweeps/power.ts'
import { skewSweep } from './sweeps/skew.ts'
import type { Sweep, Worst } from './sweeps/sweep.ts'
import { heatSweeps } from './sweeps/thermal.ts'
import { printTable } from './timed.ts'

export const sweeps: readonly Sweep[] = [
  ...inductanceSweeps,
  skewSweep,
  ...frequencySweeps,
  ...powerSweeps,
  ...heatSweeps,
  ...flowSweeps,
]

/** Two digits; percent where that is easier to read. The sign says whether the method gives more (+) or less (−). */
export function offText({ off }: Worst): string {
  const [size, sign] = [Math.abs(off), off < 0 ? '−' : '+']
  return size >= 1e-3 ? `${sign}${(100 * size).toPrecision(2)} %` : `${sign}${size.toExponential(1)}`
}

/** How far each method is off over its range, against what. */
export function printMethods(): void {
  for (const field of ['electrical', 'thermal'] as const) {
    process.stdout.write(`\n${field} methods: worst difference found over a range, relative\n`)
    const own = sweeps.filter((sweep) => sweep.field === field)
    const rows = own.map((sweep) => ({ ...sweep, found: sweep.run() }))
    printTable(
      ['worst', 'points', 'method', 'against', 'range'],
      rows.map(({ found, method, range, against }) => [offText(found), String(found.points), method, against, range]),
    )
  }
}
