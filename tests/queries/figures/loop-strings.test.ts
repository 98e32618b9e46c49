import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import type { Bar } from '../../../queries/physics/bar.ts'
import { mutual } from '../../../queries/physics/bar-inductance.ts'
import { figure, sessionOf } from '../../fixtures/drive.ts'

/** Three bars one above the other: plus, middle, minus [mm]. */
const LEVEL = { plus: 0, middle: 6, minus: 12 }
const SECTION = 'width: 24 mm, thickness: 2 mm'
const BRIDGE = 190
const ESL = { high: 12e-9, low: 17e-9 }
const INSIDE = 8e-9

const bar = (net: keyof typeof LEVEL, length = 220) =>
  `  - { id: bar-${net}, class: bus-bar, net: ${net}, flat: z, run: { from: 0 / 0 / ${LEVEL[net]} mm, to: ${length} / 0 / ${LEVEL[net]} mm, ${SECTION} } }`
const BARS = [bar('plus'), bar('middle'), bar('minus')]

const can = (half: 'high' | 'low', x: number) => {
  const [plus, minus] = half === 'high' ? (['plus', 'middle'] as const) : (['middle', 'minus'] as const)
  return `  - { id: ${half}-${x}, class: dc-link-film-capacitor, inductance: ${ESL[half] * 1e9} nH, capacitance: 100 µF, at: ${x} / 0 / 0 mm, terminals: { plus: { net: ${plus}, at: 0 / 0 / ${LEVEL[plus]} mm }, minus: { net: ${minus}, at: 0 / 0 / ${LEVEL[minus]} mm } } }`
}

const unit = (parts: readonly string[]) =>
  sessionOf(`lidoff: 1
id: split-link
title: Capacitors in series
basis: judged
specimen: { kind: traction-inverter, dc-voltage: { max: 800 V } }
nets: { plus: { potential: hv-positive }, middle: { potential: hv-middle }, minus: { potential: hv-negative }, aside: { potential: floating }, phase: { potential: hv-switching } }
parts:
${parts.join('\n')}
  - { id: module, class: half-bridge-module, inductance: 8 nH, at: ${BRIDGE} / 0 / 0 mm, terminals: { dc-plus: { net: plus, at: 0 / 0 / ${LEVEL.plus} mm }, dc-minus: { net: minus, at: 0 / 0 / ${LEVEL.minus} mm }, ac: phase } }`)

/** +1 in a stretch that a current passes towards larger x on its way from one place to another, −1 the other way. */
const passes = (from: number, to: number, [a, b]: readonly [number, number]): number =>
  from <= a && b <= to ? 1 : to <= a && b <= from ? -1 : 0

/**
 * Energy matrix of the currents of all cans, written out: each gives its current to the bars at its place. The middle
 * bar is told in currents to and from its end, which cancel when both halves carry the same.
 */
function energy(high: readonly number[], low: readonly number[]): readonly (readonly number[])[] {
  const places = [...new Set([0, ...high, ...low, BRIDGE])].toSorted((a, b) => a - b)
  const pieces = (Object.keys(LEVEL) as (keyof typeof LEVEL)[]).flatMap((net) =>
    places.slice(1).map((to, at) => {
      const span = [places[at]!, to] as const
      const metal: Bar = {
        start: [span[0] / 1e3, 0, LEVEL[net] / 1e3],
        end: [span[1] / 1e3, 0, LEVEL[net] / 1e3],
        width: 0.024,
        thickness: 0.002,
        flat: [0, 0, 1],
      }
      const ofHigh = high.map((x) =>
        net === 'plus' ? passes(x, BRIDGE, span) : net === 'middle' ? passes(0, x, span) : 0,
      )
      const ofLow = low.map((x) =>
        net === 'minus' ? passes(BRIDGE, x, span) : net === 'middle' ? passes(x, 0, span) : 0,
      )
      return { metal, shares: [...ofHigh, ...ofLow] }
    }),
  )
  const own = [...high.map(() => ESL.high), ...low.map(() => ESL.low)]
  return own.map((one, i) =>
    own.map((_, j) =>
      pieces.reduce(
        (sum, a) => sum + pieces.reduce((part, b) => part + a.shares[i]! * b.shares[j]! * mutual(a.metal, b.metal), 0),
        i === j ? one : 0,
      ),
    ),
  )
}

