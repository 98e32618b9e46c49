import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { contentHash } from '../../../graph/store/revision-hash.ts'
import { Conflict, NotFound, Unstorable } from '../../../graph/store/store-error.ts'
import { AT, derived, figure, filled, opened, part, write } from './corpus-fixture.ts'

describe('commit', () => {
  it('counts revisions from 1 and keeps each sheet as it was typed', async () => {
    const store = await opened()
    const first = '# typed  at the bench\r\nid: ferry\n'
    expect(await store.commit(write('ferry', { sheetText: first, expected: null, by: 'bench two' }))).toMatchObject({
      revision: 1,
      unchanged: false,
    })
    await store.commit(write('ferry', { sheetText: 'id: ferry # later\n', expected: 1, note: 'mass weighed again' }))
    expect((await store.revision('ferry', 1)).sheetText).toBe(first)
    expect((await store.revision('ferry')).sheetText).toBe('id: ferry # later\n')
    expect((await store.history('ferry')).map(({ revision, by, note }) => [revision, by, note])).toEqual([
      [1, 'bench two', undefined],
      [2, undefined, 'mass weighed again'],
    ])
  })

  it('refuses a writer who saw another revision, and changes nothing', async () => {
    const store = await filled({ ferry: {} })
    const { hash } = await store.commit(write('ferry', { sheetText: 'second', expected: 1 }))
    const stale = write('ferry', {
      sheetText: 'third',
      expected: 1,
      derived: derived({ figures: [figure('POWER_DENSITY', 99)] }),
    })
    const refused = await store.commit(stale).catch((error) => error)
    expect(refused).toBeInstanceOf(Conflict)
    expect(refused).toMatchObject({ expected: 1, revision: 2, hash })
    expect((await store.revision('ferry')).sheetText).toBe('second')
    expect(await store.figuresOf('ferry')).toMatchObject([{ value: 11.1 }])
  })

  it('refuses a second record of the same id when none was expected', async () => {
    const store = await filled({ ferry: {} })
    await expect(store.commit(write('ferry', { sheetText: 'other', expected: null }))).rejects.toBeInstanceOf(Conflict)
    await expect(store.commit(write('tractor', { expected: 1 }))).rejects.toMatchObject({ revision: null, hash: null })
  })

  it('makes no revision of the same content, but brings derived rows up to date', async () => {
    const store = await filled({ ferry: {} })
    const again = write('ferry', { derived: derived({ figures: [figure('POWER_DENSITY', 12)] }), stamp: 'later rules' })
    expect(await store.commit(again)).toMatchObject({ revision: 1, unchanged: true })
    expect(await store.history('ferry')).toHaveLength(1)
    expect(await store.figuresOf('ferry')).toMatchObject([{ value: 12 }])
    expect(await store.outdated('later rules')).toEqual([])
    expect(await store.outdated('newest rules')).toEqual(['ferry'])
  })

  it('writes several records or none', async () => {
    const store = await opened()
    const broken = write('tractor', { derived: derived({ parts: [part('parts/a'), part('parts/a')] }) })
    await expect(store.commitAll([write('ferry'), broken])).rejects.toBeInstanceOf(Unstorable)
    expect(await store.ids()).toEqual([])
    expect(await store.commitAll([write('ferry'), write('tractor')])).toHaveLength(2)
  })

  it.each([
    ['a value', figure('POWER_DENSITY', 1, { value: Number.NaN })],
    ['a bound', figure('POWER_DENSITY', 1, { high: Number.POSITIVE_INFINITY })],
    ['a component', figure('POWER_DENSITY', 1, { components: { scale: Number.NaN } })],
  ])('refuses %s that is not finite, before anything is written', async (_, wrong) => {
    const store = await opened()
    await expect(store.commit(write('ferry', { derived: derived({ figures: [wrong] }) }))).rejects.toBeInstanceOf(
      Unstorable,
    )
    await expect(store.head('ferry')).rejects.toBeInstanceOf(NotFound)
  })

  it('keeps any Unicode text whole and refuses half a surrogate pair', async () => {
    const store = await opened()
    const sheetText = 'title: Ωμµ Größe 片 🛥️ \u202e \u0000 end'
    await store.commit(write('ferry', { sheetText }))
    expect((await store.revision('ferry')).sheetText).toBe(sheetText)
    await expect(store.commit(write('ferry', { sheetText: 'half \ud800' }))).rejects.toBeInstanceOf(Unstorable)
  })

  it.each(['__proto__', 'constructor', 'prototype', 'toString', "x'; DROP TABLE part; --", 'ferry%', 'Ferry'])(
    'treats %s as an id like any other',
    async (id) => {
      const store = await filled({ ferry: {} })
      await store.commit(
        write(id, { derived: derived({ figures: [figure(id, 3, { components: JSON.parse(`{"${id}": 1}`) })] }) }),
      )
      expect((await store.head(id)).id).toBe(id)
      expect((await store.ids()).length).toBe(2)
      const [detail] = await store.figureDetails([
        { teardown: id, metric: id, subject: 'specimen', conditions: 'default' },
      ])
      expect(Object.entries(detail!.components)).toEqual([[id, 1]])
      expect(Object.prototype).not.toHaveProperty('polluted')
    },
  )
})

describe('withdraw', () => {
  it('is a revision after which nothing is found, and is undone by committing again', async () => {
    const store = await filled({ ferry: {}, tractor: {} })
    expect(await store.withdraw({ id: 'ferry', expected: 1, at: AT, note: 'wrong unit' })).toMatchObject({
      revision: 2,
    })
    expect(await store.ids()).toEqual(['tractor'])
    expect(await store.countComponents({})).toBe(1)
    expect(await store.figuresOf('ferry')).toEqual([])
    expect(await store.countTeardowns({ text: 'ferry' })).toBe(1)
    await expect(store.revision('ferry')).rejects.toBeInstanceOf(NotFound)
    expect(await store.head('ferry')).toMatchObject({ revision: 2, withdrawn: true })

    const old = await store.revision('ferry', 1)
    expect(
      await store.commit(write('ferry', { sheetText: old.sheetText, body: old.body, expected: null })),
    ).toMatchObject({
      revision: 3,
      unchanged: false,
    })
    expect(await store.ids()).toEqual(['ferry', 'tractor'])
    expect((await store.verify()).problems).toEqual([])
  })

  it('asks for the revision that was seen, and knows what was never stored', async () => {
    const store = await filled({ ferry: {} })
    await expect(store.withdraw({ id: 'ferry', expected: 4, at: AT })).rejects.toBeInstanceOf(Conflict)
    await expect(store.withdraw({ id: 'tractor', expected: undefined, at: AT })).rejects.toBeInstanceOf(NotFound)
  })
})

describe('contentHash', () => {
  it('is SHA-256 of each field with its length in front', () => {
    // Second method: the same digest put together by hand. FIPS 180-4 defines SHA-256.
    const byHand = createHash('sha256').update('4;g\u00f6l3;{} ', 'utf8').digest('hex')
    expect(contentHash({ sheet: 'göl', body: '{} ' })).toBe(byHand)
  })

  it('does not confuse where one field ends and the next begins', () => {
    expect(contentHash({ sheet: 'ab', body: 'c' })).not.toBe(contentHash({ sheet: 'a', body: 'bc' }))
    expect(contentHash({ sheet: null, body: null })).not.toBe(contentHash({ sheet: '', body: '' }))
  })
})
