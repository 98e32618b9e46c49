import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { createInterface } from 'node:readline'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { beforeAll, describe, expect, it } from 'vitest'
import { openStore } from '../../../graph/store/sqlite.ts'
import type { Store } from '../../../graph/store/store.ts'
import { newFile } from './corpus-fixture.ts'
import type { Acknowledged } from './durable-child.ts'

const here = dirname(fileURLToPath(import.meta.url))
const child = join(here, '../../../.build/durable-child.mjs')
const PARTS = 20
const KILLS = 25

beforeAll(async () => {
  await build({
    ...{ entryPoints: [join(here, 'durable-child.ts')], outfile: child, bundle: true, packages: 'external' },
    ...{ platform: 'node', target: 'node20', format: 'esm', logLevel: 'error' },
  })
})

/** Lets a child write and kills it some time after its first acknowledgement. */
async function writeAndKill(file: string, from: number, delay: number, job: string): Promise<readonly Acknowledged[]> {
  const process_ = spawn(process.execPath, [child, file, String(from), '0', job], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const closed = once(process_, 'close')
  const acknowledged: Acknowledged[] = []
  const lines = createInterface({ input: process_.stdout })
  lines.on('line', (line) => acknowledged.push(JSON.parse(line)))
  await Promise.race([once(lines, 'line'), closed])
  await wait(delay)
  process_.kill('SIGKILL')
  const [, signal] = await closed
  expect(signal).toBe('SIGKILL')
  return acknowledged
}

/** Whether everything of the current revision is there, and nothing of another. */
async function assertWhole(store: Store, id: string): Promise<void> {
  const { n } = { n: Number(/round: (\d+)/.exec((await store.revision(id)).sheetText)?.[1]) }
  const parts = (await store.components({ teardown: [id] }, { first: 100 })).items.map(({ node }) => node)
  expect(parts.map(({ built, nets }) => [built, nets])).toEqual(
    Array.from({ length: PARTS }, () => [n, [`nets/n${n}`]]),
  )
  expect((await store.figuresOf(id)).map(({ value }) => value)).toEqual(Array.from({ length: PARTS }, () => n))
  expect(await store.countComponents({ teardown: [id], marking: `M${n}`, text: `round ${n}` })).toBe(PARTS)
}

describe('a writer that is killed', () => {
  it(`loses nothing it acknowledged and leaves nothing half written, ${KILLS} times on one file`, {
    timeout: 60_000,
  }, async () => {
    const file = newFile()
    const acknowledged: Acknowledged[] = []
    let stored = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const from = (acknowledged.at(-1)?.n ?? 0) + 2
      acknowledged.push(...(await writeAndKill(file, from, (kill * 37) % 120, kill % 5 === 4 ? 'backup' : 'write')))
      // A copy that was finished before the kill is whole; the next one needs its name.
      if (existsSync(`${file}.copy`)) {
        const copy = await openStore({ file: `${file}.copy` })
        expect((await copy.verify()).problems).toEqual([])
        await copy.close()
        rmSync(`${file}.copy`)
      }
      const store = await openStore({ file })
      const heads = new Map<string, string>()
      for (const id of await store.ids()) {
        await assertWhole(store, id)
        for (const { revision, hash } of await store.history(id)) heads.set(`${id} ${revision}`, hash)
      }
      expect(acknowledged.filter(({ id, revision, hash }) => heads.get(`${id} ${revision}`) !== hash)).toEqual([])
      // At most the one write that was under way when it was killed.
      expect(heads.size - acknowledged.length).toBeLessThanOrEqual(kill + 1)
      stored = heads.size
      await store.close()
    }
    const store = await openStore({ file })
    expect(acknowledged.length).toBeGreaterThan(KILLS)
    expect(await store.verify()).toEqual({ revisions: stored, problems: [] })
    await store.backup(`${file}.copy`)
    await store.close()
    expect(readdirSync(dirname(file)).filter((name) => name.endsWith('.part'))).toEqual([])
  })

  it('shares a new file with others who start at the same moment', { timeout: 60_000 }, async () => {
    const file = newFile()
    const writers = [1, 101, 201, 301].map((from) =>
      spawn(process.execPath, [child, file, String(from), '15'], { stdio: ['ignore', 'ignore', 'inherit'] }),
    )
    const ends = await Promise.all(writers.map((writer) => once(writer, 'exit')))
    expect(ends.map(([code]) => code)).toEqual([0, 0, 0, 0])
    const store = await openStore({ file })
    expect(await store.verify()).toEqual({ revisions: 60, problems: [] })
    for (const id of await store.ids()) await assertWhole(store, id)
    await store.close()
  })

  // A kill cannot tell whether a write reached the disk or only the system's memory: the calls can.
  const strace = ['/usr/bin/strace', '/usr/local/bin/strace'].find((path) => existsSync(path))
  it.skipIf(!strace)('waits for the disk at every commit, also on the second opening', { timeout: 60_000 }, () => {
    const file = newFile()
    for (const from of [1, 51]) {
      const counts = `${file}.counts`
      const traced = ['-f', '-c', '-o', counts, '-e', 'trace=fsync,fdatasync']
      const said = execFileSync(strace!, [...traced, process.execPath, child, file, String(from), '50', 'count'], {
        encoding: 'utf8',
      })
      expect(said.trim().split('\n')).toHaveLength(50)
      const calls = [...readFileSync(counts, 'utf8').matchAll(/^\s*\S+\s+\S+\s+\S+\s+(\d+)\s.*f(?:data)?sync$/gm)]
      expect(calls.reduce((sum, [, count]) => sum + Number(count), 0)).toBeGreaterThanOrEqual(50)
    }
  })
})
