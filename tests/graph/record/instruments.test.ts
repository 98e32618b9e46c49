import { describe, expect, it } from 'vitest'
import type { TeardownRecord, Tree } from '../../../graph/record/record.ts'
import { part, record } from '../../fixtures/record.ts'

const instruments = {
  balance: { kind: 'balance', serial: '0417', uncertainty: '± 0.2 %', resolution: '1 g' },
  caliper: { kind: 'caliper', uncertainty: '± 0.03 mm', resolution: '0.01 mm' },
  lab: { kind: 'balance', serial: '9', uncertainty: '± 0.2 % (k=2)' },
}
const made = (property: string, tree: Tree) => record({ instruments, parts: [part('a', 'case', { [property]: tree })] })
const terms = (of: TeardownRecord, path: string) => of.facts.get(path as never)?.taken.quantity?.terms ?? []
const cause = (of: TeardownRecord, id: string) => of.influences.get(id)

describe('what an instrument adds', () => {
  it('is one cause for all it measured, known across sheets by kind and serial, and half a step for each', () => {
    const of = made('mass', '870 g (measured; with balance)')
    expect(terms(of, 'parts/a/mass')).toEqual([
      { influence: 'instrument:balance/0417/scale', mode: 'scale', weight: 1 },
      { influence: 'claim:parts/a/mass#1/step', mode: 'add', weight: 1 },
    ])
    expect(cause(of, 'instrument:balance/0417/scale')).toMatchObject({
      scope: 'corpus',
      shape: { kind: 'rectangular', low: expect.closeTo(-0.002), high: expect.closeTo(0.002) },
    })
    // Half a step either way (JCGM 100:2008 F.2.2.1): 1 g shows as ± 0.5 g.
    expect(cause(of, 'claim:parts/a/mass#1/step')).toMatchObject({
      scope: 'claim',
      shape: { kind: 'rectangular', low: -0.0005, high: 0.0005 },
    })
    expect(of.facts.get('parts/a/mass' as never)?.taken.quantity?.defaulted).toBe(false)
  })

  it('stands beside a tolerance of the value, which then holds its rounding', () => {
    const of = made('mass', '870 ± 3 g (measured; with balance)')
    expect(terms(of, 'parts/a/mass').map(({ influence }) => influence)).toEqual([
      'claim:parts/a/mass#1',
      'instrument:balance/0417/scale',
    ])
  })

  it('without a serial is known in this record only', () => {
    const of = made('thickness', '6.0 mm (measured; with caliper)')
    expect(cause(of, 'instrument:caliper/offset')).toMatchObject({ scope: 'record', shape: { high: 3e-5 } })
  })

  it('moves both sides of an area together', () => {
    const of = made('area', '12 x 14 mm (measured; with caliper)')
    const shared = terms(of, 'parts/a/area').find(({ influence }) => influence === 'instrument:caliper/offset')
    // d(l·w) = (l + w)·z when the same z is added to both.
    expect(shared).toMatchObject({ mode: 'add', weight: expect.closeTo(26e-3, 12) })
    expect(terms(of, 'parts/a/area')).toHaveLength(3)
  })

  it('is halved where it is expanded with k = 2', () => {
    const of = made('mass', '870 g (measured; with lab)')
    expect(cause(of, 'instrument:balance/9/scale')?.shape).toEqual({ kind: 'normal', u: expect.closeTo(0.001) })
  })

  it('does not fit another dimension: the default holds', () => {
    const of = made('mass', '870 g (measured; with caliper)')
    expect(of.facts.get('parts/a/mass' as never)?.taken.quantity?.defaulted).toBe(true)
  })

  it('has its width as a fact: the half-width', () => {
    const of = made('mass', '870 g (measured; with balance)')
    expect(of.facts.get('instruments/balance/uncertainty' as never)?.taken.quantity?.value).toBeCloseTo(0.002, 12)
    expect(of.facts.get('instruments/caliper/uncertainty' as never)?.taken.quantity?.value).toBeCloseTo(3e-5, 12)
  })
})
