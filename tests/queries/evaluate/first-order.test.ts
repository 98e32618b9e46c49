import { describe, expect, it } from 'vitest'
import { fromSI } from '../../../graph/quantity/units.ts'
import { drawnAnyway } from '../../../queries/evaluate/evaluate.ts'
import { DEMO_UNITS, demoSession } from '../demo-session.ts'

// JCGM 101:2008 clause 8: first order is held to Monte Carlo. Here: either both agree, or the figure is sampled and says
// so. The trouble rule lets pass what curvature moves u by up to 5 % (tried on the published cases of the reference
// suite); four standard errors of the draws come on top.
const LET_PASS = 0.05
/** Draws that know u no better than this would let anything pass. */
const KNOWN = 0.05

describe('first order against Monte Carlo', () => {
  it.each(DEMO_UNITS)('agrees on every figure of %s that is not sampled', { timeout: 120_000 }, (id) => {
    const session = demoSession(id)
    const requests = session.requests()
    const results = session.evaluateMany(requests)
    const linear = requests.flatMap((request, at) => {
      const result = results[at]!
      return result.how === 'first-order' && result.value !== null ? [{ request, result }] : []
    })
    const drawn = drawnAnyway(
      session,
      linear.map(({ request }) => request),
    )
    const off = linear.flatMap(({ request: { figure, subject }, result: { unit, u } }, at) => {
      const sampled = drawn[at]
      if (!sampled || u === null) return [`${figure.id} ${subject}: nothing drawn`]
      const width = fromSI(sampled.u, unit) - fromSI(0, unit)
      const known = sampled.standardError / sampled.u
      if (known > KNOWN) return [`${figure.id} ${subject}: u drawn to ${known} only`]
      return Math.abs(width / u - 1) > LET_PASS + 4 * known ? [`${figure.id} ${subject}: ${u} drawn ${width}`] : []
    })
    expect(linear.length).toBeGreaterThan(0)
    expect(off).toEqual([])
  })
})
