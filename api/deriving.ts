import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Piscina } from 'piscina'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import { materialise } from '../queries/corpus/materialise.ts'

/** Derives what the corpus keeps of records: seconds for a rich one. */
export interface Deriving {
  /** Records that are derived beside each other, and those that may wait for the one before them to be stored. */
  readonly ahead: { readonly concurrency: number; readonly backpressure: number }
  derive(record: TeardownRecord): Promise<Derived>
  close(): Promise<void>
}

/** Beside this module when it is bundled; where the sources run as they are, there is none and no thread is started. */
const THREAD = fileURLToPath(new URL('./deriving-thread.js', import.meta.url))

/** A rich record takes longer than several small ones after it. */
const WAITING = 6

/** In worker threads, started by the first record that needs one, when there are several records and processors; else here. */
export function openDeriving(records: number): Deriving {
  const width = Math.min(records, availableParallelism())
  if (width < 2 || !existsSync(THREAD)) {
    return {
      ahead: { concurrency: 1, backpressure: 1 },
      derive: async (record) => materialise(record),
      close: async () => {},
    }
  }
  const pool = new Piscina<Tree, Derived>({ filename: THREAD, name: 'derive', minThreads: 0, maxThreads: width })
  return {
    ahead: { concurrency: width, backpressure: WAITING * width },
    derive: ({ tree }) => pool.run(tree),
    close: () => pool.destroy(),
  }
}
