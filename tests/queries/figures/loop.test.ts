import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { openSession, type Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import type { Bar } from '../../../queries/physics/bar.ts'
import { mutual } from '../../../queries/physics/bar-inductance.ts'

const CAPS = [20, 80, 140]
const MODULES = { u: 110, v: 200 }
const ESL = 12e-9
const INSIDE = 8e-9

const section = 'width: 24 mm, thickness: 2 mm'
const bar = (id: string, from: number, to: number) =>
  `  - { id: ${id}, class: bus-bar, net: plus, flat: z, run: { from: ${from} / 0 / 0 mm, to: ${to} / 0 / 0 mm, ${section} } }`
const PLUS_WHOLE = bar('bar-plus', 0, 220)
const PLUS_CUT = `${bar('bar-plus', 0, 60)}\n${bar('bar-plus-b', 60, 220)}`
const JOINT = 'joints:\n  - { between: [bar-plus, bar-plus-b], at: 60 / 0 / 0 mm, kind: weld }'

function sessionOf(plus: string, joints = '', gap = '1 mm'): Session {
  const text = `lidoff: 1
id: two-bars
title: Two bars, three capacitors, two half bridges
basis: judged
specimen: { kind: traction-inverter, dc-voltage: { max: 400 V } }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative }, phase-*: { potential: hv-switching } }
parts:
${plus}
  - { id: bar-minus, class: bus-bar, net: minus, flat: z, run: { from: 0 / 0 / 3 mm, to: 220 / 0 / 3 mm, ${section} }, beside: { part: bar-plus, side: +z, gap: ${gap} } }
  - id: cap
    class: dc-link-film-capacitor
    inductance: 12 nH
    capacitance: 100 µF
    each: [ ${CAPS.map((x) => `{ at: ${x} / 0 / 0 mm }`).join(', ')} ]
    terminals: { plus: { net: plus, at: 0 / 0 / 0 mm }, minus: { net: minus, at: 0 / 0 / 3 mm } }
  - id: module
    class: half-bridge-module
    inductance: 8 nH
    each: { u: { at: ${MODULES.u} / 0 / 0 mm }, v: { at: ${MODULES.v} / 0 / 0 mm } }
    terminals: { dc-plus: { net: plus, at: 0 / 0 / 0 mm }, dc-minus: { net: minus, at: 0 / 0 / 3 mm }, ac: phase-* }
${joints}`
  const read = readSheet(text, 'bars.yaml')
  if (!('record' in read)) throw new Error(read.complaints.map((one) => `${one.line}: ${one.what}`).join('\n'))
  return openSession(read.record)
}

const loop = (session: Session, piece: string) =>
  session.evaluate(figureById('LOOP_INDUCTANCE'), asPath(`loops/module.${piece}`))

/** The two stretches of bar between two places, go and return. */
const stretch = (from: number, to: number): readonly Bar[] =>
  [0, 3e-3].map((z) => ({
    start: [from / 1e3, 0, z],
    end: [to / 1e3, 0, z],
    width: 0.024,
    thickness: 0.002,
    flat: [0, 0, 1],
  }))

/** Go and return currents are opposite at every place, so a pair of stretches couples by M++ + M−− − M+− − M−+. */
const coupling = (a: readonly Bar[], b: readonly Bar[]): number =>
  mutual(a[0]!, b[0]!) + mutual(a[1]!, b[1]!) - mutual(a[0]!, b[1]!) - mutual(a[1]!, b[0]!)

/**
 * The same network written out by hand: with capacitor currents i (their sum is the one ampere of the half bridge), each
 * stretch carries what the capacitors on its far side give. The currents are those of least energy.
 */
function byHand(module: number): number {
  const places = [...CAPS, ...Object.values(MODULES)].toSorted((a, b) => a - b)
  const stretches = places.slice(1).map((to, at) => ({ from: places[at]!, to, bars: stretch(places[at]!, to) }))
  // Row k: current of stretch k per ampere of each capacitor, positive towards larger x.
  const incidence = stretches.map(({ from, to }) =>
    CAPS.map((x) => (x <= from && to <= module ? 1 : x >= to && from >= module ? -1 : 0)),
  )
  const energy = CAPS.map((_, i) =>
    CAPS.map((__, j) => {
      let sum = i === j ? ESL : 0
      stretches.forEach((a, k) => {
        stretches.forEach((b, l) => {
          sum += incidence[k]![i]! * incidence[l]![j]! * coupling(a.bars, b.bars)
        })
      })
      return sum
    }),
  )
  // Least i·E·i with Σi = 1: i = E⁻¹1 / (1·E⁻¹1), and the value is 1 / (1·E⁻¹1).
  return 1 / solved(energy, [1, 1, 1]).reduce((sum, one) => sum + one, 0)
}

/** Cramer's rule: three equations. */
function solved(m: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const det = (a: readonly (readonly number[])[]): number =>
    a[0]![0]! * (a[1]![1]! * a[2]![2]! - a[1]![2]! * a[2]![1]!) -
    a[0]![1]! * (a[1]![0]! * a[2]![2]! - a[1]![2]! * a[2]![0]!) +
    a[0]![2]! * (a[1]![0]! * a[2]![1]! - a[1]![1]! * a[2]![0]!)
  const whole = det(m)
  return [0, 1, 2].map(
    (column) => det(m.map((row, i) => row.map((one, j) => (j === column ? right[i]! : one)))) / whole,
  )
}

describe('loop inductance from taps and joints', () => {
  const whole = sessionOf(PLUS_WHOLE)

  it.each(['u', 'v'] as const)(
    'module %s: three capacitors, two half bridges, as in a matrix built by hand',
    (piece) => {
      const expected = byHand(MODULES[piece]) + INSIDE
      expect(Math.abs((loop(whole, piece).atTaken! * 1e-9) / expected - 1)).toBeLessThan(1e-9)
    },
  )

  it('a straight bar cut in two and joined is the same bar', () => {
    const cut = sessionOf(PLUS_CUT, JOINT)
    for (const piece of ['u', 'v']) {
      expect(Math.abs(loop(cut, piece).atTaken! / loop(whole, piece).atTaken! - 1)).toBeLessThan(1e-9)
    }
  })

  it('without the joint the loop is open, and says so', () => {
    const open = loop(sessionOf(PLUS_CUT), 'u')
    expect(open.status).toBe('MISSING')
    expect(open.warnings.join(' ')).toContain('joint')
  })

  // Common practice: the closer go and return lie, the lower the inductance of the loop.
  it('falls as the gap of the pair falls', () => {
    const gaps = ['8 mm', '4 mm', '2 mm', '1 mm', '0.5 mm', '0.2 mm']
    const values = gaps.map((gap) => loop(sessionOf(PLUS_WHOLE, '', gap), 'v').atTaken!)
    for (let at = 1; at < values.length; at++) expect(values[at]!).toBeLessThan(values[at - 1]!)
  })

  it('names what it lacks', () => {
    const text = loop(sessionOf(PLUS_WHOLE.replace('width: 24 mm, ', '')), 'u')
    expect(JSON.stringify(text.missing)).toContain('parts/bar-plus/run/width')
  })
})
