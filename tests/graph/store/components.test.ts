import Database from 'better-sqlite3'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { BASES } from '../../../graph/quantity/basis.ts'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { componentPage, countComponents } from '../../../graph/store/components.ts'
import type { Derived, DerivedPart } from '../../../graph/store/derived.ts'
import type { ComponentWhere } from '../../../graph/store/question.ts'
import { readerOf } from '../../../graph/store/sql.ts'
import { openStore } from '../../../graph/store/sqlite.ts'
import type { Store } from '../../../graph/store/store.ts'
import { cooled, derived, filled, newFile, part, write } from './corpus-fixture.ts'

const sensor = part('parts/sensor', { class: 'temperature-sensor', group: 'sensing' })
const module = part('parts/module', { class: 'half-bridge-module', group: 'semiconductor' })
const choke = part('parts/choke', { class: 'inductor', group: 'magnetic' })

const found = async (store: Store, where: ComponentWhere) =>
  (await store.components(where, { first: 100 })).items.map(({ node }) => `${node.teardown}/${node.path}`)

describe('components that share or follow a coolant passage', () => {
  const units = {
    ferry: cooled(['wall', sensor], ['lower', module, choke]),
    tractor: cooled(['lower', module], ['cap', sensor]),
    sweeper: {
      parts: [
        { ...sensor, heatEnds: [asPath('ambient')] },
        { ...module, heatEnds: [asPath('ambient')] },
      ],
    },
  }

  it('finds what the coolant visits before the modules', async () => {
    const store = await filled(units)
    expect(await found(store, { upstreamOf: { class: ['half-bridge-module'] } })).toEqual(['ferry/parts/sensor'])
    expect(await found(store, { class: ['semiconductor'], upstreamOf: { class: ['sensing'] } })).toEqual([
      'tractor/parts/module',
    ])
  })

  it('finds what ends in the same passage; ambient air is none, and no part shares with itself', async () => {
    const store = await filled(units)
    expect(await found(store, { sharesPassageWith: { class: ['half-bridge-module'] } })).toEqual(['ferry/parts/choke'])
    expect(await found(store, { sharesPassageWith: { class: ['temperature-sensor'] } })).toEqual([])
  })

  it('nests, and says how deep', async () => {
    const store = await filled(units)
    const two: ComponentWhere = {
      upstreamOf: { class: ['half-bridge-module'], sharesPassageWith: { class: ['inductor'] } },
    }
    expect(await found(store, two)).toEqual(['ferry/parts/sensor'])
    await expect(
      store.components({ upstreamOf: { upstreamOf: { upstreamOf: { upstreamOf: {} } } } }, { first: 1 }),
    ).rejects.toMatchObject({
      kind: 'bad-request',
    })
  })

  it.each(['coolant/lower', 'lower', 'ambient'])('finds where heat ends by the name %s', async (heatEndsIn) => {
    const store = await filled(units)
    expect(await found(store, { heatEndsIn, class: ['half-bridge-module'] })).toEqual(
      heatEndsIn === 'ambient' ? ['sweeper/parts/module'] : ['ferry/parts/module', 'tractor/parts/module'],
    )
  })

  it('finds a passage of pieces with and without the piece', async () => {
    const store = await filled({ ferry: cooled(['lower.u', module]) })
    for (const heatEndsIn of ['coolant/lower.u', 'lower.u', 'coolant/lower', 'lower']) {
      expect(await found(store, { heatEndsIn })).toEqual(['ferry/parts/module'])
    }
    expect(await found(store, { heatEndsIn: 'lower.v' })).toEqual([])
  })
})

describe('components by marking', () => {
  const marked = {
    ferry: { parts: [part('parts/cap', { marking: 'WX-28 / 2.2' }), part('parts/other', { marking: 'WY 29' })] },
  }

  it.each(['WX-28 / 2.2', 'wx28', 'ｗｘ 28', '8 / 2', '2.2', 'x2'])(
    'finds %j whatever the case, blanks and punctuation',
    async (marking) => {
      expect(await found(await filled(marked), { marking })).toEqual(['ferry/parts/cap'])
    },
  )

  it('finds nothing where nothing matches, and asks for a letter or digit', async () => {
    const store = await filled(marked)
    expect(await found(store, { marking: 'WX29' })).toEqual([])
    await expect(found(store, { marking: ' - ' })).rejects.toMatchObject({ kind: 'bad-request' })
  })
})

