import { describe, expect, it } from 'vitest'
import { checklist } from '../../queries/checklist.ts'
import { wayOfMeasuring } from '../../queries/instruments.ts'
import { measureNext } from '../../queries/measure-next.ts'
import { DEMO_UNITS, demoSession } from './demo-session.ts'

// Common practice of a teardown bench.
describe('how a thing is had', () => {
  it.each([
    ['specimen/mass', 'mass', 'balance'],
    ['parts/bar/size/length', 'length', 'caliper'],
    ['parts/film-upper/thickness', 'length', 'micrometer, or film gauge'],
    ['parts/plate-minus/beside/gap', undefined, 'feeler gauge'],
    ['parts/can/mass', undefined, 'balance'],
    ['parts/x/thermal-resistance', undefined, 'heated-plate comparison'],
    ['parts/fet/on-resistance', 'resistance', 'curve tracer, or data sheet'],
    ['parts/bleeder/resistance', 'resistance', 'four-wire meter'],
    ['coolant/glycol-by-volume', 'fraction', 'refractometer'],
    ['materials/pad-grey/conductivity', 'thermal-conductivity', 'sample to a conductivity bench (ASTM D5470)'],
    ['parts class=power-die', undefined, 'eyes, lamp and camera'],
    ['across nets=nets/plus nets/minus', undefined, 'continuity meter on a unit proved dead'],
  ])('%s (%s): %s', (path, dimension, instrument) => {
    expect(wayOfMeasuring(path, dimension)).toMatchObject({ instrument, minutes: expect.any(Number) })
  })

  it('whatever is live or stored energy says who and how', () => {
    for (const path of [
      'specimen/dc-voltage/max',
      'parts/can/capacitance',
      'operating-points/peak/switching-frequency',
    ])
      expect(wayOfMeasuring(path, undefined)!.instrument).toMatch(/qualified|proved dead/)
  })

  it.each(DEMO_UNITS)('nothing on the list of %s is without', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const without = measureNext(session).filter(({ instrument }) => instrument === null)
    expect(without.map(({ path }) => path)).toEqual([])
    for (const { atStake } of checklist(session).steps)
      for (const one of atStake) expect(one.instrument, one.path).not.toBeNull()
  })
})
