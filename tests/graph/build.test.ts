import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openStructure } from '../../graph/build.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import { exampleSheet } from '../fixtures/example-sheet.ts'
import { formatPage } from '../fixtures/format-page.ts'

/** A name as references are made of: `module.*`, `lower`, `igbt.2`. */
const NAME = /(?<=[\s[,:/])[a-z][a-z0-9-]*(?:\.(?:\*|[a-z0-9-]+))?(?=[\s,\]}/])/g

const CHANGES: readonly ((name: string, other: string) => string)[] = [
  (name) => name.replace('.*', ''),
  (name) => name.replace('.*', '.u'),
  (name) => name.replace(/\.[a-z0-9-]+$/, '.*'),
  (name) => (name.includes('.') ? name : `${name}.*`),
  (name, other) => `${name}/${other}`,
  (_, other) => other,
]

/** One reference of a sheet that was right, changed. */
function slipped(sheet: string, at: number, other: number, change: number): string {
  const names = [...sheet.matchAll(NAME)]
  const name = names[at % names.length]!
  const text = CHANGES[change]!(name[0], names[other % names.length]![0])
  return sheet.slice(0, name.index) + text + sheet.slice(name.index + name[0].length)
}

describe('a sheet with one slip in it', () => {
  it('is refused with a line, or has a graph', () => {
    let accepted = 0
    let refused = 0
    fc.assert(
      fc.property(
        fc.constantFrom(exampleSheet, formatPage),
        fc.nat(),
        fc.nat(),
        fc.nat(CHANGES.length - 1),
        (sheet, at, other, change) => {
          const read = readSheet(slipped(sheet, at, other, change), 'slip.yaml')
          if ('record' in read) {
            accepted += 1
            expect(openStructure(read.record).graph.order).toBeGreaterThan(50)
          } else {
            refused += 1
            for (const { line, what, mend } of read.complaints)
              expect([line > 0, what.length > 5, mend.length > 3]).toEqual([true, true, true])
          }
        },
      ),
      { numRuns: 400 },
    )
    expect(accepted).toBeGreaterThan(40)
    expect(refused).toBeGreaterThan(40)
  })
})
