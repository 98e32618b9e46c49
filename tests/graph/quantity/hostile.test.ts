import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DIMENSIONS } from '../../../graph/quantity/dimension.ts'
import { parseQuantity } from '../../../graph/quantity/parse.ts'
import { parseTolerance } from '../../../graph/quantity/parse-tolerance.ts'

const pieces = [
  '12.4',
  '±',
  '0.2',
  'mm',
  'µF',
  '%',
  '(',
  ')',
  ',',
  ';',
  '..',
  ' x ',
  ' / ',
  '-',
  '+',
  'k=2',
  'n=3',
  'measured',
  'from',
  '°C',
  'A rms',
  '<',
  '≈',
  '10⁻³',
  'px',
  'W/mK',
  '[gal_us]',
  '{',
  '}',
  '3/8',
  'AWG',
  ' ',
  '1,500',
  '½',
  '１',
  'at',
  '= ',
  'oz',
]

describe('any text', () => {
  it('is read or refused with a place and a mend, and never throws', () => {
    const text = fc.oneof(
      fc.string(),
      fc.string({ unit: 'grapheme' }),
      fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join('')),
    )
    fc.assert(
      fc.property(text, fc.option(fc.constantFrom(...DIMENSIONS), { nil: undefined }), (typed, dimension) => {
        const read = parseQuantity(typed, dimension ? { dimension } : {})
        parseTolerance(typed)
        if (read.ok) {
          if (read.form === 'scalar') expect(Number.isFinite(read.value)).toBe(true)
          return
        }
        for (const { at, what, mend } of read.complaints) {
          expect(at).toBeGreaterThanOrEqual(0)
          expect(at).toBeLessThanOrEqual(typed.length)
          expect(what.length * mend.length).toBeGreaterThan(0)
        }
      }),
      { numRuns: 2000 },
    )
  })

  it.each([
    '1',
    '1 ',
    '1,',
    '(',
    ' ',
    '±',
    '1x',
    '1/',
    'm',
    'm/',
    '1 m ',
    '-',
    '1..',
    ';',
    '(a',
    '1(',
    '½',
    'px ',
    'measured ',
    '1 000 ',
    'W/m·K ',
  ])('made of "%s" to the longest length is read or refused', (piece) => {
    const text = `5 ${piece.repeat(2000)}`
    const read = parseQuantity(text.slice(0, 2000))
    expect(read.ok || read.complaints.length > 0).toBe(true)
    expect(parseQuantity(text.padEnd(2001)).ok).toBe(false)
  })
})
