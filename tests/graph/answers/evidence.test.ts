import { describe, expect, it } from 'vitest'
import { asking } from '../structure-fixture.ts'

describe('steps', () => {
  const ask = asking(`parts:
  - id: cover
    class: cover
    parts: [ { id: label, class: label } ]
  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    parts: [ { id: die, class: power-die, count: 2, size: 10 x 10 x 0.1 mm } ]
  - { id: film, class: thermal-interface, each: { u: {}, v: {} }, thickness: 90 µm }
  - { id: pad, class: thermal-interface, thickness: 1 mm }
steps:
  - { id: dead, proved-dead: { across: [p, n], reading: 0.1 V } }
  - { id: lid, takes-off: cover, loses: [pad/thickness], done: 2026-01-02 }
  - { id: out-u, takes-off: module.u, loses: [film.u/thickness] }
  - { id: out-both, takes-off: [module.u, module.v], after: [lid], loses: [film] }
  - { id: dies, takes-off: [die], after: [out-u, out-both] }
  - { id: free, takes-off: pad, after: [] }
nets: { p: { potential: hv-positive }, n: { potential: hv-negative } }
`)

  it.each([
    ['parts/cover', ['lid']],
    ['parts/label', ['lid']],
    ['parts/module.u', ['out-u', 'out-both']],
    ['parts/module.v', ['out-both']],
    // All of its pieces go in one step: so does the entry.
    ['parts/module', ['out-both']],
    ['parts/module.v/die.1', ['out-both', 'dies']],
    ['parts/module.u/die.2', ['out-u', 'out-both', 'dies']],
    ['parts/module/die', ['out-both', 'dies']],
    ['parts/film', []],
  ])('what takes off %s', (part, steps) => {
    const found = ask({ ask: 'steps-taking', part })
    expect(found.paths).toEqual(steps.map((id) => `steps/${id}`))
    expect(found.census).toBe(steps.length > 0 ? 'complete' : 'open')
  })

  it.each([
    ['dead', []],
    ['lid', ['dead']],
    ['out-u', ['lid']],
    ['out-both', ['lid']],
    ['dies', ['out-u', 'out-both']],
    ['free', []],
  ])('what must come before %s: its blockers, else the step before', (step, blockers) => {
    expect(ask.paths({ ask: 'blockers', step: `steps/${step}` })).toEqual(blockers.map((id) => `steps/${id}`))
  })

  it('steps still to come put values at risk; a step that is done no longer does', () => {
    expect(ask.paths({ ask: 'at-risk' })).toEqual(['parts/film.u/thickness', 'parts/film'])
    expect(ask.paths({ ask: 'steps' })).toHaveLength(6)
  })

  it.each([
    ['parts/film.u/thickness', ['out-u', 'out-both']],
    ['parts/film.v/thickness', ['out-both']],
    ['parts/film/thickness', ['out-both']],
    ['parts/film-two/thickness', []],
    ['parts/pad/thickness', []],
  ])('%s is lost with its steps', (path, steps) => {
    expect(ask.paths({ ask: 'lost-with', path })).toEqual(steps.map((id) => `steps/${id}`))
  })
})

describe('claims that disagree', () => {
  const disputed = (claims: string) =>
    asking(`parts: [ { id: can, class: dc-link-film-capacitor, count: 2, capacitance: [ ${claims} ] } ]`).paths({
      ask: 'disputed',
    })

  // k = 2 of the difference: ± 1 µF with k=2 is u = 0.5 µF; two of them u = 0.7071, so that 1.41 µF apart still agree.
  it.each<[string, string, boolean]>([
    ['the same', '10 µF ± 1 µF (measured; k=2), 10 µF ± 1 µF (marked; k=2)', false],
    ['within twice the doubt of the difference', '10 µF ± 1 µF (measured; k=2), 11.4 µF ± 1 µF (marked; k=2)', false],
    ['beyond it', '10 µF ± 1 µF (measured; k=2), 11.5 µF ± 1 µF (marked; k=2)', true],
    [
      'the third from the first',
      '10 ± 1 µF (measured; k=2), 11 ± 1 µF (marked; k=2), 12 ± 1 µF (published; k=2)',
      true,
    ],
    ['a bound that holds', '10 µF ± 1 µF (measured; k=2), above 9 µF (published)', false],
    ['a bound that does not', '10 µF ± 1 µF (measured; k=2), above 12 µF (published)', true],
    ['a value and none', '10 µF ± 1 µF (measured; k=2), unreadable', false],
  ])('%s', (_, claims, expected) => {
    expect(disputed(claims)).toEqual(expected ? ['parts/can/capacitance'] : [])
  })

  it('what was measured on one piece is held against what is marked on all, at that piece', () => {
    const ofOne = (value: string) =>
      disputed(`10 µF ± 1 µF (marked; k=2), { value: ${value} ± 1 µF (measured; k=2), of: can.2 }`)
    expect(ofOne('11 µF')).toEqual([])
    expect(ofOne('20 µF')).toEqual(['parts/can.2/capacitance'])
  })
})

