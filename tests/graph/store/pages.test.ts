import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { TeardownOrder } from '../../../graph/store/question.ts'
import type { Store } from '../../../graph/store/store.ts'
import { AT, derived, figure, filled, opened, part, write } from './corpus-fixture.ts'

/** What is found page by page; `between` may write between two pages. */
async function walk(
  page: (after: string | null) => ReturnType<Store['teardowns']> | ReturnType<Store['components']>,
  between?: () => Promise<unknown>,
): Promise<readonly string[]> {
  const seen: string[] = []
  let after: string | null = null
  for (;;) {
    const { items, hasNext, hasPrevious } = await page(after)
    // Whether what was seen is still there is another matter when others write meanwhile.
    if (!between) expect(hasPrevious).toBe(seen.length > 0)
    seen.push(...items.map(({ node }) => ('path' in node ? `${node.teardown}/${node.path}` : node.id)))
    if (!hasNext) return seen
    after = items.at(-1)!.cursor
    await between?.()
  }
}

const ORDERS: readonly TeardownOrder[] = [
  { by: 'id' },
  { by: 'id', descending: true },
  { by: 'title' },
  { by: 'title', descending: true },
  { by: 'written' },
  { by: 'figure', metric: 'POWER_DENSITY' },
  { by: 'figure', metric: 'POWER_DENSITY', descending: true },
]

/** Few values, so that ties are common; null is a figure that is missing, undefined one that was never computed. */
const anyUnits = fc.uniqueArray(
  fc.record({
    id: fc.integer({ min: 0, max: 99 }),
    value: fc.constantFrom(1, 2, 2.5, null, undefined),
    title: fc.constantFrom('Äa', 'ab', 'B'),
  }),
  { selector: ({ id }) => id, maxLength: 14 },
)

type Unit = typeof anyUnits extends fc.Arbitrary<readonly (infer U)[]> ? U : never

const named = (id: number) => `unit-${String(id).padStart(2, '0')}`
const writeOf = ({ id, value, title }: Unit) =>
  write(named(id), {
    sheetText: JSON.stringify([id, value ?? null, title]),
    derived: derived({
      summary: { title, kind: 'traction-inverter', maker: null, model: null, text: title },
      figures: value === undefined ? [] : [figure('POWER_DENSITY', value)],
    }),
  })

describe('pages of records', () => {
  it('of any size are the same list as one page of all', async () => {
    await fc.assert(
      fc.asyncProperty(anyUnits, fc.constantFrom(...ORDERS), fc.constantFrom(1, 2, 7), async (units, order, first) => {
        const store = await opened()
        await store.commitAll(units.map(writeOf))
        const all = (await store.teardowns({}, order, { first: 1000 })).items.map(({ node }) => node.id)
        expect(await walk((after) => store.teardowns({}, order, { first, after }))).toEqual(all)
        expect([...all].sort()).toEqual(units.map(({ id }) => named(id)).sort())
        await store.close()
      }),
      { numRuns: 60 },
    )
  })

  it('neither repeat nor skip a record when others come and go between two pages', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyUnits,
        anyUnits,
        fc.constantFrom(...ORDERS),
        fc.constantFrom(1, 3),
        async (units, comers, order, first) => {
          const store = await opened()
          await store.commitAll(units.map(writeOf))
          const before = new Set(units.map(({ id }) => id))
          const fresh = comers.filter(({ id }) => !before.has(id))
          const goers = units.filter(({ id }) => id % 3 === 0)
          const seen = await walk(
            (after) => store.teardowns({}, order, { first, after }),
            async () => {
              const [comer, goer] = [fresh.pop(), goers.pop()]
              if (comer) await store.commit(writeOf(comer))
              if (goer) await store.withdraw({ id: named(goer.id), expected: undefined, at: AT })
            },
          )
          expect(new Set(seen).size).toBe(seen.length)
          const stayed = units.filter(({ id }) => id % 3 !== 0).map(({ id }) => named(id))
          expect(seen).toEqual(expect.arrayContaining(stayed))
          await store.close()
        },
      ),
      { numRuns: 60 },
    )
  })

  it('put records without a value last, either way', async () => {
    const store = await opened()
    const units: readonly Unit[] = [
      { id: 1, value: null, title: 'B' },
      { id: 2, value: 2, title: 'B' },
      { id: 3, value: undefined, title: 'B' },
      { id: 4, value: 1, title: 'B' },
    ]
    await store.commitAll(units.map(writeOf))
    const order = (descending: boolean) =>
      walk((after) => store.teardowns({}, { by: 'figure', metric: 'POWER_DENSITY', descending }, { first: 1, after }))
    expect(await order(false)).toEqual(['unit-04', 'unit-02', 'unit-01', 'unit-03'])
    expect(await order(true)).toEqual(['unit-02', 'unit-04', 'unit-03', 'unit-01'])
  })

  it('order by the largest of several subjects when descending, else by the least', async () => {
    const flux = (subject: string, value: number) => figure('HEAT_FLUX', value, { subject: asPath(subject) })
    const store = await filled({
      wide: { figures: [flux('parts/a', 1), flux('parts/b', 9)] },
      narrow: { figures: [flux('parts/a', 4), flux('parts/b', 5)] },
    })
    const order = (differs: object) =>
      walk((after) => store.teardowns({}, { by: 'figure', metric: 'HEAT_FLUX', ...differs }, { first: 1, after }))
    expect(await order({})).toEqual(['wide', 'narrow'])
    expect(await order({ descending: true })).toEqual(['wide', 'narrow'])
    expect(await order({ descending: true, subject: 'parts/a' })).toEqual(['narrow', 'wide'])
  })
})

