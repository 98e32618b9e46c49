import { describe, expect, it } from 'vitest'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import type { Tree } from '../../../graph/record/record.ts'
import { part, sheetTree } from '../../fixtures/record.ts'

const parts = [
  part('module', 'half-bridge-module', {
    faces: { lower: {} },
    each: { u: {}, v: {} },
    parts: [part('die', 'power-die', { count: '2' })],
  }),
  part('cooler', 'cold-plate', { faces: { seat: { each: { u: {}, v: {} } }, deck: {} } }),
  part('paste', 'thermal-grease', { each: { u: {}, v: {} }, thickness: '80 µm' }),
  part('bar', 'bus-bar', { net: 'dc-plus', run: { from: '0 / 0 / 0 mm', to: '1 / 0 / 0 mm' } }),
  part('sheet-bar', 'bus-bar', { net: 'dc-plus' }),
  part('bolt', 'screw', { count: '4' }),
]
const base: Record<string, Tree> = { nets: { 'dc-plus': {}, 'dc-minus': {}, chassis: {} }, parts }
const passages = [
  { id: 'low', each: { u: {}, v: {} }, fins: {}, cools: [{ face: 'cooler/seat.*' }] },
  { id: 'wall', pipe: {} },
]
const read = (sections: Record<string, Tree>) => recordFromTree(sheetTree({ ...base, ...sections }))
const faultsOf = (sections: Record<string, Tree>) => {
  const found = read(sections)
  return 'faults' in found ? found.faults : []
}
const coolant = (more: Record<string, Tree>): Record<string, Tree> => ({ coolant: { passages, ...more } })
const sequence = (...order: Tree[]) => coolant({ sequence: order })
const heat = (more: Record<string, Tree>): Record<string, Tree> => ({
  heat: [{ id: 'way', from: 'module/die', to: 'module/lower', resistance: '1 K/W', ...more }],
})
const withPart = (more: Record<string, Tree>): Record<string, Tree> => ({
  parts: [...parts, part('extra', 'bus-bar', more)],
})