const loopOf = (parts: readonly string[]) => figure(unit(parts), 'LOOP_INDUCTANCE', 'loops/module')

describe('capacitors in series over a middle bar', () => {
  it('one string: the bars and cans in one circle, by the mutual inductances of its stretches', () => {
    const [[aa, ab], [, bb]] = energy([20], [70]) as [[number, number], [number, number]]
    const result = loopOf([...BARS, can('high', 20), can('low', 70)])
    expect(Math.abs((result.atTaken! * 1e-9) / (aa + 2 * ab + bb + INSIDE) - 1)).toBeLessThan(1e-9)
  })

  it('two strings on one middle bar: currents of least energy', () => {
    const e = energy([20, 140], [70, 160])
    // i = (p, 1 − p, q, 1 − q): the energy is least where its derivatives by p and q are zero.
    const form = (a: readonly number[], b: readonly number[]): number =>
      a.reduce((sum, x, i) => sum + b.reduce((part, y, j) => part + x * y * e[i]![j]!, 0), 0)
    const [base, p, q] = [
      [0, 1, 0, 1],
      [1, -1, 0, 0],
      [0, 0, 1, -1],
    ] as const
    const [pp, pq, qq, bp, bq] = [form(p, p), form(p, q), form(q, q), form(base, p), form(base, q)]
    const determinant = pp * qq - pq ** 2
    const [x, y] = [(-bp * qq + bq * pq) / determinant, (-bq * pp + bp * pq) / determinant]
    const current = base.map((one, i) => one + x * p[i]! + y * q[i]!)
    const parts = [...BARS, can('high', 20), can('high', 140), can('low', 70), can('low', 160)]
    expect(Math.abs((loopOf(parts).atTaken! * 1e-9) / (form(current, current) + INSIDE) - 1)).toBeLessThan(1e-9)
    const inCans = current.reduce((sum, i, at) => sum + i ** 2 * (at < 2 ? ESL.high : ESL.low), 0)
    const part = figure(unit(parts), 'LOOP_INDUCTANCE_CAPACITORS', 'loops/module').atTaken! * 1e-9
    expect(Math.abs(part / inCans - 1)).toBeLessThan(1e-9)
    // The order in which they stand on the sheet picks other capacitors to join, and must not matter.
    const turned = loopOf([...BARS, can('low', 160), can('high', 140), can('low', 70), can('high', 20)])
    expect(Math.abs(turned.atTaken! / loopOf(parts).atTaken! - 1)).toBeLessThan(1e-9)
  })

  it('a can across both rails beside them takes its part of the current', () => {
    const across = `  - { id: whole, class: dc-link-film-capacitor, inductance: 12 nH, capacitance: 100 µF, at: 170 / 0 / 0 mm, terminals: { plus: { net: plus, at: 0 / 0 / 0 mm }, minus: { net: minus, at: 0 / 0 / 12 mm } } }`
    const strings = [...BARS, can('high', 20), can('low', 70)]
    const both = loopOf([...strings, across]).atTaken!
    expect(both).toBeLessThan(loopOf([...BARS, across]).atTaken!)
    expect(both).toBeLessThan(loopOf(strings).atTaken!)
  })

  it('half a string leads nowhere', () => {
    expect(loopOf([...BARS, can('high', 20)]).status).not.toBe('OK')
    const whole = loopOf([...BARS, can('high', 20), can('low', 70)]).atTaken!
    const loose = can('high', 100).replace('minus: { net: middle', 'minus: { net: aside')
    expect(loopOf([...BARS, can('high', 20), can('low', 70), loose]).atTaken).toBe(whole)
  })

  it('asks for the metal of the middle net where none is on record', () => {
    const result = loopOf([bar('plus'), bar('minus'), can('high', 20), can('low', 70)])
    expect(result.status).toBe('MISSING')
    expect(result.missing.map(describeLack).join()).toContain('in series over nets/middle')
  })
})
