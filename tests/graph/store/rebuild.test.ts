import Database from 'better-sqlite3'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Derived } from '../../../graph/store/derived.ts'
import { openStore } from '../../../graph/store/sqlite.ts'
import { derived, figure, newFile, opened, part, write } from './corpus-fixture.ts'

/** Every row of every table, apart from the history, and what the indexes of words find. */
function contents(file: string): string {
  const database = new Database(file, { readonly: true })
  const tables = database
    .prepare(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE '%\\_text%' ESCAPE '\\' AND name NOT LIKE 'part\\_marking%' ESCAPE '\\'",
    )
    .pluck()
    .all()
    .filter((name) => !['revision', 'teardown'].includes(String(name)))
  const rows = tables.map((name) => [name, database.prepare(`SELECT * FROM ${name} ORDER BY 1, 2, 3`).raw().all()])
  const words = ['summary_text', 'part_text'].map((name) =>
    ['a', 'b', 'c', 'p'].map((word) =>
      database.prepare(`SELECT rowid FROM ${name} WHERE ${name} MATCH ?`).pluck().all(`"${word}"*`),
    ),
  )
  const markings = database.prepare(`SELECT rowid FROM part_marking WHERE part_marking MATCH '"MMM"'`).pluck().all()
  database.close()
  return JSON.stringify([rows, words, markings], null, 1)
}

const word = fc.constantFrom('a', 'b', 'c')
const anyDerived: fc.Arbitrary<Derived> = fc
  .record({
    title: word,
    parts: fc.uniqueArray(
      fc.record({
        id: fc.constantFrom(...'pqrs'),
        net: word,
        mass: fc.integer({ min: 0, max: 3 }),
        marking: fc.option(fc.constantFrom('mmm1', 'mmm2')),
        text: word,
        end: word,
      }),
      { selector: ({ id }) => id },
    ),
    passages: fc.subarray(['a', 'b', 'c']),
    figures: fc.uniqueArray(fc.record({ subject: word, value: fc.option(fc.integer({ min: 1, max: 3 })) }), {
      selector: ({ subject }) => subject,
    }),
    traits: fc.uniqueArray(word),
    checks: fc.array(word, { maxLength: 3 }),
  })
  .map(({ title, parts, passages, figures, traits, checks }) => ({
    summary: { title, kind: 'combined', maker: title, model: null, text: title },
    parts: parts.map(({ id, net, mass, marking, text, end }) =>
      part(`parts/${id}`, {
        nets: [net],
        marking,
        text,
        heatEnds: [asPath(`coolant/${end}`)],
        properties: [{ name: 'mass', value: mass, word: null, basis: 'measured' }],
      }),
    ),
    passages: passages.map((name, stage) => ({
      path: asPath(`coolant/${name}`),
      stage,
      upstream: passages.slice(0, stage).map((up) => asPath(`coolant/${up}`)),
    })),
    figures: figures.map(({ subject, value }) => figure('HEAT_FLUX', value, { subject: asPath(subject) })),
    traits: traits.map((value) => ({ id: 'cooling', subject: asPath('specimen'), value, basis: null })),
    checks: checks.map((what) => ({ id: 'close', path: 'specimen', severity: 'warning', what, mend: what })),
    instruments: traits.map((key) => ({ key, path: asPath(`instruments/${key}`) })),
  }))

describe('rows that are derived', () => {
  it('are the same, however many revisions led to them, as when computed once', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyDerived, { minLength: 1, maxLength: 4 }),
        anyDerived,
        async (revisions, neighbour) => {
          const [grown, fresh, rebuilt] = [newFile(), newFile(), newFile()]
          const commitAll = async (file: string, list: readonly Derived[]) => {
            const store = await openStore({ file })
            await store.commit(write('ferry', { derived: list[0]! }))
            await store.commit(write('tractor', { derived: neighbour }))
            for (const [at, rows] of list.slice(1).entries()) {
              await store.commit(write('ferry', { sheetText: `revision ${at}`, derived: rows }))
            }
            expect((await store.verify()).problems).toEqual([])
            return store
          }
          const last = revisions.at(-1)!
          await (await commitAll(grown, revisions)).close()
          await (await commitAll(fresh, [last])).close()
          const store = await commitAll(rebuilt, [revisions[0]!])
          await store.replaceDerived('ferry', 1, last, 'rebuilt')
          await store.close()
          expect(contents(grown)).toBe(contents(fresh))
          expect(contents(rebuilt)).toBe(contents(fresh))
        },
      ),
      { numRuns: 25 },
    )
  })

  it('are replaced for the current revision only, and never for a withdrawn record', async () => {
    const store = await opened()
    await store.commit(write('ferry'))
    await store.commit(write('ferry', { sheetText: 'second' }))
    await expect(store.replaceDerived('ferry', 1, derived())).rejects.toMatchObject({ kind: 'conflict', revision: 2 })
    await expect(store.replaceDerived('tractor', 1, derived())).rejects.toMatchObject({ kind: 'not-found' })
    await store.withdraw({ id: 'ferry', expected: undefined, at: '2026-11-20T08:00:00Z' })
    await expect(store.replaceDerived('ferry', 3, derived())).rejects.toMatchObject({ kind: 'not-found' })
  })

  it('are left alone where they do not differ', async () => {
    const file = newFile()
    const store = await opened({ file })
    const rows = derived({
      parts: ['a', 'b', 'c'].map((id) => part(`parts/${id}`)),
      figures: [figure('HEAT_FLUX', 1), figure('PART_COUNT', 3)],
    })
    await store.commit(write('ferry', { derived: rows }))
    const watcher = new Database(file)
    const changes = () => Number(watcher.prepare('SELECT value FROM counted').pluck().get())
    watcher.exec(`CREATE TABLE counted (value); INSERT INTO counted VALUES (0);
      CREATE TRIGGER count_figure AFTER UPDATE ON figure BEGIN UPDATE counted SET value = value + 1; END;
      CREATE TRIGGER count_part AFTER UPDATE ON part BEGIN UPDATE counted SET value = value + 1000; END;`)
    await store.commit(
      write('ferry', {
        sheetText: 'weighed',
        derived: { ...rows, figures: [figure('HEAT_FLUX', 2), figure('PART_COUNT', 3)] },
      }),
    )
    expect(changes()).toBe(1)
    watcher.close()
  })
})