describe('what a sheet names and does not hold', () => {
  it.each<[string, Record<string, Tree>, RegExp, RegExp]>([
    ['heat from a part', heat({ from: 'modul' }), /no part has the id "modul"/, /did you mean "module"/],
    ['heat to a face', heat({ to: 'module/lowr' }), /no face and no part "lowr"/, /did you mean "lower"/],
    ['heat to a property', heat({ to: 'paste.u/thickness' }), /no face and no part "thickness"/, /./],
    ['heat to a piece', heat({ to: 'module.w/lower' }), /no piece "w"/, /u, v/],
    ['heat to one of several pieces', heat({ to: 'cooler/seat' }), /does not say which piece/, /seat\.u/],
    ['heat from one that comes once to all', heat({ from: 'bar', to: 'cooler/seat.*' }), /nothing to stand for/, /./],
    [
      'heat from pieces the other end has not',
      { ...heat({ from: 'bolt', to: 'cooler/seat.*' }) },
      /no piece "1", "2", "3", "4"/,
      /u, v/,
    ],
    ['heat to a passage of several faces', { ...coolant({}), ...heat({ to: 'wall' }) }, /cools 0 faces/, /face/],
    [
      'heat through a part',
      heat({ layers: [{ part: 'pste' }], resistance: 'absent' }),
      /no part has the id "pste"/,
      /paste/,
    ],
    [
      'heat through a part, restated',
      heat({ layers: [{ part: 'paste', thickness: '5 µm' }] }),
      /stated at the part/,
      /one home/,
    ],
    [
      'heat through a layer of no kind',
      heat({ layers: [{ thickness: '5 µm' }] }),
      /recorded part or of a kind/,
      /kind:/,
    ],
    [
      'heat through two equal layers',
      heat({ layers: [{ kind: 'solder' }, { kind: 'solder' }] }),
      /two layers .* "solder"/,
      /id/,
    ],
    ['a joint', { joints: [{ between: ['bar', 'sheet-ba'] }] }, /no part has the id "sheet-ba"/, /sheet-bar/],
    ['a joint of three', { joints: [{ between: ['bar', 'sheet-bar', 'bolt'] }] }, /between two parts/, /./],
    [
      'two equal joints',
      { joints: [{ between: ['bar', 'sheet-bar'] }, { between: ['sheet-bar', 'bar'] }] },
      /come out as "bar~sheet-bar"/,
      /id of its own/,
    ],
    [
      'a voltage',
      { voltages: [{ between: ['dc-plus', 'chasis'], working: '5 V' }] },
      /no net has the id "chasis"/,
      /chassis/,
    ],
    ['a voltage between one net', { voltages: [{ between: ['dc-plus', 'dc-plus'] }] }, /two different nets/, /./],
    [
      'a spacing on a part',
      { spacings: [{ kind: 'creepage', between: ['dc-plus', 'chassis'], on: 'bord' }] },
      /no part has the id "bord"/,
      /./,
    ],
    [
      'a spacing over a star',
      { spacings: [{ kind: 'creepage', between: ['g-*', 'chassis'] }] },
      /no piece here that a star/,
      /entry for each/,
    ],
    [
      'a net to ride on',
      { nets: { ...(base.nets as object), gate: { 'rides-on': 'dc-plu' } } },
      /no net has the id "dc-plu"/,
      /dc-plus/,
    ],
    [
      'nets that ride on each other',
      { nets: { ...(base.nets as object), a1: { 'rides-on': 'b1' }, b1: { 'rides-on': 'a1' } } },
      /ride on each other: a1 → b1 → a1/,
      /./,
    ],
    [
      'a port',
      { specimen: { kind: 'combined', ports: { in: { kind: 'dc', nets: ['dc-plus', 'dc'] } } } },
      /no net has the id "dc"/,
      /./,
    ],
    ['a loop', { loops: { 'module.x': { because: 'a' } } }, /no piece "x"/, /./],
    [
      'a part left out of a loop',
      { loops: { 'module.u': { because: 'a', 'leave-out': ['xcap'] } } },
      /no part has the id "xcap"/,
      /./,
    ],
    [
      'a bar to lie beside',
      withPart({ beside: { part: 'br', side: '+z', gap: '1 mm' } }),
      /no part has the id "br"/,
      /bar/,
    ],
    ['a bar to go along', withPart({ run: { along: 'sheet-bar' } }), /"sheet-bar" has no run/, /./],
    ['a run without an end', withPart({ run: { from: '0 / 0 / 0 mm' } }), /without both its ends/, /to:/],
    ['a boundary', { boundaries: [{ id: 'stage', without: ['inlt'] }] }, /no part has the id "inlt"/, /./],
    ['a step after another', { steps: [{ id: 'one', after: ['tow'] }] }, /steps holds no "tow"/, /./],
    ['what a step takes off', { steps: [{ id: 'one', 'takes-off': 'coler' }] }, /no part has the id "coler"/, /cooler/],
    [
      'what a step loses',
      { steps: [{ id: 'one', loses: ['paste/thicknes'] }] },
      /no property or face "thicknes"/,
      /thickness/,
    ],
    ['what a step undoes', { steps: [{ id: 'one', undo: { blt: '4' } }] }, /no part has the id "blt"/, /bolt/],
    [
      'steps that wait for each other',
      {
        steps: [
          { id: 's1', after: ['s2'] },
          { id: 's2', after: ['s1'] },
        ],
      },
      /wait for each other: s1 → s2 → s1/,
      /./,
    ],
    [
      'what a finding is about',
      { findings: [{ id: 'f', about: ['rng/material'], reading: 'a' }] },
      /no part has the id "rng"/,
      /./,
    ],
    [
      'findings that rest on each other',
      { findings: [{ id: 'f', about: ['bar'], reading: 'a', 'rests-on': 'f' }] },
      /rest on each other: f → f/,
      /./,
    ],
    ['a finding that says nothing', { findings: [{ id: 'f', about: ['bar'] }] }, /says nothing/, /observation/],
    ['what a photo shows', { photos: [{ id: 'p', file: 'a.jpg', shows: ['br'] }] }, /no part has the id "br"/, /bar/],
    ['a photo outside its folder', { photos: [{ id: 'p', file: '../a.jpg' }] }, /leads out of/, /./],
    ['a class looked for', { census: [{ of: 'bleed-resistr', found: 'none' }] }, /unknown class/, /bleed-resistor/],
    ['a class by another word', { census: [{ of: 'screw-bolt', found: '3' }] }, /unknown class/, /./],
    [
      'a figure observed',
      { observed: [{ metric: 'pressure drop', subject: 'specimen', value: '5 kPa' }] },
      /no id of a figure/,
      /PRESSURE_DROP/,
    ],
    [
      'the subject of a figure',
      { observed: [{ metric: 'HEAT_FLUX', subject: 'modul.u', value: '5 W/cm²' }] },
      /no part has the id "modul"/,
      /module/,
    ],
    [
      'a passage that seals',
      { ...coolant({}), ...{ parts: [...parts, part('ring', 'o-ring', { seals: { passages: ['low.x'] } })] } },
      /no piece "x"/,
      /./,
    ],
    ['a finding a value rests on', withPart({ mass: { value: '5 g', 'rests-on': 'gone' } }), /a finding "gone"/, /./],
    ['a finding a relation rests on', { ...heat({ 'rests-on': 'gone' }) }, /a finding "gone"/, /./],
    [
      'a finding a terminal rests on',
      { parts: [...parts, part('bleed', 'bleed-resistor', { terminals: { '1': 'dc-plus (judged; rests on gone)' } })] },
      /a finding "gone"/,
      /./,
    ],
    [
      'a finding a net rests on',
      { nets: { ...(base.nets as object), lv: { 'tied-to': 'chassis (judged; rests on gone)' } } },
      /a finding "gone"/,
      /./,
    ],
    [
      'an instrument',
      { instruments: { caliper: { kind: 'caliper' } }, ...withPart({ mass: '5 g (measured; with calper)' }) },
      /no instrument has the id "calper"/,
      /caliper/,
    ],
    [
      'a region of a photo',
      {
        photos: [{ id: 'p', file: 'a.jpg', regions: [{ id: 'r1', part: 'bar', box: '1 2 3 4 px' }] }],
        ...withPart({ mass: { value: '5 g', photo: 'p/r2' } }),
      },
      /no region "r2"/,
      /r1/,
    ],
    ['a piece a claim is of', withPart({ count: '2', mass: { value: '5 g', of: 'extra.3' } }), /no piece "3"/, /1, 2/],
    [
      'a piece of another part a claim is of',
      withPart({ count: '2', mass: { value: '5 g', of: 'paste.u' } }),
      /no piece of extra/,
      /extra\.1/,
    ],
  ])('%s', (_, sections, what, mend) => {
    const faults = faultsOf(sections)
    expect(faults.map((fault) => fault.what)).toEqual([expect.stringMatching(what)])
    expect(faults[0]?.mend).toMatch(mend)
    expect(faults[0]?.at.length).toBeGreaterThan(0)
  })

  it('one star means the same piece at both ends', () => {
    const good = {
      heat: [{ from: 'module.*/lower', layers: [{ part: 'paste.*' }], to: 'cooler/seat.*' }],
      ...coolant({}),
    }
    expect(faultsOf(good)).toEqual([])
  })
})

