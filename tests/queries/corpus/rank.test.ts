import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { DerivedFigure } from '../../../graph/store/derived.ts'
import type { Row } from '../../../queries/corpus/benchmark.ts'
import { derivedFigure } from '../../../queries/corpus/materialise.ts'
import { differenceUncertainty, parts, probabilityAbove, rankRows } from '../../../queries/corpus/rank.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { sheetSession } from '../demo-session.ts'

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

describe('how likely one is above the other', () => {
  const unit = (id: string, instrument: string, mass: string) =>
    derivedFigure(
      sheetSession(`lidoff: 1
id: ${id}
title: Unit
specimen: { kind: traction-inverter, mass: ${mass} (measured; with scale) }
instruments: { scale: { kind: balance, serial: "${instrument}", uncertainty: ± 2 % } }
operating-points: { peak: { power: { value: 100 kW, basis: published } } }
`)
        .over([EXACT_POWER])
        .evaluate(figureById('SPECIFIC_POWER'), asPath('specimen')),
      'default',
    )
  const EXACT_POWER = {
    set: asPath('operating-points/peak/power'),
    to: { value: 1e5, terms: [], basis: 'published', claim: 'test', text: '100 kW', defaulted: false, restsOn: [] },
  } as const

  it('a pair on one balance ranks with another probability than the same pair on two', () => {
    const [light, heavy] = ['10 ± 0.1 kg', '10.2 ± 0.1 kg']
    const [a, b, c] = [unit('a', '1', light!), unit('b', '1', heavy!), unit('c', '2', heavy!)]
    expect([a!.value, b!.value]).toEqual([c!.value! && a!.value, c!.value])
    // By hand: own ± 1 % and ± 0.98 %, scale ± 2 %, all as limits. On one balance the scale leaves 2 % of the difference
    // (0.196 kW/kg); on two it counts twice.
    const own = Math.hypot(10 * 0.01, 9.804 * 0.0098) / Math.sqrt(3)
    const scale = Math.hypot(10 * 0.02, 9.804 * 0.02) / Math.sqrt(3)
    const phi = (z: number): number => 1 - Math.exp(-0.717 * z - 0.416 * z * z) / 2 // good to 0.003, from memory
    expect(probabilityAbove(a!, b!)).toBeCloseTo(phi(0.196 / own), 1)
    expect(probabilityAbove(a!, c!)).toBeCloseTo(phi(0.196 / Math.hypot(own, scale)), 1)
    expect(probabilityAbove(a!, b!) - probabilityAbove(a!, c!)).toBeGreaterThan(0.05)
    expect(probabilityAbove(a!, c!) + probabilityAbove(c!, a!)).toBeCloseTo(1, 6)
  })

  it('what stands at the same path of two records is not one cause', () => {
    const [a, b] = [unit('a', '1', '10 ± 0.1 kg'), unit('b', '1', '10 ± 0.1 kg')]
    expect(differenceUncertainty(a!, b!) / ((Math.SQRT2 * 0.1) / Math.sqrt(3))).toBeCloseTo(1, 2)
    expect(probabilityAbove(a!, b!)).toBeCloseTo(0.5, 8)
  })

  it('a row says how likely it is better than the next, the last one nothing', () => {
    const rows = [row('a', figure(10, { x: 1 })), row('b', figure(9, { y: 1 }))]
    // Φ(1/√2) = 0.76025 (tables of the normal distribution).
    expect(rankRows(rows, 'M', 'DESC').map((one) => one.probabilityAboveNext)).toEqual([
      expect.closeTo(0.76025, 4),
      null,
    ])
    expect(rankRows(rows, 'M', 'ASC').map((one) => one.probabilityAboveNext)).toEqual([
      expect.closeTo(0.76025, 4),
      null,
    ])
  })
})
