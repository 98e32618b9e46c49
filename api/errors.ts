/**
 * Every way in which lidoff refuses, in one table: the code that programs read, the HTTP status and the exit status.
 * A retired code is never given a new meaning.
 */
export const FAULTS = {
  SHEET_INVALID: { http: 422, exit: 1, about: 'A sheet has errors; nothing of it was stored.' },
  QUERY_SYNTAX: { http: 400, exit: 1, about: 'The text of a query could not be read as GraphQL.' },
  QUERY_INVALID: { http: 400, exit: 1, about: 'A query asks for something that the schema does not have.' },
  QUERY_COSTLY: { http: 400, exit: 4, about: 'A query asks for more than one answer may hold; it was not run.' },
  USAGE: { http: 400, exit: 2, about: 'A command, flag or argument is not known or not usable.' },
  QUANTITY: { http: 400, exit: 2, about: 'A quantity could not be read, or has the wrong dimension.' },
  CHANGE: { http: 400, exit: 2, about: 'A change does not fit the record, or leaves it unsound; nothing was changed.' },
  DOMAIN: { http: 400, exit: 2, about: 'A calculation was given a value that cannot exist.' },
  PAGE: { http: 400, exit: 2, about: 'A cursor is not one of this list, or a page size is out of range.' },
  UNAUTHENTICATED: { http: 401, exit: 4, about: 'No token, or one that is not valid.' },
  NOT_FOUND: { http: 404, exit: 3, about: 'Nothing is stored under that name.' },
  METHOD: { http: 405, exit: 2, about: 'That HTTP method is not offered here.' },
  CONFLICT: { http: 409, exit: 4, about: 'The record was changed by someone else meanwhile; nothing was overwritten.' },
  TOO_LARGE: { http: 413, exit: 4, about: 'The request is larger than is read.' },
  MEDIA_TYPE: { http: 415, exit: 2, about: 'The content type of the request is not read here.' },
  HOST: { http: 421, exit: 4, about: 'The Host header names a machine that this server does not answer for.' },
  REFUSED: { http: 403, exit: 4, about: 'Refused for a reason that stands in the message.' },
  DEADLINE: { http: 503, exit: 4, about: 'The answer took longer than is allowed; ask for a smaller page.' },
  UNAVAILABLE: { http: 503, exit: 4, about: 'Starting, migrating or stopping.' },
  INTERNAL: { http: 500, exit: 70, about: 'A fault of lidoff itself; the error id stands in the log.' },
} as const satisfies Readonly<Record<string, FaultKind>>

interface FaultKind {
  readonly http: number
  readonly exit: number
  readonly about: string
}

export type FaultCode = keyof typeof FAULTS

/** A refusal that a person or a program can act on: what is wrong and what mends it. */
export class Fault extends Error {
  readonly code: FaultCode
  readonly mend: string
  /** Further facts for a program, such as the current revision in a conflict. */
  readonly facts: Readonly<Record<string, unknown>>

  constructor(code: FaultCode, what: string, mend = '', facts: Readonly<Record<string, unknown>> = {}) {
    super(what)
    this.name = 'Fault'
    this.code = code
    this.mend = mend
    this.facts = facts
  }
}

/** What a program is shown of a refusal. */
export interface FaultDocument {
  readonly code: FaultCode
  readonly message: string
  readonly mend?: string
  readonly [fact: string]: unknown
}

export function faultDocument(fault: Fault): FaultDocument {
  return { code: fault.code, message: fault.message, ...(fault.mend ? { mend: fault.mend } : {}), ...fault.facts }
}
