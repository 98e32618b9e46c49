import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { defineFigure, type Figure, SPECIMEN } from '../../../queries/figures/figure.ts'
import { drive } from '../../fixtures/drive.ts'

/** Something known only to lie between once and twice the nominal voltage. */
const between: Figure = defineFigure({
  id: 'BETWEEN',
  title: 'Between',
  definition: 'Of this test.',
  unit: 'V',
  subject: 'specimen',
  honours: [],
  method: 'U … 2U',
  sources: ['of this test'],
  subjects: () => SPECIMEN,
  compute(view) {
    const { voltage } = view.need({ voltage: asPath('specimen/dc-voltage/nominal') })
    return { low: voltage, high: 2 * voltage }
  },
})

const evaluate = (voltage: string) => drive({ voltage }).evaluate(between, SPECIMEN.paths[0]!)

describe('a figure known only between bounds', () => {
  it('has no value, and the doubt of the inputs widens each bound', () => {
    // 400 V ± 10 V read as limits: the 95 % interval of a rectangle is ± 9.5 V; of twice it ± 19 V
    const result = evaluate('nominal: 400 ± 10 V (measured)')
    expect([result.status, result.value, result.atTaken, result.u]).toEqual(['OK', null, null, null])
    expect(result.low).toBeCloseTo(400 - 9.5, 6)
    expect(result.high).toBeCloseTo(800 + 19, 6)
    expect(result.inputs.map(({ path, share }) => [path, share])).toEqual([['specimen/dc-voltage/nominal', null]])
  })

  it('without doubt has the bare bounds', () => {
    const result = evaluate('nominal: 400 ± 0 V (measured)')
    expect([result.low, result.high, result.how]).toEqual([400, 800, 'exact'])
  })

  it('lacks like any other', () => {
    expect(evaluate('max: 500 V (published)').status).toBe('MISSING')
  })

  it('no other figure can stand on it', () => {
    const session = drive({
      parts:
        '  - { id: can, class: dc-link-film-capacitor, capacitance: 500 µF (measured), terminals: { plus: dc-plus, minus: dc-minus } }',
    })
    const { lack } = session.viewer.record((view) => view.figure('LINK_RIPPLE_VOLTAGE', SPECIMEN.paths[0]!))
    expect(lack).toMatchObject({ kind: 'refused', reason: expect.stringContaining('only between bounds') })
  })
})