describe('the order of the coolant', () => {
  it('alternates: one after the other, side by side, one after the other', () => {
    expect(faultsOf(sequence('inlet', 'wall', ['low.u', 'low.v'], 'outlet'))).toEqual([])
    expect(faultsOf(sequence('inlet', [['low.u', 'low.v'], ['wall']], 'outlet'))).toEqual([])
  })

  it.each<[string, Tree[], RegExp]>([
    ['without an inlet', ['wall', 'outlet'], /start at the inlet/],
    ['without an outlet', ['inlet', 'wall'], /end at the outlet/],
    ['with the outlet inside', ['inlet', ['wall', 'outlet'], 'outlet'], /"outlet" inside/],
    ['with a passage twice', ['inlet', 'wall', 'wall', 'outlet'], /visits "wall" twice/],
    ['with one that is not there', ['inlet', 'wal', 'outlet'], /no passage has the id "wal"/],
    ['with one of which there are two', ['inlet', 'low', 'outlet'], /"low" is 2 passages/],
    ['with an empty list', ['inlet', [], 'outlet'], /empty list/],
  ])('is refused %s', (_, order, what) => {
    expect(faultsOf(sequence(...order)).map((fault) => fault.what)).toEqual([expect.stringMatching(what)])
  })

  it.each<[string, Tree, RegExp]>([
    ['two forms', { id: 'x1', fins: {}, pipe: {} }, /fins and pipe/],
    ['no form', { id: 'x1' }, /without a form/],
    ['a face that is not there', { id: 'x1', pipe: {}, cools: [{ face: 'cooler/dek' }] }, /no face and no part "dek"/],
    ['a part for a face', { id: 'x1', pipe: {}, cools: [{ face: 'cooler' }] }, /cools a face/],
    [
      'a star on a part that comes once',
      { id: 'x1', each: { u: {}, v: {} }, pipe: {}, cools: [{ face: 'cooler.*/seat.*' }] },
      /no piece u, v/,
    ],
    [
      'one face of several pieces',
      { id: 'x1', pipe: {}, cools: [{ face: 'module/lower' }] },
      /which piece of "module"/,
    ],
    [
      'a face that comes several times',
      { id: 'x1', pipe: {}, cools: [{ face: 'cooler/seat' }] },
      /which piece of "seat"/,
    ],
    [
      'a star with nothing to stand for',
      { id: 'x1', pipe: {}, cools: [{ face: 'cooler/seat.*' }] },
      /nothing to stand for/,
    ],
  ])('a passage is refused with %s', (_, passage, what) => {
    expect(faultsOf({ coolant: { passages: [passage] } }).map((fault) => fault.what)).toEqual([
      expect.stringMatching(what),
    ])
  })

  it('may be of several circuits, each with an id', () => {
    const two = [
      { id: 'water', flow: '5 L/min', passages: [{ id: 'p1', pipe: { length: '5 mm' } }] },
      { id: 'oil', fluid: 'oil' },
    ]
    const found = read({ coolant: two })
    if (!('record' in found)) throw new Error('not read')
    expect([...found.record.facts.keys()].filter((path) => path.startsWith('coolant'))).toEqual([
      'coolant/water/flow',
      'coolant/p1/pipe/length',
      'coolant/oil/fluid',
    ])
    expect(faultsOf({ coolant: [{ flow: '5 L/min' }, { fluid: 'oil' }] })).toHaveLength(2)
  })

  it('has doubts about single flows', () => {
    expect(faultsOf(coolant({ doubts: [{ flow: 'wall to low.u', confidence: 'likely' }] }))).toEqual([])
    expect(faultsOf(coolant({ doubts: [{ flow: 'wall to lo.u' }] }))).toHaveLength(1)
    expect(faultsOf(coolant({ doubts: [{ flow: 'wall' }] }))).toHaveLength(1)
  })
})

