import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Found, foundWorst, methodTables, rowOf } from './methods.ts'
import { withTables } from './tables.ts'

const page = readFileSync('api/docs/methods.md', 'utf8')

/** The worst difference the page prints in the row of a sweep. */
function printed(row: string): number {
  const line = page.split('\n').find((one) => one.endsWith(row))
  const [, sign, size, percent] = /^\| ([+−])(\S+)( %)? \|/.exec(line ?? '') ?? []
  if (!size) throw new Error(`the page has no row ${row}`)
  return (sign === '−' ? -1 : 1) * Number(size) * (percent ? 0.01 : 1)
}

describe('table of methods', () => {
  let all: readonly Found[] = []
  beforeAll(() => {
    all = foundWorst()
  }, 180_000)

  // Rounding differs between machines, so what is nothing but rounding may be some times larger or smaller.
  it('prints what the sweeps find (npm run readme writes it)', () => {
    expect(all.length).toBeGreaterThan(30)
    for (const { sweep, worst } of all) {
      const said = printed(rowOf(sweep))
      expect(Math.abs(worst.off), sweep.method).toBeLessThan(Math.abs(said) * 1.1 + 1e-10)
      if (Math.abs(said) > 1e-8) expect(worst.off / said, sweep.method).toBeGreaterThan(0.9)
    }
  })

  it('has no row that no sweep makes', () => {
    const rows = (text: string): number => text.split('\n').filter((line) => line.startsWith('| ')).length
    expect(rows(withTables(page, methodTables(all)))).toBe(rows(page))
  })

  // The range and the bound that the electrical figures are to keep.
  it('holds partial inductances of parallel bars to 1e-9 over their box', () => {
    const bars = all.filter(({ sweep }) => sweep.method.startsWith('partial inductance of parallel bars'))
    expect(bars).toHaveLength(4)
    for (const { worst } of bars) expect(Math.abs(worst.off)).toBeLessThan(1e-9)
  })
})
