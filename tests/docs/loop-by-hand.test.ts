import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { comparedLoops, loopTables } from './loop-by-hand.ts'
import { aligned, type Bars, barLoop, barsOfTractor3, type Couplings } from './loop-of-bars.ts'
import { withTables } from './tables.ts'

const PAGE = 'api/docs/loop-inductance-by-hand.md'
const all = comparedLoops()

/** F averaged over every pair of filaments of two equal sections, `lift` between their middles: midpoints. */
function averaged({ width, thickness }: Bars, lift: number): (length: number) => number {
  const [n, m] = [400, 40]
  const points: (readonly [distance: number, weight: number])[] = []
  for (let i = 0; i < n; i++) {
    const u = (i + 0.5) / n
    for (let j = 0; j < m; j++) {
      const v = (2 * (j + 0.5)) / m - 1
      // Differences of two places drawn evenly have a triangle as density.
      points.push([Math.hypot(u * width, lift + v * thickness), ((2 * (1 - u)) / n) * ((2 * (1 - Math.abs(v))) / m)])
    }
  }
  return (length) => points.reduce((sum, [distance, weight]) => sum + weight * aligned(length, distance), 0)
}

describe('loop inductance by hand', () => {
  // Limits are those the page states. Formulas and their sources are on the page.
  it.each(all.filter(({ unit }) => unit === 'tractor-3-drive'))('bars, $loop: 1 % low', ({ hand, product }) => {
    expect(hand / product - 1).toBeGreaterThan(-0.012)
    expect(hand / product - 1).toBeLessThan(0)
  })

  it('bars: with F averaged over the sections it is the product’s figure', () => {
    const bars = barsOfTractor3()
    const couplings: Couplings = { within: averaged(bars, 0), between: averaged(bars, bars.gap + bars.thickness) }
    for (const [at, { product }] of all.filter(({ unit }) => unit === 'tractor-3-drive').entries()) {
      expect(Math.abs(barLoop(bars, at, couplings).whole / product - 1)).toBeLessThan(5e-4)
    }
  })

  it.each(all.filter(({ unit }) => unit === 'sweeper-11-drive'))(
    'a pair of plates, $loop: 6 % low, and within 1 % with terminals one above the other',
    ({ hand, product, together }) => {
      expect(hand / product - 1).toBeGreaterThan(-0.07)
      expect(hand / product - 1).toBeLessThan(-0.05)
      expect(Math.abs(hand / together! - 1)).toBeLessThan(0.01)
    },
  )

  it.each(all.filter(({ unit }) => unit === 'tractor-8-drive'))(
    'eight cans, $loop: 5 to 9 % low, and up to 8 % high with terminals one above the other',
    ({ hand, product, together }) => {
      expect(hand / product - 1).toBeGreaterThan(-0.09)
      expect(hand / product - 1).toBeLessThan(-0.05)
      expect(hand / together! - 1).toBeGreaterThan(0)
      expect(hand / together! - 1).toBeLessThan(0.08)
    },
  )

  it('the page shows these numbers (npm run readme writes them)', () => {
    const page = readFileSync(PAGE, 'utf8')
    expect(withTables(page, loopTables(all))).toBe(page)
  })
})
