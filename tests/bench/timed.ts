export interface Row {
  readonly name: string
  readonly runs: number
  readonly least: number
  readonly median: number
  readonly most: number
}

/** Wall time of a call over several runs after one that is not counted [ms]. */
export function timed(name: string, runs: number, call: () => unknown): Row {
  call()
  return summary(
    name,
    Array.from({ length: runs }, () => {
      const start = performance.now()
      call()
      return performance.now() - start
    }),
  )
}

/** The same for a call that answers later. */
export async function timedLater(name: string, runs: number, call: () => Promise<unknown>): Promise<Row> {
  await call()
  const times: number[] = []
  for (let run = 0; run < runs; run++) {
    const start = performance.now()
    await call()
    times.push(performance.now() - start)
  }
  return summary(name, times)
}

function summary(name: string, times: readonly number[]): Row {
  const sorted = times.toSorted((a, b) => a - b)
  return {
    name,
    runs: sorted.length,
    least: sorted[0] ?? 0,
    median: sorted[Math.floor(sorted.length / 2)] ?? 0,
    most: sorted.at(-1) ?? 0,
  }
}

export function printRows(rows: readonly Row[]): void {
  const width = Math.max(...rows.map(({ name }) => name.length))
  const cell = (value: number): string => value.toFixed(value < 10 ? 2 : 0).padStart(9)
  process.stdout.write(`${'what'.padEnd(width)}  runs  least [ms]     median       most\n`)
  for (const { name, runs, least, median, most } of rows) {
    process.stdout.write(
      `${name.padEnd(width)}  ${String(runs).padStart(4)}   ${cell(least)}  ${cell(median)}  ${cell(most)}\n`,
    )
  }
  process.stdout.write(`resident memory at the end: ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MiB\n`)
}
