import type Database from 'better-sqlite3'
import type { Derived } from './derived.ts'
import { partRange } from './part-number.ts'
import { rowsOf } from './rows.ts'
import { Unstorable } from './store-error.ts'
import { type StoredRow, type StoredRows, TABLE_NAMES, TABLES, type Table } from './tables.ts'

export interface DerivedWriter {
  /** Makes the stored rows of a record equal to these; only rows that differ are written. */
  put(id: string, teardown: number, derived: Derived): void
  /** Drops all rows of a record. */
  drop(id: string, teardown: number): void
}

/** To be called within a transaction. The first writing and the rebuilding take the same way, so they end the same. */
export function derivedWriter(database: Database.Database): DerivedWriter {
  const statements = TABLE_NAMES.map((name) => ({ name, table: TABLES[name], ...prepare(database, TABLES[name]) }))

  const write = (id: string, teardown: number, wanted: StoredRows) => {
    const changes = statements.map(({ name, table, select }) => {
      const { low, high } = table.belongs === 'part' ? partRange(teardown) : { low: teardown, high: teardown }
      return difference(id, table, select.all(low, high), wanted[name])
    })
    // First all that goes, last table first; then all that comes: references hold, and no two rows meet in one key.
    for (let at = statements.length - 1; at >= 0; at--) {
      for (const key of changes[at]!.gone) statements[at]!.remove.run(...key)
    }
    statements.forEach(({ put }, at) => {
      for (const row of changes[at]!.come) put.run(...row)
    })
  }

  return {
    put: (id, teardown, derived) => write(id, teardown, rowsOf(id, teardown, derived)),
    drop: (id, teardown) => write(id, teardown, NOTHING),
  }
}

const NOTHING = Object.fromEntries(TABLE_NAMES.map((name) => [name, []])) as unknown as StoredRows

/** The names are those of `tables.ts`; nothing from outside enters these statements. */
function prepare(database: Database.Database, { name, key, rest, belongs }: Table) {
  const columns = [...key, ...rest]
  const onConflict =
    rest.length === 0
      ? ''
      : `ON CONFLICT DO UPDATE SET ${rest.map((column) => `${column} = excluded.${column}`).join(', ')}`
  return {
    select: database
      .prepare<[number, number], StoredRow>(
        `SELECT ${columns.join(', ')} FROM ${name} WHERE ${belongs} BETWEEN ? AND ?`,
      )
      .raw(),
    remove: database.prepare(`DELETE FROM ${name} WHERE ${key.map((column) => `${column} = ?`).join(' AND ')}`),
    put: database.prepare(
      `INSERT INTO ${name} (${columns.join(', ')}) VALUES (${columns.map(() => '?').join(', ')}) ${onConflict}`,
    ),
  }
}

interface Difference {
  readonly gone: readonly StoredRow[]
  readonly come: readonly StoredRow[]
}

function difference(id: string, table: Table, stored: readonly StoredRow[], wanted: readonly StoredRow[]): Difference {
  const keyOf = (row: StoredRow) => JSON.stringify(row.slice(0, table.key.length))
  const left = new Map(stored.map((row) => [keyOf(row), row]))
  const seen = new Set<string>()
  const come: StoredRow[] = []
  for (const row of wanted) {
    const key = keyOf(row)
    if (seen.has(key)) throw new Unstorable(id, `the row ${key} of ${table.name} occurs twice`, 'make its name unique')
    seen.add(key)
    const before = left.get(key)
    left.delete(key)
    // What is the same as what is stored need not be looked at again; NaN is never the same.
    if (before && row.every((value, at) => isSame(value, before[at]))) continue
    assertStorable(id, table, row)
    come.push(row)
  }
  return { gone: [...left.values()].map((row) => row.slice(0, table.key.length)), come }
}

function isSame(a: StoredRow[number], b: StoredRow[number] | undefined): boolean {
  return a instanceof Uint8Array && b instanceof Uint8Array ? Buffer.compare(a, b) === 0 : a === b
}

/** SQLite keeps NaN as NULL without a word, and a lone half of a surrogate pair comes back as another character. */
function assertStorable(id: string, table: Table, row: StoredRow): void {
  const columns = [...table.key, ...table.rest]
  row.forEach((value, at) => {
    if (typeof value === 'number' ? !Number.isFinite(value) : typeof value === 'string' && !isUnicode(value)) {
      throw new Unstorable(
        `${id} ${table.name} ${JSON.stringify(row.slice(0, table.key.length))}`,
        `${columns[at]} is ${typeof value === 'number' ? value : 'not Unicode text'}`,
        'what cannot be computed is null with its reason',
      )
    }
  })
}

export function isUnicode(text: string): boolean {
  return !/\p{Surrogate}/u.test(text)
}
