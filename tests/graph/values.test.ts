import { describe, expect, it } from 'vitest'
import type { Edit } from '../../graph/edit.ts'
import { asPath, type Influence, type Path, type Quantity } from '../../graph/quantity/quantity.ts'
import type { Draw } from '../../graph/values.ts'
import { generalisations, openValues } from '../../graph/values.ts'
import { whatIf } from '../../queries/quantity-input.ts'
import { structureOf } from './structure-fixture.ts'

const valuesOf = (sections: string, edits: readonly Edit[] = []) => {
  const structure = structureOf(sections)
  return openValues(structure.record, edits, structure.variesEach)
}

describe('from one piece to all', () => {
  it.each([
    ['parts/can/mass', ['parts/can/mass']],
    ['parts/can.2/mass', ['parts/can.2/mass', 'parts/can/mass']],
    [
      'parts/module.v/switch.high/igbt.2/size/length',
      [
        'parts/module.v/switch.high/igbt.2/size/length',
        'parts/module/switch.high/igbt.2/size/length',
        'parts/module/switch/igbt.2/size/length',
        'parts/module/switch.high/igbt/size/length',
        'parts/module/switch/igbt/size/length',
      ],
    ],
    ['parts/module.v/sensor/mass', ['parts/module.v/sensor/mass', 'parts/module/sensor/mass']],
    ['heat/down.v-high/paste/thickness', ['heat/down.v-high/paste/thickness', 'heat/down/paste/thickness']],
  ])('%s', (path, expected) => {
    expect(generalisations(asPath(path))).toEqual(expected)
  })

  const values = valuesOf(`parts:
  - id: module
    class: half-bridge-module
    each: { u: {}, v: { mass: 110 g } }
    mass: 100 g
    parts: [ { id: die, class: power-die, mass: 2 g, each: { a: {}, b: { mass: 3 g } } } ]
  - { id: cooler, class: cold-plate, each: { "1": {}, "2": {}, "3": { faces: { seat: { area: 9 cm² } } } }, faces: { seat: { area: 5 cm², each: { u: {}, v: {} } } } }
`)

  it.each([
    ['parts/module.u/mass', 'parts/module/mass', 0.1],
    ['parts/module.v/mass', 'parts/module.v/mass', 0.11],
    ['parts/module.v/die.a/mass', 'parts/module/die/mass', 0.002],
    ['parts/module.v/die.b/mass', 'parts/module/die.b/mass', 0.003],
    ['parts/cooler.2/seat.v/area', 'parts/cooler/seat/area', 5e-4],
    ['parts/cooler.3/seat.v/area', 'parts/cooler.3/seat/area', 9e-4],
  ])('%s stands at %s', (path, home, value) => {
    const slot = values.slot(asPath(path))
    expect(slot.home).toBe(home)
    expect(slot.quantity!.value).toBeCloseTo(value, 12)
  })

  it('a slot is made once for a path, and found by its number', () => {
    const slot = values.slot(asPath('parts/module.u/mass'))
    expect(values.slot(asPath('parts/module.u/mass'))).toBe(slot)
    expect(values.slotAt(slot.index)).toBe(slot)
  })
})

