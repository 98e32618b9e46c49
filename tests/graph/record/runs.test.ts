import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { readSheet } from '../../../graph/sheet/read.ts'

const sheet = (first: string, second: string) =>
  readSheet(
    `lidoff: 1
id: unit
title: Unit
specimen: { kind: traction-inverter, dc-voltage: { nominal: ${first} } }
operating-points: { peak: { phase-current: ${second} } }
`,
    'test.yaml',
  )

const run = (readings: string, name = 'together') => `{ readings: [${readings}], run: ${name}, basis: measured }`

describe('readings taken together', () => {
  it('weigh their causes so that two means have the covariance of JCGM 100:2008 5.2.3, formula 17', () => {
    const [volts, amperes] = [
      [5.0, 5.2, 5.1],
      [19, 18, 20],
    ]
    const read = sheet(run('5.0 V, 5.2 V, 5.1 V'), run('19 A rms, 18 A rms, 20 A rms'))
    if (!('record' in read)) throw new Error(read.complaints[0]!.what)
    const terms = ['specimen/dc-voltage/nominal', 'operating-points/peak/phase-current'].map(
      (path) => read.record.facts.get(asPath(path))!.taken.quantity!.terms,
    )
    const covariance = terms[0]!.reduce((sum, { weight }, k) => sum + weight * terms[1]![k]!.weight, 0)
    const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length
    const byHand = volts!.reduce((sum, v, k) => sum + (v - mean(volts!)) * (amperes![k]! - mean(amperes!)), 0) / (3 * 2)
    expect(covariance).toBeCloseTo(byHand, 12)
    expect(terms[0]!.map(({ influence }) => influence)).toEqual(terms[1]!.map(({ influence }) => influence))
  })

  it.each([
    ['of unlike number', run('5 V, 5.1 V, 5.2 V'), run('19 A rms, 20 A rms'), /2 readings, where run "together" has 3/],
    [
      'of a single value',
      '{ value: 5 V, run: together, basis: measured }',
      '19 A rms (measured)',
      /"run" without "readings"/,
    ],
    [
      'without a name',
      '{ readings: [5 V, 5.1 V], run: [a, b], basis: measured }',
      '19 A rms (measured)',
      /is not a name/,
    ],
  ])('%s are refused at their place with what mends it', (_, first, second, what) => {
    const read = sheet(first, second)
    expect('complaints' in read).toBe(true)
    const complaint = 'complaints' in read ? read.complaints[0]! : undefined
    expect(complaint).toMatchObject({ what: expect.stringMatching(what), mend: expect.stringMatching(/\w/) })
    expect(complaint!.line).toBeGreaterThan(3)
  })
})
