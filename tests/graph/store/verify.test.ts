import Database from 'better-sqlite3'
import { describe, expect, it } from 'vitest'
import { openStore } from '../../../graph/store/sqlite.ts'
import { AT, newFile, opened, write } from './corpus-fixture.ts'

/** A file with some history, altered behind the store's back. */
async function altered(change: string): Promise<string> {
  const file = newFile()
  const store = await openStore({ file })
  await store.commit(write('ferry'))
  await store.commit(write('ferry', { sheetText: 'second', by: 'bench two' }))
  await store.withdraw({ id: 'ferry', expected: 2, at: AT })
  await store.commit(write('ferry', { sheetText: 'fourth' }))
  await store.close()
  const database = new Database(file)
  const triggers = database.prepare("SELECT name, sql FROM sqlite_schema WHERE name LIKE 'revision_is%'").all() as {
    name: string
    sql: string
  }[]
  database.pragma('foreign_keys = OFF')
  for (const { name } of triggers) database.exec(`DROP TRIGGER ${name}`)
  database.exec(change)
  for (const { sql } of triggers) database.exec(sql)
  database.close()
  return file
}

describe('verify', () => {
  it('finds nothing where nothing is wrong, withdrawn and brought back included', async () => {
    const store = await opened({ file: await altered('SELECT 1') })
    expect(await store.verify()).toEqual({ revisions: 4, problems: [] })
  })

  it.each([
    [
      'the sheet of an old revision',
      "UPDATE revision SET sheet = 'other' WHERE revision = 2",
      'ferry revision 2',
      'hash',
    ],
    ['a body', "UPDATE revision SET body = '{}' WHERE revision = 1", 'ferry revision 1', 'hash'],
    ['who wrote', "UPDATE revision SET by = 'bench one' WHERE revision = 2", 'ferry revision 2', 'altered'],
    [
      'a line with its hash',
      'UPDATE revision SET hash = (SELECT hash FROM revision WHERE revision = 1), sheet = (SELECT sheet FROM revision WHERE revision = 1) WHERE revision = 2',
      'ferry revision 2',
      'altered',
    ],
    ['a line that is gone', 'DELETE FROM revision WHERE revision = 2', 'ferry revision 3', 'expected'],
    ['the current revision', 'UPDATE teardown SET revision = 2', 'ferry', 'current'],
    ['the revision of derived rows', 'UPDATE teardown SET derived_revision = 1', 'ferry', 'derived'],
  ])('finds %s altered', async (_, change, place, what) => {
    const store = await opened({ file: await altered(change) })
    const { problems } = await store.verify()
    expect(problems).toContainEqual(expect.objectContaining({ place, what: expect.stringContaining(what) }))
  })

  it('finds a row that refers to nothing', async () => {
    const store = await opened({ file: await altered("INSERT INTO part_tag VALUES (5, 'net', 'plus')") })
    expect((await store.verify()).problems.map(({ what }) => what).join()).toContain('part_tag')
  })

  it('finds an index of words that no longer fits its table', async () => {
    const store = await opened({
      file: await altered('DELETE FROM part_text'),
    })
    expect((await store.verify()).problems.map(({ what }) => what)).toEqual([
      'part_text and its table differ in 1 rows',
    ])
  })
})

describe('history', () => {
  it('is kept by the database itself', async () => {
    const file = await altered('SELECT 1')
    const database = new Database(file)
    expect(() => database.exec("UPDATE revision SET sheet = 'x'")).toThrow('never changed')
    expect(() => database.exec('DELETE FROM revision')).toThrow('never deleted')
    database.close()
  })
})
