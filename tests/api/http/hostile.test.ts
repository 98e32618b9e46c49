import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { store, unit } from '../demo-fixture.ts'
import { type RunningServer, startServer } from '../server-fixture.ts'

// Kinds of hostile query as the OWASP GraphQL cheat sheet lists them (from memory); the bounds are this project's own:
// refused with 4xx, the answer short, and a query of someone else answered meanwhile.
const REPLY_LIMIT = 4_000
/** Generous on a busy machine; unguarded, amplification took seconds. */
const SOON_MS = 2_000

const repeat = (count: number, part: (at: number) => string): string =>
  Array.from({ length: count }, (_, at) => part(at)).join(' ')

const HOSTILE: readonly (readonly [string, string])[] = [
  [
    'list amplification through back references',
    `{ teardowns(first: 200) { edges { node { passages { components { coolantPositions { passage { components { figures { inputs { path } } } } } } } } } } }`,
  ],
  [
    'a page far too large',
    '{ teardowns(first: 200) { edges { node { figures { inputs { path } missing { asks } } } } } }',
  ],
  ['20,000 aliases of one root field', `{ ${repeat(20_000, (at) => `a${at}: __typename`)} }`],
  ['900 aliases of one root field', `{ ${repeat(900, (at) => `a${at}: __typename`)} }`],
  ['15,000 directives on one field', `{ __typename ${repeat(15_000, () => '@skip(if: false)')} }`],
  [
    '300 overlapping fragments',
    `{ ${repeat(300, (at) => `...F${at}`)} } ${repeat(300, (at) => `fragment F${at} on Query { metrics { id title } }`)}`,
  ],
  ['1,500 nested levels', `{ ${'teardowns { edges { node { '.repeat(500)} id ${'} } } '.repeat(500)} }`],
  ['300 nested levels', `{ teardown(id: "a") { passages ${'{ upstream '.repeat(300)} { path } ${'}'.repeat(300)} } }`],
  ['a fragment cycle', '{ ...A } fragment A on Query { ...B } fragment B on Query { ...A }'],
  [
    'doubling fragment spreads',
    `{ ...F0 } ${repeat(22, (at) => `fragment F${at} on Query { ...F${at + 1} ...F${at + 1} }`)} fragment F22 on Query { metrics { id } }`,
  ],
  ['5,000 unknown fields', `{ ${repeat(900, (at) => `metric${at}`)} }`],
  [
    'deep introspection',
    `{ __schema { types { fields { type ${'{ fields { type '.repeat(12)} { name } ${'} }'.repeat(12)} } } } }`,
  ],
  ['a calculator called many times', `{ calc { ${repeat(40, (at) => `c${at}: __typename`)} } }`],
]

describe('hostile queries', () => {
  let server: RunningServer
  beforeAll(async () => {
    server = await startServer({ fill: (corpus) => store(corpus, unit('unit-a')) })
  })
  afterAll(() => server.stop())

  const post = (body: string, accept = 'application/graphql-response+json') =>
    fetch(`${server.url}/graphql`, { method: 'POST', headers: { 'content-type': 'application/json', accept }, body })

  it.each(HOSTILE)('%s: refused in short, and nobody waits', async (_name, query) => {
    const begun = performance.now()
    const hostile = post(JSON.stringify({ query }))
    const bystander = post(JSON.stringify({ query: '{ __typename }' })).then(async (response) => {
      expect(await response.json()).toEqual({ data: { __typename: 'Query' } })
      return performance.now() - begun
    })
    const answer = await hostile
    const text = await answer.text()
    expect([400, 413]).toContain(answer.status)
    expect(text.length).toBeLessThan(REPLY_LIMIT)
    expect(text).not.toContain('call stack')
    expect(JSON.parse(text)).toHaveProperty('errors.0.extensions.code')
    expect(await bystander).toBeLessThan(SOON_MS)
  })

  it('is refused under plain JSON with 400 too, when it is too much rather than wrong', async () => {
    const query = '{ teardowns(first: 200) { edges { node { components { figures { inputs { path } } } } } } }'
    const answer = await post(JSON.stringify({ query }), 'application/json')
    expect(answer.status).toBe(400)
    const { errors } = (await answer.json()) as { errors: { extensions: Record<string, unknown> }[] }
    expect(errors[0]?.extensions).toMatchObject({
      code: 'QUERY_COSTLY',
      cost: expect.any(Number),
      mend: expect.stringContaining('first'),
    })
  })

  it('a batch is not read', async () => {
    const batch = Array.from({ length: 1000 }, () => ({ query: '{ __typename }' }))
    expect((await post(JSON.stringify(batch))).status).toBe(400)
  })

  it('900 kB of blanks are not read', async () => {
    expect((await post(JSON.stringify({ query: `{${' '.repeat(900_000)}__typename}` }))).status).toBe(413)
  })

  it('a body that is not JSON is not taken for it', async () => {
    for (const type of [
      'text/plain',
      'application/graphql',
      'application/x-www-form-urlencoded',
      'application/jsonp',
    ]) {
      const answer = await fetch(`${server.url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': type },
        body: '{"query":"{ __typename }"}',
      })
      expect(answer.status).toBe(415)
    }
  })

  it('a page beyond the largest, or below none, is refused and not cut', async () => {
    for (const first of [201, 100_000, -1]) {
      const answer = await post(JSON.stringify({ query: `{ teardowns(first: ${first}) { totalCount } }` }))
      const { errors } = (await answer.json()) as { errors: { extensions: { code: string } }[] }
      expect(errors[0]?.extensions.code).toBe('PAGE')
    }
  })

  it('names of prototypes are ids like any other, and change nothing', async () => {
    for (const id of ['__proto__', 'constructor', 'prototype']) {
      const query = 'query($id: ID!) { teardown(id: $id) { id } }'
      const answer = await post(`{"query":${JSON.stringify(query)},"variables":{"id":"${id}"}}`)
      expect(await answer.json()).toEqual({ data: { teardown: null } })
    }
    await post('{"query":"{ __typename }","variables":{"__proto__":{"polluted":1}}}')
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })
})
