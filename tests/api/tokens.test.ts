import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { findToken, makeToken, readTokens, writeTokens } from '../../api/tokens.ts'

const now = new Date('2026-11-20T10:00:00Z')
const later = (days: number): Date => new Date(now.getTime() + days * 86_400_000)

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lidoff-tokens-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

describe('tokens of readers', () => {
  it('are 256 random bits, and no two alike', () => {
    const texts = Array.from({ length: 50 }, () => makeToken('a', now).text)
    expect(new Set(texts).size).toBe(50)
    for (const text of texts) expect(Buffer.from(text.replace('lidoff_', ''), 'base64url')).toHaveLength(32)
  })

  it('are kept as hashes alone, in a file for its owner alone', () => {
    const file = join(folder, 'tokens.json')
    const { text, record } = makeToken('bench', now)
    writeTokens(file, [record])
    expect(readFileSync(file, 'utf8')).not.toContain(text)
    expect(statSync(file).mode & 0o777).toBe(0o600)
    expect(readTokens(file)).toEqual([record])
  })

  it('are found by their text, until they expire', () => {
    const one = makeToken('one', now, 2)
    const two = makeToken('two', now)
    const all = [one.record, two.record]
    expect(findToken(all, one.text, now)?.name).toBe('one')
    expect(findToken(all, two.text, later(9999))?.name).toBe('two')
    expect(findToken(all, one.text, later(2))).toBeUndefined()
  })

  it.each(['', 'lidoff_', 'x'])('are not found by "%s", nor by a part of one', (text) => {
    const { text: whole, record } = makeToken('one', now)
    expect(findToken([record], text, now)).toBeUndefined()
    expect(findToken([record], whole.slice(0, -1), now)).toBeUndefined()
    expect(findToken([record], `${whole}x`, now)).toBeUndefined()
    expect(findToken([record], record.sha256, now)).toBeUndefined()
  })

  it('are none when there is no file', () => {
    expect(readTokens(join(folder, 'none.json'))).toEqual([])
  })

  it.each(['not json', '{}', '{"lidoff-tokens":1,"tokens":[{"name":"a"}]}', '{"lidoff-tokens":2,"tokens":[]}'])(
    'are not read from a file that is %s',
    (text) => {
      const file = join(folder, 'bad.json')
      writeFileSync(file, text)
      expect(() => readTokens(file)).toThrow(/not a token file/)
    },
  )

  it.each(['', 'Big', '-a', 'a b', '../x', 'x'.repeat(41)])('cannot be called "%s"', (name) => {
    expect(() => makeToken(name, now)).toThrow(/not a token name/)
  })
})
