import { mkdtempSync, rmSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Flags, serverConfig } from '../../api/config.ts'
import { type Corpus, openCorpus } from '../../api/corpus.ts'
import { buildServer, type Server } from '../../api/server.ts'
import type { TokenRecord } from '../../api/tokens.ts'
import { openStore } from '../../graph/store/sqlite.ts'

export interface RunningServer extends Server {
  readonly url: string
  readonly corpus: Corpus
  stop(): Promise<void>
}

export interface FixtureChoice {
  readonly flags?: Flags
  readonly tokens?: readonly TokenRecord[]
  readonly now?: () => Date
  /** Stores what the server answers from. */
  readonly fill?: (corpus: Corpus) => Promise<void>
}

/** The real server with a database of its own, on a free port of loopback. */
export async function startServer({
  flags = {},
  tokens = [],
  now = () => new Date(),
  fill,
}: FixtureChoice = {}): Promise<RunningServer> {
  const folder = mkdtempSync(join(tmpdir(), 'lidoff-api-'))
  const store = await openStore({ file: join(folder, 'test.db') })
  const corpus = openCorpus(store)
  await fill?.(corpus)
  const config = serverConfig({ port: '0', ...flags }, {})
  const server = await buildServer({ corpus, config, tokens, log: null, now })
  await server.app.listen({ host: '127.0.0.1', port: 0 })
  const { port } = server.app.server.address() as AddressInfo
  return {
    ...server,
    corpus,
    url: `http://127.0.0.1:${port}`,
    async stop() {
      await server.stop()
      await store.close()
      rmSync(folder, { recursive: true })
    },
  }
}