describe('pieces that deviate each on its own, or together', () => {
  const influencesOf = (vary: string, path: (n: number) => string, sections: (vary: string) => string) => {
    const values = valuesOf(sections(vary))
    return [1, 2].map((n) => values.slot(asPath(path(n))).terms.map(({ influence }) => values.influence(influence).id))
  }
  const cans = (vary: string) =>
    `parts: [ { id: can, class: dc-link-film-capacitor, count: 2, capacitance: 10 µF ± 10 % (marked)${vary} } ]`
  // One capacitor in each of two modules: two pieces all the same.
  const inside = (vary: string) => `parts:
  - id: box
    class: assembly
    count: 2
    parts: [ { id: can, class: dc-link-film-capacitor, capacitance: 10 µF ± 10 % (marked)${vary} } ]`

  it.each<[string, (n: number) => string, (vary: string) => string]>([
    ['of one entry', (n) => `parts/can.${n}/capacitance`, cans],
    ['that come once in a part that repeats', (n) => `parts/box.${n}/can/capacitance`, inside],
  ])('%s', (_, path, sections) => {
    const [first, second] = influencesOf(', vary: each', path, sections)
    expect(first).toHaveLength(1)
    expect(first).not.toEqual(second)
    for (const vary of ['', ', vary: together']) {
      const [one, other] = influencesOf(vary, path, sections)
      expect(one).toEqual(other)
    }
  })

  it('what an instrument adds is shared by all pieces even then', () => {
    const values = valuesOf(`instruments: { bridge: { kind: component-bridge, serial: "7", uncertainty: ± 1 % } }
parts: [ { id: can, class: dc-link-film-capacitor, count: 2, vary: each, capacitance: 10.0 µF ± 10 % (measured; with bridge) } ]`)
    const ids = [1, 2].map((n) =>
      values.slot(asPath(`parts/can.${n}/capacitance`)).terms.map(({ influence }) => values.influence(influence).id),
    )
    const shared = ids[0]!.filter((id) => ids[1]!.includes(id))
    expect(shared.length).toBeGreaterThan(0)
    expect(ids[0]!.length).toBeGreaterThan(shared.length)
  })
})

describe('a perturbed value', () => {
  const path = asPath('parts/can/mass')
  const values = valuesOf('parts: [ { id: can, class: bracket, mass: 200 ± 3 g (measured) } ]')
  const slot = values.slot(path)
  const [influence] = slot.terms.map((term) => term.influence)
  const by = (deviation: number, moved: Exclude<Draw, null>['moved'] = 'all', only?: Path): Draw => ({
    moved,
    deviation: () => deviation,
    ...(only && { only }),
  })

  it('moves by the deviation of its causes', () => {
    expect(values.read(slot, null)).toBeCloseTo(0.2, 12)
    expect(values.read(slot, by(0.001))).toBeCloseTo(0.201, 12)
    expect(values.read(slot, by(0.001, new Set([influence!])))).toBeCloseTo(0.201, 12)
    expect(values.read(slot, by(0.001, new Set([999])))).toBeCloseTo(0.2, 12)
    expect(values.read(slot, by(0.001, 'all', asPath('parts/other/mass')))).toBeCloseTo(0.2, 12)
  })

  it('the deviation is that of what was written: limits of ± 3 g are 3/√3 g', () => {
    // JCGM 100:2008 4.3.7.
    expect(values.influence(influence!).u).toBeCloseTo(0.003 / Math.sqrt(3), 12)
  })
})

