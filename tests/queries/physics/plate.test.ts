import { describe, expect, it } from 'vitest'
import { self } from '../../../queries/physics/bar-inductance.ts'
import { laminatedPairInductance } from '../../../queries/physics/laminated.ts'
import { meanLog } from '../../../queries/physics/mean-log.ts'
import type { Plate } from '../../../queries/physics/plate.ts'
import { plateGrid } from '../../../queries/physics/plate.ts'
import { gridLines } from '../../../queries/physics/plate-lines.ts'
import type { RefinedNetwork } from '../../../queries/physics/plate-network.ts'
import { solvePlates } from '../../../queries/physics/plate-network.ts'
import { platePairInductance } from '../../../queries/physics/plate-pair.ts'

const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

const [length, width, thickness] = [0.1, 0.03, 1e-3]
const strip = (across: number, contactWidth = width): Plate => ({
  id: `strip ${across}`,
  thin: 2,
  corner: [0, 0, 0],
  size: [length, width, thickness],
  contacts: [
    { node: 'in', corner: [0, (width - contactWidth) / 2, 0], size: [0, contactWidth, thickness] },
    { node: 'out', corner: [length, (width - contactWidth) / 2, 0], size: [0, contactWidth, thickness] },
  ],
})

function solved(plates: readonly Plate[], across: number): RefinedNetwork {
  const answer = solvePlates({ plates, branches: [], ports: [{ id: 'p', from: 'in', to: 'out' }], across })
  if (!answer.ok) throw new Error(JSON.stringify(answer.fault))
  return answer
}

describe('plateGrid', () => {
  it('tiles the plate: bars along each axis cover its metal once', () => {
    const hole = { corner: [0.03, 0.01, 0], size: [0.01, 0.012, 1e-3] } as const
    const { branches } = plateGrid({ ...strip(0), holes: [hole], contacts: [] }, 5)
    for (const axis of [0, 1] as const) {
      const area = branches
        .filter(({ bar }) => bar.end[axis] > bar.start[axis])
        .reduce((sum, { bar }) => sum + bar.width * (bar.end[axis] - bar.start[axis]), 0)
      expect(relative(area, length * width - 0.01 * 0.012)).toBeLessThan(1e-12)
    }
  })

  it('refuses a contact beside the metal', () => {
    const beside: Plate = { ...strip(0), contacts: [{ node: 'x', corner: [0, 0.04, 0], size: [0, 0.01, 0.001] }] }
    expect(() => plateGrid(beside, 4)).toThrow(/on metal of the plate/)
  })

  it('draws lines at all edges and evenly between', () => {
    expect(gridLines([0, 1], [[0.25, 0.5]], 0.3)).toEqual([0, 0.25, 0.5, 0.75, 1])
    expect(gridLines([0, 1], [[-2, 3]], 0.5)).toEqual([0, 0.5, 1])
  })
})