describe('components by a number', () => {
  const cap = (path: string, value: number | null) =>
    part(path, {
      properties: [{ name: 'capacitance', value, word: value === null ? 'not-looked-for' : null, basis: 'marked' }],
    })

  it('takes both ends in, and never takes nothing for a number', async () => {
    const store = await filled({
      ferry: { parts: [cap('parts/a', 100e-6), cap('parts/b', 118e-6), cap('parts/c', null)] },
    })
    const within = (min?: number, max?: number) =>
      found(store, {
        property: [{ name: 'capacitance', ...(min !== undefined && { min }), ...(max !== undefined && { max }) }],
      })
    expect(await within(100e-6, 118e-6)).toEqual(['ferry/parts/a', 'ferry/parts/b'])
    expect(await within(101e-6)).toEqual(['ferry/parts/b'])
    expect(await within(undefined, 0)).toEqual([])
    expect(await within()).toEqual(['ferry/parts/a', 'ferry/parts/b'])
    await expect(within(Number.NaN)).rejects.toMatchObject({ kind: 'bad-request' })
  })

  it('keeps the numbers of single pieces side by side', async () => {
    const two = [10, 20].map((value) => ({ name: 'at/x', value, word: null, basis: 'judged' as const }))
    const store = await filled({ ferry: { parts: [part('parts/a', { properties: two })] } })
    expect((await store.component('ferry', 'parts/a'))?.properties).toEqual(two)
    expect(await found(store, { property: [{ name: 'at/x', min: 15 }] })).toEqual(['ferry/parts/a'])
  })
})

describe('components by words', () => {
  const units = {
    ferry: {
      parts: [part('parts/a', { text: 'gate driver, Größe 12 µF OR "potted" 片' }), part('parts/b', { text: 'choke' })],
    },
  }

  it.each([
    'gate',
    'GATE dri',
    'größe',
    'Grosse',
    'groß',
    'OR',
    '"potted"',
    'gate*',
    '12 µf',
    '12 \u03bcF',
    'ｇａｔｅ',
    '片',
  ])('finds %j', async (text) => {
    const expected = text === 'Grosse' ? [] : ['ferry/parts/a'] // the sharp s is a letter of its own
    expect(await found(await filled(units), { text })).toEqual(expected)
  })

  it.each([
    'NEAR(gate driver)',
    'gate NOT driver',
    'text:gate',
    '^gate',
    '{gate}',
    '"',
    "'",
    '***',
    '\u0c3e',
    'gate AND choke',
    '\u0000gate',
    '(',
    'a'.repeat(5000),
  ])('takes %j as words and never as a query language', async (text) => {
    expect(await found(await filled(units), { text })).toEqual(
      text === '^gate' || text === '{gate}' || text === '\u0000gate' ? ['ferry/parts/a'] : [],
    )
  })

  it('answers any text at all without a fault', async () => {
    const store = await filled(units)
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary' }), async (text) => {
        await store.countComponents({ text })
        await store.countTeardowns({ text })
      }),
    )
  })
})

/** Second method: the same question over the rows themselves, in plain loops. */
function met(unit: Derived, one: DerivedPart, where: ComponentWhere): boolean {
  const passages = new Map(unit.passages.map(({ path, upstream }) => [path, upstream]))
  const mine = one.heatEnds.filter((end) => passages.has(end))
  const others = (nested: ComponentWhere) =>
    unit.parts.filter((other) => other.path !== one.path && met(unit, other, nested))
  return (
    (!where.class || where.class.some((name) => name === one.class || name === one.group)) &&
    (where.net === undefined || one.nets.includes(where.net)) &&
    (where.partType === undefined || one.type === where.partType) &&
    (!where.state || where.state.some((state) => one.states.includes(state))) &&
    (!where.basis || where.basis.some((basis) => one.bases.includes(basis))) &&
    (!where.property ||
      where.property.every(({ name, min = -Infinity, max = Infinity }) =>
        one.properties.some(
          (property) =>
            property.name === name && property.value !== null && property.value >= min && property.value <= max,
        ),
      )) &&
    (!where.sharesPassageWith ||
      others(where.sharesPassageWith).some((other) => other.heatEnds.some((end) => mine.includes(end)))) &&
    (!where.upstreamOf ||
      others(where.upstreamOf).some((other) =>
        other.heatEnds.some((end) => passages.get(end)?.some((up) => mine.includes(up))),
      ))
  )
}

