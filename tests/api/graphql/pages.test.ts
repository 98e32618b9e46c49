import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { part, sheetText } from '../../fixtures/record.ts'
import { type TestCorpus, testCorpus } from '../corpus-fixture.ts'
import { store } from '../demo-fixture.ts'

const small = (id: string, title: string, mass: string) =>
  sheetText({
    id,
    title,
    specimen: { kind: 'traction-inverter', mass },
    'operating-points': { peak: { power: '100 kW (published)' } },
    parts: [part('bar', 'bus-bar'), part('lid', 'lid')],
  })

interface Connection {
  readonly edges: readonly { readonly cursor: string; readonly node: { readonly id: string } }[]
  readonly pageInfo: {
    readonly hasNextPage: boolean
    readonly hasPreviousPage: boolean
    readonly startCursor: string | null
    readonly endCursor: string | null
  }
  readonly totalCount: number
}

const PAGE =
  '{ edges { cursor node { id } } pageInfo { hasNextPage hasPreviousPage startCursor endCursor } totalCount }'

describe('walking a list by its cursors (cursor connections specification, Relay)', () => {
  let corpus: TestCorpus
  beforeAll(async () => {
    corpus = await testCorpus()
    // Titles and masses that are equal: ties in every sort key.
    for (let at = 0; at < 12; at++)
      await store(corpus, small(`unit-${at}`, `Title ${at % 3}`, `${10 + (at % 4)} kg (measured)`))
  })
  afterAll(() => corpus.gone())

  const LISTS: Readonly<Record<string, string>> = {
    'by id': 'teardowns(orderBy: { by: ID }, ARGS)',
    'by title, with ties': 'teardowns(orderBy: { by: TITLE, direction: DESC }, ARGS)',
    'by a figure, with ties': 'teardowns(orderBy: { by: FIGURE, metric: SPECIFIC_POWER }, ARGS)',
    'parts of all': 'components(where: { class: ["bus-bar"] }, ARGS)',
  }

  const page = async (list: string, first: number, after: string | null): Promise<Connection> => {
    const call = LISTS[list]!.replace('ARGS', 'first: $first, after: $after')
    const data = await corpus.ask<Record<string, Connection>>(
      `query($first: Int, $after: String) { list: ${call} ${PAGE} }`,
      { first, after },
    )
    return data.list!
  }

  const walk = async (
    list: string,
    first: number,
    between: () => Promise<void> = async () => {},
  ): Promise<readonly string[]> => {
    const seen: string[] = []
    for (let after: string | null = null; ; ) {
      const one = await page(list, first, after)
      seen.push(...one.edges.map(({ node }) => node.id))
      expect(one.pageInfo.endCursor).toBe(one.edges.at(-1)?.cursor ?? null)
      expect(one.pageInfo.startCursor).toBe(one.edges[0]?.cursor ?? null)
      expect(one.pageInfo.hasPreviousPage).toBe(after !== null)
      if (!one.pageInfo.hasNextPage) return seen
      after = one.pageInfo.endCursor
      await between()
    }
  }

  it.each(Object.keys(LISTS))('%s: pages of any size give the list of one page', async (list) => {
    const whole = await page(list, 200, null)
    const ids = whole.edges.map(({ node }) => node.id)
    expect(whole.totalCount).toBe(12)
    expect(new Set(ids).size).toBe(12)
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 13 }), async (size) => {
        expect(await walk(list, size)).toEqual(ids)
      }),
      { numRuns: 13 },
    )
  })

  it('an empty page has no end', async () => {
    const { teardowns } = await corpus.ask<{ teardowns: Connection }>(
      `{ teardowns(where: { text: "nowhere" }) ${PAGE} }`,
    )
    expect(teardowns).toEqual({
      edges: [],
      totalCount: 0,
      pageInfo: { hasNextPage: false, hasPreviousPage: false, startCursor: null, endCursor: null },
    })
  })

  it('first: 0 answers nothing and says whether there is more', async () => {
    expect(await page('by id', 0, null)).toMatchObject({ edges: [], pageInfo: { hasNextPage: true } })
  })

  it.each(['', 'x', 'x.y', 'WyJhIl0.000000000000'])('a cursor that is none ("%s") is refused', async (after) => {
    const refused = await corpus.refusal('query($after: String) { teardowns(after: $after) { totalCount } }', {
      after: after || 'a',
    })
    expect(refused).toMatchObject({ message: expect.stringMatching(/cursor/) })
  })

  it('a cursor of another list, filter or order is refused', async () => {
    const { edges } = await page('by id', 1, null)
    const after = edges[0]!.cursor
    for (const list of ['by title, with ties', 'parts of all'])
      await expect(page(list, 1, after)).rejects.toThrow(/cursor/)
    const other = await corpus.refusal(
      'query($after: String) { teardowns(after: $after, where: { kind: ["combined"] }) { totalCount } }',
      { after },
    )
    expect(other).toMatchObject({ message: expect.stringMatching(/cursor/) })
  })

  it('what is stored or withdrawn between two pages neither repeats nor skips the others', async () => {
    let turn = 0
    const before = (await page('by id', 200, null)).edges.map(({ node }) => node.id)
    const seen = await walk('by id', 2, async () => {
      turn += 1
      if (turn === 1) await store(corpus, small('unit-00', 'Before all', '1 kg (measured)'))
      if (turn === 2) await corpus.store.withdraw({ id: 'unit-1', expected: undefined, at: '2026-11-20T10:00:00Z' })
    })
    const others = (list: readonly string[]) => list.filter((id) => id !== 'unit-1' && id !== 'unit-00')
    expect(others(seen)).toEqual(others(before))
    expect(new Set(seen).size).toBe(seen.length)
  })

  it('the rows of a comparison are walked in the same way', async () => {
    const query =
      'query($first: Int, $after: String) { benchmark(metrics: [SPECIFIC_POWER], first: $first, after: $after) { totalCount rows { teardown { id } rank } pageInfo { hasNextPage endCursor } } }'
    interface Rows {
      readonly benchmark: {
        readonly totalCount: number
        readonly rows: readonly { readonly teardown: { readonly id: string } }[]
        readonly pageInfo: Connection['pageInfo']
      }
    }
    const rowsBy = async (first: number): Promise<readonly string[]> => {
      const seen: string[] = []
      for (let after: string | null = null; ; ) {
        const { benchmark }: Rows = await corpus.ask<Rows>(query, { first, after })
        seen.push(...benchmark.rows.map(({ teardown }) => teardown.id))
        if (!benchmark.pageInfo.hasNextPage) return seen
        after = benchmark.pageInfo.endCursor
      }
    }
    const whole = await rowsBy(200)
    expect(new Set(whole).size).toBe(whole.length)
    for (const size of [1, 5, 7]) expect(await rowsBy(size)).toEqual(whole)
  })
})