describe('values that are bounds, and findings that fell', () => {
  const ask = asking(`parts:
  - { id: can, class: dc-link-film-capacitor, capacitance: above 100 µF (judged), mass: { value: 200 g, rests-on: scale } }
  - { id: ring, class: ring-core, mass: { claims: [ { value: 1 kg, basis: measured, rests-on: scale }, 2 kg (judged) ] }, material: { value: nanocrystalline-tape, rests-on: firm } }
findings:
  - { id: scale, about: [can], observation: reads high, reading: not zeroed, status: refuted, confidence: likely }
  - { id: firm, about: [ring], observation: tape, reading: wound, status: held, confidence: likely }
`)

  it('a bound has its sense and its number; a value has none', () => {
    expect(ask.paths({ ask: 'bound-of', value: 'parts/can/capacitance' }).map(String)).toEqual(['>', '0.0001'])
    expect(ask.paths({ ask: 'bound-of', value: 'parts/can/mass' })).toEqual([])
    expect(ask.paths({ ask: 'bound-of', value: 'parts/can/inductance' })).toEqual([])
  })

  it('what rests on a refuted finding is named', () => {
    expect(ask.paths({ ask: 'rests-on-refuted' })).toEqual(['parts/can/mass', 'parts/ring/mass'])
  })
})

describe('relations that rest on a refuted finding', () => {
  it('fall with it: the answer says so', () => {
    const ask = asking(`parts:
  - { id: can, class: dc-link-film-capacitor, terminals: { plus: { net: p, rests-on: guess }, minus: n } }
nets: { p: { potential: hv-positive }, n: { potential: hv-negative } }
findings:
  - { id: ground, about: [can], observation: wires cut, reading: as drawn, status: refuted, confidence: likely }
  - { id: guess, about: [can], observation: same colour, reading: same net, status: held, confidence: likely, rests-on: ground }
`)
    expect(ask({ ask: 'net-of', piece: 'parts/can', terminal: 'plus' }).fallen).toEqual(['findings/guess'])
    expect(ask({ ask: 'net-of', piece: 'parts/can', terminal: 'minus' }).fallen).toBeUndefined()
    expect(ask({ ask: 'link-capacitors' }).fallen).toEqual(['findings/guess'])
  })
})

