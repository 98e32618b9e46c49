import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { treeOf } from '../../../graph/sheet/read.ts'
import { exampleSheet } from '../../fixtures/example-sheet.ts'

const original = treeOf(exampleSheet) as {
  readonly parts: readonly { readonly [key: string]: Tree }[]
  readonly [key: string]: Tree
}

/** A copy that shares nothing, so that nothing that was remembered by identity can be found again. */
const afresh = (tree: Tree): Tree => JSON.parse(JSON.stringify(tree))

const outcome = (tree: Tree) => {
  const read = recordFromTree(tree)
  if ('faults' in read) return { faults: read.faults.map(({ at, what, path }) => ({ at, what, path })) }
  const { record, readings, warnings } = read
  return {
    facts: [...record.facts],
    influences: [...record.influences],
    readings,
    warnings: warnings.map(({ what, path }) => ({ what, path })),
  }
}

const edits: readonly (readonly [name: string, edit: (tree: typeof original) => Tree])[] = [
  ['nothing', (tree) => tree],
  [
    'a mass of one part',
    (tree) => ({ ...tree, parts: tree.parts.map((one, n) => (n === 2 ? { ...one, mass: '99 g (judged)' } : one)) }),
  ],
  ['a part dropped in front', (tree) => ({ ...tree, parts: tree.parts.slice(1) })],
  [
    'a part added in front',
    (tree) => ({ ...tree, parts: [{ id: 'extra', class: 'screw', mass: '1 g' }, ...tree.parts] }),
  ],
  ['another basis for all', (tree) => ({ ...tree, basis: 'assumed' })],
  [
    'another instrument',
    (tree) => ({
      ...tree,
      instruments: { ...(tree.instruments as object), balance: { kind: 'balance', uncertainty: '± 1 %' } },
    }),
  ],
  ['no instruments', (tree) => Object.fromEntries(Object.entries(tree).filter(([key]) => key !== 'instruments'))],
  ['other default widths', (tree) => ({ ...tree, defaults: { measured: { else: '± 7 %' } } })],
  [
    'a part inside another that repeats',
    (tree) => ({
      ...tree,
      parts: [{ id: 'box', class: 'assembly', count: '3', parts: tree.parts.slice(0, 3) }, ...tree.parts.slice(3)],
    }),
  ],
  [
    'a part that is wrong',
    (tree) => ({ ...tree, parts: tree.parts.map((one, n) => (n === 1 ? { ...one, mass: '1 mm' } : one)) }),
  ],
]

describe('recordFromTree after edits', () => {
  it.each(edits)('%s: what was remembered gives what reading afresh gives', (_, edit) => {
    recordFromTree(original)
    const edited = edit(original)
    expect(outcome(edited)).toEqual(outcome(afresh(edited)))
  })

  it('holds for edits one after the other, in any order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: edits.length - 1 }), { minLength: 2, maxLength: 4 }), (order) => {
        let tree: Tree = original
        for (const n of order) {
          tree = edits[n]?.[1](tree as typeof original) ?? tree
          recordFromTree(tree)
        }
        expect(outcome(tree)).toEqual(outcome(afresh(tree)))
      }),
      { numRuns: 15 },
    )
  })
})
