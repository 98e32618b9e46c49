import type Database from 'better-sqlite3'
import { type DerivedWriter, derivedWriter, isUnicode } from './derived-writer.ts'
import { contentHash, sealOf } from './revision-hash.ts'
import type { Committed, Expected, Signature, Withdrawal, Write } from './store.ts'
import { BadRequest, Conflict, NotFound, Unstorable } from './store-error.ts'

interface Stored {
  readonly key: number
  readonly revision: number
  readonly withdrawn: 0 | 1
  readonly hash: string
  readonly seal: string
}

export interface RevisionWriter {
  commitAll(writes: readonly Write[]): readonly Committed[]
  withdraw(withdrawal: Withdrawal): Committed
  replaceDerived(write: Pick<Write, 'id' | 'derived' | 'stamp'> & { readonly revision: number }): void
}

/** Each call is one transaction, all or nothing. */
export function revisionWriter(database: Database.Database): RevisionWriter {
  const statements = prepare(database)
  const derived = derivedWriter(database)
  return {
    commitAll: (writes) =>
      database.transaction(() => writes.map((write) => commit(statements, derived, write))).immediate(),
    withdraw: (withdrawal) => database.transaction(() => withdraw(statements, derived, withdrawal)).immediate(),
    replaceDerived: ({ id, revision, derived: rows, stamp }) =>
      database
        .transaction(() => {
          const stored = statements.stored.get({ id })
          if (!stored || stored.withdrawn)
            throw new NotFound(id, 'no such record is stored', 'see the list of what is stored')
          assertExpected(id, revision, stored)
          derived.put(id, stored.key, rows)
          statements.derivedNow.run({ key: stored.key, revision, stamp: stamp ?? '' })
        })
        .immediate(),
  }
}

type Statements = ReturnType<typeof prepare>

function prepare(database: Database.Database) {
  return {
    stored: database.prepare<{ id: string }, Stored>(`
      SELECT t.key, t.revision, t.withdrawn, r.hash, r.seal
      FROM teardown t JOIN revision r ON r.teardown = t.key AND r.revision = t.revision
      WHERE t.id = @id`),
    newest: database.prepare<[], { key: number }>('SELECT coalesce(max(key), 0) AS key FROM teardown'),
    enter: database.prepare(`
      INSERT INTO teardown (key, id, revision, withdrawn, derived_revision, stamp)
      VALUES (@key, @id, @revision, @withdrawn, @derived, @stamp)
      ON CONFLICT (key) DO UPDATE SET
        revision = excluded.revision, withdrawn = excluded.withdrawn,
        derived_revision = excluded.derived_revision, stamp = excluded.stamp`),
    add: database.prepare(`
      INSERT INTO revision (teardown, revision, withdrawn, sheet, body, hash, seal, at, by, note)
      VALUES (@key, @revision, @withdrawn, @sheet, @body, @hash, @seal, @at, @by, @note)`),
    derivedNow: database.prepare('UPDATE teardown SET derived_revision = @revision, stamp = @stamp WHERE key = @key'),
  }
}

function commit(statements: Statements, derived: DerivedWriter, write: Write): Committed {
  const { id, sheetText, body, stamp = '' } = write
  assertWritable(write)
  const stored = statements.stored.get({ id })
  assertExpected(id, write.expected, stored)
  const hash = contentHash({ sheet: sheetText, body })
  if (stored?.hash === hash) {
    derived.put(id, stored.key, write.derived)
    statements.derivedNow.run({ key: stored.key, revision: stored.revision, stamp })
    return { id, revision: stored.revision, hash, unchanged: true }
  }
  const key = stored?.key ?? (statements.newest.get()?.key ?? 0) + 1
  const revision = enter(statements, { ...write, key, stamp, hash, content: { sheet: sheetText, body } }, stored)
  derived.put(id, key, write.derived)
  return { id, revision, hash, unchanged: false }
}

function withdraw(statements: Statements, derived: DerivedWriter, withdrawal: Withdrawal): Committed {
  const { id, expected } = withdrawal
  assertWritable(withdrawal)
  const stored = statements.stored.get({ id })
  if (!stored) throw new NotFound(id, 'no record is stored under this id', 'see the list of what is stored')
  assertExpected(id, expected, stored)
  if (stored.withdrawn) return { id, revision: stored.revision, hash: stored.hash, unchanged: true }
  derived.drop(id, stored.key)
  const content = { sheet: null, body: null }
  const hash = contentHash(content)
  const revision = enter(statements, { ...withdrawal, key: stored.key, stamp: '', hash, content }, stored)
  return { id, revision, hash, unchanged: false }
}

interface Entry extends Signature {
  readonly id: string
  readonly key: number
  readonly stamp: string
  readonly hash: string
  readonly content: { readonly sheet: string | null; readonly body: string | null }
}

/** Writes the next line of the history and makes it the current one. */
function enter(statements: Statements, entry: Entry, before: Stored | undefined): number {
  const { id, key, at, hash, content, stamp } = entry
  const revision = (before?.revision ?? 0) + 1
  const withdrawn = content.sheet === null ? 1 : 0
  const by = entry.by ?? null
  const note = entry.note ?? null
  const seal = sealOf(before?.seal ?? null, { id, revision, hash, at, by, note })
  statements.enter.run({ key, id, revision, withdrawn, derived: withdrawn ? null : revision, stamp })
  statements.add.run({ key, revision, withdrawn, ...content, hash, seal, at, by, note })
  return revision
}

function assertExpected(id: string, expected: Expected, stored: Stored | undefined): void {
  if (expected === undefined) return
  const current = stored && !stored.withdrawn ? stored : null
  const met = expected === null ? current === null : stored?.revision === expected
  if (!met) throw new Conflict(id, expected, stored ?? null)
}

function assertWritable({ id, at, by, note, ...rest }: Partial<Write> & Withdrawal): void {
  if (id === '') throw new BadRequest('id', 'a record needs an id', 'give it one')
  for (const [name, text] of Object.entries({ id, at, by, note, sheetText: rest.sheetText, body: rest.body })) {
    if (text !== undefined && !isUnicode(text)) {
      throw new Unstorable(id, `${name} is not Unicode text: half of a surrogate pair stands alone`, 'write it again')
    }
  }
}