describe('pages of parts', () => {
  it('neither repeat nor skip a part when parts and records come and go between two pages', async () => {
    const names = fc.uniqueArray(fc.constantFrom(...'abcdefgh'), { maxLength: 8 })
    await fc.assert(
      fc.asyncProperty(fc.array(names, { minLength: 2, maxLength: 4 }), names, names, async (units, comers, goers) => {
        const partsOf = (ids: readonly string[]) => derived({ parts: ids.map((id) => part(`parts/${id}`)) })
        const store = await opened()
        await store.commitAll(units.map((ids, at) => write(`unit-${at}`, { derived: partsOf(ids) })))
        const gone = new Set<string>()
        const come = new Set<string>()
        const [coming, going] = [[...comers], [...goers]]
        let edit = 0
        const seen = await walk(
          (after) => store.components({}, { first: 1, after }),
          async () => {
            const [comer, goer] = [coming.pop(), going.pop()]
            if (comer) come.add(comer)
            if (goer) gone.add(goer)
            const changed = units.map((ids, at) => {
              const left = ids.filter((id) => !gone.has(id))
              return write(`unit-${at}`, {
                sheetText: `edit ${++edit}`,
                derived: partsOf([...new Set([...left, ...come])]),
              })
            })
            await store.commitAll(changed)
            await store.commit(write(`new-${edit}`, { derived: partsOf([]) }))
          },
        )
        expect(new Set(seen).size).toBe(seen.length)
        const stayed = units.flatMap((ids, at) =>
          ids.filter((id) => !goers.includes(id)).map((id) => `unit-${at}/parts/${id}`),
        )
        expect(seen).toEqual(expect.arrayContaining(stayed))
        await store.close()
      }),
      { numRuns: 40 },
    )
  })
})

describe('cursors', () => {
  it('of another list, filter or order, or altered, are refused', async () => {
    const store = await filled({ ferry: {}, tractor: {} })
    const { cursor } = (await store.teardowns({}, { by: 'id' }, { first: 1 })).items[0]!
    const bad = { kind: 'bad-cursor' }
    await expect(store.teardowns({}, { by: 'title' }, { first: 1, after: cursor })).rejects.toMatchObject(bad)
    await expect(store.teardowns({ kind: ['x'] }, { by: 'id' }, { first: 1, after: cursor })).rejects.toMatchObject(bad)
    await expect(store.components({}, { first: 1, after: cursor })).rejects.toMatchObject(bad)
    const shifted = `${Buffer.from('["zzz","zzz"]').toString('base64url')}.${cursor.split('.')[1]}`
    for (const after of [shifted, '!', '.', `${cursor}.`, cursor.slice(1), '\u0000']) {
      await expect(store.teardowns({}, { by: 'id' }, { first: 1, after })).rejects.toMatchObject(bad)
    }
  })

  it('do not depend on the order in which a filter is written', async () => {
    const store = await filled({ ferry: {}, tractor: {} })
    const { cursor } = (
      await store.teardowns({ kind: ['traction-inverter'], text: 'ferry' }, { by: 'id' }, { first: 1 })
    ).items[0]!
    const next = await store.teardowns(
      { text: 'ferry', kind: ['traction-inverter'] },
      { by: 'id' },
      { first: 1, after: cursor },
    )
    expect(next.items.map(({ node }) => node.id)).toEqual(['tractor'])
  })

  it.each([-1, 1.5, 1001, Number.NaN])('refuse a page of %d rather than cutting it', async (first) => {
    const store = await opened()
    await expect(store.components({}, { first })).rejects.toMatchObject({ kind: 'bad-request' })
  })

  it('may be asked for without items', async () => {
    const store = await filled({ ferry: {} })
    expect(await store.teardowns({}, { by: 'id' }, { first: 0 })).toEqual({
      items: [],
      hasNext: true,
      hasPrevious: false,
    })
  })
})
