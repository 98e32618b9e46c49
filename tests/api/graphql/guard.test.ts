import { parse } from 'graphql'
import { describe, expect, it } from 'vitest'
import { guardQuery, LIMITS, weigh } from '../../../api/graphql/guard.ts'
import { schema } from '../../../api/graphql/schema.ts'
import { queriesToTry } from '../../../api/pages/queries.ts'

const weight = (query: string, variables = {}) => weigh(schema, parse(query), variables)

describe('weighing a query', () => {
  it('multiplies what stands under a list by its size', () => {
    const one = weight('{ teardowns(first: 1) { edges { node { id title } } } }').cost
    const hundred = weight('{ teardowns(first: 100) { edges { node { id title } } } }').cost
    expect(hundred).toBeGreaterThan(90 * (one - 1))
  })

  it('reads the size from variables, from their defaults, and else takes the usual page', () => {
    const query = (head: string) => `query${head} { teardowns(first: $n) { edges { node { id } } } }`
    const fixed = (n: number) => weight(`{ teardowns(first: ${n}) { edges { node { id } } } }`).cost
    expect(weight(query('($n: Int)'), { n: 50 }).cost).toBe(fixed(50))
    expect(weight(query('($n: Int = 30)')).cost).toBe(fixed(30))
    expect(weight(query('($n: Int)')).cost).toBe(fixed(20))
  })

  it('counts depth, aliases, directives and root fields through fragments', () => {
    const found = weight(`
      { ...F a: metrics { id } }
      fragment F on Query { b: metrics { id @include(if: true) } metrics { id title } }`)
    expect(found).toMatchObject({ depth: 2, aliases: 2, directives: 1, rootFields: 3 })
  })

  it('weighs a fragment once, however often it is spread', () => {
    const doubling = Array.from({ length: 40 }, (_, at) => `fragment F${at} on Query { ...F${at + 1} ...F${at + 1} }`)
    const begun = performance.now()
    const { rootFields } = weight(`{ ...F0 } ${doubling.join(' ')} fragment F40 on Query { metrics { id } }`)
    expect(rootFields).toBe(2 ** 40)
    expect(performance.now() - begun).toBeLessThan(250)
  })

  it('weighs the operation that is named', () => {
    const document = parse('query A { metrics { id } } query B { a: metrics { id } b: metrics { id } }')
    expect(weigh(schema, document, {}, 'B').rootFields).toBe(2)
    expect(weigh(schema, document, {}, 'A').rootFields).toBe(1)
  })

  it('lets the queries of the start page and a full introspection pass with room to spare', () => {
    for (const { query } of queriesToTry([{ id: 'x' }])) {
      expect(guardQuery(schema, parse(query), {}).cost).toBeLessThan(LIMITS.cost / 4)
    }
    expect(() =>
      guardQuery(
        schema,
        parse('{ __schema { types { fields { args { type { ofType { ofType { ofType { name } } } } } } } } }'),
        {},
      ),
    ).not.toThrow()
  })

  it.each([
    ['depth', `{ teardown(id: "x") { passages ${'{ upstream '.repeat(14)} { path } ${'}'.repeat(14)} } }`],
    ['aliases', `{ ${Array.from({ length: 31 }, (_, at) => `a${at}: calc { __typename }`).join(' ')} }`],
    ['cost', '{ teardowns(first: 200) { edges { node { components { figures { inputs { path } } } } } } }'],
    ['directives', `{ metrics { ${'id @skip(if: false) '.repeat(21)} } }`],
  ])('refuses too much %s and says how much', (what, query) => {
    expect(() => guardQuery(schema, parse(query), {})).toThrow(
      expect.objectContaining({ code: 'QUERY_COSTLY', facts: expect.objectContaining({ [what]: expect.any(Number) }) }),
    )
  })
})
