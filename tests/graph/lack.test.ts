import { describe, expect, it } from 'vitest'
import { allOf, describeLack, type Lack, leaves, notApplicable, rulingOut } from '../../graph/lack.ts'
import { asPath } from '../../graph/quantity/quantity.ts'

const at = (
  path: string,
  why: 'absent' | 'not-looked-for' | 'not-applicable' | 'bound-only' = 'not-looked-for',
): Lack => ({
  path: asPath(path),
  why,
})
const A = at('parts/a/mass')
const B = at('parts/b/mass')
const GONE = at('parts/c/mass', 'absent')
const LOOKED: Lack = { query: { ask: 'parts', class: 'inductor' }, why: 'none-found' }
const OPEN: Lack = { query: { ask: 'parts', class: 'inductor' }, why: 'census-open' }

describe('several lacks', () => {
  it('are one list, each once', () => {
    expect(allOf([A])).toEqual(A)
    expect(allOf([A, A])).toEqual(A)
    expect(allOf([A, allOf([B, A, GONE])])).toEqual({ allOf: [A, B, GONE] })
    expect(allOf([{ anyOf: [A, B] }, { anyOf: [A, B] }, A])).toEqual({ allOf: [{ anyOf: [A, B] }, A] })
  })

  it('have single gaps', () => {
    expect(leaves(allOf([A, { anyOf: [B, { allOf: [GONE, LOOKED] }] }]))).toEqual([A, B, GONE, LOOKED])
    expect(leaves(OPEN)).toEqual([OPEN])
  })
})

describe('whether a figure is missing, or there is no such thing', () => {
  it('says what rules it out, without the gaps beside it', () => {
    expect(rulingOut(allOf([A, LOOKED, B]))).toEqual(LOOKED)
    expect(rulingOut(allOf([A, { anyOf: [GONE, allOf([B, LOOKED])] }]))).toEqual({ anyOf: [GONE, LOOKED] })
    expect(rulingOut(allOf([GONE, LOOKED]))).toEqual({ allOf: [GONE, LOOKED] })
  })

  it.each<[string, Lack, boolean]>([
    ['a value nobody looked for', A, false],
    ['a value recorded as absent', GONE, true],
    ['a value recorded as not applicable', at('parts/a/mass', 'not-applicable'), true],
    ['a value that is a bound', at('parts/a/mass', 'bound-only'), false],
    ['looked for and none found', LOOKED, true],
    ['nobody looked', OPEN, false],
    ['refused', { reason: 'no', kind: 'refused' }, false],
    ['out of range', { reason: 'no', kind: 'out-of-range' }, false],
    ['not applicable', { reason: 'no', kind: 'not-applicable' }, true],
    // One thing that cannot be is enough: measuring the rest would not help.
    ['all of these, one of them absent', { allOf: [A, GONE] }, true],
    ['all of these, none absent', { allOf: [A, B] }, false],
    // As long as one way is open, it is only missing.
    ['any of those, one still open', { anyOf: [GONE, A] }, false],
    ['any of those, none open', { anyOf: [GONE, LOOKED] }, true],
    ['any of none', { anyOf: [] }, false],
  ])('%s', (_, lack, expected) => {
    expect(notApplicable(lack)).toBe(expected)
  })
})

describe('in words', () => {
  it.each<[Lack, string]>([
    [A, 'parts/a/mass: not looked for'],
    [at('parts/a/mass', 'bound-only'), 'parts/a/mass: known only as a bound'],
    [{ reason: 'no current', kind: 'refused' }, 'no current'],
    [{ allOf: [A, B] }, 'parts/a/mass: not looked for; parts/b/mass: not looked for'],
    [
      { anyOf: [A, { allOf: [B, GONE] }] },
      'one of: (parts/a/mass: not looked for) or (parts/b/mass: not looked for; parts/c/mass: recorded as absent)',
    ],
  ])('%o', (lack, words) => {
    expect(describeLack(lack)).toBe(words)
  })

  it('a search says what for, and whether anybody looked', () => {
    expect(describeLack(LOOKED)).toMatch(/looked for and found none.*inductor/)
    expect(describeLack(OPEN)).toMatch(/(nothing|not on) record.*inductor/)
  })
})
