import { existsSync, readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { grade } from './grade.ts'
import { answer, readCases } from './main.ts'

// The reference cases lie beside the checkout. Where they are not there, that is said, and the tests that hold the same
// published values as tables of their own still run.
const folder = fileURLToPath(new URL('../../../shared/reference/', import.meta.url))
const files = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.json')) : []

describe.skipIf(files.length === 0)('published reference cases', () => {
  const cases = files.flatMap((file) => readCases(`${folder}${file}`))

  it.each(cases.map((one) => [one.id, one] as const))('%s', (_, one) => {
    const { outcome, detail } = grade(one, answer(one))
    expect(outcome, detail).toBe('passed')
  })
})

describe('grading', () => {
  const one = { id: 'x', topic: 't', quantity: '', inputs: {}, relTol: 1e-3 }

  it('fails a value that is off by more than its tolerance, and passes one within', () => {
    const expected = { L: { value: 100, unit: 'nH' } }
    expect(grade({ ...one, expected }, { L: 100.05e-9 }).outcome).toBe('passed')
    expect(grade({ ...one, expected }, { L: 100.2e-9 }).outcome).toBe('failed')
  })

  it('says that a key is not mapped, and that a refusal is no answer', () => {
    expect(grade({ ...one, expected: { a: 1 } }, {}).outcome).toBe('not mapped')
    expect(grade({ ...one, expected: { a: 1 } }, undefined).outcome).toBe('not mapped')
    expect(grade({ ...one, expected: { a: 1 } }, { error: true, message: 'no' }).outcome).toBe('failed')
  })

  it('wants the words of a message', () => {
    const expected = { error: true, mustMention: ['kHz'] }
    expect(grade({ ...one, expected }, { error: true, message: 'did you mean kHz?' }).outcome).toBe('passed')
    expect(grade({ ...one, expected }, { error: true, message: 'unknown' }).outcome).toBe('failed')
  })
})