const CLASSES = ['driver', 'choke', 'module']
const anyPart = fc.record({
  class: fc.constantFrom(...CLASSES),
  type: fc.option(fc.constantFrom('t1', 't2')),
  net: fc.constantFrom('plus', 'minus'),
  state: fc.constantFrom('whole', 'cut'),
  ends: fc.uniqueArray(fc.constantFrom('coolant/a', 'coolant/b', 'coolant/c', 'ambient'), { maxLength: 2 }),
  mass: fc.option(fc.integer({ min: 0, max: 5 })),
  basis: fc.constantFrom(...BASES),
})
const anyUnit = fc.array(anyPart, { maxLength: 6 }).map((parts) =>
  derived({
    parts: parts.map(({ class: name, type, net, state, ends, mass, basis }, at) =>
      part(`parts/p${at}`, {
        class: name,
        group: name === 'driver' ? 'board-part' : 'power',
        type,
        nets: [`nets/${net}`],
        states: [state],
        heatEnds: ends.map(asPath),
        properties: mass === null ? [] : [{ name: 'mass', value: mass, word: null, basis }],
        bases: [basis],
      }),
    ),
    passages: ['a', 'b', 'c'].map((name, stage, all) => ({
      path: asPath(`coolant/${name}`),
      stage,
      upstream: all.slice(0, stage).map((up) => asPath(`coolant/${up}`)),
    })),
  }),
)
const plain = {
  class: fc.uniqueArray(fc.constantFrom(...CLASSES, 'power', 'board-part'), { maxLength: 2 }),
  net: fc.constantFrom('nets/plus', 'nets/minus'),
  partType: fc.constantFrom('t1', 't2'),
  state: fc.constant(['cut']),
  basis: fc.subarray([...BASES]),
  property: fc.constant([{ name: 'mass', min: 1, max: 3 }]),
}
const { where: anyWhere } = fc.letrec<{ where: ComponentWhere }>((tie) => ({
  where: fc.oneof(
    { depthSize: 'small', maxDepth: 3, depthIdentifier: 'where' },
    fc.record(plain, { requiredKeys: [] }),
    fc.record({ ...plain, sharesPassageWith: tie('where'), upstreamOf: tie('where') }, { requiredKeys: [] }),
  ) as fc.Arbitrary<ComponentWhere>,
}))

describe('components, any question over any corpus', () => {
  it('agrees with plain loops over the rows, page by page and counted', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyUnit, { maxLength: 4 }),
        fc.array(anyWhere, { minLength: 1, maxLength: 5 }),
        async (units, questions) => {
          const file = newFile()
          const store = await openStore({ file })
          const reader = readerOf(new Database(file, { readonly: true }))
          await store.commitAll(units.map((unit, at) => write(`unit-${at}`, { derived: unit })))
          for (const where of questions) {
            const expected = units.flatMap((unit, at) =>
              unit.parts.filter((one) => met(unit, one, where)).map((one) => `unit-${at}/${one.path}`),
            )
            expect(await found(store, where)).toEqual(expected)
            expect(await store.countComponents(where)).toBe(expected.length)
            // The other two ways of running it, which only a large corpus would take by itself.
            for (const rare of [1, 3]) {
              const page = componentPage(reader, where, { first: 100 }, rare)
              expect(page.items.map(({ node }) => `${node.teardown}/${node.path}`)).toEqual(expected)
              expect(countComponents(reader, where, rare)).toBe(expected.length)
            }
          }
          await store.close()
        },
      ),
      { numRuns: 60 },
    )
  })
})
