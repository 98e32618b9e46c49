import { describe, expect, it } from 'vitest'
import { buildGraph } from '../../graph/build.ts'
import type { Edit } from '../../graph/edit.ts'
import { patched } from '../../graph/patch.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { readSheet } from '../../graph/sheet/read.ts'
import { HEAD } from './structure-fixture.ts'

interface Sections {
  readonly parts?: string
  readonly joints?: string
  readonly heat?: string
  readonly coolant?: string
  readonly nets?: string
  readonly rest?: string
}

const MODULE = `  - id: module
    class: half-bridge-module
    each: { u: {}, v: {} }
    faces: { wet: {} }
    terminals: { dc-plus: p, dc-minus: n, ac: ph-* }
    parts: [ { id: die, class: power-die, count: 2, loss: 5 W, terminals: { gate: g } } ]`
const CAN =
  '  - { id: can, class: dc-link-film-capacitor, count: 3, capacitance: 10 µF, terminals: { plus: p, minus: n } }'
const Y = '  - { id: y, class: y-capacitor, each: { a: {}, b: { marking: B } }, terminals: { 1: p, 2: ch } }'
const REST = `  - { id: box, class: assembly, parts: [ { id: fan, class: fan, mass: 90 g } ] }
  - { id: pad, class: thermal-interface, thickness: 1 mm }
  - { id: cooler, class: cold-plate, faces: { deck: {}, seat: { each: { u: {}, v: {} } } } }
  - { id: bar, class: bus-bar, net: p }
  - { id: strap, class: bus-bar, net: p }`
const BASE: Required<Sections> = {
  parts: [MODULE, CAN, Y, REST].join('\n'),
  joints: '  - { between: [bar, strap], kind: weld }',
  heat: `  - { id: down, from: module, layers: [ { part: pad }, { kind: paste, thickness: 50 µm } ], to: cooler/deck }
  - { from: fan, to: ambient, resistance: 2 K/W }`,
  coolant: `  fluid: water
  passages:
    - { id: a, pipe: {}, cools: [ { face: cooler/deck } ] }
    - { id: b, each: { u: {}, v: {} }, pipe: {}, cools: [ { face: cooler/seat.* } ] }
  sequence: [inlet, a, [b.u, b.v], outlet]`,
  nets: '{ p: { potential: hv-positive }, n: { potential: hv-negative }, ph-*: { potential: hv-switching }, ch: { potential: chassis }, g: {} }',
  rest: 'findings: [ { id: odd, about: [can], observation: hot, reading: overloaded, status: open, confidence: possible } ]',
}

function recordOf(sections: Sections = {}): TeardownRecord {
  const { parts, joints, heat, coolant, nets, rest } = { ...BASE, ...sections }
  const text = `${HEAD}specimen: { kind: traction-inverter, mass: 9 kg }
parts:
${parts}
joints:
${joints}
heat:
${heat}
coolant:
${coolant}
nets: ${nets}
${rest}
`
  const read = readSheet(text, 'patch.yaml')
  if ('record' in read) return read.record
  throw new Error(read.complaints.map(({ line, what, mend }) => `line ${line}: ${what}; ${mend}`).join('\n'))
}

/** Everything that questions are answered from; the order of nodes and edges is that of the sheet and is left out. */
function contentOf(record: TeardownRecord) {
  const graph = buildGraph(record)
  const edges = graph.mapEdges((_, attributes, from, to) => JSON.stringify([from, to, attributes]))
  return {
    facts: [...record.facts.entries()].map(([path, fact]) => [path, JSON.stringify(fact)]).sort(),
    nodes: graph.mapNodes((path, node) => `${path} ${JSON.stringify(node)}`).sort(),
    edges: edges.sort(),
  }
}

const base = recordOf()
const edit = (one: unknown): Edit => one as Edit
const patchedBy = (...edits: readonly unknown[]) => patched(base, edits.map(edit)).record

