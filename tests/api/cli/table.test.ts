import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rendered } from '../../../api/cli/emphasis.ts'
import { table, wrap } from '../../../api/cli/table.ts'

const plainTable = (...args: Parameters<typeof table<readonly string[]>>): string => rendered(table(...args), false)

describe('table', () => {
  it('lines numbers up on the decimal point, units in the head', () => {
    const rows = [
      ['a', '8.90'],
      ['b', '518'],
      ['c', '0.470'],
      ['d', ''],
      ['e', '-12.5'],
    ]
    const columns = [
      { head: 'unit', cell: (row: readonly string[]) => row[0]! },
      { head: 'value [kW/L]', cell: (row: readonly string[]) => row[1]!, align: 'point' as const },
    ]
    const lines = plainTable(columns, rows, 80).split('\n')
    const points = [1, 3, 5].map((at) => lines[at]!.indexOf('.'))
    expect(new Set(points).size).toBe(1)
    expect(lines[2]!.indexOf('518') + 3).toBe(points[0])
    expect(lines[0]).toBe('unit  value [kW/L]')
  })

  it.each([40, 80, 120])('fits a terminal of %i columns as long as there is something to fold', (width) => {
    const rows = Array.from({ length: 9 }, (_, at) => [
      `parts/module.v/switch.high/igbt.${at}`,
      'a reason that is rather long '.repeat(6),
    ])
    const columns = [
      { head: 'path', cell: (row: readonly string[]) => row[0]!, wraps: true },
      { head: 'why', cell: (row: readonly string[]) => row[1]!, wraps: true },
    ]
    for (const line of plainTable(columns, rows, width).split('\n')) expect(line.length).toBeLessThanOrEqual(width)
  })

  it('shows control characters of a cell instead of sending them', () => {
    const text = plainTable(
      [{ head: 'title', cell: ([cell = '']) => cell }],
      [['\u001b]0;owned\u0007\nnext \u202eturned']],
      80,
    )
    for (const character of ['\u001b', '\u0007', '\u202e']) expect(text).not.toContain(character)
    expect(text).toContain('\\u{1b}]0;owned\\u{7} next \\u{202e}turned')
  })
})

describe('wrap', () => {
  it('loses nothing and keeps to the width, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), fc.integer({ min: 1, max: 40 }), (text, width) => {
        const lines = wrap(text, width)
        expect(lines.every((line) => line.length <= width)).toBe(true)
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''))
      }),
    )
  })

  it('ends even where there is no room at all', () => {
    expect(wrap('abc', 0)).toEqual(['a', 'b', 'c'])
  })
})
