import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { told } from '../../../graph/store/failure.ts'
import { NotFound } from '../../../graph/store/store-error.ts'

// Result codes as named in SQLite's "Result and Error Codes", extended ones included.
const codes = [
  ['SQLITE_FULL', 'full'],
  ['SQLITE_NOTADB', 'foreign-file'],
  ['SQLITE_CORRUPT_INDEX', 'corrupt'],
  ['SQLITE_IOERR_READ', 'corrupt'],
  ['SQLITE_BUSY_SNAPSHOT', 'busy'],
  ['SQLITE_LOCKED', 'busy'],
  ['SQLITE_CONSTRAINT_CHECK', 'unstorable'],
  ['SQLITE_CANTOPEN', 'no-file'],
  ['SQLITE_READONLY_DIRECTORY', 'no-file'],
] as const

describe('what the driver throws', () => {
  it.each(codes)('%s is told as %s, with the cause kept', (code, kind) => {
    const cause = new Database.SqliteError('as the driver says it', code)
    expect(told('units.db', cause)).toMatchObject({ kind, place: 'units.db', cause, mend: expect.stringMatching(/./) })
  })

  it('is passed on where it is a fault of ours, and a refusal stays what it is', () => {
    const fault = new Database.SqliteError('near "SELEC": syntax error', 'SQLITE_ERROR')
    expect(told('units.db', fault)).toBe(fault)
    const refusal = new NotFound('ferry', 'no record', 'see the list')
    expect(told('units.db', refusal)).toBe(refusal)
  })
})
