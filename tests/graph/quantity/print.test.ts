import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DIMENSIONS, type Dimension, fieldOf } from '../../../graph/quantity/dimension.ts'
import { uncertaintyOf } from '../../../graph/quantity/own.ts'
import { type Printable, printQuantity, roundToUncertainty, writeQuantity } from '../../../graph/quantity/print.ts'
import type { Own } from '../../../graph/quantity/reading.ts'
import { unitOf } from '../../../graph/quantity/units.ts'
import { scalarOf, uOf } from './reading-of.ts'

describe('roundToUncertainty', () => {
  // JCGM 100:2008 7.2.6: 10.05762 Ω with u = 27 mΩ is rounded to 10.058 Ω; 7.2.2: 100.02147(35) g.
  it.each([
    [10.05762, 0.027, '10.058', '0.027', '10.058(27)'],
    [100.02147, 0.00035, '100.02147', '0.00035', '100.02147(35)'],
    [12345, 1234, '12300', '1200', '12300(1200)'],
    [0.0996, 0.0996, '0.10', '0.10', '0.10(10)'],
    [-3.25159, 0.0123, '-3.252', '0.012', '-3.252(12)'],
    [5, 0, '5', '0', '5'],
  ] as const)('%d with %d', (value, u, text, uText, concise) => {
    expect(roundToUncertainty(value, u)).toEqual({ value: text, u: uText, concise })
  })
})

describe('printQuantity', () => {
  it.each([
    ['12.4 ± 0.2 mm', 'mm', '12.4 ± 0.2 mm'],
    ['12.4(2) mm', 'mm', '12.40 ± 0.20 mm (k=1)'],
    ['480 µF ± 10 %', 'µF', '480 µF ± 10 %'],
    ['470 µF -10/+30 %', 'µF', '470 µF -10/+30 %'],
    ['12.4 +0.1/-0.2 mm', 'mm', '12.4 -0.2/+0.1 mm'],
    ['8..10 L/min', 'L/min', '8..10 L/min'],
    ['< 15 nH', 'nH', '< 15 nH'],
    ['≈ 15 nH (judged; likely)', 'nH', '≈ 15 nH (judged; likely)'],
    ['65 ± 2 °C', '°C', '65 ± 2 °C'],
    ['516 A peak', 'A', '516 A peak'],
    ['5 mil', 'mil', '5 mil (= 127.0 µm)'],
    ['10 AWG', 'AWG', '2.58818672801 mm'],
    ['12.4 ± 0.2 mm (triangular)', 'mm', '12.4 ± 0.2 mm (triangular)'],
    ['50 % ± 5 %', '%', '50 ± 5 %'],
    ['0.80 ± 10 %', '1', '0.80 ± 0.08'],
    ['12.4 mm (measured; with caliper; rests on f-1)', 'mm', '12.4 mm (measured; with caliper; rests on f-1)'],
  ])('%s', (text, unit, printed) => expect(printQuantity(scalarOf(text), unitOf(unit))).toBe(printed))

  it('writes a standard uncertainty in brackets when asked', () => {
    expect(printQuantity(scalarOf('10.05762 ± 0.027 Ω (k=1)'), unitOf('Ω'), { form: 'concise' })).toBe('10.058(27) Ω')
    expect(printQuantity(scalarOf('12.41, 12.38, 12.44 mm'), unitOf('mm'), { form: 'concise' })).toBe(
      '12.410(17) mm (n=3)',
    )
  })
})

const dimensions: readonly Dimension[] = DIMENSIONS.filter(
  (one) => !['count', 'pixels', 'temperature', 'fraction', 'one'].includes(one),
)
const magnitude = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -12, max: 9 }), fc.boolean())
const value = magnitude.map(([mantissa, power, negative]) => (negative ? -1 : 1) * Number(`${mantissa}e${power}`))
const width = fc.double({ min: 1e-6, max: 0.9, noNaN: true })

