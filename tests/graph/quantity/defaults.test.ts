import { describe, expect, it } from 'vitest'
import { BASES } from '../../../graph/quantity/basis.ts'
import { DEFAULTS, defaultOwn } from '../../../graph/quantity/defaults.ts'
import { DIMENSIONS } from '../../../graph/quantity/dimension.ts'
import { standardUncertainty } from '../../../graph/quantity/quantity.ts'

const u = (found: ReturnType<typeof defaultOwn>) => (found ? standardUncertainty(found.own.shape) : null)

describe('default widths', () => {
  it('has one for every basis and dimension but counts, with a reason', () => {
    for (const basis of BASES) {
      for (const dimension of DIMENSIONS) {
        const found = defaultOwn({ value: 3, step: 0.1, basis, dimension })
        if (dimension === 'count' || dimension === 'pixels') expect(found).toBeNull()
        else {
          expect(u(found), `${basis} ${dimension}`).toBeGreaterThan(0)
          expect(found?.about).toContain(basis)
        }
      }
      for (const entry of Object.values(DEFAULTS[basis])) expect(entry.why.length).toBeGreaterThan(5)
    }
  })

  it('trusts no basis more than a better one', () => {
    const half = (basis: 'measured' | 'judged' | 'assumed') =>
      u(defaultOwn({ value: 0.0124, basis, dimension: 'length' }))! * 0.0124
    expect(u(defaultOwn({ value: 0.0124, basis: 'measured', dimension: 'length' }))).toBeCloseTo(
      1e-4 / Math.sqrt(3),
      12,
    )
    expect(half('judged')).toBeLessThan(half('assumed'))
  })

  // JCGM 100:2008 F.2.2.1: an indication is uncertain by half of its last digit, a/√3 = 0.29 of the step.
  it('is never narrower than the last digit of an indication', () => {
    expect(u(defaultOwn({ value: 0.012, step: 0.001, basis: 'measured', dimension: 'length' }))).toBeCloseTo(
      0.00028867513,
      10,
    )
    expect(defaultOwn({ value: 5, step: 1, basis: 'marked', dimension: 'voltage' })?.own).toMatchObject({
      mode: 'scale',
      shape: { high: 0.02 },
    })
  })

  it('gives a zero a width', () => {
    expect(u(defaultOwn({ value: 0, step: 0.1, basis: 'assumed', dimension: 'mass' }))).toBeCloseTo(0.028867513, 8)
  })

  it('lets a sheet set its own, for a dimension or for all others', () => {
    const overrides = { judged: { length: { absolute: 0.002 }, else: { relative: 0.5, why: 'quick look' } } }
    expect(defaultOwn({ value: 0.1, basis: 'judged', dimension: 'length' }, overrides)?.own).toMatchObject({
      mode: 'add',
      shape: { high: 0.002 },
    })
    expect(defaultOwn({ value: 0.1, basis: 'judged', dimension: 'mass' }, overrides)?.own.shape).toMatchObject({
      high: 0.25,
    })
    expect(defaultOwn({ value: 0.1, basis: 'judged', dimension: 'inductance' }, overrides)).toMatchObject({
      own: { shape: { high: 0.5 } },
      about: 'default of judged: ± 50 %, quick look',
    })
  })
})
