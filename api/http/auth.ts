import type { FastifyInstance, FastifyRequest } from 'fastify'
import { Fault } from '../errors.ts'
import { findToken, type TokenRecord } from '../tokens.ts'

/** Paths that a probe of the machine may ask without a token: they tell nothing of what is stored. */
const OPEN = new Set(['/healthz', '/readyz'])

declare module 'fastify' {
  interface FastifyRequest {
    /** Name of the token that was shown, for the log. */
    reader: string | null
  }
}

/**
 * Where there are tokens, every other path needs one: `Authorization: Bearer`, or as the password of Basic for browsers.
 * Missing, wrong, expired and truncated get the same answer.
 */
export function guardReaders(app: FastifyInstance, tokens: readonly TokenRecord[], now: () => Date): void {
  app.decorateRequest('reader', null)
  if (tokens.length === 0) return
  app.addHook('onRequest', async (request, reply) => {
    if (OPEN.has(request.url.split('?')[0]!)) return
    const token = findToken(tokens, shownToken(request), now())
    if (token) {
      request.reader = token.name
      return
    }
    reply.header('www-authenticate', 'Bearer realm="lidoff", Basic realm="lidoff", charset="UTF-8"')
    throw new Fault(
      'UNAUTHENTICATED',
      'a token is needed',
      'send "Authorization: Bearer TOKEN"; in a browser any name, and the token as password',
    )
  })
}

function shownToken(request: FastifyRequest): string {
  const [scheme = '', value = ''] = (request.headers.authorization ?? '').split(' ')
  if (scheme.toLowerCase() === 'bearer') return value
  if (scheme.toLowerCase() !== 'basic') return ''
  const pair = Buffer.from(value, 'base64').toString('utf8')
  return pair.slice(pair.indexOf(':') + 1)
}
