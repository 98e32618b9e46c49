import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { decayed, lastTimeAbove } from '../../../queries/physics/exponential-sum.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('last time above a level', () => {
  it('finds the later rise of a voltage that first dips below, and the far side of zero', () => {
    // u = −200 e^(−t) + 200 e^(−t/10) starts at 0, rises to 139 V and falls: last at 60 V near 10 ln(200/60) = 12.04 s.
    const hump = [
      { amount: -200, rate: 1 },
      { amount: 200, rate: 0.1 },
    ]
    const last = lastTimeAbove(hump, 60)!
    expect(decayed(hump, last)).toBeCloseTo(60, 9)
    expect(last).toBeCloseTo(12.04, 2)
    const flipped = hump.map(({ amount, rate }) => ({ amount: -amount, rate }))
    expect(lastTimeAbove(flipped, 60)).toBe(last)
  })

  it('is unknown where the rest stays above, zero where it never is', () => {
    expect(lastTimeAbove([{ amount: 61, rate: 0 }], 60)).toBeUndefined()
    expect(lastTimeAbove([{ amount: 59, rate: 0.1 }], 60)).toBe(0)
    expect(lastTimeAbove([], 60)).toBe(0)
  })

  it('nothing leaves the level after it, and just before it is outside: against a dense scan', () => {
    const terms = fc.array(fc.record({ amount: between(-500, 500), rate: between(0.01, 10) }), {
      minLength: 1,
      maxLength: 6,
    })
    fc.assert(
      fc.property(terms, (sum) => {
        const last = lastTimeAbove(sum, 60)!
        const later = Array.from({ length: 400 }, (_, i) => last + 1e-9 + (i / 400) ** 3 * 1000)
        const quiet = later.every((time) => Math.abs(decayed(sum, time)) <= 60 + 1e-5)
        return quiet && (last === 0 || Math.abs(Math.abs(decayed(sum, last)) - 60) < 1e-6)
      }),
    )
  })
})
