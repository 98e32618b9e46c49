import { describe, expect, it } from 'vitest'
import { asking } from '../structure-fixture.ts'

const bars = (joint: string) => `parts:
  - { id: lead, class: bus-bar, each: { u: {}, v: {} }, net: x-* }
  - { id: foot, class: bus-bar, each: { u: {}, v: {} }, net: x-* }
  - { id: rail, class: bus-bar, net: x-u }
  - { id: box, class: assembly, each: { u: {}, v: {} }, parts: [ { id: tab, class: bus-bar, net: x-* } ] }
joints: [ { id: j, between: ${joint}, kind: weld } ]
nets: { x-*: {} }
`

describe('joints of parts that come in several pieces', () => {
  it.each<[string, Readonly<Record<string, readonly string[]>>]>([
    ['[rail, lead.u]', { 'joints/j': ['rail', 'lead.u'] }],
    ['[lead.*, foot.*]', { 'joints/j.u': ['lead.u', 'foot.u'], 'joints/j.v': ['lead.v', 'foot.v'] }],
    ['[rail, lead]', { 'joints/j.u': ['rail', 'lead.u'], 'joints/j.v': ['rail', 'lead.v'] }],
    ['[lead.*, rail]', { 'joints/j.u': ['lead.u', 'rail'], 'joints/j.v': ['lead.v', 'rail'] }],
    ['[box.v/tab, rail]', { 'joints/j': ['box.v/tab', 'rail'] }],
    ['["box.*/tab", lead.*]', { 'joints/j.u': ['box.u/tab', 'lead.u'], 'joints/j.v': ['box.v/tab', 'lead.v'] }],
  ])('%s', (joint, expected) => {
    const ask = asking(bars(joint))
    const ends = Object.entries(expected).map(([path, parts]) => [path, parts.map((part) => `parts/${part}`)])
    expect(ends.map(([path]) => [path, ask.paths({ ask: 'joined-by', joint: String(path) })])).toEqual(ends)
    for (const [path, parts] of ends)
      for (const part of parts as readonly string[]) expect(ask.paths({ ask: 'joints-of', part })).toContain(path)
  })

  it('which is joined to which is asked where both come in several', () => {
    expect(() => asking(bars('[lead, foot]'))).toThrow(/which is joined to which.*lead\.\* and foot\.\*/)
    const more = bars('[lead.*, foot.*]').replace(
      'id: lead, class: bus-bar, each: { u: {}',
      'id: lead, class: bus-bar, each: { w: {}',
    )
    expect(() => asking(more)).toThrow(/"foot" has no piece w/)
  })
})

describe('a star in what one piece names is its own name', () => {
  const ask = asking(`parts:
  - { id: bar, class: bus-bar, each: { u: {}, v: {} }, flat: z, net: x-*, run: { from: 0 / 0 / 0 mm, to: 9 / 0 / 0 mm } }
  - { id: back, class: bus-bar, each: { u: {}, v: {} }, net: y-*, run: { along: bar.* }, beside: { part: bar.*, side: +z, gap: 1 mm } }
  - { id: sensor, class: current-sensor, each: { u: {}, v: {} }, round: [bar.*] }
  - { id: ring, class: one-turn-core, round: [bar, back.v] }
  - { id: seal, class: o-ring, each: { u: {}, v: {} }, seals: { passages: [low.*] } }
coolant: { fluid: water, passages: [ { id: low, each: { u: {}, v: {} }, pipe: {} } ], sequence: [inlet, [low.u, low.v], outlet] }
nets: { x-*: {}, y-*: {} }
`)
  it.each([
    [{ ask: 'beside', part: 'parts/back.v' } as const, ['parts/bar.v', '+z']],
    [{ ask: 'run-points', part: 'parts/back.v' } as const, ['parts/bar.v/run/from', 'parts/bar.v/run/to']],
    [{ ask: 'flat-of', part: 'parts/back.u' } as const, ['z']],
    [{ ask: 'goes-round', part: 'parts/sensor.v' } as const, ['parts/bar.v']],
    [{ ask: 'goes-round', part: 'parts/sensor' } as const, ['parts/bar.u', 'parts/bar.v']],
    [{ ask: 'goes-round', part: 'parts/ring' } as const, ['parts/bar.u', 'parts/bar.v', 'parts/back.v']],
    [{ ask: 'sealed-by', part: 'parts/seal.u' } as const, ['coolant/low.u']],
    [{ ask: 'sealed-by', part: 'parts/seal' } as const, ['coolant/low.u', 'coolant/low.v']],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })
})

describe('a bank and what is inside of it', () => {
  const bank = (own: string, inner: string) =>
    asking(`parts:
  - id: bank
    class: capacitor-bank
    terminals: { plus: p, minus: n }${own}
    parts: [ { id: can, class: dc-link-film-capacitor, count: 2, terminals: { plus: p, minus: n }${inner} } ]
  - { id: module, class: half-bridge-module, terminals: { dc-plus: p, dc-minus: n, ac: ph } }
nets: { p: { potential: hv-positive }, n: { potential: hv-negative }, ph: { potential: hv-switching } }
`)
  it.each([
    ['only the bank has a value', '\n    capacitance: 200 µF', '', ['parts/bank']],
    ['only what is inside has one', '', ', capacitance: 100 µF', ['parts/can.1', 'parts/can.2']],
    ['both have one', '\n    capacitance: 200 µF', ', capacitance: 100 µF', ['parts/bank']],
    ['neither has one', '', '', ['parts/can.1', 'parts/can.2']],
  ])('are counted once: %s', (_, own, inner, expected) => {
    expect(bank(own, inner).paths({ ask: 'link-capacitors' })).toEqual(expected)
    expect(bank(own, inner).paths({ ask: 'loop-capacitors', loop: 'loops/module' })).toEqual(expected)
  })
})
