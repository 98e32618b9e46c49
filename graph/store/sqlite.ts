import { statSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { backUp } from './backup.ts'
import { componentAt, componentPage, countComponents } from './components.ts'
import { openFile, versionOf } from './connection.ts'
import { tally, traitTally } from './elsewhere.ts'
import { told } from './failure.ts'
import { figureDetails, figureRows, figuresOf } from './figures.ts'
import { assertSchema, migrate } from './migrate.ts'
import type { Migration } from './migrations/migration.ts'
import { MIGRATIONS } from './migrations/migrations.ts'
import { checksOf, head, history, ids, outdated, passagesOf, revision, traitsOf } from './records.ts'
import { revisionWriter } from './revisions.ts'
import { type Reader, readerOf, sql } from './sql.ts'
import type { State, Store } from './store.ts'
import { countTeardowns, teardownPage, teardownRows } from './teardowns.ts'
import { verify } from './verify.ts'

export interface OpenChoice {
  readonly file: string
  /** Whether to make the file when there is none; true unless said otherwise. */
  readonly create?: boolean
  /** For tests of migrating. */
  readonly migrations?: readonly Migration[]
  /** Largest size of the file in pages; as large as the disk when not given. */
  readonly maxPages?: number
  /** After how many pages of the log it is written back; the driver's own number when not given. */
  readonly checkpointPages?: number
}

/** Opens the database in one file. Whoever opens it closes it. */
export async function openStore({
  file,
  create = true,
  migrations = MIGRATIONS,
  ...limits
}: OpenChoice): Promise<Store> {
  const known = migrations.at(-1)?.version ?? 0
  try {
    const { database, unclean } = openFile(file, { create, known })
    try {
      await migrate(database, file, migrations, (to) => backUp(file, to))
      assertSchema(database, file, migrations)
      limit(database, limits)
      return storeOf(database, file, unclean)
    } catch (error) {
      database.close()
      throw error
    }
  } catch (error) {
    throw told(file, error)
  }
}

function limit(
  database: Database.Database,
  { maxPages, checkpointPages }: Pick<OpenChoice, 'maxPages' | 'checkpointPages'>,
) {
  if (maxPages !== undefined) database.pragma(`max_page_count = ${Math.trunc(maxPages)}`)
  if (checkpointPages !== undefined) database.pragma(`wal_autocheckpoint = ${Math.trunc(checkpointPages)}`)
}

function storeOf(database: Database.Database, file: string, unclean: boolean): Store {
  const reader = readerOf(database)
  const writer = revisionWriter(database)
  /** What is synchronous here stays behind a promise, and what the driver throws is told as a refusal of ours. */
  const does = async <T>(act: () => T | Promise<T>): Promise<T> => {
    try {
      return await act()
    } catch (error) {
      throw told(file, error)
    }
  }
  return {
    commit: (write) => does(() => writer.commitAll([write])[0]!),
    commitAll: (writes) => does(() => writer.commitAll(writes)),
    withdraw: (withdrawal) => does(() => writer.withdraw(withdrawal)),
    replaceDerived: (id, which, derived, stamp = '') =>
      does(() => writer.replaceDerived({ id, revision: which, derived, stamp })),
    head: (id) => does(() => head(reader, id)),
    revision: (id, which) => does(() => revision(reader, id, which)),
    history: (id) => does(() => history(reader, id)),
    ids: (choice) => does(() => ids(reader, choice?.withdrawn ?? false)),
    outdated: (stamp) => does(() => outdated(reader, stamp)),
    teardowns: (where, order, span) => does(() => teardownPage(reader, where, order, span)),
    countTeardowns: (where) => does(() => countTeardowns(reader, where)),
    teardownRows: (list) => does(() => teardownRows(reader, list)),
    components: (where, span) => does(() => componentPage(reader, where, span)),
    countComponents: (where) => does(() => countComponents(reader, where)),
    component: (teardown, path) => does(() => componentAt(reader, teardown, path)),
    figures: (question) => does(() => figureRows(reader, question)),
    figureDetails: (keys) => does(() => figureDetails(reader, keys)),
    figuresOf: (teardown, conditions = 'default') => does(() => figuresOf(reader, teardown, conditions)),
    traitsOf: (teardowns) => does(() => traitsOf(reader, teardowns)),
    checksOf: (teardowns) => does(() => checksOf(reader, teardowns)),
    passagesOf: (teardown) => does(() => passagesOf(reader, teardown)),
    tally: (of) => does(() => tally(reader, of)),
    traitTally: (trait) => does(() => traitTally(reader, trait)),
    backup: (to, progress) => does(() => backUp(file, to, progress)),
    verify: () => does(() => verify(database, file)),
    state: () => does(() => stateOf(database, reader, file, unclean)),
    close: () => does(() => closeInOrder(database)),
  }
}

function stateOf(database: Database.Database, reader: Reader, file: string, unclean: boolean): State {
  return {
    file,
    version: versionOf(database),
    bytes: statSync(file).size,
    teardowns: reader.number(sql`SELECT count(*) FROM teardown WHERE withdrawn = 0`),
    revisions: reader.number(sql`SELECT count(*) FROM revision`),
    unclean,
  }
}

/** Writes the log back first, so that the file alone is the whole database. A second closing does nothing. */
function closeInOrder(database: Database.Database): void {
  if (!database.open) return
  database.pragma('wal_checkpoint(TRUNCATE)')
  database.close()
}
