import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Tree } from '../../../graph/record/record.ts'
import { gate } from '../../../graph/sheet/gate.ts'
import { treeOf } from '../../../graph/sheet/read.ts'
import { writeSheet } from '../../../graph/sheet/write.ts'

/** Texts as people type them, and texts made of every sign that means something in the notation. */
const words = fc.oneof(
  fc.string({ minLength: 1, maxLength: 12, unit: 'grapheme' }).filter((text) => !/[\p{Cc}\p{Cs}]/u.test(text)),
  fc.string({ minLength: 1, maxLength: 10, unit: fc.constantFrom(...': #-?,[]{}&*!|>%@`"\'\\ a1µ±\n'.split('')) }),
  fc.constantFrom(
    '12.4 ± 0.2 mm, measured',
    'null',
    '0417',
    '~',
    'yes',
    '1e3',
    '<<',
    '---',
    '...',
    '- a',
    '? b',
    'a: b',
    '= c',
  ),
)
const keys = fc.oneof(fc.constantFrom('id', 'a', 'link-cap', '1', '1 12 31 44..47', 'seat.u', 'null'), words)
const { tree } = fc.letrec<{ tree: Tree; mapping: { [key: string]: Tree } }>((tie) => ({
  tree: fc.oneof({ maxDepth: 4 }, words, fc.array(tie('tree'), { minLength: 1, maxLength: 4 }), tie('mapping')),
  mapping: fc
    .dictionary(keys, tie('tree'), { minKeys: 1, maxKeys: 4 })
    .filter((one) => !['__proto__', 'constructor', 'prototype'].some((name) => Object.hasOwn(one, name))),
}))
const mapping = fc.dictionary(keys, tree, { minKeys: 1, maxKeys: 5 }).filter((one) => !Object.hasOwn(one, '__proto__'))

describe('writeSheet', () => {
  // Law, not a pinned text: what is written reads back as what it was, whatever it holds.
  it('writes what reads back to the same tree, and passes the gate', () => {
    fc.assert(
      fc.property(mapping, (made) => {
        const text = writeSheet(made)
        expect(gate(text)).toEqual([])
        expect(treeOf(text)).toEqual(plainCopy(made))
      }),
      { numRuns: 400 },
    )
  })

  it('gives back the text as typed when nothing changed', () => {
    const typed = 'id: a   # a remark\nlist: [x,   y]\n\nlast: "1"\n'
    expect(writeSheet(treeOf(typed), typed)).toBe(typed)
  })

  it('keeps remarks, order and form of what an edit left alone', () => {
    const typed = [
      '# head',
      'id: a',
      'parts:',
      '  - { id: one, mass: 1 g, measured: "x" } # first',
      '  - { id: two, mass: 2 g }',
      '  # about three',
      '  - { id: three, mass: 3 g }',
      '',
    ].join('\n')
    const tree = treeOf(typed) as { id: string; parts: { id: string; mass: string }[] }
    const [one, , three] = tree.parts
    const edited = { ...tree, parts: [one, { ...three, mass: '4 g' }, { id: 'four', mass: '5 g (judged)' }] } as Tree
    const text = writeSheet(edited, typed)
    expect(treeOf(text)).toEqual(edited)
    expect(text).toContain('# head')
    expect(text).toContain('# first')
    expect(text).toContain('# about three')
    expect(text).not.toContain('two')
  })

  it('reads back whatever was edited into whatever was typed', () => {
    fc.assert(
      fc.property(mapping, mapping, (typed, edited) => {
        expect(treeOf(writeSheet(edited, writeSheet(typed)))).toEqual(plainCopy(edited))
      }),
      { numRuns: 200 },
    )
  })
})

/** Without the prototype-less objects that the generator makes. */
function plainCopy(tree: Tree): Tree {
  return JSON.parse(JSON.stringify(tree))
}
