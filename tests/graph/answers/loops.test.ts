import { describe, expect, it } from 'vitest'
import { asking } from '../structure-fixture.ts'

const HV =
  'nets: { p: { potential: hv-positive }, n: { potential: hv-negative }, mid: { potential: hv-middle }, ph-*: { potential: hv-switching }, ch: { potential: chassis } }'
const film = (id: string, more: string) => `  - { id: ${id}, class: dc-link-film-capacitor, ${more} }`
const MODULES =
  '  - { id: module, class: half-bridge-module, each: { u: {}, v: {} }, terminals: { dc-plus: p, dc-minus: n, ac: ph-* } }'

describe('the rails', () => {
  it('are where the half bridges stand, whatever else has capacitors', () => {
    const ask = asking(`parts:
${MODULES}
${film('boost', 'count: 6, terminals: { plus: mid, minus: n }')}
${HV}`)
    expect(ask.paths({ ask: 'rails' })).toEqual(['nets/p', 'nets/n'])
  })

  it('plus first, however the terminals of the capacitors were typed', () => {
    const ask = asking(`parts:
${film('a', 'terminals: { minus: n, plus: p }')}
${film('b', 'terminals: { plus: n, minus: p }')}
${film('c', 'count: 2, terminals: { plus: mid, minus: n }')}
${HV}`)
    expect(ask.paths({ ask: 'rails' })).toEqual(['nets/p', 'nets/n'])
  })

  it('are the outer ones where all capacitors stand in series over a middle', () => {
    const split = asking(`parts:
${film('a', 'count: 3, terminals: { minus: n, plus: mid }')}
${film('b', 'terminals: { minus: mid, plus: p }')}
${HV}`)
    expect(split({ ask: 'rails' })).toMatchObject({ paths: ['nets/p', 'nets/n'], census: 'complete' })
  })

  it('are where a half bridge is, however many capacitors stand elsewhere', () => {
    const ask = asking(`parts:
  - { id: aux, class: half-bridge-module, terminals: { dc-plus: mid, dc-minus: n, ac: ph-a } }
${film('bank', 'count: 40, terminals: { plus: p, minus: n }')}
${HV}`)
    expect(ask.paths({ ask: 'rails' })).toEqual(['nets/mid', 'nets/n'])
  })

  it('of a 48 V bridge are low voltage', () => {
    const ask = asking(`parts:
  - { id: sw, class: discrete-power-device, each: { h: { terminals: { drain: b-plus, source: out } }, l: { terminals: { drain: out, source: b-minus } } } }
  - { id: can, class: electrolytic-capacitor, count: 2, terminals: { plus: b-plus, minus: b-minus } }
  - { id: logic, class: electrolytic-capacitor, terminals: { plus: v5, minus: b-minus } }
nets: { b-plus: { potential: low-voltage }, b-minus: { potential: low-voltage }, out: { potential: low-voltage }, v5: { potential: low-voltage } }
`)
    expect(ask.paths({ ask: 'rails' })).toEqual(['nets/b-plus', 'nets/b-minus'])
    expect(ask.paths({ ask: 'link-capacitors' })).toEqual(['parts/can.1', 'parts/can.2'])
  })

  it('without bridge and capacitor are the one pair of outer potentials, and none where there are two', () => {
    expect(asking(`parts: []\n${HV}`).paths({ ask: 'rails' })).toEqual(['nets/p', 'nets/n'])
    const two = 'nets: { p: { potential: hv-positive }, q: { potential: hv-positive }, n: { potential: hv-negative } }'
    expect(asking(`parts: []\n${two}`)({ ask: 'rails' })).toMatchObject({ paths: [], census: 'open' })
  })

  it('of several buses are those with most half bridges', () => {
    const ask = asking(`parts:
${MODULES}
  - { id: aux, class: half-bridge-module, terminals: { dc-plus: mid, dc-minus: n, ac: ph-a } }
${HV}`)
    expect(ask.paths({ ask: 'rails' })).toEqual(['nets/p', 'nets/n'])
    expect(ask.paths({ ask: 'loop-rails', loop: 'loops/aux' })).toEqual(['nets/mid', 'nets/n'])
  })
})

