import { describe, expect, it } from 'vitest'
import { asking } from '../structure-fixture.ts'

/** Three modules of two switches of three dies each, one module and one can missing; faces with pieces. */
const ask = asking(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {}, w: { state: missing } }
    faces: { lower: {}, upper: {} }
    parts:
      - id: switch
        class: switch-position
        each: { high: {}, low: {} }
        parts:
          - { id: igbt, class: power-die, per: die, count: { built: 3 (judged), found: 2 (measured), because: one was cut out } }
          - { id: sensor, class: temperature-sensor }
  - { id: can, class: dc-link-film-capacitor, count: { built: 4 (judged), found: 3 (measured), because: four pads } }
  - { id: y, class: y-capacitor, each: { a: {}, b: { state: missing }, c: { state: cut } } }
  - { id: fan, class: fan, count: { built: 1 (judged), found: 0 (measured), because: wires end in the air } }
  - { id: cooler, class: cold-plate, faces: { seat: { each: { u: {}, v: {} } }, deck: {} } }
  - { id: screw, class: screw, count: 8 }
census:
  - { of: inductor, found: none, basis: measured }
  - { of: magnetic, in: cooler, found: none, basis: measured }
`)

describe('pieces as built and as found', () => {
  it('nested counts multiply', () => {
    // 3 modules · 2 switches · 3 dies.
    const dies = ask.paths({ ask: 'pieces', of: 'parts/module/switch/igbt' })
    expect(dies).toHaveLength(18)
    expect(dies[0]).toBe('parts/module.u/switch.high/igbt.1')
    expect(dies.at(-1)).toBe('parts/module.w/switch.low/igbt.3')
    expect(ask.paths({ ask: 'pieces', of: 'parts/module/switch/sensor' })).toHaveLength(6)
  })

  it('what is missing takes along what is inside of it, and each lot has as many as were found', () => {
    // 2 modules that were there · 2 switches · 2 dies found.
    expect(ask.paths({ ask: 'pieces', of: 'parts/module/switch/igbt' }, 'FOUND')).toHaveLength(8)
    expect(ask.paths({ ask: 'pieces', of: 'parts/module/switch' }, 'FOUND')).toEqual([
      'parts/module.u/switch.high',
      'parts/module.u/switch.low',
      'parts/module.v/switch.high',
      'parts/module.v/switch.low',
    ])
  })

  it.each([
    ['parts/can', ['parts/can.1', 'parts/can.2', 'parts/can.3']],
    ['parts/y', ['parts/y.a', 'parts/y.c']],
    ['parts/fan', []],
    ['parts/cooler', ['parts/cooler']],
  ])('%s as found', (of, expected) => {
    expect(ask.paths({ ask: 'pieces', of }, 'FOUND')).toEqual(expected)
  })

  it('a cut piece is there, though its terminals connect nothing', () => {
    const wired = asking(`parts:
  - { id: y, class: y-capacitor, each: { a: {}, b: { state: missing }, c: { state: cut } }, terminals: { 1: p, 2: g } }
nets: { p: { potential: hv-positive }, g: { potential: chassis } }
`)
    expect(wired.paths({ ask: 'on-net', net: 'nets/p' })).toEqual(['parts/y.a', 'parts/y.b', 'parts/y.c'])
    expect(wired.paths({ ask: 'on-net', net: 'nets/p' }, 'FOUND')).toEqual(['parts/y.a'])
    expect(wired.paths({ ask: 'pieces', of: 'parts/y' }, 'FOUND')).toEqual(['parts/y.a', 'parts/y.c'])
  })
})

describe('what is inside what', () => {
  it.each([
    [{ ask: 'top-parts' } as const, ['module', 'can', 'y', 'fan', 'cooler', 'screw'].map((id) => `parts/${id}`)],
    [{ ask: 'entries-inside', part: 'parts/module' } as const, ['parts/module/switch']],
    [{ ask: 'parent', part: 'parts/module/switch/igbt' } as const, ['parts/module/switch']],
    [{ ask: 'parent', part: 'parts/can' } as const, []],
    [{ ask: 'holder', piece: 'parts/module.v/switch.low/igbt.2' } as const, ['parts/module.v/switch.low']],
    [{ ask: 'inside', part: 'parts/module.v' } as const, ['parts/module.v/switch.high', 'parts/module.v/switch.low']],
    [
      { ask: 'dies-within', piece: 'parts/module.v/switch.low' } as const,
      [1, 2, 3].map((n) => `parts/module.v/switch.low/igbt.${n}`),
    ],
    [{ ask: 'values-for', part: 'parts/module/switch/igbt' } as const, ['die']],
    [{ ask: 'values-for', part: 'parts/can' } as const, []],
    [{ ask: 'faces', part: 'parts/module.v' } as const, ['parts/module.v/lower', 'parts/module.v/upper']],
    [
      { ask: 'faces', part: 'parts/cooler' } as const,
      ['parts/cooler/seat.u', 'parts/cooler/seat.v', 'parts/cooler/deck'],
    ],
    [{ ask: 'piece-of', node: 'parts/cooler/seat.v' } as const, ['parts/cooler']],
    [{ ask: 'piece-of', node: 'parts/module.w/lower' } as const, ['parts/module.w']],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })

  it('the dies within a module are those of both switches', () => {
    expect(ask.paths({ ask: 'dies-within', piece: 'parts/module.u' })).toHaveLength(6)
    expect(ask.paths({ ask: 'dies-within', piece: 'parts/module.u' }, 'FOUND')).toHaveLength(4)
    expect(ask.paths({ ask: 'dies-within', piece: 'parts/can.1' })).toEqual([])
  })

  it('parts are found by class, by group, and inside an assembly', () => {
    expect(ask.paths({ ask: 'parts', class: 'capacitor' })).toEqual(['parts/can', 'parts/y'])
    expect(ask.paths({ ask: 'parts', class: 'power-die', in: 'parts/module' })).toEqual(['parts/module/switch/igbt'])
    expect(ask.paths({ ask: 'parts', class: 'power-die', in: 'parts/cooler' })).toEqual([])
    expect(ask.paths({ ask: 'parts' })).toHaveLength(9)
  })

  it('leaves hold nothing, and screws are none', () => {
    expect(ask.paths({ ask: 'leaf-parts' })).toEqual([
      'parts/module/switch/igbt',
      'parts/module/switch/sensor',
      'parts/can',
      'parts/y',
      'parts/fan',
      'parts/cooler',
    ])
  })
})

describe('a search that finds nothing', () => {
  it.each([
    ['of a class nobody looked for', { ask: 'parts', class: 'bleed-resistor' } as const, 'open'],
    ['of a class that was looked for', { ask: 'parts', class: 'inductor' } as const, 'complete'],
    ['of a group of which one class was looked for', { ask: 'parts', class: 'magnetic' } as const, 'open'],
    [
      'in the part where it was looked for',
      { ask: 'parts', class: 'magnetic', in: 'parts/cooler' } as const,
      'complete',
    ],
    ['of a class of the group, there', { ask: 'parts', class: 'ring-core', in: 'parts/cooler' } as const, 'complete'],
    ['elsewhere', { ask: 'parts', class: 'transformer', in: 'parts/module' } as const, 'open'],
  ])('%s', (_, question, census) => {
    expect(ask(question)).toMatchObject({ paths: [], census })
  })
})
