import type { FastifyInstance } from 'fastify'
import type { Store } from '../../graph/store/store.ts'

export interface Health {
  /** From now on `/readyz` says no: what runs is answered, nothing new should come. */
  stopping(): void
}

/** `/healthz` tells that the process lives, `/readyz` that it can answer. */
export function serveHealth(app: FastifyInstance, store: Store): Health {
  let ready = true
  app.get('/healthz', async () => ({ status: 'alive' }))
  app.get('/readyz', async (_request, reply) => {
    if (!ready) return reply.code(503).send({ status: 'stopping' })
    await store.ids()
    return { status: 'ready' }
  })
  return {
    stopping: () => {
      ready = false
    },
  }
}
