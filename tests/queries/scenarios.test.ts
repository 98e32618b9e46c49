import { describe, expect, it } from 'vitest'
import { asPath } from '../../graph/quantity/quantity.ts'
import { checklist } from '../../queries/checklist.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { countScenarios, play, scenariosFrom } from '../../queries/scenarios.ts'
import { axisOf, POINTS_AT_MOST, sweep } from '../../queries/sweep.ts'
import { DEMO_UNITS, demoSession, sheetSession } from './demo-session.ts'

const session = sheetSession(`lidoff: 1
id: unit
title: Unit
basis: judged
specimen: { kind: traction-inverter, mass: 10 kg (measured), envelope: 400 x 250 x 100 mm (measured) }
operating-points:
  peak: { power: 100 kW (published) }
  continuous: { power: 60 kW (published) }
parts:
  - { id: can, class: dc-link-film-capacitor, count: 3 (judged), mass: 200 g (measured), capacitance: 100 µF (marked), terminals: { plus: plus, minus: minus } }
  - { id: lid, class: lid, mass: 800 g (measured) }
nets:
  plus: { potential: hv-positive }
  minus: { potential: hv-negative }
steps:
  - { id: off, takes-off: lid, done: 2026-11-16 }
  - { id: cut, cuts: can, destructive: true, loses: [can/mass, can/inductance] }
  - { id: saw, takes-off: can, destructive: true }
loan: { back: 2026-12-01, may: [open], may-not: [burn] }
`)

describe('a sheet of scenarios', () => {
  it('is played one by one against the record as it stands', () => {
    const { scenarios, metrics } = scenariosFrom({
      metrics: ['SPECIFIC_POWER'],
      scenarios: [
        { id: 'lighter', 'what-if': ['specimen/mass=8 kg'] },
        { id: 'sustained', title: 'All day', 'what-if': ['specimen/mass=8 kg'], conditions: { power: 'continuous' } },
      ],
    })
    const played = play(session, scenarios, metrics)
    // 100 kW / 8 kg, 60 kW / 8 kg.
    expect(played.map(({ result }) => result.figures[0]!.after!.value)).toEqual([12.5, 7.5])
    expect(played.map(({ result }) => result.figures[0]!.before!.value)).toEqual([10, 10])
    expect(played[1]!.scenario.title).toBe('All day')
  })

  const change = { 'what-if': ['specimen/mass=8 kg'] }
  it.each([
    ['no scenarios', {}, /no scenarios/],
    ['an unknown key', { scenarios: [{ id: 'a', whatif: ['x=1'] }] }, /scenario 1: unknown key "whatif"/],
    ['no id', { scenarios: [change] }, /scenario 1 has no id/],
    ['two of one name', { scenarios: [1, 2].map(() => ({ id: 'a', ...change })) }, /two scenarios are called "a"/],
    ['nothing changed', { scenarios: [{ id: 'a', title: 'All day' }] }, /a: nothing is changed/],
    ['conditions that are no mapping', { scenarios: [{ id: 'a', conditions: 'power' }] }, /a: conditions/],
    ['a list for a condition', { scenarios: [{ id: 'a', conditions: { power: ['peak'] } }] }, /the condition "power"/],
    ['no such figure', { metrics: ['POWER_DENSTY'], scenarios: [{ id: 'a', ...change }] }, /no figure "POWER_DENSTY"/],
  ])('with %s is refused with what mends it', (_, tree, what) => {
    expect(() => scenariosFrom(tree as never)).toThrow(
      expect.objectContaining({ message: expect.stringMatching(what), mend: expect.stringMatching(/\w/) }),
    )
  })

  it('takes figures in small letters, as the command line does', () => {
    const { metrics } = scenariosFrom({ metrics: ['power-density'], scenarios: [{ id: 'a', ...change }] })
    expect(metrics).toEqual(['POWER_DENSITY'])
  })

  it('names the scenario that does not fit', () => {
    const { scenarios } = scenariosFrom({ scenarios: [{ id: 'wrong', 'what-if': ['specimen/mass=8 mm'] }] })
    expect(() => play(session, scenarios)).toThrow(/scenario wrong: .*mm/)
  })

  it('counts that nobody made are one more and one less', () => {
    const played = play(session, countScenarios(session.record), ['LINK_CAPACITANCE'])
    const values = Object.fromEntries(
      played.map(({ scenario, result }) => [scenario.id, result.figures[0]!.after!.value]),
    )
    // 3 · 100 µF, plus and minus one can.
    expect(values['can-one-more']).toBeCloseTo(400, 6)
    expect(values['can-one-fewer']).toBeCloseTo(200, 6)
  })
})

