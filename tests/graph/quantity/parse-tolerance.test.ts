import { describe, expect, it } from 'vitest'
import { parseTolerance } from '../../../graph/quantity/parse-tolerance.ts'

const limits = (high: number, low = -high) => ({ kind: 'rectangular', low, high })

// JCGM 100:2008 4.3.7 (limits) and 6.2.1 (coverage factor).
describe('parseTolerance', () => {
  it.each([
    ['± 0.1 %', 'scale', limits(0.001)],
    ['0.1 %', 'scale', limits(0.001)],
    ['± 0.03 mm', 'add', limits(0.00003)],
    ['± 1.5 °C', 'add', limits(1.5)],
    ['-10/+30 %', 'scale', limits(0.3, -0.1)],
    ['± 50 ppm', 'scale', limits(0.00005)],
    ['± 0.5 K (k=2)', 'add', { kind: 'normal', u: 0.25 }],
    ['± 0.2 mm (n=4; k=1)', 'add', { kind: 'student', u: 0.0002, dof: 3 }],
  ] as const)('%s', (text, mode, shape) =>
    expect(parseTolerance(text)).toMatchObject({ ok: true, own: { mode, shape } }),
  )

  it('reads points where a share is asked for', () => {
    expect(parseTolerance('± 2 %', 'fraction')).toMatchObject({ own: { mode: 'add', shape: limits(0.02) } })
  })

  it.each([
    ['± 0.1', 'unit'],
    ['± 0.1 flurbs', 'flurbs'],
    ['about right', 'tolerance'],
    ['± 0.1 % or so', '% or so'],
    ['± 0.1 % ± 0.2 %', 'left over'],
    ['± -1 mm', 'negative'],
    ['± 1 % (measurd)', 'measured'],
  ])('refuses %s', (text, names) => {
    const read = parseTolerance(text)
    expect(read.ok ? '' : read.complaints.map(({ what, mend }) => `${what} ${mend}`).join()).toContain(names)
  })

  it('holds to the dimension of its field', () => {
    expect(parseTolerance('± 1 kg', 'length').ok).toBe(false)
    expect(parseTolerance('± 1 mm', 'length')).toMatchObject({ dimension: 'length' })
  })
})
