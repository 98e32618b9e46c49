import type { Basis } from '../quantity/basis.ts'
import { asPath } from '../quantity/quantity.ts'
import { number, text } from './components.ts'
import type { DerivedCheck, DerivedPassage } from './derived.ts'
import { type Reader, type Row, type Sql, sql } from './sql.ts'
import type { CheckRow, Head, Revision, RevisionHead, TraitRow } from './store.ts'
import { NotFound } from './store-error.ts'

const HEAD = sql`t.id, t.stamp, r.revision, r.withdrawn, r.hash, r.seal, r.at, r.by, r.note`
const FROM = sql`teardown t JOIN revision r ON r.teardown = t.key`

export function head(reader: Reader, id: string): Head {
  const row = reader.one(sql`SELECT ${HEAD} FROM ${FROM} AND r.revision = t.revision WHERE t.id = ${id}`)
  if (!row) throw noRecord(id)
  return { ...revisionHead(row), stamp: String(row.stamp) }
}

export function revision(reader: Reader, id: string, which: number | undefined): Revision {
  const wanted = which === undefined ? sql`t.revision` : sql`${which}`
  const row = reader.one(
    sql`SELECT ${HEAD}, r.sheet, r.body FROM ${FROM} AND r.revision = ${wanted} WHERE t.id = ${id}`,
  )
  if (!row) throw which === undefined ? noRecord(id) : noRevision(id, which)
  if (row.withdrawn === 1) {
    throw new NotFound(id, `revision ${row.revision} withdrew this record`, 'ask for an earlier revision by its number')
  }
  return { ...revisionHead(row), sheetText: String(row.sheet), body: String(row.body) }
}

export function history(reader: Reader, id: string): readonly RevisionHead[] {
  const rows = reader.all(sql`SELECT ${HEAD} FROM ${FROM} WHERE t.id = ${id} ORDER BY r.revision`)
  if (rows.length === 0) throw noRecord(id)
  return rows.map(revisionHead)
}

export function ids(reader: Reader, withdrawnToo: boolean): readonly string[] {
  const which = withdrawnToo ? sql`TRUE` : sql`withdrawn = 0`
  return reader.all(sql`SELECT id FROM teardown WHERE ${which} ORDER BY id`).map((row) => String(row.id))
}

export function outdated(reader: Reader, stamp: string): readonly string[] {
  return reader
    .all(
      sql`SELECT id FROM teardown WHERE withdrawn = 0 AND (stamp <> ${stamp} OR derived_revision IS NOT revision) ORDER BY id`,
    )
    .map((row) => String(row.id))
}

export function traitsOf(reader: Reader, teardowns: readonly string[]): readonly TraitRow[] {
  return reader
    .all(sql`SELECT t.id, x.* FROM ${named(teardowns)} CROSS JOIN trait x ON x.teardown = t.key
    ORDER BY named.key, x.trait, x.subject, x.value`)
    .map((row) => ({
      teardown: String(row.id),
      id: String(row.trait),
      subject: asPath(String(row.subject)),
      value: String(row.value),
      basis: row.basis as Basis | null,
    }))
}

export function checksOf(reader: Reader, teardowns: readonly string[]): readonly CheckRow[] {
  return reader
    .all(sql`SELECT t.id, x.* FROM ${named(teardowns)} CROSS JOIN check_finding x ON x.teardown = t.key
    ORDER BY named.key, x.rank`)
    .map((row) => ({
      teardown: String(row.id),
      id: String(row.check_id),
      path: String(row.path),
      severity: row.severity as DerivedCheck['severity'],
      what: String(row.what),
      mend: String(row.mend),
    }))
}

/** In the order of the coolant; what stands in no sequence comes last. */
export function passagesOf(reader: Reader, teardown: string): readonly DerivedPassage[] {
  return reader
    .all(sql`SELECT * FROM passage WHERE teardown = (SELECT key FROM teardown WHERE id = ${teardown})
      ORDER BY stage IS NULL, stage, path`)
    .map((row) => ({
      path: asPath(String(row.path)),
      stage: number(row.stage),
      upstream: (JSON.parse(String(row.upstream)) as string[]).map(asPath),
    }))
}

/** The records of these ids, `named.key` their place in the list. */
function named(teardowns: readonly string[]): Sql {
  return sql`json_each(${JSON.stringify(teardowns)}) named CROSS JOIN teardown t ON t.id = named.value`
}

function revisionHead(row: Row): RevisionHead {
  const by = text(row.by)
  const note = text(row.note)
  return {
    id: String(row.id),
    revision: Number(row.revision),
    withdrawn: row.withdrawn === 1,
    hash: String(row.hash),
    seal: String(row.seal),
    at: String(row.at),
    ...(by !== null && { by }),
    ...(note !== null && { note }),
  }
}

function noRecord(id: string): NotFound {
  return new NotFound(id, 'no record is stored under this id', 'see the list of what is stored')
}

function noRevision(id: string, which: number): NotFound {
  return new NotFound(id, `no revision ${which} is stored`, 'see the history of the record')
}
