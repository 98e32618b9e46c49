import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { replayed } from './readme.ts'

it('README shows what its commands print', { timeout: 300_000 }, () => {
  const text = readFileSync('README.md', 'utf8')
  expect(replayed(text)).toBe(text)
})
