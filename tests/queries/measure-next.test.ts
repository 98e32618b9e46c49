import { describe, expect, it } from 'vitest'
import { leaves } from '../../graph/lack.ts'
import { asPath } from '../../graph/quantity/quantity.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { measureNext } from '../../queries/measure-next.ts'
import { DEMO_UNITS, demoSession, sheetSession } from './demo-session.ts'

describe('what is promised of a measurement', () => {
  it.each(DEMO_UNITS)('comes true for the first entry of %s that narrows a figure', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const suggestions = measureNext(session)
    const first = suggestions.find(({ narrows }) => narrows !== null)!
    expect(first, 'a suggestion that narrows a figure').toBeDefined()
    const { metric, subject, from, to } = first.narrows!
    // The what-if: the same value, known a thousand times more narrowly.
    const quantity = session.values.slot(asPath(first.path)).quantity!
    const narrow = {
      set: asPath(first.path),
      to: {
        ...quantity,
        terms: [{ influence: 'narrow', mode: 'scale' as const, weight: 1 }],
        defaulted: false,
      },
      influences: [
        { id: 'narrow', scope: 'claim' as const, shape: { kind: 'normal' as const, u: 1e-5 }, about: 'narrow' },
      ],
    }
    const after = session.over([narrow]).evaluate(figureById(metric), subject).u!
    const promised = 1 - to / from
    const found = 1 - after / from
    expect(Math.abs(found - promised)).toBeLessThanOrEqual(0.1 * promised)
  })

  it.each(DEMO_UNITS)('is no gap any more once the first missing value of %s is there', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const first = measureNext(session).find(({ why, path }) => why === 'becomes computable' && !path.includes(' '))
    if (!first)
      return expect(
        session
          .evaluateAll()
          .flatMap(({ missing }) => missing.flatMap(leaves))
          .filter((lack) => 'path' in lack),
      ).toEqual([])
    const value = {
      value: 1e-3,
      terms: [],
      basis: 'measured',
      claim: 'test',
      text: 'test',
      defaulted: false,
      restsOn: [],
    } as const
    const after = session.over([{ set: asPath(first.path), to: value }])
    const asked = first.figures.slice(0, 3).map((text) => text.split(' '))
    for (const [metric, subject] of asked) {
      const { missing } = after.evaluate(figureById(metric!), asPath(subject!))
      const gaps = missing
        .flatMap(leaves)
        .flatMap((lack) => ('path' in lack ? [lack.path.replace(/\.[^/]*/g, '')] : []))
      expect(gaps).not.toContain(first.path)
    }
    return undefined
  })

  it('a missing value comes before a narrower one, and what a step destroys before both', () => {
    const session = sheetSession(`lidoff: 1
id: unit
title: Unit
basis: judged
specimen: { kind: traction-inverter, mass: 10 kg ± 20 % (judged) }
operating-points: { peak: { power: 100 kW ± 1 % (published) } }
parts:
  - { id: film, class: thermal-interface, thickness: 70 µm ± 40 % (judged), mass: 2 g ± 50 % (judged) }
steps:
  - { id: open, takes-off: film, destructive: true, loses: [film/mass] }
loan: { back: 2026-12-01 }
`)
    const suggestions = measureNext(session, ['SPECIFIC_POWER', 'POWER_DENSITY', 'PARTS_MASS'])
    expect(suggestions.map(({ why }) => why)).toEqual([
      'lost at a coming step',
      ...suggestions.filter(({ why }) => why === 'becomes computable').map(({ why }) => why),
      'narrows',
    ])
    expect(suggestions.every(({ before }) => before === '2026-12-01')).toBe(true)
    expect(suggestions.at(-1)).toMatchObject({ path: 'specimen/mass', instrument: 'balance' })
    // u² = 11.55 %² + 0.58 %² of 10 kW/kg: without the mass 0.58 % is left, 5 % of what there was.
    expect(suggestions.at(-1)!.gain).toBeCloseTo(1 - 0.0577 / Math.hypot(0.0577, 1.1547), 2)
  })
})