describe('a sweep', () => {
  it('gives the figure at every point of one value', () => {
    const axis = axisOf(session, 'specimen/mass=5..20 kg:4')
    expect(axis).toMatchObject({ path: 'specimen/mass', points: [5, 10, 15, 20] })
    const table = sweep(session, { metrics: ['SPECIFIC_POWER'], axes: [axis] })
    expect(table.rows.map(({ at, values }) => at[0]! * values[0]!)).toEqual(
      [100, 100, 100, 100].map((one) => expect.closeTo(one, 9)),
    )
  })

  it('of two values is their grid, and evenly spaced in the logarithm when asked', () => {
    const axes = ['specimen/mass=1..100 kg:3 log', 'operating-points/peak/power=50..100 kW:2'].map((text) =>
      axisOf(session, text),
    )
    const { rows } = sweep(session, { metrics: ['SPECIFIC_POWER'], axes })
    expect(rows.map(({ at }) => at.map((one) => Number(one.toPrecision(6))))).toEqual([
      [1, 50],
      [1, 100],
      [10, 50],
      [10, 100],
      [100, 50],
      [100, 100],
    ])
    for (const { at, values } of rows) expect(values[0]).toBeCloseTo(at[1]! / at[0]!, 9)
  })

  it('over a condition is the what-if at each point', { timeout: 60_000 }, () => {
    const demo = demoSession('ferry-7-drive')
    const axis = axisOf(demo, 'coolant-flow=6..12 L/min:3')
    const { rows } = sweep(demo, { metrics: ['COOLANT_RISE'], subjects: ['specimen'], axes: [axis] })
    const values = rows.map((row) => row.values[0]!)
    expect(values[0]!).toBeGreaterThan(values[1]!)
    expect(values[1]!).toBeGreaterThan(values[2]!)
    // Heat into the coolant is the same: rise times flow is, up to the coolant's heat capacity at its mean temperature.
    expect((values[0]! * 6) / (values[2]! * 12)).toBeCloseTo(1, 1)
  })

  it.each([
    ['specimen/mass=1..100 kg:1000000', /1000000 points/],
    ['specimen/mass=1..100 kg:1', /1 point/],
    ['specimen/mass=1..100 mm:5', /mm/],
    ['specimen/weight=1..100 kg:5', /nothing is recorded/],
    ['specimen/mass=0..100 kg:5 log', /logarithmic/],
    ['specimen/mass 1 to 100 kg', /is no range/],
  ])('%s is refused with what mends it', (text, what) => {
    expect(() => axisOf(session, text)).toThrow(
      expect.objectContaining({ message: expect.stringMatching(what), mend: expect.stringMatching(/\w/) }),
    )
  })

  it('of too many points in two values together is refused before any is computed', () => {
    const axes = ['specimen/mass=1..2 kg:200', 'operating-points/peak/power=1..2 kW:51'].map((text) =>
      axisOf(session, text),
    )
    expect(() => sweep(session, { metrics: ['SPECIFIC_POWER'], axes })).toThrow(/10200 points/)
    expect(POINTS_AT_MOST).toBe(10_000)
  })
})

describe('before a step that destroys something', () => {
  it('what is lost with it stands there, what nobody observed first', () => {
    const { steps, loan } = checklist(session, ['PARTS_MASS'])
    expect(loan).toEqual({ back: '2026-12-01', may: ['open'], mayNot: ['burn'] })
    expect(steps.map(({ step, silent }) => [step, silent])).toEqual([
      ['steps/cut', false],
      ['steps/saw', true],
    ])
    expect(steps[0]!.atStake.map(({ path, onRecord, basis }) => [path, onRecord, basis])).toEqual([
      ['parts/can/inductance', false, null],
      ['parts/can/mass', true, 'measured'],
    ])
    expect(steps[0]!.atStake[1]!.figures).toEqual(['PARTS_MASS specimen'])
    expect(steps[1]!.after).toEqual(['steps/cut'])
  })

  it.each(DEMO_UNITS)('of %s only steps still to come are told', { timeout: 60_000 }, (id) => {
    const demo = demoSession(id)
    const done = new Set(
      (demo.record.sheet.steps ?? []).filter((step) => step.done !== undefined).map((step) => `steps/${step.id}`),
    )
    const { steps } = checklist(demo, ['PARTS_MASS'])
    expect(steps.filter(({ step }) => done.has(step))).toEqual([])
  })
})

it('a session answers the same question once', () => {
  const figure = figureById('SPECIFIC_POWER')
  expect(session.evaluate(figure, asPath('specimen'))).toBe(session.evaluate(figure, asPath('specimen')))
})
