import type { DerivedFigure } from '../../graph/store/derived.ts'
import type { Row } from './benchmark.ts'

/** Two values part when they differ by more than this many standard uncertainties of their difference (95 %). */
const PARTS_AT = 1.96

/**
 * Ranks rows by a metric: a row's rank is one more than the number of rows that are better beyond doubt. Rows that the
 * uncertainty of the difference does not part are named in `tiedWith`; causes both rows share cancel in it.
 */
export function rankRows(rows: readonly Row[], metric: string, direction: 'ASC' | 'DESC'): readonly Row[] {
  const figureOf = (row: Row): DerivedFigure | undefined => row.figures.find((one) => one.metric === metric)
  const sign = direction === 'DESC' ? 1 : -1
  const sorted = rows.toSorted((a, b) => order(figureOf(a), figureOf(b), sign) || (a.unit.id < b.unit.id ? -1 : 1))
  return sorted.map((row) => {
    const own = figureOf(row)
    if (!own) return row
    const others = sorted.filter((other) => other !== row && figureOf(other))
    const parted = others.filter((other) => parts(own, figureOf(other)!))
    const better = parted.filter((other) => sign * (figureOf(other)!.value! - own.value!) > 0)
    const tied = others.filter((other) => !parted.includes(other))
    return { ...row, rank: better.length + 1, tiedWith: tied.map((other) => `${other.unit.id} ${other.subject}`) }
  })
}

/** Whether two figures differ beyond the uncertainty of their difference. */
export function parts(a: DerivedFigure, b: DerivedFigure): boolean {
  const difference = Math.abs(a.value! - b.value!)
  return difference > PARTS_AT * differenceUncertainty(a, b)
}

/** Standard uncertainty of a − b: by cause, so that a shared one counts once and with its sign. */
export function differenceUncertainty(a: DerivedFigure, b: DerivedFigure): number {
  const causes = new Set([...Object.keys(a.components), ...Object.keys(b.components)])
  let variance = 0
  for (const cause of causes) variance += ((a.components[cause] ?? 0) - (b.components[cause] ?? 0)) ** 2
  return Math.sqrt(variance)
}

function order(a: DerivedFigure | undefined, b: DerivedFigure | undefined, sign: number): number {
  if (!a || !b) return a ? -1 : b ? 1 : 0
  return sign * (b.value! - a.value!)
}
