import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { unit } from '../api/demo-fixture.ts'
import { run, type Served, serve as serveProgram } from './program.ts'

let folder: string
let db: string
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lidoff-http-'))
  db = join(folder, 'test.db')
  writeFileSync(join(folder, 'unit.yaml'), unit('unit-a'))
  expect(await run(['add', join(folder, 'unit.yaml'), '--db', db])).toMatchObject({ status: 0 })
}, 60_000)
afterAll(() => rmSync(folder, { recursive: true }))

const serve = (args: readonly string[] = [], env: Readonly<Record<string, string>> = {}): Promise<Served> =>
  serveProgram(['--db', db, ...args], { cwd: folder, env })

const ask = async (url: string, query: string): Promise<unknown> =>
  (
    await fetch(`${url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query }),
    })
  ).json()

describe('lidoff serve', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)(
    'answers what runs when %s comes, and ends with 0 within five seconds',
    async (signal) => {
      const served = await serve()
      expect(await (await fetch(`${served.url}/readyz`)).json()).toEqual({ status: 'ready' })
      const running = Array.from({ length: 20 }, () =>
        ask(served.url, '{ teardown(id: "unit-a") { title figures { value } } }'),
      )
      await ask(served.url, '{ __typename }')
      const { status, seconds } = await served.stop(signal)
      expect(status).toBe(0)
      expect(seconds).toBeLessThan(5)
      const answers = await Promise.allSettled(running)
      const answered = answers.filter(({ status: how }) => how === 'fulfilled')
      for (const answer of answered)
        expect(answer).toMatchObject({ value: { data: { teardown: { title: 'Unit unit-a' } } } })
      expect(answered.length).toBeGreaterThan(0)
      // The log of writes was taken into the database: nothing is left beside it.
      expect(statSync(`${db}-wal`, { throwIfNoEntry: false })?.size ?? 0).toBe(0)
    },
  )

  it('says what it answers from the command line and over HTTP alike', async () => {
    const query =
      '{ teardown(id: "unit-a") { figures(metrics: [POWER_DENSITY]) { value unit low high inputs { path share } } } }'
    const served = await serve()
    const over = await ask(served.url, query)
    await served.stop('SIGTERM')
    expect(JSON.parse((await run(['query', query, '--db', db])).out)).toEqual(over)
  })

  it.each(['0.0.0.0', '::', 'localhost.'])('refuses to listen on %s without tokens, and says why', async (host) => {
    const { status, out, err } = await run(['serve', '--host', host, '--port', '0', '--db', db], { cwd: folder })
    expect({ status, out }).toEqual({ status: 2, out: '' })
    expect(err).toMatch(/token/)
  })

  it('listens beyond this machine with tokens, which show neither in its arguments nor in its log', async () => {
    const tokens = join(folder, 'tokens.json')
    const token = (await run(['token', 'new', 'bench', '--tokens', tokens])).out.trim()
    const served = await serve(['--host', '0.0.0.0', '--tokens', tokens])
    const port = new URL(served.url).port
    const url = `http://127.0.0.1:${port}`
    expect((await fetch(`${url}/`)).status).toBe(401)
    expect((await fetch(`${url}/`, { headers: { authorization: `Bearer ${token}` } })).status).toBe(200)
    await served.stop('SIGTERM')
    expect(served.said()).toContain('/')
    expect(served.said()).not.toContain(token)
  })

  it('refuses a port that is taken', async () => {
    const served = await serve()
    const { status, err } = await run(['serve', '--port', new URL(served.url).port, '--db', db], { cwd: folder })
    expect(status).toBe(4)
    expect(err).toMatch(/port is taken/)
    await served.stop('SIGTERM')
  })

  it('tells each setting and where it came from', async () => {
    const { status, out } = await run(['serve', '--show-config', '--json', '--port', '4001'], {
      cwd: folder,
      env: { LIDOFF_DB: db },
    })
    expect(status).toBe(0)
    expect(JSON.parse(out).settings).toEqual(
      expect.arrayContaining([
        { name: 'port', value: '4001', origin: 'flag' },
        { name: 'db', value: db, origin: 'environment LIDOFF_DB' },
        { name: 'host', value: '127.0.0.1', origin: 'default' },
      ]),
    )
  })
})
