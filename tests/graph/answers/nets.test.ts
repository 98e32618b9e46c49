import { describe, expect, it } from 'vitest'
import { asking, structureOf } from '../structure-fixture.ts'

describe('nets and terminals', () => {
  const ask = asking(`specimen: { kind: traction-inverter, ports: { out: { kind: ac, nets: [phase-u, phase-v] } } }
parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    terminals: { dc-plus: dc-plus, dc-minus: dc-minus, ac: phase-* (measured), gate-high: g-*-high, gate-low: { net: g-*-low, basis: assumed, rests-on: even } }
    parts: [ { id: sense, class: temperature-sensor, terminals: { 1: t-*, 2: lv-gnd } } ]
  - { id: driver, class: isolated-gate-driver, each: { "1": { terminals: { out: g-u-high } }, "2": { terminals: { out: not looked for } } } }
  - { id: bar, class: bus-bar, net: dc-plus }
  - { id: strap, class: bus-bar, net: dc-plus }
  - { id: lead, class: bus-bar, each: { u: {}, v: {} }, net: phase-* }
joints:
  - { between: [bar, strap], kind: weld }
  - { id: foot, between: [strap, bar], kind: screw }
nets:
  dc-plus: { potential: hv-positive }
  dc-minus: { potential: hv-negative }
  phase-*: { potential: hv-switching }
  g-*-high: { rides-on: phase-* (measured) }
  g-*-low: { rides-on: dc-minus }
  t-*: { potential: low-voltage }
  lv-gnd: { tied-to: chassis (assumed) }
  chassis: { potential: chassis }
voltages: [ { between: [dc-plus, chassis], working: 215 V } ]
findings: [ { id: even, about: [module], observation: symmetric, reading: same wiring, status: held, confidence: likely } ]
`)

  it('a star in a net stands for the piece, or for the piece it is inside of', () => {
    expect(ask.paths({ ask: 'net-of', piece: 'parts/module.v', terminal: 'ac' })).toEqual(['nets/phase-v'])
    expect(ask.paths({ ask: 'net-of', piece: 'parts/module.v/sense', terminal: '1' })).toEqual(['nets/t-v'])
    expect(ask.paths({ ask: 'metal-of', net: 'nets/phase-u' })).toEqual(['parts/lead.u'])
  })

  it('a pattern declares the nets that something is on, and what they ride on', () => {
    const switching = ask.paths({ ask: 'nets', potential: 'hv-switching' })
    expect([...switching].sort()).toEqual(['nets/phase-u', 'nets/phase-v'])
    expect(ask({ ask: 'rides-on', net: 'nets/g-v-high' })).toMatchObject({ paths: ['nets/phase-v'], basis: 'measured' })
    expect(ask.paths({ ask: 'rides-on', net: 'nets/g-u-low' })).toEqual(['nets/dc-minus'])
    expect(ask({ ask: 'tied-to', net: 'nets/lv-gnd' })).toMatchObject({ paths: ['nets/chassis'], basis: 'assumed' })
  })

  it('what a relation rests on, and its weakest evidence, come with the answer', () => {
    expect(ask({ ask: 'net-of', piece: 'parts/module.u', terminal: 'ac' }).basis).toBe('measured')
    expect(ask({ ask: 'net-of', piece: 'parts/module.u', terminal: 'gate-low' })).toMatchObject({
      basis: 'assumed',
      restsOn: ['findings/even'],
    })
  })

  it.each([
    [{ ask: 'on-net', net: 'nets/dc-plus' } as const, ['parts/module.u', 'parts/module.v']],
    [{ ask: 'on-net', net: 'nets/dc-plus', class: 'capacitor' } as const, []],
    [{ ask: 'on-net', net: 'nets/g-u-high' } as const, ['parts/module.u', 'parts/driver.1']],
    [{ ask: 'across', nets: ['nets/dc-minus', 'nets/phase-v'] } as const, ['parts/module.v']],
    [{ ask: 'across', nets: ['nets/phase-u', 'nets/phase-v'] } as const, []],
    [
      { ask: 'terminal-on', piece: 'parts/module.u', net: 'nets/g-u-low' } as const,
      ['parts/module.u/terminals/gate-low'],
    ],
    [{ ask: 'terminals', piece: 'parts/module.v/sense' } as const, ['nets/t-v', 'nets/lv-gnd']],
    [{ ask: 'metal-of', net: 'nets/dc-plus' } as const, ['parts/bar', 'parts/strap']],
    [{ ask: 'joints-of', part: 'parts/bar' } as const, ['joints/bar~strap', 'joints/foot']],
    [{ ask: 'joined-by', joint: 'joints/foot' } as const, ['parts/strap', 'parts/bar']],
    [{ ask: 'potential', net: 'nets/dc-plus' } as const, ['hv-positive']],
    [{ ask: 'potential', net: 'nets/g-u-high' } as const, []],
    [{ ask: 'ports-on', net: 'nets/phase-u' } as const, ['specimen/ports/out']],
    [{ ask: 'ports-on', net: 'nets/dc-plus' } as const, []],
    [{ ask: 'open-terminals' } as const, ['parts/driver.2/terminals/out']],
    [{ ask: 'voltage-between', nets: ['nets/chassis', 'nets/dc-plus'] } as const, ['voltages/chassis~dc-plus']],
    [{ ask: 'voltage-between', nets: ['nets/chassis', 'nets/dc-minus'] } as const, []],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })

  it('the potential of a net is its own, that of the net it rides on, or that it is tied to', () => {
    const { potentialOf } = structureOf(`parts: []
nets:
  rail: { potential: hv-positive }
  gate: { rides-on: rail }
  clamp: { rides-on: gate }
  screen: { tied-to: chassis }
  chassis: {}
  a: { tied-to: b }
  b: { tied-to: a }
  alone: {}
`)
    const of = (net: string) => potentialOf(`nets/${net}` as never)
    expect(['rail', 'gate', 'clamp'].map(of)).toEqual(['hv-positive', 'hv-positive', 'hv-positive'])
    expect(['screen', 'chassis'].map(of)).toEqual(['chassis', 'chassis'])
    expect(['a', 'b', 'alone', 'nothing'].map(of)).toEqual([null, null, null, null])
  })
})

