import type { AddressInfo } from 'node:net'
import { serverConfig } from '../../api/config.ts'
import { buildServer } from '../../api/server.ts'

export interface RunningServer {
  readonly url: string
  stop(): Promise<void>
}

/** The real server on a free port of loopback. */
export async function startServer(): Promise<RunningServer> {
  const config = serverConfig({ port: '0' }, {})
  const app = await buildServer({ config, tokens: [], log: false, now: () => new Date() })
  await app.listen({ host: '127.0.0.1', port: 0 })
  const { port } = app.server.address() as AddressInfo
  return { url: `http://127.0.0.1:${port}`, stop: () => app.close() }
}