describe('sections of the sheet', () => {
  const ask = asking(`specimen: { kind: traction-inverter, ports: { a: { kind: dc, rated: yes }, b: { kind: dc } } }
parts:
  - { id: board, class: control-board }
  - { id: flex, class: flexible-circuit, stack: [ { id: l1, copper: 18 µm }, { film: 50 µm, id: film }, { id: l2, copper: 18 µm, net: gnd } ], traces: [ { id: t1, net: sig, layer: l1, reference: [l2], pair: t2 }, { id: t2, net: sig, layer: l1 } ] }
  - { id: lead, class: bus-bar, flat: z, run: { from: 0 / 0 / 0 mm, via: [ 5 / 0 / 0 mm ], to: 9 / 0 / 0 mm }, net: hv }
  - { id: back, class: bus-bar, run: { along: lead }, beside: { part: lead, side: +z, gap: 1 mm }, net: sig }
  - { id: sheet-metal, class: bus-bar, flat: y, net: gnd, plate: { corner: 0 / 0 / 0 mm, size: 20 x 20 x 1 mm, holes: [ { id: h1, at: 5 / 5 / 0 mm, diameter: 3 mm } ] } }
  - { id: blank, class: bus-bar, net: gnd }
  - { id: ring, class: ring-core, round: [lead, back] }
  - { id: seal, class: o-ring, seals: { passages: [low, wall], leaks-towards: board } }
coolant: { fluid: water, passages: [ { id: low, each: { u: {}, v: {} }, pipe: {} }, { id: lower, pipe: {} }, { id: wall, pipe: {} } ], sequence: [inlet, [low.u, low.v], lower, wall, outlet] }
nets: { sig: { potential: low-voltage }, gnd: { potential: low-voltage }, hv: { potential: hv-positive } }
boundaries: [ { id: stage, without: [ring] } ]
spacings: [ { id: gap, kind: clearance, between: [sig, hv], on: board, distance: 5 mm, insulation: reinforced }, { id: path, kind: creepage, between: [hv, gnd], distance: 8 mm } ]
observed: [ { metric: PRESSURE_DROP, subject: specimen, value: 14 kPa }, { id: hot, metric: JUNCTION_TEMPERATURE, subject: board, value: 90 °C } ]
`)

  it.each([
    [{ ask: 'section', name: 'boundaries' } as const, ['boundaries/stage']],
    [{ ask: 'section', name: 'rated-ports' } as const, ['specimen/ports/a']],
    [{ ask: 'section', name: 'nothing' } as const, []],
    [{ ask: 'spacings' } as const, ['spacings/gap', 'spacings/path']],
    [{ ask: 'spacings', kind: 'creepage' } as const, ['spacings/path']],
    [{ ask: 'spacing-between', spacing: 'spacings/gap' } as const, ['nets/hv', 'nets/sig']],
    [{ ask: 'insulation-of', spacing: 'spacings/gap' } as const, ['reinforced']],
    [{ ask: 'insulation-of', spacing: 'spacings/path' } as const, []],
    [{ ask: 'lies-on', spacing: 'spacings/gap' } as const, ['parts/board']],
    [{ ask: 'lies-on', spacing: 'spacings/path' } as const, []],
    [{ ask: 'observations' } as const, ['observed/pressure-drop', 'observed/hot']],
    [{ ask: 'observed-metric', observed: 'observed/hot' } as const, ['JUNCTION_TEMPERATURE']],
    [{ ask: 'observed-subject', observed: 'observed/hot' } as const, ['parts/board']],
    [{ ask: 'observed-subject', observed: 'observed/pressure-drop' } as const, ['specimen']],
    [{ ask: 'stack', part: 'parts/flex' } as const, ['l1', 'film', 'l2'].map((id) => `parts/flex/stack/${id}`)],
    [{ ask: 'stack', part: 'parts/board' } as const, []],
    [{ ask: 'copper-net', layer: 'parts/flex/stack/l2' } as const, ['nets/gnd']],
    [{ ask: 'copper-net', layer: 'parts/flex/stack/l1' } as const, []],
    [{ ask: 'traces' } as const, ['parts/flex/traces/t1', 'parts/flex/traces/t2']],
    [{ ask: 'traces-of', part: 'parts/flex' } as const, ['parts/flex/traces/t1', 'parts/flex/traces/t2']],
    [{ ask: 'trace-on', trace: 'parts/flex/traces/t1' } as const, ['parts/flex/stack/l1']],
    [{ ask: 'trace-references', trace: 'parts/flex/traces/t1' } as const, ['parts/flex/stack/l2']],
    [{ ask: 'trace-references', trace: 'parts/flex/traces/t2' } as const, []],
    [{ ask: 'trace-pair', trace: 'parts/flex/traces/t1' } as const, ['parts/flex/traces/t2']],
    [{ ask: 'trace-net', trace: 'parts/flex/traces/t2' } as const, ['nets/sig']],
    [{ ask: 'shape-of', part: 'parts/lead' } as const, ['run']],
    [{ ask: 'shape-of', part: 'parts/sheet-metal' } as const, ['plate']],
    [{ ask: 'shape-of', part: 'parts/blank' } as const, []],
    [{ ask: 'flat-of', part: 'parts/lead' } as const, ['z']],
    // A bar along another one lies as flat as that one, and runs where it runs.
    [{ ask: 'flat-of', part: 'parts/back' } as const, ['z']],
    [{ ask: 'beside', part: 'parts/back' } as const, ['parts/lead', '+z']],
    [{ ask: 'beside', part: 'parts/lead' } as const, []],
    [{ ask: 'holes-of', part: 'parts/sheet-metal' } as const, ['parts/sheet-metal/plate/holes/h1']],
    [{ ask: 'goes-round', part: 'parts/ring' } as const, ['parts/lead', 'parts/back']],
    // `low` comes twice; `lower` is another passage, though its name begins alike.
    [{ ask: 'sealed-by', part: 'parts/seal' } as const, ['coolant/low.u', 'coolant/low.v', 'coolant/wall']],
    [{ ask: 'leaks-towards', part: 'parts/seal' } as const, ['parts/board']],
    [{ ask: 'leaks-towards', part: 'parts/lead' } as const, []],
  ])('%o', (question, expected) => {
    expect(ask.paths(question)).toEqual(expected)
  })

  it('the points of a bar along another one are those of that one', () => {
    const points = ask.paths({ ask: 'run-points', part: 'parts/lead' })
    expect(points).toHaveLength(3)
    expect([points[0], points[2]]).toEqual(['parts/lead/run/from', 'parts/lead/run/to'])
    expect(ask.paths({ ask: 'run-points', part: 'parts/back' })).toEqual(points)
    expect(ask.paths({ ask: 'run-points', part: 'parts/blank' })).toEqual([])
  })
})
