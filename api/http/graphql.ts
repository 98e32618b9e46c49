import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { ExecutionResult, FormattedExecutionResult, GraphQLSchema } from 'graphql'
import { mercurius } from 'mercurius'
import { FAULTS, Fault } from '../errors.ts'
import type { ApiContext } from '../graphql/context.ts'
import { type RawError, showError } from '../graphql/errors.ts'
import { guardQuery, LIMITS } from '../graphql/guard.ts'
import { GRAPHQL_RESPONSE, wantsGraphqlResponse } from './accept.ts'
import { requestFault } from './faults.ts'

const PATH = '/graphql'
const BODY_LIMIT = 256 * 1024
/** A query that comes a second time is compiled. */
const COMPILE_AFTER = 1

/** GraphQL over HTTP at `/graphql`: what runs is compiled, what asks for too much is refused before it runs. */
export async function serveGraphql(
  app: FastifyInstance,
  schema: GraphQLSchema,
  context: () => ApiContext,
): Promise<void> {
  app.addHook('onRequest', requireJson)
  app.addHook('onSend', async (request, reply, payload) => {
    if (request.routeOptions.url === PATH && wantsGraphqlResponse(request.headers.accept)) {
      reply.type(`${GRAPHQL_RESPONSE}; charset=utf-8`)
    }
    return payload
  })
  await app.register(mercurius, {
    schema,
    path: PATH,
    jit: COMPILE_AFTER,
    graphql: { parseOptions: { maxTokens: LIMITS.tokens }, validateOptions: { maxErrors: 10 } },
    context: () => ({ ...context() }),
    errorFormatter: (execution, { reply }) => answerErrors(execution, reply),
    additionalRouteOptions: {
      bodyLimit: BODY_LIMIT,
      preValidation: async ({ body }: { body: unknown }) => dropNullExtensions(body),
    },
  })
  app.graphql.addHook('preExecution', async (_schema, document, _context, variables) => {
    guardQuery(schema, document, variables ?? {})
  })
}

/** A form of another page can post plain text without asking; it cannot post JSON. */
async function requireJson({ method, url, headers }: FastifyRequest): Promise<void> {
  if (method !== 'POST' || url.split('?')[0] !== PATH) return
  const type = headers['content-type']
  if (type && /^application\/json\s*(;|$)/i.test(type)) return
  throw new Fault('MEDIA_TYPE', `${PATH} reads application/json`, 'send the header "Content-Type: application/json"')
}

/** The draft allows `extensions: null`; the route's own check does not. */
function dropNullExtensions(body: unknown): void {
  if (typeof body === 'object' && body !== null && 'extensions' in body && body.extensions === null)
    delete body.extensions
}

interface Answer {
  readonly statusCode: number
  readonly response: FormattedExecutionResult
}

/**
 * Errors as the draft wants them: no `data` key where nothing was run. Then the status is 400 under the GraphQL media
 * type and 200 under plain JSON, save for what is refused before it is read as a query, which is 4xx under both.
 */
function answerErrors(execution: ExecutionResult, reply: FastifyReply): Answer {
  const log = (fault: Fault): void => reply.log.error({ err: fault.cause, id: fault.facts.id }, 'internal fault')
  const errors = flatten(execution.errors ?? []).map((error) => showError(error, log, requestFault))
  if (execution.data !== undefined) return { statusCode: 200, response: { data: execution.data, errors } }
  const code = errors[0]?.extensions.code ?? 'INTERNAL'
  const asDraft =
    (code === 'QUERY_SYNTAX' || code === 'QUERY_INVALID') && !wantsGraphqlResponse(reply.request.headers.accept)
  return { statusCode: asDraft ? 200 : FAULTS[code].http, response: { errors } }
}

/** mercurius wraps what validation found in one error of its own; its other refusals say enough themselves. */
function flatten(errors: readonly RawError[]): readonly RawError[] {
  return errors.flatMap((error) => {
    const outer = error.originalError as { code?: string; errors?: readonly RawError[] } | undefined
    return outer?.code === 'MER_ERR_GQL_VALIDATION' && outer.errors ? outer.errors : [error]
  })
}
