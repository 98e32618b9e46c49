import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { DerivedFigure } from '../../../graph/store/derived.ts'
import type { Row } from '../../../queries/corpus/benchmark.ts'
import { differenceUncertainty, parts, rankRows } from '../../../queries/corpus/rank.ts'

const figure = (value: number, components: Record<string, number>): DerivedFigure => ({
  metric: 'M',
  subject: asPath('specimen'),
  conditions: 'default',
  status: 'OK',
  unit: 'kW/L',
  value,
  atTaken: value,
  uncertainty: null,
  low: null,
  high: null,
  how: 'first-order',
  basis: 'measured',
  reason: null,
  components,
  body: '',
})

const row = (id: string, one: DerivedFigure): Row => ({
  unit: { id, title: id, revision: 1, kind: 'x', traits: {}, figures: [one] },
  subject: 'specimen',
  figures: [one],
  rank: null,
  tiedWith: [],
  probabilityAboveNext: null,
})

/** Every pair compared, as the words say it. */
function naive(rows: readonly Row[]): ReadonlyMap<string, { rank: number; tied: number }> {
  return new Map(
    rows.map((one) => {
      const own = one.figures[0]!
      const others = rows.filter((other) => other !== one)
      const better = others.filter((other) => parts(own, other.figures[0]!) && other.figures[0]!.value! > own.value!)
      const tied = others.filter((other) => !parts(own, other.figures[0]!))
      return [one.unit.id, { rank: better.length + 1, tied: tied.length }]
    }),
  )
}

describe('ranks that respect intervals', () => {
  it('units that the uncertainty of their difference does not part share a rank', () => {
    const ranked = rankRows(
      [row('a', figure(10, { x: 1 })), row('b', figure(9, { y: 1 })), row('c', figure(2, { z: 1 }))],
      'M',
      'DESC',
    )
    expect(ranked.map(({ rank }) => rank)).toEqual([1, 1, 3])
    expect(ranked[0]!.tiedWith).toEqual(['b specimen'])
  })

  it('a cause that both share cancels, and parts what two causes would not', () => {
    // JCGM 100:2008 5.2.2: u(a − b) = 0 for one shared cause, √2·u for two of their own.
    const shared = [figure(10, { balance: 1 }), figure(9, { balance: 1 })] as const
    const own = [figure(10, { one: 1 }), figure(9, { two: 1 })] as const
    expect(differenceUncertainty(...shared)).toBe(0)
    expect(differenceUncertainty(...own)).toBeCloseTo(Math.SQRT2, 12)
    expect([parts(...shared), parts(...own)]).toEqual([true, false])
  })

  it('agrees with comparing every pair', () => {
    const one = fc.record({
      value: fc.double({ min: 0, max: 20, noNaN: true }),
      own: fc.double({ min: 0, max: 3, noNaN: true }),
      shared: fc.double({ min: -2, max: 2, noNaN: true }),
    })
    fc.assert(
      fc.property(fc.array(one, { maxLength: 30 }), (drawn) => {
        const rows = drawn.map(({ value, own, shared }, at) =>
          row(`u${at}`, figure(value, { [`own${at}`]: own, shared })),
        )
        const expected = naive(rows)
        for (const { unit, rank, tiedWith } of rankRows(rows, 'M', 'DESC')) {
          expect({ rank, tied: tiedWith.length }).toEqual(expected.get(unit.id))
        }
      }),
    )
  })
})
