import { randomBytes } from 'node:crypto'
import fastifyStatic from '@fastify/static'
import { getDistDirectory, renderAltair, renderInitSnippet } from 'altair-static'
import type { FastifyInstance } from 'fastify'

const SETTINGS = 'initial_options.js'
const PREAMBLE_FILE = 'preamble.js'

/**
 * The explorer writes its styles into the page as it runs. Instead of allowing every inline style, each answer names a
 * fresh nonce and this script, served from here, puts it on the style elements that are made. A library in it tries
 * whether text may be run as code, and is told no before the browser has anything to report.
 */
const PREAMBLE = `const { nonce } = document.currentScript
const create = document.createElement.bind(document)
document.createElement = (name, options) => {
  const element = create(name, options)
  if (String(name).toLowerCase() === 'style') element.nonce = nonce
  return element
}
window.Function = new Proxy(Function, {
  construct() {
    throw new EvalError('text is not run as code here')
  },
})
`

/** An API explorer served from here alone: it works without a network, and no script of a page's text is ever run. */
export async function serveExplorer(app: FastifyInstance): Promise<void> {
  const options = {
    endpointURL: '/graphql',
    baseURL: '/explore/',
    serveInitialOptionsInSeperateRequest: SETTINGS,
    // Nothing that asks another machine: no account, no offers, no look for a newer version.
    disableAccount: true,
    persistedSettings: { 'banners.disable': true, 'alert.disableUpdateNotification': true },
    initialQuery: '{\n  teardowns(first: 5) {\n    edges { node { id title } }\n  }\n}\n',
  }
  const settings = renderInitSnippet(options)
  app.get('/explore', async (_request, reply) => reply.redirect('/explore/', 308))
  app.get('/explore/', async (_request, reply) => {
    const nonce = randomBytes(16).toString('base64')
    return reply
      .header('content-security-policy', policy(nonce))
      .type('text/html; charset=utf-8')
      .send(pageWith(nonce, options))
  })
  app.get(`/explore/${SETTINGS}`, async (_request, reply) =>
    reply.type('text/javascript; charset=utf-8').send(settings),
  )
  app.get(`/explore/${PREAMBLE_FILE}`, async (_request, reply) =>
    reply.type('text/javascript; charset=utf-8').send(PREAMBLE),
  )
  await app.register(fastifyStatic, { root: getDistDirectory(), prefix: '/explore/', index: false, wildcard: true })
}

function pageWith(nonce: string, options: Parameters<typeof renderAltair>[0]): string {
  return renderAltair(options)
    .replace('<style nonce="">', `<style nonce="${nonce}">`)
    .replace(
      '<meta charset="utf-8" />',
      `<meta charset="utf-8" /><script nonce="${nonce}" src="/explore/${PREAMBLE_FILE}"></script>`,
    )
    .replace('<app-root>', `<app-root ngCspNonce="${nonce}">`)
}

function policy(nonce: string): string {
  const directives = [
    "default-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' data:",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ]
  return directives.join('; ')
}
