import { describe, expect, it } from 'vitest'
import { asking } from '../structure-fixture.ts'

/** Two modules of two switches with a die each, cooled on both sides; a choke on the case, a board in the air. */
const ask = asking(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    faces: { lower: {}, upper: {} }
    parts:
      - id: switch
        class: switch-position
        each: { high: {}, low: {} }
        parts: [ { id: igbt, class: power-die, loss: 50 W } ]
  - { id: substrate, class: ceramic-substrate }
  - { id: film, class: thermal-interface, each: { u: {}, v: {} } }
  - { id: cooler, class: cold-plate, faces: { seat: { each: { u: {}, v: {} } }, deck: {} } }
  - { id: lid, class: cold-plate, faces: { seat: { each: { u: {}, v: {} } } } }
  - { id: choke, class: inductor, loss: { peak: 19 W } }
  - { id: board, class: control-board, parts: [ { id: mcu, class: microcontroller, loss: 2 W }, { id: cold, class: board-part } ] }
  - { id: psu, class: board, loss: 5 W, parts: [ { id: chip, class: board-part, loss: 1 W } ] }
  - { id: coil, class: inductor, each: { a: { loss: 3 W }, b: {} } }
heat:
  - { id: down, from: module/switch/igbt, layers: [ { kind: die-attach, thickness: 80 µm }, { part: substrate, spread: series, insulating: yes } ], to: module/lower, basis: measured }
  - { id: up, from: module/switch/igbt, layers: [ { kind: spacer, thickness: 1 mm } ], to: module/upper }
  - { id: seat-lower, from: module.*/lower, layers: [ { part: film.*, spread: cone-45 } ], to: cooler/seat.*, basis: assumed, rests-on: flat }
  - { id: seat-upper, from: module.*/upper, layers: [ { kind: paste, insulating: no } ], to: lid/seat.* }
  - { from: choke, to: cooler/deck, resistance: 0.4 K/W }
  - { id: choke-wall, from: choke, to: wall, resistance: 2 K/W }
  - { id: board-air, from: board, to: ambient, resistance: 9 K/W }
  - { id: psu-frame, from: psu, to: frame, resistance: 3 K/W }
coolant:
  fluid: water
  passages:
    - { id: low, each: { u: {}, v: {} }, fins: {}, cools: [ { face: cooler/seat.*, wetted-area: 40 cm² } ] }
    - { id: high, each: { u: {}, v: {} }, fins: {}, cools: [ { face: lid/seat.* } ] }
    - { id: wall, channel: {}, cools: [ { face: cooler/deck, basis: assumed } ] }
  sequence: [inlet, wall, [[low.u, low.v], [high.u, high.v]], outlet]
findings: [ { id: flat, about: [cooler], observation: seats are lapped, reading: flat, status: held, confidence: likely } ]
`)
const sort = (found: readonly string[]): readonly string[] => [...found].sort()

describe('heat paths', () => {
  it('one for each piece it starts at, named by the pieces', () => {
    expect(ask.paths({ ask: 'heat-paths' })).toEqual([
      ...['u-high', 'u-low', 'v-high', 'v-low'].map((one) => `heat/down.${one}`),
      ...['u-high', 'u-low', 'v-high', 'v-low'].map((one) => `heat/up.${one}`),
      ...['u', 'v'].map((one) => `heat/seat-lower.${one}`),
      ...['u', 'v'].map((one) => `heat/seat-upper.${one}`),
      'heat/choke~deck',
      'heat/choke-wall',
      'heat/board-air',
      'heat/psu-frame',
    ])
  })

  it.each([
    [{ ask: 'heat-from', node: 'parts/module.v/switch.low/igbt' } as const, ['heat/down.v-low', 'heat/up.v-low']],
    [{ ask: 'heat-from', node: 'parts/module.u' } as const, ['heat/seat-lower.u', 'heat/seat-upper.u']],
    [{ ask: 'heat-from', node: 'parts/module.u/upper' } as const, ['heat/seat-upper.u']],
    [
      { ask: 'heat-layers', path: 'heat/down.v-low' } as const,
      ['heat/down.v-low/die-attach', 'heat/down.v-low/substrate'],
    ],
    [{ ask: 'heat-layers', path: 'heat/choke-wall' } as const, []],
    [{ ask: 'heat-start', path: 'heat/seat-lower.v' } as const, ['parts/module.v/lower']],
    [{ ask: 'heat-to', path: 'heat/seat-lower.v' } as const, ['parts/cooler/seat.v']],
    [{ ask: 'heat-to', path: 'heat/down.v-low' } as const, ['parts/module.v/lower']],
    [{ ask: 'heat-to', path: 'heat/choke-wall' } as const, ['coolant/wall']],
    [{ ask: 'heat-to', path: 'heat/board-air' } as const, ['ambient/air']],
    [{ ask: 'heat-to', path: 'heat/psu-frame' } as const, ['ambient/frame']],
    [{ ask: 'layer-part', layer: 'heat/down.v-low/substrate' } as const, ['parts/substrate']],
    [{ ask: 'layer-part', layer: 'heat/seat-lower.v/film' } as const, ['parts/film.v']],
    [{ ask: 'layer-part', layer: 'heat/down.v-low/die-attach' } as const, []],
    [{ ask: 'spread-of', layer: 'heat/seat-lower.v/film' } as const, ['cone-45']],
    [{ ask: 'spread-of', layer: 'heat/down.v-low/die-attach' } as const, []],
    [{ ask: 'barrier-on', path: 'heat/down.u-high' } as const, ['heat/down.u-high/substrate']],
    [
      { ask: 'barrier-on', path: 'heat/seat-lower.u' } as const,
      ['heat/down.u-high/substrate', 'heat/down.u-low/substrate'],
    ],
    [{ ask: 'barrier-on', path: 'heat/up.u-high' } as const, []],
    [{ ask: 'ends-grounded', path: 'heat/down.u-high' } as const, ['coolant/low.u']],
    [{ ask: 'ends-grounded', path: 'heat/psu-frame' } as const, ['ambient/frame']],
    [{ ask: 'ends-grounded', path: 'heat/board-air' } as const, []],
  ])('%o', (question, expected) => {
    expect(sort(ask.paths(question))).toEqual(sort(expected))
  })
})

describe('where heat ends', () => {
  it.each([
    ['parts/module.u/switch.high/igbt', ['coolant/high.u', 'coolant/low.u']],
    ['parts/module.v', ['coolant/high.v', 'coolant/low.v']],
    ['parts/choke', ['coolant/wall']],
    ['parts/board', ['ambient/air']],
    // A part without a path gives its heat to what holds it.
    ['parts/mcu', ['ambient/air']],
    ['parts/chip', ['ambient/frame']],
    ['parts/coil.a', []],
  ])('%s', (piece, expected) => {
    expect(sort(ask.paths({ ask: 'heat-ends', piece }))).toEqual(expected)
  })

  it('rests on every relation on the way', () => {
    expect(ask({ ask: 'heat-ends', piece: 'parts/module.u' })).toMatchObject({
      basis: 'assumed',
      restsOn: ['findings/flat'],
    })
    expect(ask({ ask: 'heat-from', node: 'parts/module.u/switch.high/igbt' }).basis).toBe('judged')
    expect(ask({ ask: 'heat-to', path: 'heat/down.u-high' }).basis).toBe('measured')
  })

  it('and backwards: what heats a passage', () => {
    expect(sort(ask.paths({ ask: 'heated-by', passage: 'coolant/low.v' }))).toEqual([
      'parts/module.v',
      'parts/module.v/switch.high',
      'parts/module.v/switch.high/igbt',
      'parts/module.v/switch.low',
      'parts/module.v/switch.low/igbt',
    ])
    expect(ask.paths({ ask: 'heated-by', passage: 'coolant/wall' })).toEqual(['parts/choke'])
    expect(ask.paths({ ask: 'heated-by', passage: 'ambient/air' })).toEqual(['parts/board', 'parts/mcu', 'parts/cold'])
  })

  it('a path may end at a face that another one starts at, and be shared', () => {
    expect(ask.paths({ ask: 'passage-of', face: 'parts/cooler/deck' })).toEqual(['coolant/wall'])
    expect(ask.paths({ ask: 'passage-of', face: 'parts/module.u/lower' })).toEqual([])
    expect(ask.paths({ ask: 'cooled-by', passage: 'coolant/high.u' })).toEqual(['parts/lid/seat.u'])
    expect(ask({ ask: 'cooling-of', passage: 'coolant/wall', face: 'parts/cooler/deck' })).toMatchObject({
      paths: ['coolant/wall/cools/cooler-deck'],
      basis: 'assumed',
    })
  })
})

describe('one star at both ends', () => {
  it('is the piece of what it stands on, though there are others between', () => {
    const one = asking(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    parts: [ { id: sw, class: switch-position, each: { high: {}, low: {} } } ]
  - { id: cooler, class: cold-plate, each: { u: {}, v: {} }, faces: { top: {} } }
heat: [ { id: h, from: module.*/sw, to: cooler.*/top, resistance: 1 K/W } ]
`)
    const ends = one.paths({ ask: 'heat-paths' }).map((path) => [path, ...one.paths({ ask: 'heat-to', path })])
    expect(ends).toEqual([
      ['heat/h.u-high', 'parts/cooler.u/top'],
      ['heat/h.u-low', 'parts/cooler.u/top'],
      ['heat/h.v-high', 'parts/cooler.v/top'],
      ['heat/h.v-low', 'parts/cooler.v/top'],
    ])
  })

  it('is that of what holds the part, where the part itself comes once in it', () => {
    const inner = asking(`parts:
  - { id: module, class: half-bridge-module, each: { u: {}, v: {} }, parts: [ { id: slab, class: ceramic-substrate } ] }
  - { id: cooler, class: cold-plate, faces: { seat: { each: { u: {}, v: {} } } } }
heat: [ { id: h, from: slab, to: cooler/seat.*, resistance: 1 K/W } ]
`)
    expect(inner.paths({ ask: 'heat-to', path: 'heat/h.u' })).toEqual(['parts/cooler/seat.u'])
    expect(inner.paths({ ask: 'heat-to', path: 'heat/h.v' })).toEqual(['parts/cooler/seat.v'])
  })

  it('two paths that would be called alike are refused', () => {
    const alike = () =>
      asking(`parts:
  - { id: box, class: assembly, each: { a-b: {}, a: {} }, parts: [ { id: die, class: power-die, each: { c: {}, b-c: {} } } ] }
heat: [ { id: h, from: box/die, to: ambient, resistance: 1 K/W } ]
`)
    expect(alike).toThrow(/two heat paths of one name/)
  })
})

describe('sources of heat', () => {
  it('a loss of the whole stands for what is inside of it; single pieces have their own', () => {
    expect(ask.paths({ ask: 'heat-sources' })).toEqual([
      ...['u/switch.high', 'u/switch.low', 'v/switch.high', 'v/switch.low'].map((one) => `parts/module.${one}/igbt`),
      'parts/choke',
      'parts/mcu',
      'parts/psu',
      'parts/coil.a',
    ])
    expect(ask.paths({ ask: 'heat-sources-within', piece: 'parts/module.v' })).toHaveLength(2)
    expect(ask.paths({ ask: 'heat-sources-within', piece: 'parts/psu' })).toEqual(['parts/psu'])
    expect(ask.paths({ ask: 'heat-sources-within', piece: 'parts/chip' })).toEqual([])
  })

  it('a loss of one piece inside a part that repeats', () => {
    const nested = asking(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    parts: [ { id: die, class: power-die, each: { a: { loss: 10 W }, b: {} } } ]
`)
    expect(nested.paths({ ask: 'heat-sources' })).toEqual(['parts/module.u/die.a', 'parts/module.v/die.a'])
  })
})