describe('whether all of a class are known on a net', () => {
  const on = (census: string) =>
    asking(`parts:
  - { id: y, class: y-capacitor, terminals: { 1: p, 2: g } }
  - { id: x, class: x-capacitor, terminals: { 1: p, 2: n } }
nets: { p: { potential: hv-positive }, n: { potential: hv-negative }, g: { potential: chassis } }
census: [ ${census} ]
`)
  const asks = {
    'y on p': { ask: 'on-net', net: 'nets/p', class: 'y-capacitor' },
    'capacitors across p and n': { ask: 'across', nets: ['nets/p', 'nets/n'], class: 'capacitor' },
    'bleed across p and n': { ask: 'across', nets: ['nets/n', 'nets/p'], class: 'bleed-resistor' },
    'anything on p': { ask: 'on-net', net: 'nets/p' },
  } as const

  it.each<[string, keyof typeof asks, string]>([
    ['', 'y on p', 'open'],
    ['{ of: y-capacitor, found: 1 }', 'y on p', 'complete'],
    ['{ of: y-capacitor, across: [p, g], found: 1 }', 'y on p', 'open'],
    ['{ of: capacitor, found: 2 }', 'y on p', 'complete'],
    ['{ of: capacitor, found: 2 }', 'anything on p', 'open'],
    ['{ of: y-capacitor, found: 1 }', 'capacitors across p and n', 'open'],
    ['{ of: x-capacitor, across: [n, p], found: 1 }', 'capacitors across p and n', 'complete'],
    ['{ of: x-capacitor, across: [p, g], found: 1 }', 'capacitors across p and n', 'open'],
    ['{ of: bleed-resistor, across: [p, n], found: none }', 'bleed across p and n', 'complete'],
    ['{ of: bleed-resistor, across: [p, g], found: none }', 'bleed across p and n', 'open'],
    ['{ of: bleed-resistor, found: none }', 'bleed across p and n', 'complete'],
  ])('%s: %s is %s', (census, question, expected) => {
    expect(on(census)(asks[question]).census).toBe(expected)
  })
})
