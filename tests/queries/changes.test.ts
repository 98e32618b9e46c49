import { describe, expect, it } from 'vitest'
import { asPath } from '../../graph/quantity/quantity.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { dependence, refute } from '../../queries/findings.ts'
import { changeOfBelief, revisionAsOf } from '../../queries/history.ts'
import { sideBySide } from '../../queries/side-by-side.ts'
import { changes, changesFrom } from '../../queries/what-if.ts'
import { demoSession, sheetSession } from './demo-session.ts'

const SPECIMEN = asPath('specimen')

const link = (rest = '', head = '') =>
  sheetSession(`lidoff: 1
id: unit
title: Unit
basis: judged
specimen: { kind: traction-inverter, dc-voltage: { max: 400 V (published) }, mass: ${head || '10 kg (measured)'} }
operating-points: { peak: { power: 100 kW (published) } }
parts:
  - { id: can, class: dc-link-film-capacitor, count: 2, capacitance: 100 µF ± 10 % (marked), mass: 200 g (measured), terminals: { plus: plus, minus: minus } }
  - { id: pad, class: thermal-interface, thickness: 1 mm (measured), conductivity: 3 W/(m·K) (assumed), size: 20 x 30 x 1 mm (measured) }
  - { id: case, class: case, faces: { deck: { area: 100 cm² (judged) } } }
heat:
  - { id: can-deck, from: can, layers: [ { part: pad } ], to: case/deck }
nets:
  plus: { potential: hv-positive }
  minus: { potential: hv-negative }
  other: { potential: hv-middle }
${rest}`)

const value = (session: ReturnType<typeof link>, metric: string, subject = SPECIMEN) =>
  session.evaluate(figureById(metric), subject)

describe('a change typed as path=value', () => {
  const session = link()
  const suppose = (text: string) => session.over(changesFrom(session.record, text))

  it.each([
    // 2 · 100 µF; less one 100; twice as many 400; one of them twice 300; 3 cans 300; one can on another net 100.
    ['can/capacitance=50 µF', 100],
    ['can.2=removed', 100],
    ['can=doubled', 400],
    ['can.2=doubled', 300],
    ['can=one more', 300],
    ['can=one fewer', 100],
    ['parts/can.1/terminals/plus=other', 100],
  ])('%s makes the link %d µF', (text, expected) => {
    expect(value(suppose(text), 'LINK_CAPACITANCE').atTaken).toBeCloseTo(expected, 9)
    expect(value(session, 'LINK_CAPACITANCE').atTaken).toBeCloseTo(200, 9)
  })

  it('a layer removed leaves no resistance of it, and doubled has twice as much', () => {
    // 1 mm / (3 W/(m·K) · 6 cm²) = 0.5556 K/W.
    const path = asPath('heat/can-deck')
    const of = (one: ReturnType<typeof link>) => {
      const subject = one.subjects(figureById('PATH_RESISTANCE')).paths.find((each) => each.startsWith(path))!
      return value(one, 'PATH_RESISTANCE', subject).atTaken
    }
    expect(of(session)).toBeCloseTo(0.001 / (3 * 6e-4), 9)
    expect(of(suppose('heat/can-deck/pad=doubled'))).toBeCloseTo(0.002 / (3 * 6e-4), 9)
    // A part that is a layer is stacked: there is twice as much of it, also in the way of the heat.
    expect(of(suppose('pad=doubled'))).toBeCloseTo(0.002 / (3 * 6e-4), 9)
    expect(suppose('pad=doubled').record.parts.entries.find(({ id }) => id === 'pad')!.pieces).toHaveLength(2)
  })

  it('a terminal on no net leaves a capacitor that the link cannot be told with', () => {
    const loose = value(suppose('can.1/terminals/plus=absent'), 'LINK_CAPACITANCE')
    expect(loose).toMatchObject({ status: 'MISSING', missing: [{ at: 'parts/can.1' }] })
  })

  it('what referred to a part that is taken out goes along and is named', () => {
    const without = suppose('pad=removed')
    expect(without.also).toContain('heat/can-deck')
    expect(without.record.parts.entries.map(({ id }) => id)).toEqual(['can', 'case'])
    expect(session.record.parts.entries).toHaveLength(3)
  })

  it('a property of a part that nothing was written of can be supposed', () => {
    const known = suppose('case/mass=1.5 kg (measured)')
    expect(value(known, 'PARTS_MASS').atTaken).toBeCloseTo(1.9, 9)
  })

  it.each([
    ['no-such-part/capacitance=50 µF', /nothing is recorded/],
    ['specimen/weight=50 kg', /nothing is recorded/],
    ['can/capacitance=50 mm', /mm/],
    ['can/capacitence=50 µF', /unknown key "capacitence"/],
    ['case/deck=doubled', /nothing at/],
    ['heat/can-deck/film=doubled', /nothing at/],
    ['parts/nothing=removed', /nothing at/],
    ['can.1/terminals/plus=dc-rail', /no net "dc-rail"/],
    ['findings/none=refuted', /no finding "none"/],
    ['just words', /no what-if/],
  ])('%s is refused with what mends it, and nothing is changed', (text, what) => {
    const before = value(session, 'LINK_CAPACITANCE')
    const thrown = refusal(() => suppose(text))
    expect(thrown.message).toMatch(what)
    expect(thrown.mend.length).toBeGreaterThan(3)
    expect(value(session, 'LINK_CAPACITANCE')).toEqual(before)
  })
})