describe('solvePlates', () => {
  it('one tile across with contacts all along both ends is the straight bar', () => {
    const bar = self({ start: [0, 0, 0], end: [length, 0, 0], width, thickness, flat: [0, 0, 1] })
    // Nodes lie on the two long edges, so that two bars of half the width carry equal currents: together the bar
    // itself.
    const found = solved([strip(0)], 1).coarse[0]?.[0] ?? Number.NaN
    expect(relative(found, bar)).toBeLessThan(1e-9)
  })

  it('free to find its way, current has less inductance than evenly spread (least energy)', () => {
    const bar = self({ start: [0, 0, 0], end: [length, 0, 0], width, thickness, flat: [0, 0, 1] })
    const found = solved([strip(0)], 6)
    expect(found.fine.ports[0]?.[0]).toBeLessThan(bar)
    expect(found.fine.ports[0]?.[0]).toBeGreaterThan(0.9 * bar)
    expect(found.change).toBeLessThan(0.02)
  })

  it('a long pair comes to the two-dimensional division over its width', () => {
    // Second method: strips of a plate side by side, current divided for least energy, in two dimensions. Two lengths
    // are subtracted so that the ends drop out. Found: 7e-4 apart.
    const [w, t, gap, across] = [0.02, 0.2e-3, 0.5e-3, 4]
    const pair = (l: number): number => {
      const plate = (id: string, height: number): Plate => ({
        id,
        thin: 2,
        corner: [0, 0, height],
        size: [l, w, t],
        contacts: [
          { node: id === 'lower' ? 'in' : 'out', corner: [0, 0, height], size: [0, w, t] },
          { node: 'end', corner: [l, 0, height], size: [0, w, t] },
        ],
      })
      return solved([plate('lower', 0), plate('upper', gap + t)], across).fine.ports[0]?.[0] ?? Number.NaN
    }
    const perLength = (pair(0.06) - pair(0.03)) / 0.03
    expect(relative(perLength, divided(w, t, gap, 6))).toBeLessThan(1.5e-3)
  })

  it('narrow contacts raise the inductance, and the grid says how sure it is', () => {
    const wide = solved([strip(0)], 4)
    const narrow = solved([strip(0, 0.006)], 4)
    expect(narrow.extrapolated[0]?.[0]).toBeGreaterThan(wide.extrapolated[0]?.[0] ?? 0)
    expect(narrow.change).toBeGreaterThan(0)
    expect(narrow.change).toBeLessThan(0.05)
  })

  it('a hole in the way raises it, on one grid (law: a constraint cannot lower the least energy)', () => {
    // The edges of the hole lie on lines that the coarse grid has anyway.
    const holed: Plate = { ...strip(0), holes: [{ corner: [0.04, 0.01, 0], size: [0.02, 0.01, thickness] }] }
    const [through, round] = [strip(0), holed].map((plate) => solved([plate], 3).coarse[0]?.[0] ?? Number.NaN)
    expect(round).toBeGreaterThan(1.005 * (through as number))
  })
})

describe('platePairInductance', () => {
  const pair = { width: 0.06, thickness: 1e-3, gap: 5e-4, length: 0.1 }

  it('with contacts all along the edges is a little below the evenly spread pair', () => {
    const { loop } = platePairInductance({ ...pair, entryWidth: 0.06, exitWidth: 0.06 })
    const even = laminatedPairInductance(pair).loop
    expect(loop).toBeLessThan(even)
    expect(loop).toBeGreaterThan(0.97 * even)
  })

  it('grows as contacts narrow and as they move apart along the edges', () => {
    const wide = platePairInductance({ ...pair, entryWidth: 0.06, exitWidth: 0.06 }).loop
    const one = platePairInductance({ ...pair, entryWidth: 0.01, exitWidth: 0.06 }).loop
    const both = platePairInductance({ ...pair, entryWidth: 0.01, exitWidth: 0.01 }).loop
    const across = platePairInductance({
      ...pair,
      entryWidth: 0.01,
      exitWidth: 0.01,
      entryMiddle: 0.005,
      exitMiddle: 0.055,
    }).loop
    expect([wide, one, both, across]).toEqual([wide, one, both, across].sort((a, b) => a - b))
    expect(() => platePairInductance({ ...pair, entryWidth: 0.01, exitWidth: 0.01, entryMiddle: 0.058 })).toThrow(
      /on its edge/,
    )
  })
})

/** Loop inductance per length of two plates cut into strips, half the width by symmetry, least energy. */
function divided(w: number, t: number, gap: number, strips: number): number {
  const widths = Array.from({ length: strips + 1 }, (_, k) => (k === 0 || k === strips ? w / strips / 2 : w / strips))
  const middles = widths.map((size, k) => widths.slice(0, k).reduce((sum, one) => sum + one, 0) + size / 2)
  const n = widths.length
  const matrix = widths.map((a, i) =>
    widths.map((b, j) => {
      const x = { first: a, second: b, offset: middles[j]! - middles[i]! }
      const one = { first: t, second: t }
      return 2e-7 * (meanLog({ x, y: { ...one, offset: gap + t } }) - meanLog({ x, y: { ...one, offset: 0 } }))
    }),
  )
  // Gauss elimination of matrix · i = 1; both plates carry Σ i, and each drops 1.
  const rows = matrix.map((row) => [...row, 1])
  for (let k = 0; k < n; k++) {
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!
    }
  }
  const current = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    let rest = rows[i]![n]!
    for (let j = i + 1; j < n; j++) rest -= rows[i]![j]! * current[j]!
    current[i] = rest / rows[i]![i]!
  }
  return 2 / current.reduce((sum, one) => sum + one, 0)
}
