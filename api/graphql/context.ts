import type { Corpus } from '../corpus.ts'
import { Fault } from '../errors.ts'

/** What every resolver is given. */
export interface ApiContext {
  readonly corpus: Corpus
  /** When the answer must be complete, on the clock of `performance.now()`; null for a local caller who may wait. */
  readonly deadline: number | null
}

/** Called at every item of a list: stops an answer that takes too long. */
export function keepTime({ deadline }: ApiContext): void {
  if (deadline === null || performance.now() < deadline) return
  throw new Fault(
    'DEADLINE',
    'the answer took too long and was stopped',
    'ask for fewer with "first", or for fewer figures',
  )
}
