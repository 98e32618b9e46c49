import { setImmediate } from 'node:timers/promises'

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
    Array.from({ length: runs }, () => milliseconds(call)),
  )
}

/** Wall time of one call, the first one counted: of what takes seconds [ms]. */
export function once(name: string, call: () => unknown): Row {
  return summary(name, [milliseconds(call)])
}

/** The same as {@link timed} for a call that answers later; between runs a signal to stop gets its turn. */
export async function timedLater(name: string, runs: number, call: () => Promise<unknown>): Promise<Row> {
  await call()
  const times: number[] = []
  for (let run = 0; run < runs; run++) {
    await setImmediate()
    const start = performance.now()
    await call()
    times.push(performance.now() - start)
  }
  return summary(name, times)
}

export function milliseconds(call: () => unknown): number {
  const start = performance.now()
  call()
  return performance.now() - start
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

const digits = (value: number): string => value.toFixed(value < 10 ? 2 : 0)

export function printRows(rows: readonly Row[]): void {
  printTable(
    ['what', 'runs', 'least [ms]', 'median [ms]', 'most [ms]'],
    rows.map(({ name, runs, least, median, most }) => [
      name,
      String(runs),
      digits(least),
      digits(median),
      digits(most),
    ]),
  )
}

/** Columns as wide as they need; the first to the left, the others to the right unless they hold words. */
export function printTable(head: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = head.map((name, at) => Math.max(name.length, ...rows.map((row) => row[at]?.length ?? 0)))
  const isNumber = head.map((_, at) => rows.every((row) => /^[-+−\d.e×]*$/.test(row[at] ?? '')))
  for (const row of [head, ...rows]) {
    const cells = row.map((cell, at) => (isNumber[at] ? cell.padStart(widths[at]!) : cell.padEnd(widths[at]!)))
    process.stdout.write(`${cells.join('  ').trimEnd()}\n`)
  }
}

/** Memory now, and the most this process has held [MiB]. */
export function memory(): string {
  const mebi = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(0)} MiB`
  const most = process.resourceUsage().maxRSS * 1024
  return `resident ${mebi(process.memoryUsage().rss)}, heap ${mebi(process.memoryUsage().heapUsed)}, most so far ${mebi(most)}`
}
