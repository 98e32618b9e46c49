import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { describe, expect, it } from 'vitest'
import { filled, newFile, opened, write } from './corpus-fixture.ts'

describe('backup', () => {
  it('is one file of its own, whole, only for its owner, made while writing goes on', async () => {
    const store = await filled({ ferry: {}, tractor: {} })
    await store.commit(write('ferry', { sheetText: 'x'.repeat(2_000_000) }))
    const to = newFile('copy.db')
    const done: number[] = []
    const copying = store.backup(to, (share) => done.push(share))
    for (let n = 0; n < 20; n++) {
      await store.commit(write('sweeper', { sheetText: `round ${n}` }))
      await new Promise(setImmediate)
    }
    const copy = await copying
    expect(copy).toMatchObject({ file: to, bytes: statSync(to).size })
    expect(copy.revisions).toBeGreaterThanOrEqual(3)
    expect(done).toEqual([...done].sort((a, b) => a - b))
    expect(done.at(-1)).toBe(1)
    expect(statSync(to).mode & 0o777).toBe(0o600)
    expect(readdirSync(dirname(to))).toEqual(['copy.db'])

    const restored = await opened({ file: to })
    expect((await restored.verify()).problems).toEqual([])
    expect((await restored.revision('ferry')).sheetText).toHaveLength(2_000_000)
    expect(await restored.countTeardowns({ text: 'ferry' })).toBeGreaterThanOrEqual(2)
  })

  it('never overwrites, also when the name is taken meanwhile', async () => {
    const store = await filled({ ferry: {} })
    const taken = newFile('copy.db')
    writeFileSync(taken, 'mine')
    await expect(store.backup(taken)).rejects.toMatchObject({ kind: 'file-exists', place: taken })
    const raced = newFile('copy.db')
    const copying = store.backup(raced)
    writeFileSync(raced, 'mine', { flag: 'wx' })
    await expect(copying).rejects.toMatchObject({ kind: 'file-exists' })
    for (const file of [taken, raced]) {
      expect(readFileSync(file, 'utf8')).toBe('mine')
      expect(readdirSync(dirname(file))).toEqual(['copy.db'])
    }
  })

  it('clears what a process that is gone left of the same copy, and nothing else', async () => {
    const store = await filled({ ferry: {} })
    const to = newFile('copy.db')
    for (const name of [`${to}.999999999.5.part`, `${to}.${process.pid}.5.part`, `${to}.other.part`])
      writeFileSync(name, '')
    await store.backup(to)
    expect(readdirSync(dirname(to)).sort()).toEqual(
      ['copy.db', `copy.db.${process.pid}.5.part`, 'copy.db.other.part'].sort(),
    )
  })
})
