import { existsSync } from 'node:fs'
import Database from 'better-sqlite3'
import { versionOf } from './connection.ts'
import type { Migration } from './migrations/migration.ts'
import { Corrupt, ForeignFile } from './store-error.ts'

/**
 * Brings the tables up to date, each step in a transaction of its own with the note that it ran. An existing database
 * is copied first: to `<file>.before-<version>`.
 *
 * @returns the copy, when one was made
 */
export async function migrate(
  database: Database.Database,
  file: string,
  migrations: readonly Migration[],
  copy: (to: string) => Promise<unknown>,
): Promise<string | null> {
  const from = versionOf(database)
  const pending = migrations.filter(({ version }) => version > from)
  if (pending.length === 0) return null
  const backup = from === 0 ? null : freeName(`${file}.before-${migrations.at(-1)?.version ?? from}`)
  if (backup) await copy(backup)
  for (const migration of pending) step(database, file, migration)
  return backup
}

function step(database: Database.Database, file: string, migration: Migration): void {
  database
    .transaction(() => {
      // Another process may have taken this step while we waited for the lock.
      if (versionOf(database) >= migration.version) return
      database.exec(migration.sql)
      const broken = database.pragma('foreign_key_check')
      if (Array.isArray(broken) && broken.length > 0) {
        throw new Corrupt(
          file,
          `after the step to version ${migration.version}, ${broken.length} rows refer to nothing; the step was undone`,
          'run the check of the database and restore a backup',
        )
      }
      database.pragma(`user_version = ${migration.version}`)
    })
    .immediate()
}

function freeName(name: string): string {
  for (let n = 1; ; n++) {
    const tried = n === 1 ? name : `${name}-${n}`
    if (!existsSync(tried)) return tried
  }
}

/**
 * Refuses a file whose tables, indexes, triggers or views are not exactly those that the migrations make: a database
 * may come from someone else, and a trigger slipped into it would run on our next write.
 */
export function assertSchema(database: Database.Database, file: string, migrations: readonly Migration[]): void {
  const model = new Database(':memory:')
  for (const migration of migrations) model.exec(migration.sql)
  const wanted = schemaOf(model)
  model.close()
  const found = schemaOf(database)
  const odd = [...found].filter(([name, text]) => wanted.get(name) !== text).map(([name]) => name)
  const lacking = [...wanted.keys()].filter((name) => !found.has(name))
  if (odd.length + lacking.length === 0) return
  throw new ForeignFile(
    file,
    `its tables are not those of this program: ${[...odd, ...lacking.map((name) => `no ${name}`)].join(', ')}`,
    'do not use this file; restore a backup, or make a new database and add the sheets again',
  )
}

function schemaOf(database: Database.Database): ReadonlyMap<string, string> {
  const rows = database
    .prepare<[], { name: string; sql: string | null }>(
      // What ANALYZE keeps is data, not structure.
      "SELECT type || ' ' || name AS name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' ORDER BY 1",
    )
    .all()
  return new Map(rows.map(({ name, sql }) => [name, sql ?? '']))
}