function refusal(run: () => unknown): { readonly message: string; readonly mend: string } {
  try {
    run()
  } catch (error) {
    return error as { message: string; mend: string }
  }
  throw new Error('it was not refused')
}

describe('a relation typed as path=value', () => {
  // Two plates in parallel or one after the other; 300 W enter at the first.
  const session = sheetSession(`lidoff: 1
id: unit
title: Unit
basis: judged
specimen: { kind: traction-inverter }
parts:
  - { id: first, class: cold-plate, faces: { wet: { area: 100 cm² (judged) } } }
  - { id: second, class: cold-plate, faces: { wet: { area: 100 cm² (judged) } } }
  - { id: choke, class: inductor, mass: 200 g (measured), loss: 300 W (judged) }
  - { id: bracket, class: bracket, mass: 100 g (measured) }
  - { id: box, class: sub-assembly, mass: 1 kg (measured) }
  - { id: bar, class: bus-bar, net: plus, flat: z, run: { from: 0 / 0 / 0 mm, to: 90 / 0 / 0 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
  - { id: strap, class: bus-bar, net: plus, flat: z, run: { from: 90 / 0 / 0 mm, to: 190 / 0 / 0 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
nets: { plus: { potential: hv-positive } }
heat:
  - { from: choke, to: first/wet, resistance: 0.1 K/W (judged) }
coolant:
  fluid: water
  flow: 6 L/min (assumed)
  inlet: 20 °C (assumed)
  passages:
    - { id: a, cools: [ { face: first/wet } ], channel: { width: 10 mm (judged), height: 5 mm (judged), length: 200 mm (judged) } }
    - { id: b, cools: [ { face: second/wet } ], channel: { width: 10 mm (judged), height: 5 mm (judged), length: 200 mm (judged) } }
  sequence: [inlet, a, b, outlet]
`)
  const suppose = (...texts: string[]) => session.over(texts.flatMap((text) => changesFrom(session.record, text)))
  const rise = (one: typeof session, passage: string) =>
    value(one, 'COOLANT_RISE', asPath(`coolant/${passage}`)).atTaken
  // Water at 20 °C: 300 W / (0.1 L/s · 4.17 kJ/(L·K)) = 0.72 K.
  const WHOLE = 0.72

  it('the order of the coolant: what flows side by side shares the flow', () => {
    expect(rise(session, 'a')).toBeCloseTo(WHOLE, 2)
    const parallel = suppose('coolant/sequence=[inlet, [a, b], outlet]')
    expect(rise(parallel, 'a')).toBeCloseTo(2 * WHOLE, 1)
    expect(parallel.over(changesFrom(parallel.record, 'coolant/sequence=[inlet, a, b, outlet]')).record.tree).toEqual(
      session.record.tree,
    )
  })

  it.each([
    ['where a heat path ends', ['heat/choke~wet/to=second/wet']],
    ['what a passage cools', ['coolant/a/cools/first-wet=removed', 'coolant/b/cools=first/wet']],
  ])('%s: the heat enters the other passage', (_, texts) => {
    const moved = suppose(...texts)
    expect(rise(session, 'b')).toBeCloseTo(0, 9)
    expect(rise(moved, 'b')).toBeCloseTo(WHOLE, 2)
  })

  it('a heat path more is one without resistance of its own', () => {
    const more = suppose('heat=bracket to second/wet')
    expect(more.structure.answer({ ask: 'heat-paths' }, more.settings).paths).toContain('heat/bracket~wet')
  })

  it('two bars are joined, and parted again', () => {
    const joints = (one: typeof session) =>
      one.structure.answer({ ask: 'joints-of', part: asPath('parts/bar') }, one.settings).paths
    const joined = suppose('joints/bar~strap=joined')
    expect(joints(session)).toEqual([])
    expect(joints(joined)).toEqual(['joints/bar~strap'])
    expect(joints(joined.over(changesFrom(joined.record, 'joints/bar~strap=removed')))).toEqual([])
  })

  it('a part in another assembly keeps its path; the mass of the assembly holds it already', () => {
    const inside = suppose('bracket/in=box')
    expect(inside.record.parts.entries.map(({ path }) => path)).toContain('parts/bracket')
    expect(value(session, 'PARTS_MASS').atTaken! - value(inside, 'PARTS_MASS').atTaken!).toBeCloseTo(0.1, 9)
  })

  it.each([
    [['coolant/sequence=inlet then outlet'], /no order of the coolant/],
    [['coolant/sequence=[inlet, c, outlet]'], /no passage has the id "c"/],
    [['coolant/c/cools/first-wet=removed'], /no passage "c"/],
    [['coolant/a/cools/second-wet=removed'], /cools no "second-wet"/],
    [['coolant/a/cools/first-wet=doubled'], /not "doubled"/],
    [['coolant/a/cools=first/dry'], /"dry"/],
    [['heat/choke~wet/to=third/wet'], /"third"/],
    [['heat/choke~dry/to=second/wet'], /nothing at "heat\/choke~dry\/to"/],
    [['heat=choke'], /no heat path/],
    [['bracket/in=crate'], /no part "crate"/],
    [['box/in=box'], /in itself/],
    // What goes along with a part that is taken out is no cover for what was typed wrong.
    [['bracket=removed', 'heat/choke~wet/to=third/wet'], /"third"/],
  ])('%j is refused with what mends it', (texts, what) => {
    const thrown = refusal(() => suppose(...texts))
    expect(thrown.message).toMatch(what)
    expect(thrown.mend.length).toBeGreaterThan(3)
  })
})