describe('what should be known', () => {
  const warningsOf = (sections: Record<string, Tree>) => read(sections).warnings.map(({ what }) => what)

  it.each<[string, Record<string, Tree>, RegExp]>([
    [
      'no proof that the link is dead',
      { nets: { ...(base.nets as object), hv: { potential: 'hv-positive' } } },
      /no step proves it dead/,
    ],
    [
      'a proof that does not come first',
      {
        nets: { ...(base.nets as object), hv: { potential: 'hv-positive' } },
        steps: [
          { id: 's1', 'takes-off': 'bar' },
          { id: 's2', 'proved-dead': { across: ['dc-plus', 'dc-minus'] } },
        ],
      },
      /first step does not prove/,
    ],
    ['glycol of an unknown share', coolant({ fluid: 'ethylene-glycol-water' }), /without the share of glycol/],
    [
      'a phase current without rms or peak',
      { 'operating-points': { peak: { 'phase-current': '365 A (published)' } } },
      /rms/,
    ],
    ['a material in no table', withPart({ material: 'unobtanium' }), /in no table/],
    ['another word for a class', { parts: [...parts, part('n1', 'nut')] }, /class "nut" read as nut-or-insert/],
    [
      'an instrument where none are listed',
      withPart({ mass: '5 g (measured; with caliper)' }),
      /no instrument has the id "caliper"/,
    ],
    [
      'a heat path of which nothing is known',
      { heat: [{ from: 'module/die', to: 'module/lower' }] },
      /neither layers nor resistance/,
    ],
    ['what is undone and is no fastener', { steps: [{ id: 's1', undo: { paste: '1' } }] }, /group joining/],
    [
      'a joint between two nets',
      { parts: [...parts, part('extra', 'bus-bar', { net: 'dc-minus' })], joints: [{ between: ['bar', 'extra'] }] },
      /two nets/,
    ],
  ])('%s', (_, sections, what) => {
    expect(warningsOf(sections)).toContainEqual(expect.stringMatching(what))
  })

  it('says nothing of a sheet that is fine', () => {
    const steps = [{ 'proved-dead': { across: ['dc-plus', 'dc-minus'], reading: '0 V (measured)' } }]
    expect(warningsOf({ nets: { ...(base.nets as object), hv: { potential: 'hv-positive' } }, steps })).toEqual([])
  })
})
