import { type AuditResult, auditServer } from 'graphql-http'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type RunningServer, startServer } from '../server-fixture.ts'

// GraphQL over HTTP, working draft of the GraphQL Foundation, as audited by the package graphql-http (61 audits).
describe('the endpoint /graphql, by the audit of graphql-http', () => {
  let server: RunningServer
  beforeAll(async () => {
    server = await startServer()
  })
  afterAll(() => server.stop())

  it('passes every audit, MUST, SHOULD and MAY alike', async () => {
    const results = await auditServer({ url: `${server.url}/graphql` })
    expect(notOk(results)).toEqual([])
    expect(results).toHaveLength(61)
  })

  it('passes them again when the queries are known and compiled', async () => {
    const results = await auditServer({ url: `${server.url}/graphql` })
    expect(notOk(results)).toEqual([])
  })
})

const notOk = (results: readonly AuditResult[]): readonly string[] =>
  results.flatMap((one) => (one.status === 'ok' ? [] : [`${one.id} ${one.name}: ${one.status}, ${one.reason}`]))
