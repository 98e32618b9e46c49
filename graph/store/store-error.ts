/** One way in which the store refuses: what it is about, what was found, what mends it. Nothing was changed. */
export abstract class StoreError extends Error {
  abstract readonly kind: StoreErrorKind
  /** File, record or argument. */
  readonly place: string
  readonly what: string
  readonly mend: string

  constructor(place: string, what: string, mend: string, cause?: unknown) {
    super(`${place}: ${what}`, cause === undefined ? undefined : { cause })
    this.place = place
    this.what = what
    this.mend = mend
    this.name = new.target.name
  }
}

export type StoreErrorKind =
  | 'conflict'
  | 'not-found'
  | 'no-file'
  | 'file-exists'
  | 'foreign-file'
  | 'too-new'
  | 'corrupt'
  | 'full'
  | 'busy'
  | 'closed'
  | 'unstorable'
  | 'bad-request'
  | 'bad-cursor'

/** Someone else wrote meanwhile: `revision` and `hash` are what stands there now; null when nothing does. */
export class Conflict extends StoreError {
  readonly kind = 'conflict'
  readonly expected: number | null
  readonly revision: number | null
  readonly hash: string | null

  constructor(id: string, expected: number | null, found: { readonly revision: number; readonly hash: string } | null) {
    super(
      id,
      `${expected === null ? 'no record' : `revision ${expected}`} was expected, ${found ? `revision ${found.revision}` : 'no record'} is stored`,
      found ? 'read the current revision, bring the change over to it and write again' : 'write it as a new record',
    )
    this.expected = expected
    this.revision = found?.revision ?? null
    this.hash = found?.hash ?? null
  }
}

export class NotFound extends StoreError {
  readonly kind = 'not-found'
}

/** There is no database at that place and none was to be made, or none that may be opened for writing. */
export class NoFile extends StoreError {
  readonly kind = 'no-file'
}

/** A file stands where one was to be written. */
export class FileExists extends StoreError {
  readonly kind = 'file-exists'
}

/** Not a database of ours, or one whose tables, triggers or views are not those we made. */
export class ForeignFile extends StoreError {
  readonly kind = 'foreign-file'
}

/** Written by a later version; untouched. */
export class TooNew extends StoreError {
  readonly kind = 'too-new'
}

export class Corrupt extends StoreError {
  readonly kind = 'corrupt'
}

/** No room on the disk, or the file may not grow further. */
export class Full extends StoreError {
  readonly kind = 'full'
}

/** Another process held the file for longer than we wait. */
export class Busy extends StoreError {
  readonly kind = 'busy'
}

export class Closed extends StoreError {
  readonly kind = 'closed'
}

/** A number that is not finite, text that is not Unicode, the same key twice: what was handed over cannot be kept. */
export class Unstorable extends StoreError {
  readonly kind = 'unstorable'
}

/** A question that the store does not answer: page too large, filters nested too deep. */
export class BadRequest extends StoreError {
  readonly kind = 'bad-request'
}

/** A cursor that was altered, or that belongs to another list, filter or order. */
export class BadCursor extends StoreError {
  readonly kind = 'bad-cursor'
}
