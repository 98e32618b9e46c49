import fastifyStatic from '@fastify/static'
import { getDistDirectory, renderAltair, renderInitSnippet } from 'altair-static'
import type { FastifyInstance } from 'fastify'

const SETTINGS = 'initial_options.js'

/** An API explorer served from here alone: it works without a network and under the same policy as every page. */
export async function serveExplorer(app: FastifyInstance): Promise<void> {
  const options = {
    endpointURL: '/graphql',
    baseURL: '/explore/',
    serveInitialOptionsInSeperateRequest: SETTINGS,
    initialQuery: '{\n  teardowns(first: 5) {\n    edges { node { id title } }\n  }\n}\n',
  }
  const page = renderAltair(options)
  const settings = renderInitSnippet(options)
  app.get('/explore', async (_request, reply) => reply.redirect('/explore/', 308))
  app.get('/explore/', async (_request, reply) => reply.type('text/html; charset=utf-8').send(page))
  app.get(`/explore/${SETTINGS}`, async (_request, reply) =>
    reply.type('text/javascript; charset=utf-8').send(settings),
  )
  await app.register(fastifyStatic, { root: getDistDirectory(), prefix: '/explore/', index: false, wildcard: true })
}