const own: fc.Arbitrary<Own> = fc.oneof(
  fc
    .tuple(width, width)
    .map(([low, high]): Own => ({ mode: 'scale', shape: { kind: 'rectangular', low: -low, high }, why: 'limits' })),
  width.map((half): Own => ({ mode: 'scale', shape: { kind: 'triangular', low: -half, high: half }, why: 'limits' })),
  width.map((u): Own => ({ mode: 'scale', shape: { kind: 'normal', u }, why: 'standard' })),
  fc
    .tuple(width, fc.integer({ min: 1, max: 30 }))
    .map(([u, dof]): Own => ({ mode: 'scale', shape: { kind: 'student', u, dof }, why: 'standard' })),
)

/** Half of them as absolute deviations of the same size. */
const printable = fc.tuple(value, own, fc.boolean()).map(([taken, one, absolute]): Printable => {
  if (!absolute) return { value: taken, own: one }
  const size = Math.abs(taken)
  const { shape } = one
  const scaled =
    'u' in shape ? { ...shape, u: shape.u * size } : { ...shape, low: shape.low * size, high: shape.high * size }
  return { value: taken, own: { ...one, mode: 'add', shape: scaled } }
})

describe('what is printed parses back', () => {
  it('every digit: the same value, the same deviation', () => {
    fc.assert(
      fc.property(fc.constantFrom(...dimensions), printable, (dimension, quantity) => {
        const text = writeQuantity(quantity, fieldOf(dimension).print, dimension)
        const back = scalarOf(text, { dimension })
        expect(back.value, text).toBe(quantity.value)
        expect(back.own?.shape.kind, text).toBe(quantity.own?.shape.kind)
        expect(Math.abs((uOf(back) ?? 0) / (uncertaintyOf(quantity) ?? 0) - 1), text).toBeLessThan(1e-12)
      }),
      { numRuns: 500 },
    )
  })

  it('rounded: within half of the last digit that the uncertainty lets stand', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...dimensions),
        printable,
        fc.constantFrom('plain' as const, 'concise' as const),
        (dimension, quantity, form) => {
          const text = printQuantity(quantity, fieldOf(dimension).print, { form })
          const back = scalarOf(text, { dimension })
          const u = uncertaintyOf(quantity) ?? 0
          // Half of the second digit of 1.0 is 5 % of it, and the u of limits on one side is 1/√12 of their width.
          expect(Math.abs(back.value - quantity.value), text).toBeLessThanOrEqual(0.05 * Math.sqrt(12) * 1.001 * u)
          expect(Math.abs((uOf(back) ?? 0) / u - 1), text).toBeLessThan(0.06)
        },
      ),
      { numRuns: 500 },
    )
  })

  it('temperatures, with the tolerance never offset', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 150, max: 700, noNaN: true }),
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        (kelvin, half) => {
          const quantity: Printable = {
            value: kelvin,
            own: { mode: 'add', shape: { kind: 'rectangular', low: -half, high: half }, why: 'limits' },
          }
          const exact = scalarOf(writeQuantity(quantity, unitOf('°C'), 'temperature'), { dimension: 'temperature' })
          const rounded = scalarOf(printQuantity(quantity, unitOf('°C')), { dimension: 'temperature' })
          expect(exact.value).toBe(kelvin)
          expect(Math.abs(rounded.value - kelvin)).toBeLessThanOrEqual(0.06 * half + 1e-9)
        },
      ),
    )
  })

  it('shares and pure numbers, whose % are not taken for points', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('fraction' as const, 'one' as const),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        own,
        (dimension, taken, one) => {
          const quantity: Printable = { value: taken, own: one }
          const back = scalarOf(writeQuantity(quantity, fieldOf(dimension).print, dimension), { dimension })
          expect(back.value).toBe(taken)
          expect(Math.abs((uOf(back) ?? 0) / (uncertaintyOf(quantity) ?? 0) - 1)).toBeLessThan(1e-12)
        },
      ),
    )
  })
})
