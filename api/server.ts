import { join } from 'node:path'
import type { Writable } from 'node:stream'
import Fastify, { type FastifyInstance } from 'fastify'
import { requireSafeBind, type ServerConfig } from './config.ts'
import type { Corpus } from './corpus.ts'
import { schema } from './graphql/schema.ts'
import { guardReaders } from './http/auth.ts'
import { serveExplorer } from './http/explore.ts'
import { serveTables } from './http/export.ts'
import { answerFaults } from './http/faults.ts'
import { serveGraphql } from './http/graphql.ts'
import { guardHeaders } from './http/headers.ts'
import { type Health, serveHealth } from './http/health.ts'
import { guardHost } from './http/host.ts'
import { serveMetrics } from './http/metrics.ts'
import { servePages } from './http/pages.ts'
import { servePhotos } from './http/photos.ts'
import { projectFolder } from './place.ts'
import type { TokenRecord } from './tokens.ts'

export interface ServerParts {
  readonly corpus: Corpus
  readonly config: ServerConfig
  readonly tokens: readonly TokenRecord[]
  /** Where log lines go: standard error, so that standard output stays for data; none when null. */
  readonly log: Writable | null
  readonly now: () => Date
}

export interface Server {
  readonly app: FastifyInstance
  readonly health: Health
  /** Says that it stops, answers what runs, and cuts off whoever does not read on. */
  stop(): Promise<void>
}

/** An answer that takes longer is stopped at the next item of a list. */
const DEADLINE_MS = 5_000
const REQUEST_TIMEOUT_MS = 30_000
/** A reader that takes nothing more for so long while the server stops is cut off. */
const CUT_OFF_AFTER_MS = 3_000
const BODY_LIMIT = 256 * 1024

/** The whole server, not yet listening. @throws Fault when it would be open to others without tokens */
export async function buildServer({ corpus, config, tokens, log, now }: ServerParts): Promise<Server> {
  requireSafeBind(config, tokens.length)
  const app = Fastify({
    logger: log !== null && { level: 'info', redact: ['req.headers.authorization'], stream: log },
    // Values of a request are taken as they are sent: "1" is not 1, and audits of GraphQL over HTTP look for it.
    ajv: { customOptions: { coerceTypes: false } },
    bodyLimit: BODY_LIMIT,
    requestTimeout: REQUEST_TIMEOUT_MS,
    connectionTimeout: REQUEST_TIMEOUT_MS,
    forceCloseConnections: 'idle',
  })
  app.removeContentTypeParser('text/plain')
  answerFaults(app)
  await guardHeaders(app)
  guardHost(app, config)
  guardReaders(app, tokens, now)
  serveMetrics(app, () => corpus.store.countTeardowns({}))
  const health = serveHealth(app, corpus.store)
  servePages(app, corpus.store)
  serveTables(app, corpus.store)
  servePhotos(app, corpus, [config.photos.value, join(projectFolder(), 'seeds')])
  await serveExplorer(app)
  await serveGraphql(app, schema, () => ({ corpus, deadline: performance.now() + DEADLINE_MS }))
  return { app, health, stop: () => stop(app, health) }
}

async function stop(app: FastifyInstance, health: Health): Promise<void> {
  health.stopping()
  const patience = setTimeout(() => app.server.closeAllConnections(), CUT_OFF_AFTER_MS)
  await app.close()
  clearTimeout(patience)
}
