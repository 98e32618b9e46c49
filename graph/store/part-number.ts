/** Parts that one record may have. */
export const PARTS_LIMIT = 2 ** 20

/** Numbers of a record's parts: from `low` up to and with `high`. */
export interface PartRange {
  readonly low: number
  readonly high: number
}

export function partRange(teardown: number): PartRange {
  return { low: teardown * PARTS_LIMIT, high: (teardown + 1) * PARTS_LIMIT - 1 }
}

/** Order of SQLite's text: by code point, which differs from a string comparison beyond U+FFFF. */
export function byCodePoint(a: string, b: string): number {
  return Buffer.compare(Buffer.from(a), Buffer.from(b))
}
