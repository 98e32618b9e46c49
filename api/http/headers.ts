import helmet from '@fastify/helmet'
import type { FastifyInstance } from 'fastify'

/**
 * Headers on every answer, errors included. Nothing may come from another machine, no script or style may stand in a
 * page's text, and no other page may frame ours. Plain HTTP on loopback: no transport header is claimed.
 */
export async function guardHeaders(app: FastifyInstance): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        baseUri: ["'self'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        objectSrc: ["'none'"],
      },
    },
    crossOriginEmbedderPolicy: false,
    crossOriginResourcePolicy: { policy: 'same-origin' },
    referrerPolicy: { policy: 'no-referrer' },
    frameguard: { action: 'deny' },
    strictTransportSecurity: false,
  })
}
