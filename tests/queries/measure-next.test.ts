import { describe, expect, it } from 'vitest'
import { leaves } from '../../graph/lack.ts'
import { asPath } from '../../graph/quantity/quantity.ts'
import type { Result } from '../../queries/evaluate/result.ts'
import { figureById } from '../../queries/figures/registry.ts'
import { measureNext } from '../../queries/measure-next.ts'
import { changesFrom } from '../../queries/what-if.ts'
import { DEMO_UNITS, demoSession, sheetSession } from './demo-session.ts'

const VALUE = {
  value: 1e-3,
  terms: [],
  basis: 'measured',
  claim: 'test',
  text: 'test',
  defaulted: false,
  restsOn: [],
} as const

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

  it.each(DEMO_UNITS)(
    'makes a figure of %s computable once it is there with what it needs beside it',
    {
      timeout: 120_000,
    },
    (id) => {
      const session = demoSession(id)
      const gapsOf = (missing: Result['missing']): readonly string[] =>
        missing.flatMap(leaves).flatMap((lack) => ('path' in lack ? [lack.path.replace(/\.[^/]*/g, '')] : []))
      const promised = measureNext(session).filter(
        ({ why, path }) => why === 'becomes computable' && !path.includes(' '),
      )
      const gaps = session.evaluateAll().flatMap(({ missing }) => gapsOf(missing))
      expect(promised.length === 0).toBe(gaps.length === 0)
      for (const { path, together, figures } of promised.slice(0, 4)) {
        // Questions among them cannot be set; what can be set is.
        const values = [path, ...together]
          .filter((one) => !one.includes(' '))
          .flatMap((one) =>
            one.endsWith('/material')
              ? changesFrom(session.record, `${one}=aluminium-wrought`)
              : [{ set: asPath(one), to: VALUE }],
          )
        const after = session.over(values)
        const left = figures.map((text) => {
          const [metric, subject] = text.split(' ')
          return gapsOf(after.evaluate(figureById(metric!), asPath(subject!)).missing)
        })
        expect(
          left.some((own) => own.length === 0),
          `${path} with ${together.join(', ')} leaves ${left[0]}`,
        ).toBe(true)
      }
    },
  )

  it('what is of no use alone says what it needs, and what is enough alone comes first', () => {
    const session = sheetSession(`lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter, dc-voltage: { max: 400 V (published) } }
parts:
  - { id: can, class: dc-link-film-capacitor, capacitance: 100 µF (marked), terminals: { plus: plus, minus: minus } }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative } }
`)
    const asked = measureNext(session, ['CAPACITOR_ENERGY_DENSITY'])
    const of = (path: string) => asked.find((one) => one.path === `parts/can/${path}`)!
    expect(asked[0]!.together).toEqual([])
    expect(of('can-volume').together).toEqual([])
    expect(of('height').together).toEqual(['parts/can/diameter'])
    expect(of('size/length').together).toHaveLength(2)
    const sizes = asked.map(({ together }) => together.length)
    expect(sizes).toEqual(sizes.toSorted((a, b) => a - b))
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
