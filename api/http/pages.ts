import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { FastifyInstance } from 'fastify'
import type { Store } from '../../graph/store/store.ts'
import { printedSchema } from '../graphql/schema.ts'
import { START_ROWS, startPage } from '../pages/start.ts'
import { projectFolder } from '../place.ts'

/** The start page, its style, and the contract as text. */
export function servePages(app: FastifyInstance, store: Store): void {
  const folder = join(projectFolder(), 'api', 'pages')
  const style = readFileSync(join(folder, 'page.css'), 'utf8')
  const mark = readFileSync(join(folder, 'mark.svg'), 'utf8')
  const contract = printedSchema()

  app.get('/', async (_request, reply) => {
    const page = await store.teardowns({}, { by: 'id' }, { first: START_ROWS })
    const text = startPage(
      page.items.map(({ node }) => node),
      await store.countTeardowns({}),
    )
    return reply.type('text/html; charset=utf-8').send(text)
  })
  app.get('/assets/page.css', async (_request, reply) => reply.type('text/css; charset=utf-8').send(style))
  app.get('/assets/mark.svg', async (_request, reply) => reply.type('image/svg+xml').send(mark))
  app.get('/schema.graphql', async (_request, reply) => reply.type('text/plain; charset=utf-8').send(contract))
}