describe('what is supposed in the place of what is written', () => {
  const sections =
    'parts: [ { id: can, class: bracket, count: 3, mass: 200 ± 3 g (measured), each: { "2": { mass: 250 g (measured) } } } ]'
  const { record } = structureOf(sections)
  const at = (path: string, ...edits: readonly Edit[]) => valuesOf(sections, edits).slot(asPath(path))
  const supposed = (text: string): Edit => whatIf(record, text)

  it('a value set stands at its path and for the pieces that have none of their own', () => {
    const edit = supposed('can/mass=300 g')
    expect(at('parts/can.1/mass', edit).quantity!.value).toBeCloseTo(0.3, 12)
    expect(at('parts/can.2/mass', edit).quantity!.value).toBeCloseTo(0.25, 12)
    expect(at('parts/can.1/mass').quantity!.value).toBeCloseTo(0.2, 12)
  })

  it('for one piece it stands before what holds for all, written or supposed', () => {
    const edits = [supposed('can.1/mass=100 g'), supposed('can/mass=300 g')]
    expect(at('parts/can.1/mass', ...edits).quantity!.value).toBeCloseTo(0.1, 12)
    expect(at('parts/can.3/mass', ...edits).quantity!.value).toBeCloseTo(0.3, 12)
    expect(at('parts/can.2/mass', supposed('can.2/mass=1 g')).quantity!.value).toBeCloseTo(0.001, 12)
  })

  it('of two on one path the later counts, value and doubt', () => {
    const edits = [supposed('can/mass=300 ± 30 g'), supposed('can/mass=300 ± 3 g')]
    const values = valuesOf(sections, edits)
    const slot = values.slot(asPath('parts/can.1/mass'))
    const u = Math.hypot(...slot.terms.map(({ influence, weight }) => weight * values.influence(influence).u))
    expect(u).toBeCloseTo(0.003 / Math.sqrt(3), 12)
  })

  it('carries its own doubt, not that of what it replaces', () => {
    const values = valuesOf(sections, [supposed('can/mass=300 ± 30 g')])
    const slot = values.slot(asPath('parts/can.1/mass'))
    const u = Math.hypot(...slot.terms.map(({ influence, weight }) => weight * values.influence(influence).u))
    expect(u).toBeCloseTo(0.03 / Math.sqrt(3), 12)
  })

  it('one of the four nothings', () => {
    const edit: Edit = { set: asPath('parts/can/mass'), to: 'absent' }
    expect(at('parts/can.1/mass', edit)).toMatchObject({ nothing: 'absent' })
    expect(at('parts/can.1/mass', edit).quantity).toBeUndefined()
  })

  it('a cause that nobody declared is refused, not taken as none', () => {
    const quantity: Quantity = {
      value: 1,
      terms: [{ influence: 'nobody', mode: 'add', weight: 1 }],
      basis: 'assumed',
      claim: 'supposed',
      text: '1 kg',
      defaulted: false,
      restsOn: [],
    }
    const set = asPath('parts/can/mass')
    expect(() => at('parts/can.1/mass', { set, to: quantity })).toThrow(/no influence "nobody"/)
    const influence: Influence = { id: 'nobody', scope: 'claim', shape: { kind: 'normal', u: 0.1 }, about: 'supposed' }
    expect(at('parts/can.1/mass', { set, to: quantity, influences: [influence] }).terms).toHaveLength(1)
  })
})

describe('claims that rest on a finding', () => {
  const sections = (status: string) => `parts:
  - { id: can, class: bracket, mass: { claims: [ { value: 200 g, basis: measured, rests-on: zeroed }, 210 g (judged), 220 g (published) ] } }
  - { id: only, class: bracket, mass: { value: 50 g, rests-on: zeroed } }
findings: [ { id: zeroed, about: [can], observation: reads zero, reading: zeroed, status: ${status}, confidence: likely } ]
`

  it('when it falls the best other one stands; where there is none the value fell', () => {
    const held = valuesOf(sections('held'))
    const fallen = valuesOf(sections('refuted'))
    expect(held.slot(asPath('parts/can/mass')).quantity!.value).toBeCloseTo(0.2, 12)
    expect(fallen.slot(asPath('parts/can/mass')).quantity!.value).toBeCloseTo(0.22, 12)
    expect(fallen.slot(asPath('parts/only/mass'))).toMatchObject({ nothing: 'refuted' })
    expect(held.slot(asPath('parts/only/mass'))).toMatchObject({ nothing: null, restsOn: ['findings/zeroed'] })
  })
})

describe('the fingerprint of a value', () => {
  const seen = (mass: string, rest = '') =>
    valuesOf(`parts: [ { id: can, class: bracket, mass: ${mass} } ]\n${rest}`).slot(asPath('parts/can/mass')).seen
  const findings = 'findings: [ { id: f, about: [can], observation: o, reading: r, status: held, confidence: likely } ]'
  const base = seen('200 ± 3 g (measured)')

  it('is the same for the same, and another for whatever a result would show', () => {
    expect(seen('200 ± 3 g (measured)')).toBe(base)
    const others = [
      '201 ± 3 g (measured)',
      '200 ± 4 g (measured)',
      '200 ± 3 g (judged)',
      '200(3) g (measured)',
      'above 200 g (measured)',
      'not looked for',
      'absent',
    ].map((mass) => seen(mass))
    const resting = seen('{ value: 200 ± 3 g, basis: measured, rests-on: f }', findings)
    expect(new Set([base, ...others, resting]).size).toBe(others.length + 2)
  })
})
