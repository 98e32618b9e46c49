import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { Piscina } from 'piscina'
import type { TeardownRecord, Tree } from '../graph/record/record.ts'
import type { Derived } from '../graph/store/derived.ts'
import { materialise } from '../queries/corpus/materialise.ts'

/** Derives what the corpus keeps of records: seconds for a rich one. */
export interface Deriving {
  /** Records that are derived beside each other. */
  readonly width: number
  derive(record: TeardownRecord): Promise<Derived>
  close(): Promise<void>
}

/** Beside this module when it is bundled; where the sources run as they are, there is none and no thread is started. */
const THREAD = fileURLToPath(new URL('./deriving-thread.js', import.meta.url))

/** In worker threads when there is more than one record and more than one processor, else here. */
export function openDeriving(records: number): Deriving {
  const width = Math.min(records, availableParallelism())
  if (width < 2 || !existsSync(THREAD)) {
    return { width: 1, derive: async (record) => materialise(record), close: async () => {} }
  }
  const pool = new Piscina<Tree, Derived>({ filename: THREAD, name: 'derive', maxThreads: width })
  return { width, derive: ({ tree }) => pool.run(tree), close: () => pool.destroy() }
}
