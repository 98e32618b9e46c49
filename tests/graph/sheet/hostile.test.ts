import { describe, expect, it } from 'vitest'
import { readSheet } from '../../../graph/sheet/read.ts'
import { sheetText } from '../../fixtures/record.ts'

const head = sheetText()
const refused = (text: string) => {
  const before = performance.now()
  const read = readSheet(text, 'hostile.yaml')
  const took = performance.now() - before
  if ('record' in read) throw new Error('was taken in')
  return { first: read.complaints[0], count: read.complaints.length, took }
}

// What a parser does with these was measured beforehand: a well-kept one takes 3.9 s on 100,000 brackets and ends in a stack
// overflow; nine lists of nine aliases each, nine deep, are 9⁹ entries. Every one has to be refused within a second.
const hostile: readonly (readonly [name: string, text: () => string, what: RegExp])[] = [
  ['100,000 nested brackets', () => `a: ${'['.repeat(100_000)}`, /nested more than 64 deep/],
  ['100,000 nested braces', () => '{a: '.repeat(100_000), /nested more than 64 deep/],
  ['100,000 nested dashes', () => `${'- '.repeat(100_000)}a`, /nested more than 64 deep/],
  ['indentation 100 deep', () => Array.from({ length: 100 }, (_, n) => `${' '.repeat(n)}a:`).join('\n'), /64 deep/],
  ['an alias bomb', () => bomb(), /anchor/],
  ['5 MB of remarks', () => `${head}# ${'x'.repeat(5_000_000)}`, /5\.0 MB/],
  ['50 MB of one word', () => `${head}a: ${'x'.repeat(50_000_000)}`, /50\.0 MB/],
  ['50 MB in short lines', () => 'a: 1\n'.repeat(10_000_000), /50\.0 MB/],
  ['2 MB that only bytes show', () => `${head}a: ${'µ'.repeat(1_100_000)}`, /up to 2 MB/],
  ['a list of 200,000 entries', () => `${head}parts: [${'a,'.repeat(200_000)}a]`, /200001 entries/],
  ['60,000 equal parts', () => `${head}parts:\n${'  - { id: a, class: screw }\n'.repeat(60_000)}`, /60000 entries/],
  ['50,000 unknown keys', () => head + Array.from({ length: 50_000 }, (_, n) => `k${n}: 1`).join('\n'), /entries/],
  ['counts that multiply to a billion', () => head + multiplied(), /pieces in all/],
  ['six million pins', () => head + manyPins(), /terminals|terminal/],
  ['a quantity of 1.9 MB', () => `${head}ambient: { air: ${'9'.repeat(1_900_000)} °C }`, /characters long/],
  [
    'a key that changes prototypes',
    () => `${head}nets:\n  __proto__: { potential: chassis }\n`,
    /"__proto__" cannot be a key/,
  ],
  ['the same in a part', () => `${head}parts: [{ id: a, class: screw, __proto__: { mass: 1 g } }]`, /"__proto__"/],
  [
    'a part called constructor',
    () => `${head}parts: [{ id: constructor, class: screw }]`,
    /"constructor" cannot be an id/,
  ],
  ['a piece called prototype', () => `${head}parts: [{ id: a, class: screw, each: { prototype: {} } }]`, /"prototype"/],
  ['a directive', () => `%YAML 1.1\n---\n${head}`, /directive/],
  ['a tag', () => `${head}loan: !!js/function x`, /tag/],
  ['a control character', () => `${head}loan: { lender: a\u0000b }`, /U\+0000/],
  ['a lone half of a character', () => `${head}loan: { lender: a\ud800b }`, /cannot be read/],
  ['150,000 times the same key', () => head + 'marking: '.repeat(150_000), /second ": "/],
]

function bomb(): string {
  const letters = 'abcdefghi'.split('')
  const lists = letters.map(
    (one, n) =>
      `${one}: &${one} [${Array(9)
        .fill(n === 0 ? 'x' : `*${letters[n - 1]}`)
        .join()}]`,
  )
  return lists.join('\n')
}

function multiplied(): string {
  const inside = '{ id: c, class: screw, count: 1000 }'
  return `parts: [{ id: a, class: assembly, count: 1000, parts: [{ id: b, class: assembly, count: 1000, parts: [${inside}] }] }]`
}

function manyPins(): string {
  const ranges = Array.from({ length: 3000 }, (_, n) => `${n * 2001}..${n * 2001 + 2000}: x`)
  return `parts: [{ id: a, class: microcontroller, terminals: { ${ranges.join(', ')} } }]`
}

describe('hostile sheets', () => {
  it.each(hostile)('%s: refused within a second, with few words', (_, text, what) => {
    const { first, count, took } = refused(text())
    expect(first?.what).toMatch(what)
    expect(first?.mend).not.toBe('')
    expect(count).toBeLessThanOrEqual(200)
    expect(took).toBeLessThan(1000)
  })

  it('leaves the prototype of everything alone', () => {
    refused(`${head}nets:\n  __proto__: { polluted: yes }\nparts: [{ id: __proto__, class: screw }]`)
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })
})
