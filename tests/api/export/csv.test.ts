import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvLine, neutralised, restored } from '../../../api/export/csv.ts'

// OWASP cheat sheet on CSV injection (from memory): cells beginning with = + - @ tab or carriage return, and the
// full-width forms of the signs, may be run by a spreadsheet.
const DANGEROUS = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']

describe('csv cells', () => {
  it.each(DANGEROUS)('%j at the start of a text is neutralised', (sign) => {
    expect(neutralised(`${sign}cmd|' /C calc'!A0`).startsWith("'")).toBe(true)
    expect(neutralised(`a${sign}b`)).toBe(`a${sign}b`)
  })

  it('leaves numbers alone, negative ones too', () => {
    expect(csvLine(['id', -12.5, 3e-9, null, '-12.5'])).toBe("id,-12.5,3e-9,,'-12.5\r\n")
  })

  it('gives every text back', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.tuple(fc.constantFrom(...DANGEROUS, "'", "''"), fc.string()).map((pair) => pair.join('')),
    )
    fc.assert(fc.property(text, (written) => restored(neutralised(written)) === written))
  })

  it('lets no text begin like a formula', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(neutralised(text)).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/)
      }),
    )
  })

  // RFC 4180: separators, quotes and line ends are kept by quoting, quotes doubled, lines end in CR LF.
  it.each([
    ['a,b', '"a,b"'],
    ['say "x"', '"say ""x"""'],
    ['two\nlines', '"two\nlines"'],
  ])('quotes %j', (cell, quoted) => {
    expect(csvLine([cell])).toBe(`${quoted}\r\n`)
  })
})