describe('commutation loops', () => {
  const link = `${film('can', 'count: 2, terminals: { plus: p, minus: n }')}
  - { id: x, class: x-capacitor, terminals: { 1: p, 2: n } }
  - { id: y, class: y-capacitor, each: { a: { terminals: { 1: p, 2: ch } }, b: { terminals: { 1: n, 2: ch } }, c: { terminals: { 1: p, 2: n } } } }
  - { id: board, class: filter-board, parts: [ { id: snub, class: ceramic-capacitor, each: { a: {}, b: {} }, terminals: { 1: p, 2: n } } ] }`

  it('one for each piece of a module: X in, Y out', () => {
    const ask = asking(`parts:\n${MODULES}\n${link}\n${HV}`)
    expect(ask.paths({ ask: 'loops' })).toEqual(['loops/module.u', 'loops/module.v'])
    expect(ask.paths({ ask: 'loop-bridge', loop: 'loops/module.v' })).toEqual(['parts/module.v'])
    expect(ask.paths({ ask: 'loop-output', loop: 'loops/module.v' })).toEqual(['nets/ph-v'])
    expect(ask.paths({ ask: 'loop-rails', loop: 'loops/module.v' })).toEqual(['nets/p', 'nets/n'])
    expect(ask.paths({ ask: 'loop-capacitors', loop: 'loops/module.v' })).toEqual([
      'parts/can.1',
      'parts/can.2',
      'parts/x',
      'parts/snub.a',
      'parts/snub.b',
    ])
  })

  it.each([
    ['x', ['can.1', 'can.2', 'snub.a', 'snub.b']],
    ['can', ['x', 'snub.a', 'snub.b']],
    ['can.1', ['can.2', 'x', 'snub.a', 'snub.b']],
    ['board', ['can.1', 'can.2', 'x']],
    ['"board/snub.b"', ['can.1', 'can.2', 'x', 'snub.a']],
  ])('%s left out of one loop stays in the others', (left, kept) => {
    const ask = asking(`parts:\n${MODULES}\n${link}\n${HV}
loops: { module.v: { leave-out: [${left}], because: far away } }`)
    const of = (loop: string) => ask.paths({ ask: 'loop-capacitors', loop }).map((path) => path.replace('parts/', ''))
    expect(of('loops/module.v')).toEqual(kept)
    expect(of('loops/module.u')).toHaveLength(5)
  })

  it.each([
    ['high-a', ['high-b', 'low-b']],
    ['high-a, low-b', []],
  ])('a string without %s closes no loop', (left, kept) => {
    const half = (id: string, plus: string, minus: string) => film(id, `terminals: { plus: ${plus}, minus: ${minus} }`)
    const ask = asking(`parts:
${MODULES}
${[half('high-a', 'p', 'm-a'), half('low-a', 'm-a', 'n'), half('high-b', 'p', 'm-b'), half('low-b', 'm-b', 'n')].join('\n')}
nets: { p: { potential: hv-positive }, n: { potential: hv-negative }, m-a: { potential: hv-middle }, m-b: { potential: hv-middle }, ph-*: { potential: hv-switching } }
loops: { module.v: { leave-out: [${left}], because: far away } }`)
    const of = (loop: string) => ask.paths({ ask: 'loop-capacitors', loop }).map((path) => path.replace('parts/', ''))
    expect(of('loops/module.v')).toEqual(kept)
    expect(of('loops/module.u')).toHaveLength(4)
  })

  it('one piece of one module left out, by its place', () => {
    const ask = asking(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    terminals: { dc-plus: p, dc-minus: n, ac: ph-* }
    parts: [ { id: chip, class: ceramic-capacitor, count: 2, terminals: { 1: p, 2: n } } ]
${HV}
loops: { module.u: { leave-out: [module.v/chip], because: beyond the other module } }`)
    expect(ask.paths({ ask: 'loop-capacitors', loop: 'loops/module.u' })).toEqual([
      'parts/module.u/chip.1',
      'parts/module.u/chip.2',
    ])
  })

  it('of discrete switches are named by the net between them; parallel ones share it', () => {
    const ask = asking(`parts:
  - { id: sw, class: discrete-power-device, each: { h1: { terminals: { drain: p, source: ph-a } }, h2: { terminals: { drain: p, source: ph-a } }, l1: { terminals: { drain: ph-a, source: n } }, ls: { terminals: { collector: ph-b, emitter: n } } } }
  - { id: can, class: dc-link-film-capacitor, terminals: { plus: p, minus: n } }
${HV}`)
    expect(ask.paths({ ask: 'loops' })).toEqual(['loops/ph-a'])
    expect(ask.paths({ ask: 'loop-bridge', loop: 'loops/ph-a' })).toEqual(['parts/sw.h1', 'parts/sw.h2', 'parts/sw.l1'])
    expect(ask.paths({ ask: 'loop-output', loop: 'loops/ph-a' })).toEqual(['nets/ph-a'])
    expect(ask.paths({ ask: 'loop-capacitors', loop: 'loops/ph-a' })).toEqual(['parts/can'])
  })

  it('switches in a row with a net of their own between rails of two buses make a loop each', () => {
    const ask = asking(`parts:
  - { id: a, class: discrete-power-device, each: { h: { terminals: { drain: p, source: ph-a } }, l: { terminals: { drain: ph-a, source: n } } } }
  - { id: b, class: discrete-power-device, each: { h: { terminals: { drain: mid, source: ph-b } }, l: { terminals: { drain: ph-b, source: n } } } }
${HV}`)
    expect(ask.paths({ ask: 'loops' })).toEqual(['loops/ph-a', 'loops/ph-b'])
    expect(ask.paths({ ask: 'loop-rails', loop: 'loops/ph-b' })).toEqual(['nets/mid', 'nets/n'])
  })

  it('a module and the switches recorded inside of it are one half bridge', () => {
    const ask = asking(`parts:
  - id: module
    class: half-bridge-module
    terminals: { dc-plus: p, dc-minus: n, ac: ph-a }
    parts: [ { id: sw, class: switch-position, each: { high: { terminals: { collector: p, emitter: ph-a } }, low: { terminals: { collector: ph-a, emitter: n } } } } ]
${HV}`)
    expect(ask.paths({ ask: 'loops' })).toEqual(['loops/module'])
  })

  it('a switch that parts the battery from the rail is no half bridge with those behind it', () => {
    const ask = (potential: string) =>
      asking(`parts:
  - { id: off, class: discrete-power-device, terminals: { drain: battery, source: p } }
  - { id: sw, class: discrete-power-device, each: { a: { terminals: { drain: p, source: ph-a } }, b: { terminals: { drain: ph-a, source: n } }, c: { terminals: { drain: p, source: ph-b } }, d: { terminals: { drain: ph-b, source: n } } } }
nets: { battery: ${potential}, p: ${potential}, n: ${potential}, ph-*: ${potential} }`).paths({ ask: 'loops' })
    expect(ask('{ potential: low-voltage }')).toEqual(['loops/ph-a', 'loops/ph-b'])
    expect(ask('{}')).toEqual(['loops/ph-a', 'loops/ph-b'])
  })

  it('nor with one half bridge alone, where a capacitor steadies the rail', () => {
    const ask = (more: string) =>
      asking(`parts:
  - { id: off, class: discrete-power-device, terminals: { drain: battery, source: p } }
  - { id: sw, class: discrete-power-device, each: { a: { terminals: { drain: p, source: ph-a } }, b: { terminals: { drain: ph-a, source: n } } } }
${more}
nets: { battery: {}, p: {}, n: {}, ph-*: {} }`).paths({ ask: 'loops' })
    expect(ask('  - { id: can, class: electrolytic-capacitor, terminals: { plus: p, minus: n } }')).toEqual([
      'loops/ph-a',
    ])
    expect(ask('')).toEqual([])
  })

  it.each(['{}', '{ potential: hv-middle }', '{ potential: hv-switching }'])(
    'four switches in a row, those between them %s, are no half bridge, and the rails are those of the capacitors',
    (inner) => {
      const ask = asking(`parts:
  - { id: t, class: discrete-power-device, each: { "1": { terminals: { drain: p, source: m1 } }, "2": { terminals: { drain: m1, source: ph-a } }, "3": { terminals: { drain: ph-a, source: m2 } }, "4": { terminals: { drain: m2, source: n } } } }
${film('up', 'terminals: { plus: p, minus: mid }')}
${film('down', 'terminals: { plus: mid, minus: n }')}
${HV.replace('ch:', `m1: ${inner}, m2: ${inner}, ch:`)}`)
      expect(ask.paths({ ask: 'loops' })).toEqual([])
      expect(ask.paths({ ask: 'rails' })).toEqual(['nets/p', 'nets/n'])
    },
  )

  it('a leg that is switched at the frequency of the mains is one, whatever its net is called', () => {
    const ask = asking(`parts:
  - { id: sw, class: discrete-power-device, each: { h: { terminals: { drain: p, source: mid } }, l: { terminals: { drain: mid, source: n } } } }
${HV}`)
    expect(ask.paths({ ask: 'loops' })).toEqual(['loops/mid'])
  })

  it('the output bridge is the one on the AC port', () => {
    const port = (ports: string) => `specimen: { kind: traction-inverter${ports} }
parts:
${MODULES}
  - { id: boost, class: half-bridge-module, terminals: { dc-plus: p, dc-minus: n, ac: ph-b } }
${HV}`
    const all = ['loops/module.u', 'loops/module.v', 'loops/boost']
    expect(asking(port('')).paths({ ask: 'bridge-loops' })).toEqual(all)
    const ported = asking(port(', ports: { out: { kind: ac, nets: [ph-u, ph-v] } }'))
    expect(ported.paths({ ask: 'bridge-loops' })).toEqual(all.slice(0, 2))
  })

  it('capacitors in a string over the middle belong to the loop, what hangs off the middle does not', () => {
    const ask = asking(`parts:
${MODULES}
${film('up', 'terminals: { plus: p, minus: mid }')}
${film('down', 'terminals: { plus: mid, minus: n }')}
  - { id: to-phase, class: ceramic-capacitor, terminals: { 1: mid, 2: ph-u } }
  - { id: hang, class: ceramic-capacitor, terminals: { 1: mid, 2: loose } }
${HV.replace('ch:', 'loose: { potential: floating }, ch:')}`)
    const found = ask({ ask: 'loop-capacitors', loop: 'loops/module.u' })
    expect(found.paths).toEqual(['parts/up', 'parts/down'])
    expect(found).toMatchObject({ census: 'open', basis: 'judged' })
  })
})

describe('capacitors of the link', () => {
  it('a filter to the chassis is none, whether the net says so or is tied to it', () => {
    const ask = asking(`parts:
${film('can', 'terminals: { plus: p, minus: n }')}
${film('up', 'terminals: { plus: p, minus: mid }')}
  - { id: y, class: y-capacitor, each: { a: { terminals: { 1: p, 2: ch } }, b: { terminals: { 1: p, 2: screen } }, c: { terminals: { 1: n, 2: lv } }, d: { terminals: { 1: n, 2: lv-ride } } } }
nets: { p: { potential: hv-positive }, n: { potential: hv-negative }, mid: {}, ch: { potential: chassis }, screen: { tied-to: ch }, lv: { potential: low-voltage }, lv-ride: { rides-on: lv } }
`)
    expect(ask.paths({ ask: 'link-capacitors' })).toEqual(['parts/can', 'parts/up'])
  })

  it('doubt about what is left out is no doubt about the link', () => {
    const ask = asking(`parts:
  - { id: can, class: dc-link-film-capacitor, terminals: { plus: p (measured), minus: n (measured) } }
  - { id: y, class: y-capacitor, terminals: { 1: p (assumed), 2: ch (assumed) } }
${HV}`)
    expect(ask({ ask: 'link-capacitors' }).basis).toBe('measured')
  })

  it.each([
    ['', 'open'],
    ['{ of: capacitor, found: 3 }', 'complete'],
    ['{ of: dc-link-film-capacitor, across: [n, p], found: 1 }', 'complete'],
    ['{ of: dc-link-film-capacitor, across: [p, ch], found: none }', 'open'],
    ['{ of: y-capacitor, found: 1 }', 'open'],
  ])('with a census of %s they are %s', (census, expected) => {
    const ask = asking(`parts:
${film('can', 'terminals: { plus: p, minus: n }')}
  - { id: y, class: y-capacitor, terminals: { 1: p, 2: ch } }
${HV}
census: [ ${census} ]`)
    expect(ask({ ask: 'link-capacitors' }).census).toBe(expected)
  })

  it('bleed resistors are asked the same way', () => {
    const ask = asking(`parts:
${film('can', 'terminals: { plus: p, minus: n }')}
  - { id: r, class: bleed-resistor, each: { a: { terminals: { 1: p, 2: mid } }, b: { terminals: { 1: mid, 2: n } }, c: { terminals: { 1: n, 2: ch } } } }
${HV}
census: [ { of: bleed-resistor, across: [p, n], found: 2 } ]`)
    expect(ask({ ask: 'link-parts', class: 'bleed-resistor' })).toMatchObject({
      paths: ['parts/r.a', 'parts/r.b'],
      census: 'complete',
    })
  })
})
