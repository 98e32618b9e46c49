import { describe, expect, it } from 'vitest'
import { laminatedPairInductance } from '../../../queries/physics/laminated.ts'
import {
  surfaceCoplanarInductance,
  surfaceInductances,
  surfacePairInductance,
} from '../../../queries/physics/perfect-conductor.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

/** Complete elliptic integral by the arithmetic-geometric mean. */
function ellipticK(k: number): number {
  let [a, b] = [1, Math.sqrt(1 - k * k)]
  for (let i = 0; i < 40; i++) [a, b] = [(a + b) / 2, Math.sqrt(a * b)]
  return Math.PI / (2 * a)
}

describe('currents on surfaces only', () => {
  it('coplanar strips of no thickness: exact conformal map', () => {
    // L′ = µ₀ K(k)/K(k′), k = s/(s + 2w) (textbook). Worst found with 24 panels a side: 1.3e-4; strips 0.1 µm thick.
    for (const [w, s] of [
      [20, 3],
      [10, 10],
      [5, 30],
    ] as const) {
      const k = s / (s + 2 * w)
      const exact = 4e-7 * Math.PI * (ellipticK(k) / ellipticK(Math.sqrt(1 - k * k)))
      const found = surfaceCoplanarInductance({ width: w * 1e-3, thickness: 1e-7, gap: s * 1e-3 })
      expect(relative(found, exact)).toBeLessThan(2e-4)
    }
  })

  it('a laminated pair with fringing agrees with finite elements', () => {
    // 20 × 1 mm plates 0.5 mm apart: 29.3977 nH/m by electrostatic finite elements with mesh adaptation
    // (outside calculation, three mesh levels). Found: 29.3980.
    expect(relative(surfacePairInductance({ width: 0.02, thickness: 1e-3, gap: 5e-4 }), 29.3977e-9)).toBeLessThan(3e-5)
  })

  it('converges: half the panels change 4 parts in 10⁵ at most', () => {
    const pair = [
      { x: 0, y: 0, width: 0.02, thickness: 1e-3 },
      { x: 0, y: 1.5e-3, width: 0.02, thickness: 1e-3 },
    ]
    const loop = (panels: number): number => {
      const [a, b, c, d] = surfaceInductances(pair, panels)
      return a! - b! - c! + d!
    }
    expect(relative(loop(12), loop(24))).toBeLessThan(4e-5)
    expect(relative(loop(24), loop(48))).toBeLessThan(5e-6)
  })

  it('stays below the wide-plate limit and below slow current, and falls with the gap', () => {
    let before = 0
    for (const gap of [1e-4, 3e-4, 1e-3, 3e-3]) {
      const section = { width: 0.03, thickness: 1e-3, gap }
      const found = surfacePairInductance(section)
      expect(found).toBeLessThan((4e-7 * Math.PI * gap) / 0.03)
      expect(found).toBeLessThan(laminatedPairInductance({ ...section, length: 1 }).loopPerLength)
      expect(found).toBeGreaterThan(before)
      before = found
    }
  })

  it('does not depend on where the far return is taken to be', () => {
    const at = (shift: number): number => {
      const [a, b, c, d] = surfaceInductances([
        { x: shift, y: 0, width: 0.02, thickness: 1e-3 },
        { x: shift + 0.03, y: 0.01, width: 0.01, thickness: 2e-3 },
      ])
      return a! - b! - c! + d!
    }
    expect(relative(at(0.5), at(0))).toBeLessThan(1e-9)
  })

  it('refuses overlapping metal and sizes of zero', () => {
    expect(() => surfacePairInductance({ width: 0.02, thickness: 1e-3, gap: 0 })).toThrow(/gap must be/)
  })
})
