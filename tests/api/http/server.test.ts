import { request } from 'node:http'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { serverConfig } from '../../../api/config.ts'
import { tables } from '../../../api/export/tables.ts'
import { printedSchema } from '../../../api/graphql/schema.ts'
import { queriesToTry } from '../../../api/pages/queries.ts'
import { buildServer } from '../../../api/server.ts'
import { makeToken } from '../../../api/tokens.ts'
import { store, unit } from '../demo-fixture.ts'
import { type RunningServer, startServer } from '../server-fixture.ts'

const HOSTILE_TEXT = `<img src=x onerror=alert(1)>"'&`
const ROUTES = [
  '/',
  '/explore/',
  '/explore/initial_options.js',
  '/assets/page.css',
  '/schema.graphql',
  '/healthz',
  '/readyz',
  '/metrics',
  '/export/figures.csv',
  '/nothing-here',
  '/photos/unit-a/none',
  '/graphql?query={__typename}',
  '/graphql',
]

describe('the server', () => {
  let server: RunningServer
  beforeAll(async () => {
    server = await startServer({
      fill: async (corpus) => {
        await store(corpus, unit('unit-a'))
        await store(corpus, unit('unit-b', { title: HOSTILE_TEXT }))
      },
    })
  })
  afterAll(() => server.stop())

  // Headers as the OWASP secure headers project lists them (from memory).
  it.each(ROUTES)('%s bears the security headers, whatever its status', async (route) => {
    const { headers } = await fetch(`${server.url}${route}`)
    expect(headers.get('content-security-policy')).toMatch(/default-src 'self'/)
    expect(headers.get('content-security-policy')).toMatch(/frame-ancestors 'none'/)
    expect(headers.get('content-security-policy')).not.toMatch(/unsafe/)
    expect(headers.get('x-content-type-options')).toBe('nosniff')
    expect(headers.get('referrer-policy')).toBe('no-referrer')
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
    expect(headers.get('access-control-allow-origin')).toBeNull()
    expect(headers.get('x-powered-by')).toBeNull()
  })

  it('shows what is stored as text, runs no script, and lists the cautions', async () => {
    const page = await (await fetch(server.url)).text()
    expect(page).toContain('&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;')
    expect(page).not.toMatch(/<img|<script|onerror="|style="/)
    for (const word of ['Stored energy', 'High voltage', 'Hot surfaces', 'Local codes']) expect(page).toContain(word)
  })

  it('offers three queries that run', async () => {
    const page = await (await fetch(server.url)).text()
    const links = [...page.matchAll(/href="(\/graphql\?query=[^"]+)"/g)].map(([, link]) => link!)
    expect(links).toHaveLength(3)
    expect(queriesToTry([{ id: 'unit-a' }])).toHaveLength(3)
    for (const link of links) {
      const answer = (await (await fetch(`${server.url}${link}`)).json()) as {
        data: Record<string, unknown>
        errors?: unknown
      }
      expect(answer.errors).toBeUndefined()
      expect(Object.values(answer.data)[0]).not.toBeNull()
    }
  })

  it('serves the contract it answers by', async () => {
    expect(await (await fetch(`${server.url}/schema.graphql`)).text()).toBe(printedSchema())
  })

  it.each(tables.map(({ name }) => name))('gives the table %s, and 304 while nothing was written', async (name) => {
    const first = await fetch(`${server.url}/export/${name}.csv`)
    expect(first.status).toBe(200)
    expect(first.headers.get('content-type')).toContain('text/csv')
    expect(first.headers.get('lidoff-caution')).toMatch(/local codes/)
    const text = await first.text()
    expect(text.split('\r\n')[0]).toBe(Object.keys(tables.find((table) => table.name === name)!.columns).join(','))
    const etag = first.headers.get('etag')!
    const again = await fetch(`${server.url}/export/${name}.csv`, { headers: { 'if-none-match': etag } })
    expect(again.status).toBe(304)
    await store(server.corpus, unit('unit-c', { title: `Unit of ${name}` }))
    const changed = await fetch(`${server.url}/export/${name}.csv`, { headers: { 'if-none-match': etag } })
    expect(changed.status).toBe(200)
    expect(changed.headers.get('etag')).not.toBe(etag)
    await changed.text()
  })

  it('gives the figures in the pinned columns', async () => {
    const text = await (await fetch(`${server.url}/export/figures.csv?conditions=default`)).text()
    const [head, ...rows] = text.trimEnd().split('\r\n')
    expect(head).toBe('teardown,subject,metric,value,unit,uncertainty,low,high,status,reason,basis,conditions,revision')
    const row = rows.find((line) => line.startsWith('unit-a,specimen,POWER_DENSITY,'))
    // 100 kW over 400 x 250 x 100 mm, ten litres: 10 kW/L, worked by hand.
    expect(Number(row?.split(',')[3])).toBeCloseTo(10, 9)
    expect(row?.split(',')[4]).toBe('kW/L')
    expect(row?.split(',').slice(-2)).toEqual(['default', '1'])
    const missing = rows.filter((line) => line.includes(',MISSING,'))
    expect(missing.length).toBeGreaterThan(0)
    for (const line of missing) expect(line).toMatch(/^[^,]+,[^,]+,[A-Z_]+,,[^,]*,,,,MISSING,.+/)
  })

  it('refuses an unknown set of conditions by name', async () => {
    const answer = await fetch(`${server.url}/export/figures.csv?conditions=warm`)
    expect(answer.status).toBe(400)
    expect(await answer.json()).toMatchObject({ error: { code: 'USAGE', mend: expect.stringContaining('continuous') } })
  })

  it('counts its answers by route, never by what a caller made up', async () => {
    await fetch(`${server.url}/nothing-${Math.random()}`)
    const text = await (await fetch(`${server.url}/metrics`)).text()
    expect(text).toMatch(/lidoff_http_requests_total\{method="GET",route="\/",status="200"\} \d+/)
    expect(text).not.toContain('nothing-')
    // Text exposition format of Prometheus, version 0.0.4 (from memory): comments, or name, labels and a number.
    for (const line of text.trimEnd().split('\n')) {
      expect(line).toMatch(/^(# (HELP|TYPE) [a-z_]+ .+|[a-z_]+(\{([a-z]+="[^"\n]*",?)+\})? [\d.e+-]+)$/)
    }
  })

  it('answers only for names it goes by', async () => {
    const { port } = new URL(server.url)
    const status = (host: string): Promise<number | undefined> =>
      new Promise((done, failed) => {
        const asked = request({ host: '127.0.0.1', port, path: '/healthz', headers: { host } }, (answer) => {
          answer.resume()
          done(answer.statusCode)
        })
        asked.on('error', failed).end()
      })
    expect(await status(`127.0.0.1:${port}`)).toBe(200)
    expect(await status('localhost')).toBe(200)
    expect(await status(`[::1]:${port}`)).toBe(200)
    for (const host of ['evil.test', `evil.test:${port}`, '127.0.0.1.evil.test', 'localhost.evil.test']) {
      expect(await status(host)).not.toBe(200)
    }
  })

  it('says that it stops before it stops', async () => {
    const other = await startServer()
    expect((await fetch(`${other.url}/readyz`)).status).toBe(200)
    other.health.stopping()
    expect((await fetch(`${other.url}/readyz`)).status).toBe(503)
    expect((await fetch(`${other.url}/healthz`)).status).toBe(200)
    await other.stop()
  })

  it('shows an id instead of what broke', async () => {
    const other = await startServer()
    await other.corpus.store.close()
    const answer = await fetch(`${other.url}/export/teardowns.csv`)
    const text = await answer.text()
    expect(answer.status).toBeGreaterThanOrEqual(500)
    expect(text).not.toMatch(/sqlite|\/tmp|at .*\.ts|Error:/i)
    await other.app.close()
  })
})

describe('readers with tokens', () => {
  const day = 86_400_000
  let now = Date.now()
  const good = makeToken('bench', new Date(now))
  const brief = makeToken('visitor', new Date(now), 1)
  let server: RunningServer
  beforeAll(async () => {
    server = await startServer({ tokens: [good.record, brief.record], now: () => new Date(now) })
  })
  afterAll(() => server.stop())

  const ask = (route: string, authorization?: string) =>
    fetch(`${server.url}${route}`, authorization ? { headers: { authorization } } : {})

  it.each(ROUTES.filter((route) => !/healthz|readyz/.test(route)))('%s is closed without one', async (route) => {
    expect((await ask(route)).status).toBe(401)
  })

  it('probes stay open', async () => {
    expect((await ask('/healthz')).status).toBe(200)
    expect((await ask('/readyz')).status).toBe(200)
  })

  it('opens with a token as bearer, or as the password of a browser', async () => {
    expect((await ask('/', `Bearer ${good.text}`)).status).toBe(200)
    expect((await ask('/', `Basic ${Buffer.from(`anyone:${good.text}`).toString('base64')}`)).status).toBe(200)
  })

  it('gives one and the same answer to every token that is not valid', async () => {
    const wrong = [
      '',
      'Bearer',
      'Bearer x',
      `Bearer ${good.text.slice(0, -1)}`,
      `Bearer ${good.text}x`,
      `Bearer ${good.record.sha256}`,
      `Token ${good.text}`,
      'Basic !!!',
    ]
    const answers = await Promise.all(wrong.map(async (authorization) => (await ask('/', authorization)).text()))
    expect(new Set(answers).size).toBe(1)
  })

  it('closes when the token has expired', async () => {
    expect((await ask('/', `Bearer ${brief.text}`)).status).toBe(200)
    now += 2 * day
    expect((await ask('/', `Bearer ${brief.text}`)).status).toBe(401)
    expect((await ask('/', `Bearer ${good.text}`)).status).toBe(200)
  })
})

describe('binding beyond this machine', () => {
  it.each(['0.0.0.0', '::', '192.0.2.7', 'localhost.'])('%s is refused without tokens', async (host) => {
    const parts = { config: serverConfig({ host }, {}), tokens: [], log: null, now: () => new Date() }
    await expect(buildServer({ ...parts, corpus: undefined as never })).rejects.toMatchObject({ code: 'USAGE' })
  })
})
