import { createHash } from 'node:crypto'
import { Readable } from 'node:stream'
import type { FastifyInstance } from 'fastify'
import type { Store } from '../../graph/store/store.ts'
import { NAMED_CONDITIONS } from '../../queries/corpus/materialise.ts'
import { Fault } from '../errors.ts'
import { csvOf, tables } from '../export/tables.ts'
import { DERIVED_STAMP } from '../sheets.ts'

/** Says in a header what a table of figures cannot say in a column: its columns are pinned. */
const CAUTION =
  'Figures of stored energy, high voltage and hot coolant are no proof of safety: measure that it is dead; ' +
  'local codes and the practice of a licensed person come first.'

/** Flat tables at `/export/NAME.csv`, streamed; unchanged ones are answered with 304. */
export function serveTables(app: FastifyInstance, store: Store): void {
  for (const table of tables) {
    app.get(`/export/${table.name}.csv`, async (request, reply) => {
      const conditions = conditionsOf(request.query)
      const tag = await tagOf(store, table.name, conditions)
      reply.header('etag', tag).header('cache-control', 'no-cache').header('lidoff-caution', CAUTION)
      if (request.headers['if-none-match'] === tag) return reply.code(304).send()
      reply.type('text/csv; charset=utf-8; header=present')
      reply.header('content-disposition', `attachment; filename="${table.name}.csv"`)
      return reply.send(Readable.from(csvOf(table, store, { conditions })))
    })
  }
}

/** The same as long as no record was written and figures are computed in the same way. */
async function tagOf(store: Store, name: string, conditions = 'all'): Promise<string> {
  const { revisions } = await store.state()
  const what = `${name} ${conditions} ${revisions} ${DERIVED_STAMP}`
  return `"${createHash('sha256').update(what).digest('base64url').slice(0, 22)}"`
}

function conditionsOf(query: unknown): string | undefined {
  const { conditions } = query as { conditions?: unknown }
  if (conditions === undefined) return undefined
  const names = Object.keys(NAMED_CONDITIONS)
  if (typeof conditions === 'string' && names.includes(conditions)) return conditions
  throw new Fault('USAGE', 'no such stored set of conditions', `conditions= one of: ${names.join(', ')}`)
}
