import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { openStore } from '../../graph/store/sqlite.ts'
import { materialise } from '../../queries/corpus/materialise.ts'
import { type Row, timedLater } from './timed.ts'

const RECORDS = 200

/** A corpus of many copies of one record: what lists and comparisons cost when nothing is evaluated. */
export async function corpusRows(record: TeardownRecord): Promise<readonly Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-bench-'))
  const store = await openStore({ file: join(folder, 'bench.db'), create: true })
  try {
    const derived = materialise(record)
    const body = JSON.stringify(record.tree)
    const write = (n: number, sheetText = String(n)) =>
      store.commit({ id: `unit-${n}`, sheetText, body, expected: undefined, derived, at: '2026-01-01T00:00:00Z' })
    for (let n = 0; n < RECORDS; n++) await write(n)
    let turn = 0
    return [
      await timedLater('store one record again', 20, () => write(0, `again ${turn++}`)),
      await timedLater(`one figure of ${RECORDS} records`, 10, () =>
        store.figures({ metrics: ['POWER_DENSITY'], conditions: 'default', where: {} }),
      ),
      await timedLater('page of 50 parts by class and passage', 20, () =>
        store.components(
          { class: ['capacitor'], sharesPassageWith: { class: ['half-bridge-module'] } },
          {
            first: 50,
            after: null,
          },
        ),
      ),
      await timedLater('page of 50 records', 20, () => store.teardowns({}, { by: 'id' }, { first: 50, after: null })),
    ]
  } finally {
    await store.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
