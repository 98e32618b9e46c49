import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { grade } from './grade.ts'
import { answer, readCases } from './main.ts'

// Worked examples and tables of published sources, each with its source beside it: not derived with this program.
const folder = fileURLToPath(new URL('./cases/', import.meta.url))
const files = readdirSync(folder).filter((name) => name.endsWith('.json'))

describe('published reference cases', () => {
  const cases = files.flatMap((file) => readCases(`${folder}${file}`))

  it('are all there', () => expect(cases.length).toBeGreaterThanOrEqual(256))

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
