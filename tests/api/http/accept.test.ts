import { describe, expect, it } from 'vitest'
import { wantsGraphqlResponse } from '../../../api/http/accept.ts'

// GraphQL over HTTP, working draft, "Legacy watershed": without Accept, and for */*, plain JSON may be answered.
// Quality values as in RFC 9110, 12.4.2.
describe('wantsGraphqlResponse', () => {
  it.each([
    [undefined, false],
    ['', false],
    ['*/*', false],
    ['application/json', false],
    ['application/graphql-response+json', true],
    ['APPLICATION/GraphQL-Response+JSON; charset=utf-8', true],
    ['application/graphql-response+json, application/json', true],
    ['application/graphql-response+json;q=0.5, application/json', false],
    ['application/json;q=0.5, application/graphql-response+json', true],
    ['application/graphql-response+json;q=0', false],
    ['application/graphql-response+json; q=nonsense', false],
    ['text/html, */*;q=0.8', false],
  ])('%s: %s', (accept, wanted) => {
    expect(wantsGraphqlResponse(accept)).toBe(wanted)
  })
})
