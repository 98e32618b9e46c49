import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { readSheet, treeOf } from '../../../graph/sheet/read.ts'
import { exampleSheet } from '../../fixtures/example-sheet.ts'
import { formatPage } from '../../fixtures/format-page.ts'

// Laws of a reader, whatever it is given: it answers, never throws, and points into the text.
const sheets = [exampleSheet, formatPage]

const junk: fc.Arbitrary<Tree> = fc.oneof(
  fc.constantFrom(
    '',
    '5',
    '5 mm',
    'module.*',
    'a/b/c',
    '*',
    '.',
    '/',
    'parts/',
    'x (judged)',
    '()',
    'NaN',
    '1e999 mm',
    '-',
    '[[',
    'module.v/switch',
  ),
  fc.string({ maxLength: 8 }),
  fc.constant<Tree>([]),
  fc.constant<Tree>({}),
  fc.constant<Tree>([{}]),
  fc.constant<Tree>({ value: '5 mm' }),
  fc.constant<Tree>({ claims: [], take: '1' }),
  fc.constant<Tree>([['a'], { id: 'a' }]),
  fc.constant<Tree>({ each: { u: {} }, id: 'x', class: 'screw' }),
)

/** Every place in a tree. */
function places(tree: Tree, at: readonly (string | number)[] = []): readonly (readonly (string | number)[])[] {
  if (typeof tree === 'string') return [at]
  return [
    at,
    ...Object.entries(tree).flatMap(([key, below]) => places(below, [...at, Array.isArray(tree) ? Number(key) : key])),
  ]
}

function replaced(tree: Tree, [key, ...rest]: readonly (string | number)[], by: Tree): Tree {
  if (key === undefined) return by
  if (typeof tree === 'string') return tree
  if (Array.isArray(tree)) return tree.map((one, n) => (n === key ? replaced(one, rest, by) : one))
  const mapping = tree as { readonly [key: string]: Tree }
  return { ...mapping, [key]: replaced(mapping[key] ?? '', rest, by) }
}

describe('a reader', () => {
  it('answers to any tree: a record, or faults that say what and how', () => {
    const trees = sheets.map((text) => treeOf(text))
    const spots = trees.map((tree) => places(tree))
    const slip = fc.record({ sheet: fc.nat(1), where: fc.nat(), by: junk })
    fc.assert(
      fc.property(fc.array(slip, { minLength: 1, maxLength: 3 }), (slips) => {
        const sheet = slips[0]?.sheet ?? 0
        const tree = slips.reduce<Tree>((made, { where, by }) => {
          const all = spots[sheet] ?? []
          return replaced(made, all[where % all.length] ?? [], by)
        }, trees[sheet] ?? '')
        const read = recordFromTree(tree)
        if ('record' in read) return
        expect(read.faults.length).toBeGreaterThan(0)
        for (const { what, mend, path } of read.faults) {
          expect(what.length * mend.length).toBeGreaterThan(0)
          expect(path).toBeDefined()
        }
      }),
      { numRuns: 250 },
    )
  })

  it('answers to any text, and points into it', () => {
    const signs = fc.constantFrom(
      ...'{}[]:,#"\'-&*!|>%@`\n\t ()\\µ'.split(''),
      'each:',
      '- ',
      ': ',
      ' #',
      '{}',
      'null',
      '\u2028',
    )
    const slip = fc.record({ sheet: fc.nat(1), where: fc.nat(), cut: fc.nat(12), sign: signs })
    fc.assert(
      fc.property(fc.array(slip, { minLength: 1, maxLength: 3 }), (slips) => {
        const text = slips.reduce(
          (made, { where, cut, sign }) => {
            const at = where % made.length
            return made.slice(0, at) + sign + made.slice(at + cut)
          },
          sheets[slips[0]?.sheet ?? 0] ?? '',
        )
        const read = readSheet(text, 'x.yaml')
        const told = 'record' in read ? read.warnings : [...read.complaints, ...read.warnings]
        if (!('record' in read)) expect(read.complaints.length).toBeGreaterThan(0)
        const lines = text.split('\n')
        for (const { line, column, what, mend } of told) {
          expect(what.length * mend.length).toBeGreaterThan(0)
          expect(lines[line - 1]).toBeDefined()
          expect(column).toBeGreaterThan(0)
          expect(column).toBeLessThanOrEqual((lines[line - 1] ?? '').length + 1)
        }
      }),
      { numRuns: 150 },
    )
  })
})
