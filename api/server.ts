import Fastify, { type FastifyInstance } from 'fastify'
import type { ServerConfig } from './config.ts'
import { requireSafeBind } from './config.ts'
import { schema } from './graphql/schema.ts'
import { guardReaders } from './http/auth.ts'
import { answerFaults } from './http/faults.ts'
import { serveGraphql } from './http/graphql.ts'
import { guardHeaders } from './http/headers.ts'
import { guardHost } from './http/host.ts'
import { serveMetrics } from './http/metrics.ts'
import type { TokenRecord } from './tokens.ts'

export interface ServerParts {
  readonly config: ServerConfig
  readonly tokens: readonly TokenRecord[]
  readonly log: boolean
  readonly now: () => Date
}

/** An answer that takes longer is stopped at the next item of a list. */
const DEADLINE_MS = 5_000
const REQUEST_TIMEOUT_MS = 30_000

/** The whole server, not yet listening. */
export async function buildServer({ config, tokens, log, now }: ServerParts): Promise<FastifyInstance> {
  requireSafeBind(config, tokens.length)
  const app = Fastify({
    logger: log ? { level: 'info' } : false,
    ajv: { customOptions: { coerceTypes: false } },
    bodyLimit: 256 * 1024,
    requestTimeout: REQUEST_TIMEOUT_MS,
    connectionTimeout: REQUEST_TIMEOUT_MS,
    forceCloseConnections: 'idle',
    routerOptions: { maxParamLength: 500 },
  })
  app.removeContentTypeParser('text/plain')
  answerFaults(app)
  await guardHeaders(app)
  guardHost(app, config)
  guardReaders(app, tokens, now)
  serveMetrics(app, async () => 0)
  await serveGraphql(app, schema, () => ({ deadline: performance.now() + DEADLINE_MS }))
  return app
}
