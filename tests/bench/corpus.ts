import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { setImmediate } from 'node:timers/promises'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { openStore } from '../../graph/store/sqlite.ts'
import { materialise } from '../../queries/corpus/materialise.ts'
import { demoRecord, RICHEST } from './demo.ts'
import { withScratch } from './scratch.ts'
import { printRows, type Row, timedLater } from './timed.ts'

/** Records stored, unless the file comes to its limit before. */
const RECORDS = 200
const LIMIT = 256 * 2 ** 20

/** A corpus of many copies of one record: what lists and comparisons cost when nothing is evaluated. */
export async function corpusPart(): Promise<void> {
  await withScratch(async (folder) => {
    const store = await openStore({ file: join(folder, 'bench.db'), create: true })
    try {
      printRows(await rows(store, folder, demoRecord(RICHEST)))
    } finally {
      await store.close()
    }
  })
}

async function rows(
  store: Awaited<ReturnType<typeof openStore>>,
  folder: string,
  record: TeardownRecord,
): Promise<readonly Row[]> {
  const derived = materialise(record)
  const body = JSON.stringify(record.tree)
  const write = (n: number, sheetText = String(n)) =>
    store.commit({ id: `unit-${n}`, sheetText, body, expected: undefined, derived, at: '2026-01-01T00:00:00Z' })
  let records = 0
  while (records < RECORDS && bytesIn(folder) < LIMIT) {
    await write(records++)
    // The store works without waiting: a signal to stop would get no turn.
    await setImmediate()
  }
  const mebi = (bytes: number): string => (bytes / 2 ** 20).toFixed(1)
  const limited = records < RECORDS ? `, stopped at the limit of ${mebi(LIMIT)} MiB` : ''
  process.stdout.write(
    `${records} copies of ${RICHEST}: ${mebi(bytesIn(folder))} MiB on disk, ${mebi(bytesIn(folder) / records)} MiB each${limited}; removed again\n`,
  )
  let turn = 0
  return [
    await timedLater('commit a new revision', 20, () => write(0, `again ${turn++}`)),
    await timedLater(`one figure of ${records} records`, 20, () =>
      store.figures({ metrics: ['POWER_DENSITY'], conditions: 'default', where: {} }),
    ),
    await timedLater('page of 50 parts by class and passage', 20, () =>
      store.components(
        { class: ['capacitor'], sharesPassageWith: { class: ['half-bridge-module'] } },
        { first: 50, after: null },
      ),
    ),
    await timedLater('page of 50 records', 20, () => store.teardowns({}, { by: 'id' }, { first: 50, after: null })),
  ]
}

/** What stands in the folder: the file, its log and its index. */
function bytesIn(folder: string): number {
  return readdirSync(folder).reduce((sum, name) => sum + statSync(join(folder, name)).size, 0)
}
