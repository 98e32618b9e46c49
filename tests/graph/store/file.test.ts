import { closeSync, existsSync, openSync, readdirSync, readFileSync, statSync, writeFileSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { openFile } from '../../../graph/store/connection.ts'
import { MIGRATIONS } from '../../../graph/store/migrations/migrations.ts'
import { openStore } from '../../../graph/store/sqlite.ts'
import { derived, filled, newFile, opened, part, write } from './corpus-fixture.ts'

const pragma = (file: string, name: string) => {
  const database = new Database(file, { readonly: true })
  const found = database.pragma(name, { simple: true })
  database.close()
  return found
}

describe('opening a file', () => {
  it('makes one that only its owner reads, marked as ours, and finds everything again', async () => {
    const file = newFile()
    const store = await openStore({ file })
    await store.commit(write('ferry'))
    expect(statSync(file).mode & 0o777).toBe(0o600)
    expect(statSync(`${file}-wal`).mode & 0o777).toBe(0o600)
    await store.close()
    expect(readdirSync(dirname(file))).toEqual(['units.db'])
    expect(pragma(file, 'application_id')).toBe(0x4c69646f)
    const again = await opened({ file })
    expect(await again.state()).toMatchObject({
      version: MIGRATIONS.length,
      teardowns: 1,
      revisions: 1,
      unclean: false,
    })
  })

  // The driver is built with WAL files falling back to NORMAL when opened again: measured, better-sqlite3 12.11.1.
  it('waits for the disk at every commit, also when opened again', async () => {
    const file = newFile()
    for (const time of ['first', 'second', 'third']) {
      const { database } = openFile(file, { create: true, known: 1 })
      const read = ['synchronous', 'journal_mode', 'foreign_keys', 'trusted_schema', 'busy_timeout'].map((name) =>
        database.pragma(name, { simple: true }),
      )
      expect([time, ...read]).toEqual([time, 2, 'wal', 1, 0, 5000])
      database.close()
    }
    const plain = new Database(file)
    expect(plain.pragma('synchronous', { simple: true })).toBe(1) // so the check above could fail
    plain.close()
  })

  it('says when there is none and none is to be made', async () => {
    const file = newFile()
    await expect(openStore({ file, create: false })).rejects.toMatchObject({ kind: 'no-file', place: file })
    expect(existsSync(file)).toBe(false)
  })

  it('does not make a file out of a folder', async () => {
    await expect(openStore({ file: dirname(newFile()) })).rejects.toMatchObject({ code: 'EISDIR' })
  })

  it('does not touch a database of another program, or any other file', async () => {
    const other = newFile('other.db')
    const database = new Database(other)
    database.pragma('journal_mode = WAL')
    database.exec('CREATE TABLE notes (text); INSERT INTO notes VALUES (1)')
    database.close()
    const text = newFile('sheet.yaml')
    writeFileSync(text, 'id: ferry\n'.repeat(50))
    for (const file of [other, text]) {
      const before = readFileSync(file)
      await expect(openStore({ file })).rejects.toMatchObject({ kind: 'foreign-file', place: file })
      expect(readFileSync(file).equals(before)).toBe(true)
    }
  })

  it('refuses a newer version, in the file or still in its log, and leaves it as it was', async () => {
    const file = newFile()
    await (await openStore({ file })).close()
    const later = new Database(file)
    later.pragma('user_version = 99')
    await expect(openStore({ file })).rejects.toMatchObject({ kind: 'too-new' })
    later.close()
    const before = readFileSync(file)
    await expect(openStore({ file })).rejects.toMatchObject({ kind: 'too-new' })
    expect(readFileSync(file).equals(before)).toBe(true)
  })

  it.each([
    ['a trigger', 'CREATE TRIGGER slipped AFTER INSERT ON part BEGIN DELETE FROM trait; END'],
    ['a view', 'CREATE VIEW slipped AS SELECT 1'],
    ['a missing index', 'DROP INDEX part_tag_value'],
  ])('refuses a file with %s that the program did not make', async (_, change) => {
    const file = newFile()
    await (await openStore({ file })).close()
    const database = new Database(file)
    database.exec(change)
    database.close()
    await expect(openStore({ file })).rejects.toMatchObject({
      kind: 'foreign-file',
      what: expect.stringMatching(/slipped|part_tag_value/),
    })
  })

  it('still opens one that holds statistics of its indexes', async () => {
    const file = newFile()
    const store = await openStore({ file })
    await store.commit(write('ferry'))
    await store.close()
    const database = new Database(file)
    database.exec('ANALYZE')
    database.close()
    expect(await (await opened({ file })).ids()).toEqual(['ferry'])
  })

  it('after closing answers nothing more, and closes twice without harm', async () => {
    const store = await filled({ ferry: {} })
    await store.close()
    await expect(store.ids()).rejects.toMatchObject({ kind: 'closed' })
    await expect(store.commit(write('tractor'))).rejects.toMatchObject({ kind: 'closed' })
    await store.close()
  })
})

describe('migrating', () => {
  const NOW = MIGRATIONS.length
  const second = { version: NOW + 1, about: 'a column', sql: 'ALTER TABLE teardown ADD COLUMN shelf TEXT' }

  it('copies an existing database first, then takes each step once', async () => {
    const file = newFile()
    const before = await openStore({ file })
    await before.commit(write('ferry'))
    await before.close()
    const after = await opened({ file, migrations: [...MIGRATIONS, second] })
    expect(await after.ids()).toEqual(['ferry'])
    expect((await after.state()).version).toBe(NOW + 1)
    expect(pragma(`${file}.before-${NOW + 1}`, 'user_version')).toBe(NOW)
    expect(await (await opened({ file: `${file}.before-${NOW + 1}` })).ids()).toEqual(['ferry'])
    await after.close()
    await opened({ file, migrations: [...MIGRATIONS, second] })
    expect(readdirSync(dirname(file)).filter((name) => /before-\d+(-\d+)?$/.test(name))).toHaveLength(1)
  })

  it('from workings that were not packed, keeps the records and asks for what was derived anew', async () => {
    const file = newFile()
    const before = await openStore({ file, migrations: MIGRATIONS.slice(0, 1) })
    await before.close()
    const old = new Database(file)
    old.exec(`BEGIN; INSERT INTO teardown VALUES (1, 'ferry', 1, 0, 1, 'stamp');
      INSERT INTO revision VALUES (1, 1, 0, '${'0'.repeat(64)}', '${'0'.repeat(64)}', '2026-11-20T10:00:00Z', NULL, NULL, 'sheet', '{}');
      INSERT INTO figure_detail VALUES (1, 'POWER_DENSITY', 'default', 'specimen', '{}', '{"inputs":[]}'); COMMIT;`)
    old.close()
    const after = await opened({ file })
    expect(await after.revision('ferry')).toMatchObject({ sheetText: 'sheet', revision: 1 })
    expect(await after.outdated('stamp')).toEqual(['ferry'])
    const key = { teardown: 'ferry', metric: 'POWER_DENSITY', conditions: 'default', subject: 'specimen' }
    expect(await after.figureDetails([key as never])).toEqual([null])
  })

  it('makes no copy of a file that it has just made', async () => {
    const file = newFile()
    await opened({ file, migrations: [...MIGRATIONS, second] })
    expect(readdirSync(dirname(file)).filter((name) => name.includes('before'))).toEqual([])
  })

  it('undoes a step whose rows then refer to nothing, or that fails half way', async () => {
    const file = newFile()
    const store = await openStore({ file })
    await store.commit(write('ferry'))
    await store.close()
    const orphans =
      'CREATE TABLE lid (part INTEGER REFERENCES part (part)); PRAGMA defer_foreign_keys = 1; INSERT INTO lid VALUES (7);'
    const broken = { version: NOW + 1, about: 'orphans', sql: orphans }
    await expect(openStore({ file, migrations: [...MIGRATIONS, broken] })).rejects.toMatchObject({ kind: 'corrupt' })
    const failing = { version: NOW + 1, about: 'half', sql: 'CREATE TABLE half (x); SELECT no_such_function()' }
    await expect(openStore({ file, migrations: [...MIGRATIONS, failing] })).rejects.toThrow('no_such_function')
    const again = await opened({ file })
    expect(await again.state()).toMatchObject({ version: NOW, teardowns: 1 })
  })
})

describe('when the disk is full', () => {
  it('says so, changes nothing, and still answers', async () => {
    const store = await opened({ maxPages: 120 })
    const large = (n: number) => write(`unit-${n}`, { sheetText: 'x'.repeat(60_000) })
    let n = 0
    const refused = await (async () => {
      for (; n < 100; n++) await store.commit(large(n))
    })().catch((error) => error)
    expect(refused).toMatchObject({ kind: 'full' })
    expect(await store.ids()).toHaveLength(n)
    expect((await store.verify()).problems).toEqual([])
    expect(await store.revision('unit-0')).toMatchObject({ revision: 1 })
  })
})

describe('a damaged file', () => {
  it('is found, and the page is named', async () => {
    const file = newFile()
    const store = await openStore({ file })
    const parts = Array.from({ length: 300 }, (_, at) => part(`parts/p${at}`, { text: 'word '.repeat(50) }))
    await store.commit(write('ferry', { derived: derived({ parts }) }))
    await store.close()
    const page = await rootOf(file, 'part') // the tree of parts: its first page
    const handle = openSync(file, 'r+')
    writeSync(handle, Buffer.alloc(4096, 0xa5), 0, 4096, (page - 1) * 4096)
    closeSync(handle)
    const damaged = await opened({ file })
    const { problems } = await damaged.verify()
    expect(problems.map(({ what }) => what).join('\n')).toMatch(new RegExp(`\\b${page}\\b`))
    await expect(
      damaged
        .countComponents({ marking: 'WX28', partType: 'none', text: 'word' })
        .then(() => damaged.components({}, { first: 10 })),
    ).rejects.toMatchObject({
      kind: 'corrupt',
    })
  })

  it('that was cut short is refused or found', async () => {
    const file = newFile()
    const store = await openStore({ file })
    await store.commit(write('ferry', { sheetText: 'x'.repeat(100_000) }))
    await store.close()
    const whole = readFileSync(file)
    writeFileSync(file, whole.subarray(0, whole.length - 8192))
    const kinds = await openStore({ file }).then(
      async (cut) => {
        const { problems } = await cut.verify()
        await cut.close()
        return problems.length
      },
      (error) => error.kind,
    )
    expect(kinds === 'corrupt' || Number(kinds) > 0).toBe(true)
  })
})

async function rootOf(file: string, table: string): Promise<number> {
  const database = new Database(file, { readonly: true })
  const root = Number(database.prepare('SELECT rootpage FROM sqlite_schema WHERE name = ?').pluck().get(table))
  database.close()
  return root
}

describe('two writers', () => {
  it('on two connections: the second is told of the first', async () => {
    const file = newFile()
    const [one, two] = [await opened({ file }), await opened({ file })]
    await one.commit(write('ferry', { expected: null }))
    const seen = (await two.head('ferry')).revision
    await one.commit(write('ferry', { sheetText: 'by one', expected: seen }))
    await expect(two.commit(write('ferry', { sheetText: 'by two', expected: seen }))).rejects.toMatchObject({
      kind: 'conflict',
      revision: 2,
    })
    expect((await two.revision('ferry')).sheetText).toBe('by one')
  })
})