describe('a finding that falls', () => {
  const FINDINGS = `findings:
  - { id: seen, about: [can], observation: a code on the can, status: held }
  - { id: guess, about: [can], reading: it is that type, rests-on: seen, status: open }
`
  const resting = (claim: string) =>
    sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter, dc-voltage: { max: 400 V (published) } }
parts:
  - { id: can, class: dc-link-film-capacitor, capacitance: ${claim}, terminals: { plus: plus, minus: minus } }
nets:
  plus: { potential: hv-positive }
  minus: { potential: hv-negative }
${FINDINGS}`)

  it('takes every figure, and the finding on top of it, down with it', () => {
    const session = resting('{ value: 100 µF, basis: judged, rests-on: guess }')
    for (const { figures } of dependence(session)) expect(figures).toContain('LINK_ENERGY specimen')
    expect(dependence(session)).toHaveLength(2)
    for (const finding of ['findings/guess', 'findings/seen']) {
      const { figures, checks } = refute(session, finding, ['LINK_ENERGY'])
      expect(figures[0]).toMatchObject({ changed: true, before: { status: 'OK' }, after: { status: 'MISSING' } })
      expect(figures[0]!.after!.missing).toEqual([{ path: 'parts/can/capacitance', why: 'refuted' }])
      expect(checks).toContainEqual(expect.objectContaining({ id: 'rests-on-refuted', now: 'raised' }))
    }
  })

  it('leaves the next best claim standing', () => {
    const session = resting('[ { value: 100 µF, basis: marked, rests-on: guess }, 80 µF (judged) ]')
    const after = session.over(changes(session.record, 'findings/guess', 'refuted'))
    expect(value(session, 'LINK_CAPACITANCE').atTaken).toBeCloseTo(100, 9)
    expect(value(after, 'LINK_CAPACITANCE').atTaken).toBeCloseTo(80, 9)
  })

  it('takes relations down: on a demo unit the even split carries every figure of the coolers', {
    timeout: 60_000,
  }, () => {
    const session = demoSession('ferry-7-drive')
    const { figures } = refute(session, 'findings/split-even', ['COOLANT_RISE', 'LINK_CAPACITANCE'])
    const moved = figures.filter(({ changed }) => changed)
    expect(moved.length).toBeGreaterThan(0)
    expect(moved.every(({ metric }) => metric === 'COOLANT_RISE')).toBe(true)
    expect(moved.every(({ because }) => because.length > 0)).toBe(true)
  })
})

describe('side by side', () => {
  it('names what each figure read that is different, and leaves the others alone', () => {
    const session = link()
    const after = session.over(changesFrom(session.record, 'specimen/mass=8 kg'))
    const { figures } = sideBySide(session, after, ['SPECIFIC_POWER', 'LINK_CAPACITANCE'])
    const [power, capacitance] = ['SPECIFIC_POWER', 'LINK_CAPACITANCE'].map(
      (metric) => figures.find((one) => one.metric === metric)!,
    )
    expect(power).toMatchObject({ changed: true, because: ['specimen/mass'] })
    expect([power!.before!.value, power!.after!.value]).toEqual([expect.closeTo(10, 9), expect.closeTo(12.5, 9)])
    expect(capacitance).toMatchObject({ changed: false, because: [] })
    expect(capacitance!.after).toBe(capacitance!.before)
  })
})

describe('what was thought before', () => {
  it('statements that changed and figures that moved because of them', () => {
    const changed = changeOfBelief(link('', '10 kg (judged)'), link('', '8 ± 0.1 kg (measured)'), [
      'SPECIFIC_POWER',
      'LINK_CAPACITANCE',
    ])
    expect(changed.statements).toEqual([
      {
        path: 'specimen/mass',
        before: { text: '10 kg (judged)', basis: 'judged' },
        after: { text: '8 ± 0.1 kg (measured)', basis: 'measured' },
      },
    ])
    expect(changed.figures.map(({ metric, because }) => [metric, because])).toEqual([
      ['SPECIFIC_POWER', ['specimen/mass']],
    ])
  })

  it('a date means its end, a moment itself', () => {
    const revisions = [{ at: '2026-11-16T08:00:00.000Z' }, { at: '2026-11-18T15:00:00.000Z' }]
    expect(revisionAsOf(revisions, '2026-11-15')).toBeUndefined()
    expect(revisionAsOf(revisions, '2026-11-17')).toBe(revisions[0])
    expect(revisionAsOf(revisions, '2026-11-18')).toBe(revisions[1])
    expect(revisionAsOf(revisions, '2026-11-18T14:59:00Z')).toBe(revisions[0])
  })
})