describe('a patched record is the record of the sheet that says so', () => {
  it.each<[string, readonly unknown[], Sections]>([
    ['nothing', [], {}],
    [
      'a part added at the top',
      [{ add: 'parts', entry: { id: 'extra', class: 'screw', mass: '3 g' } }],
      { parts: `${BASE.parts}\n  - { id: extra, class: screw, mass: 3 g }` },
    ],
    [
      'a part added inside another',
      [{ add: 'parts/box', entry: { id: 'extra', class: 'screw' } }],
      { parts: BASE.parts.replace('mass: 90 g } ]', 'mass: 90 g }, { id: extra, class: screw } ]') },
    ],
    ['a counted piece dropped', [{ drop: 'parts/can.3' }], { parts: BASE.parts.replace('count: 3', 'count: 2') }],
    [
      'a counted piece added',
      [{ add: 'parts/can.4', entry: '' }],
      { parts: BASE.parts.replace('count: 3', 'count: 4') },
    ],
    [
      'a named piece dropped',
      [{ drop: 'parts/y.b' }],
      { parts: BASE.parts.replace('each: { a: {}, b: { marking: B } }', 'each: { a: {} }') },
    ],
    [
      'a named piece added',
      [{ add: 'parts/y.c', entry: { state: 'cut' } }],
      { parts: BASE.parts.replace('{ marking: B } }', '{ marking: B }, c: { state: cut } }') },
    ],
    [
      'a text put in',
      [{ add: 'parts/can/material', entry: 'polypropylene' }],
      { parts: BASE.parts.replace('capacitance: 10', 'material: polypropylene, capacitance: 10') },
    ],
    ['a layer dropped', [{ drop: 'heat/down/pad' }], { heat: BASE.heat.replace('{ part: pad }, ', '') }],
    [
      'a layer added after the one it doubles',
      [{ add: 'heat/down/pad', entry: { id: 'pad-2', part: 'pad' } }],
      { heat: BASE.heat.replace('{ part: pad }, ', '{ part: pad }, { id: pad-2, part: pad }, ') },
    ],
    [
      'a layer added at the end',
      [{ add: 'heat/down/film', entry: { kind: 'film', thickness: '9 µm' } }],
      { heat: BASE.heat.replace('50 µm }', '50 µm }, { kind: film, thickness: 9 µm }') },
    ],
    [
      'the end of a path moved',
      [{ add: 'heat/down/to', entry: 'frame' }],
      { heat: BASE.heat.replace('cooler/deck', 'frame') },
    ],
    ['a path dropped by its derived id', [{ drop: 'heat/fan~ambient' }], { heat: BASE.heat.split('\n')[0]! }],
    [
      'a path taken back by its ends',
      [{ relate: 'conducts', from: 'parts/fan', to: 'ambient', on: false }],
      { heat: BASE.heat.split('\n')[0]! },
    ],
    [
      'a path with an id taken back by its ends',
      [{ relate: 'conducts', from: 'parts/module', to: 'parts/cooler/deck', on: false }],
      { heat: BASE.heat.split('\n')[1]! },
    ],
    [
      'a path added',
      [{ relate: 'conducts', from: 'parts/can', to: 'parts/cooler/deck', on: true }],
      { heat: `${BASE.heat}\n  - { from: can, to: cooler/deck }` },
    ],
    ['a joint parted', [{ relate: 'joins', from: 'parts/strap', to: 'parts/bar', on: false }], { joints: '  []' }],
    [
      'a terminal on another net',
      [{ relate: 'terminal', from: 'parts/can/terminals/plus', to: 'nets/ch', on: true }],
      { parts: BASE.parts.replace('terminals: { plus: p, minus: n }', 'terminals: { plus: ch, minus: n }') },
    ],
    [
      'a terminal of one named piece',
      [{ relate: 'terminal', from: 'parts/y.a/terminals/1', to: 'nets/n', on: true }],
      { parts: BASE.parts.replace('each: { a: {}, b', 'each: { a: { terminals: { 1: n } }, b') },
    ],
    [
      'a terminal of one counted piece taken off',
      [{ relate: 'terminal', from: 'parts/can.2/terminals/plus', to: 'nets/p', on: false }],
      { parts: BASE.parts.replace('count: 3,', 'count: 3, each: { "2": { terminals: { plus: absent } } },') },
    ],
    [
      'a part moved into an assembly',
      [{ relate: 'contains', from: 'parts/box', to: 'parts/pad', on: true }],
      {
        parts: BASE.parts
          .replace('  - { id: pad, class: thermal-interface, thickness: 1 mm }\n', '')
          .replace('mass: 90 g } ]', 'mass: 90 g }, { id: pad, class: thermal-interface, thickness: 1 mm } ]'),
      },
    ],
    [
      'a part moved out of an assembly',
      [{ relate: 'contains', from: 'parts/box', to: 'parts/fan', on: false }],
      {
        parts: `${BASE.parts.replace(', parts: [ { id: fan, class: fan, mass: 90 g } ]', ', parts: []')}\n  - { id: fan, class: fan, mass: 90 g }`,
      },
    ],
    [
      'a face no longer cooled',
      [{ relate: 'cools', from: 'coolant/a', to: 'parts/cooler/deck', on: false }],
      { coolant: BASE.coolant.replace(', cools: [ { face: cooler/deck } ]', '') },
    ],
    [
      'a face cooled besides, by one piece of a passage',
      [{ relate: 'cools', from: 'coolant/b.u', to: 'parts/module.u/wet', on: true }],
      {
        coolant: BASE.coolant.replace(
          'each: { u: {}, v: {} }',
          'each: { u: { cools: [ { face: cooler/seat.* }, { face: module.u/wet } ] }, v: {} }',
        ),
      },
    ],
    [
      'another order of the coolant',
      [{ add: 'coolant/sequence', entry: ['inlet', ['b.u', 'b.v'], 'a', 'outlet'] }],
      { coolant: BASE.coolant.replace('[inlet, a, [b.u, b.v], outlet]', '[inlet, [b.u, b.v], a, outlet]') },
    ],
    [
      'a passage added and run through',
      [
        { add: 'coolant', entry: { id: 'c', pipe: {} } },
        { add: 'coolant/sequence', entry: ['inlet', 'a', ['b.u', 'b.v'], 'c', 'outlet'] },
      ],
      {
        coolant: BASE.coolant
          .replace('  sequence', '    - { id: c, pipe: {} }\n  sequence')
          .replace('], outlet', '], c, outlet'),
      },
    ],
    ['a finding dropped', [{ drop: 'findings/odd' }], { rest: '' }],
    [
      'a net added',
      [{ add: 'nets/aux', entry: { potential: 'low-voltage' } }],
      { nets: BASE.nets.replace('g: {}', 'g: {}, aux: { potential: low-voltage }') },
    ],
  ])('%s', (_, edits, sections) => {
    expect(contentOf(patchedBy(...edits))).toEqual(contentOf(recordOf(sections)))
  })

  const screws = (more: string) => recordOf({ parts: `${BASE.parts}\n  - { id: bolt, class: screw${more} }` })

  it.each<[string, string, readonly unknown[], string]>([
    [
      'those after a dropped one move up with what is theirs',
      ', count: 5, each: { "2": { marking: B }, "5": { marking: E } }',
      [{ drop: 'parts/bolt.1' }],
      ', count: 4, each: { "1": { marking: B }, "4": { marking: E } }',
    ],
    [
      'a dropped one takes along what is its own',
      ', count: 5, each: { "2": { marking: B }, "5": { marking: E } }',
      [{ drop: 'parts/bolt.2' }],
      ', count: 4, each: { "4": { marking: E } }',
    ],
    [
      'no more are found than are built',
      ', count: { built: 4 (judged), found: 3 (measured) }',
      [{ drop: 'parts/bolt.4' }, { drop: 'parts/bolt.3' }],
      ', count: { built: 2 (judged), found: 2 (measured) }',
    ],
    [
      'one more of its own kind',
      ', count: 2',
      [{ add: 'parts/bolt.3', entry: { marking: 'C' } }],
      ', count: 3, each: { "3": { marking: C } }',
    ],
    [
      'a second one',
      '',
      [{ add: 'parts/bolt.2', entry: { state: 'cut' } }],
      ', count: 2, each: { "2": { state: cut } }',
    ],
    [
      'in a list',
      ', each: [ { marking: A }, { marking: B } ]',
      [{ add: 'parts/bolt.3', entry: { marking: 'C' } }, { drop: 'parts/bolt.1' }],
      ', each: [ { marking: B }, { marking: C } ]',
    ],
    [
      'a text of one named piece',
      ', each: { a: {}, b: {} }',
      [{ add: 'parts/bolt.b/marking', entry: 'B' }],
      ', each: { a: {}, b: { marking: B } }',
    ],
    [
      'a text of one counted piece',
      ', count: 3',
      [{ add: 'parts/bolt.2/marking', entry: 'B' }],
      ', count: 3, each: { "2": { marking: B } }',
    ],
  ])('pieces: %s', (_, start, edits, end) => {
    expect(contentOf(patched(screws(start), edits.map(edit)).record)).toEqual(contentOf(screws(end)))
  })

  it('the only piece goes with its part', () => {
    const { record } = patched(screws(', each: { a: {} }'), [edit({ drop: 'parts/bolt.a' })])
    expect(contentOf(record)).toEqual(contentOf(base))
  })

  it('edits one after the other are one patch', () => {
    const edits = [
      { add: 'parts', entry: { id: 'extra', class: 'screw' } },
      { relate: 'contains', from: 'parts/box', to: 'parts/extra', on: true },
      { drop: 'parts/can.3' },
    ]
    let one = base
    for (const each of edits) one = patched(one, [edit(each)]).record
    expect(contentOf(patchedBy(...edits))).toEqual(contentOf(one))
  })

  it('adding and dropping, moving there and back, is nothing done', () => {
    const extra = { id: 'extra', class: 'screw' }
    const same = [
      [{ add: 'parts', entry: extra }, { drop: 'parts/extra' }],
      [{ add: 'parts/can.4', entry: '' }, { drop: 'parts/can.4' }],
      [{ add: 'parts/y.c', entry: '' }, { drop: 'parts/y.c' }],
      [
        { relate: 'terminal', from: 'parts/can/terminals/plus', to: 'nets/ch', on: true },
        { relate: 'terminal', from: 'parts/can/terminals/plus', to: 'nets/p', on: true },
      ],
      [
        { relate: 'cools', from: 'coolant/a', to: 'parts/module.u/wet', on: true },
        { relate: 'cools', from: 'coolant/a', to: 'parts/module.u/wet', on: false },
      ],
    ]
    for (const edits of same) expect(contentOf(patchedBy(...edits))).toEqual(contentOf(base))
  })
})

