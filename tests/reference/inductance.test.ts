import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { frequencyDependenceAdapter } from './adapters/frequency-dependence.ts'
import { inductanceAdapters } from './adapters/inductance.ts'
import type { Case } from './case.ts'
import { grade } from './grade.ts'

const file = new URL('../../../shared/reference/electrical.json', import.meta.url)
const there = existsSync(file)
const adapters = [...inductanceAdapters, frequencyDependenceAdapter]
const cases = (there ? (JSON.parse(readFileSync(file, 'utf8')) as readonly Case[]) : []).flatMap((input) => {
  const adapter = adapters.find(({ topics }) => topics.includes(input.topic))
  return adapter ? [{ id: input.id, input, adapter }] : []
})

describe.skipIf(!there)(
  `inductance reference cases (${there ? cases.length : 'skipped: the file is not there'})`,
  () => {
    it('finds all of them', () => {
      expect(cases.length).toBeGreaterThanOrEqual(30)
    })

    it.each(cases)('$id', ({ input, adapter }) => {
      const { outcome, detail } = grade(input, adapter.answer(input))
      expect(outcome, detail).toBe('passed')
    })
  },
)
