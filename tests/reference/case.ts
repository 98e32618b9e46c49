/** One reference case from outside: what to compute, from what, and the published answer. */
export interface Case {
  readonly id: string
  readonly topic: string
  readonly quantity: string
  readonly inputs: Readonly<Record<string, unknown>>
  readonly expected: Readonly<Record<string, unknown>>
  readonly relTol: number
  readonly sourceKind?: string
  readonly source?: string
  readonly note?: string
}

/** An answer by the case's expected keys, nested where the expected value is. Numbers are SI. */
export type Answer = number | string | boolean | readonly Answer[] | { readonly [key: string]: Answer }
export type Answers = Readonly<Record<string, Answer>>

/**
 * Maps a case to the product's own calculators, parser or a sheet, and answers by the case's expected keys.
 * Numbers are SI (the runner converts the expected value); `undefined` says the case is not mapped,
 * and a missing key says that this one quantity is not.
 */
export interface Adapter {
  /** Case topics it takes, e.g. 'partial-inductance'. */
  readonly topics: readonly string[]
  readonly answer: (input: Case) => Answers | undefined
}

/** A number with a unit as the case files write it, a bare number, or a text such as "250 V". */
export type CaseValue = { readonly value: number; readonly unit: string } | number | string
