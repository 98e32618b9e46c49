/** What every resolver is given. */
export interface ApiContext {
  /** When the answer must be complete, on the clock of `performance.now()`; null for a local caller who may wait. */
  readonly deadline: number | null
}
