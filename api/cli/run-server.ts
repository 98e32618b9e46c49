import type { AddressInfo } from 'node:net'
import closeWithGrace from 'close-with-grace'
import { openStore } from '../../graph/store/sqlite.ts'
import type { Store } from '../../graph/store/store.ts'
import { CAUTIONS } from '../cautions.ts'
import { databaseFile, requireSafeBind, type ServerConfig, serverConfig } from '../config.ts'
import { openCorpus } from '../corpus.ts'
import { demoSheets } from '../demo.ts'
import { queriesToTry } from '../pages/queries.ts'
import { buildServer, type Server } from '../server.ts'
import { readTokens } from '../tokens.ts'
import { addFiles } from './add-files.ts'
import type { Call } from './command.ts'
import { refresh } from './database.ts'
import { table } from './table.ts'

/** A stop takes this long at most; what is still answered then is cut off. */
const STOP_WITHIN_MS = 4_500

export async function runServer(call: Call): Promise<number> {
  const config = serverConfig(call.options, call.env)
  if (call.options.showConfig === true) return showConfig(call, config)
  const tokens = config.tokens.value === null ? [] : readTokens(config.tokens.value)
  requireSafeBind(config, tokens.length)
  if (call.options.demo === true) {
    call.terminal.say('loading the demo corpus; the first time its figures are computed')
    await addFiles(quiet(call), demoSheets(), { by: 'demo' })
  }

  const store = await openStore({ file: databaseFile(call.options, call.env).value })
  try {
    const corpus = openCorpus(store)
    await refresh(corpus, call.terminal)
    const server = await buildServer({
      corpus,
      config,
      tokens,
      log: call.env.LIDOFF_LOG === 'off' ? null : call.terminal.stderr,
      now: call.now,
    })
    await listen(call, config, server)
    if (call.options.demo === true) await suggestQueries(call, store)
    await stopped(server, store)
    return 0
  } catch (error) {
    await store.close()
    throw error
  }
}

async function listen({ terminal }: Call, config: ServerConfig, { app }: Server): Promise<void> {
  await app.listen({ host: config.host.value, port: config.port.value })
  const { address, port, family } = app.server.address() as AddressInfo
  const url = `http://${family === 'IPv6' ? `[${address}]` : address}:${port}`
  terminal.say(`lidoff answers at ${url}/ (GraphQL at ${url}/graphql, explorer at ${url}/explore/). Stop with Ctrl-C.`)
  for (const { title, text } of CAUTIONS.slice(0, 1)) terminal.say(`Caution: ${title}. ${text}`)
  terminal.document({ url, port })
}

/** Something to type in the first minute; the start page shows the same, each with its link. */
async function suggestQueries({ terminal }: Call, store: Store): Promise<void> {
  const { items } = await store.teardowns({}, { by: 'id' }, { first: 1 })
  terminal.say("Three queries to try, at the explorer or as lidoff query '…'; the start page has a link to each:")
  for (const { title, query } of queriesToTry(items.map(({ node }) => node)))
    terminal.say(`  ${title}:\n    ${query.replaceAll(/\s+/g, ' ')}`)
}

/** After a signal: what runs is answered, the log of writes goes into the database, and the process ends with 0. */
function stopped({ app, stop }: Server, store: Store): Promise<void> {
  return new Promise((done) => {
    closeWithGrace({ delay: STOP_WITHIN_MS, logger: false }, async ({ err }) => {
      if (err) app.log.error({ err }, 'stopping after a fault')
      await stop()
      await store.close()
      done()
    })
  })
}

function showConfig({ terminal, options, env }: Call, config: ServerConfig): number {
  const settings = Object.entries({ db: databaseFile(options, env), ...config }).map(([name, { value, origin }]) => ({
    name,
    value: Array.isArray(value) ? value.join(', ') : String(value ?? ''),
    origin,
  }))
  const columns = [
    { head: 'setting', cell: (one: (typeof settings)[number]) => one.name },
    { head: 'value', cell: (one: (typeof settings)[number]) => one.value },
    { head: 'from', cell: (one: (typeof settings)[number]) => one.origin },
  ]
  terminal.print(table(columns, settings, terminal.width))
  terminal.document({ settings })
  return 0
}

/** While the demo loads, what is said of each sheet is a message: the one document is the server's. */
function quiet(call: Call): Call {
  return { ...call, terminal: { ...call.terminal, print: call.terminal.say, document: () => {} } }
}