describe('what goes along with what is dropped', () => {
  it('is named: a path that leads through it, a joint with it, what a remark is about', () => {
    const { record, also } = patched(base, [edit({ drop: 'parts/cooler' })])
    expect(record.parts.byId.has('cooler')).toBe(false)
    expect(also).toEqual(expect.arrayContaining([expect.stringContaining('heat/down')]))
    expect(also.some((path) => path.startsWith('coolant/'))).toBe(true)
    expect(patched(base, [edit({ drop: 'parts/strap' })]).also).toEqual(['joints/bar~strap'])
  })

  it('an edit that needs what another one drops is refused, not lost in silence', () => {
    const edits = [
      { drop: 'parts/pad' },
      { add: 'heat', entry: { id: 'new', from: 'can', layers: [{ part: 'pad' }], to: 'cooler/deck' } },
    ]
    expect(() => patchedBy(...edits)).toThrow(/pad/)
  })
})

describe('a patch that does not fit is refused with its place and what mends it, and the record is untouched', () => {
  it.each<[string, unknown, RegExp]>([
    ['a part that is not there', { drop: 'parts/nothing' }, /nothing at "parts\/nothing"/],
    ['a piece that is not there', { drop: 'parts/y.q' }, /nothing at/],
    ['the last piece', { drop: 'parts/cooler.1' }, /nothing at/],
    ['a whole section', { drop: 'parts' }, /whole section/],
    ['a layer that is not there', { drop: 'heat/down/film' }, /nothing at/],
    ['a path that is not there', { drop: 'heat/up/film' }, /nothing at/],
    ['something below an entry', { drop: 'findings/none/odd' }, /nothing at/],
    ['something below a net', { drop: 'nets/p/n' }, /nothing at/],
    ['a second part of that id', { add: 'parts', entry: { id: 'can', class: 'screw' } }, /"can"/],
    ['a second net of that name', { add: 'nets/p', entry: {} }, /there already/],
    ['a second piece of that name', { add: 'parts/y.a', entry: '' }, /there already/],
    ['an unknown class', { add: 'parts', entry: { id: 'x1', class: 'no-such-class' } }, /class/],
    ['an unknown section', { add: 'cabinets', entry: { id: 'x1' } }, /cabinets/],
    ['a part inside itself', { relate: 'contains', from: 'parts/fan', to: 'parts/box', on: true }, /nothing at|itself/],
    [
      'a part taken out of where it is not',
      { relate: 'contains', from: 'parts/box', to: 'parts/pad', on: false },
      /not inside|nothing at/,
    ],
    [
      'a terminal the class has not',
      { relate: 'terminal', from: 'parts/can/terminals/gate', to: 'nets/p', on: true },
      /terminal/,
    ],
    [
      'a net that is not there',
      { relate: 'terminal', from: 'parts/can/terminals/plus', to: 'nets/none', on: true },
      /none/,
    ],
    ['a joint of nothing', { relate: 'joins', from: 'parts/bar', to: 'parts/none', on: true }, /none/],
    ['a joint that is not there', { relate: 'joins', from: 'parts/bar', to: 'parts/pad', on: false }, /nothing at/],
    ['a path that is not there', { relate: 'conducts', from: 'parts/pad', to: 'frame', on: false }, /nothing at/],
    [
      'a face that is not cooled',
      { relate: 'cools', from: 'coolant/a', to: 'parts/module.u/wet', on: false },
      /nothing at/,
    ],
    ['a face that is not there', { relate: 'cools', from: 'coolant/a', to: 'parts/cooler/none', on: true }, /none/],
    [
      'a passage that is not there',
      { relate: 'cools', from: 'coolant/z', to: 'parts/cooler/deck', on: true },
      /nothing at/,
    ],
    ['one flow', { relate: 'flows', from: 'coolant/a', to: 'coolant/b.u', on: true }, /one list/],
    ['an order that leads back', { add: 'coolant/sequence', entry: ['inlet', 'a', 'a', 'outlet'] }, /twice/],
    ['heat that leads back', { add: 'heat', entry: { id: 'back', from: 'cooler/deck', to: 'module' } }, /./],
    // All modules have such a piece: one of them cannot be changed without saying how it differs.
    ['a piece of one module', { drop: 'parts/module.u/die.1' }, /all/],
    ['the dies of one module', { drop: 'parts/module.u/die' }, /all/],
    [
      'a terminal of a piece of one module',
      { relate: 'terminal', from: 'parts/module.u/die.1/terminals/gate', to: 'nets/n', on: true },
      /all/,
    ],
  ])('%s', (_, one, what) => {
    const tree = JSON.stringify(base.tree)
    let thrown: unknown
    try {
      patchedBy(one)
    } catch (error) {
      thrown = error
    }
    expect(thrown).toMatchObject({
      name: 'PatchError',
      at: expect.stringMatching(/./),
      mend: expect.stringMatching(/.../),
    })
    expect(`${(thrown as Error).message} ${(thrown as { at: string }).at}`).toMatch(what)
    expect(JSON.stringify(base.tree)).toBe(tree)
  })
})
