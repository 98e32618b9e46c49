import type { DerivedFigure } from '../../graph/store/derived.ts'
import { normalBelow } from '../evaluate/linear-interval.ts'
import type { Row } from './benchmark.ts'

/** Two values part when they differ by more than this many standard uncertainties of their difference (95 %). */
const PARTS_AT = 1.96

/**
 * Ranks rows by a metric: a row's rank is one more than the number of rows that are better beyond doubt. Rows that the
 * uncertainty of the difference does not part are named in `tiedWith`; causes both rows share cancel in it.
 *
 * Rows are looked at in order of value and no further than their uncertainties could reach: u(a − b) ≤ u(a) + u(b).
 */
export function rankRows(rows: readonly Row[], metric: string, direction: 'ASC' | 'DESC'): readonly Row[] {
  const figureOf = (row: Row): DerivedFigure | undefined => row.figures.find((one) => one.metric === metric)
  const sign = direction === 'DESC' ? 1 : -1
  const sorted = rows.toSorted((a, b) => order(figureOf(a), figureOf(b), sign) || (a.unit.id < b.unit.id ? -1 : 1))
  const figures = sorted.flatMap((row) => figureOf(row) ?? [])
  const widths = figures.map((figure) =>
    Math.hypot(...Object.values(figure.components), Math.sqrt(bentVariance(figure))),
  )
  const widest = Math.max(0, ...widths)
  const near = (i: number, j: number): boolean => {
    const [a, b] = [figures[i], figures[j]]
    return !!a && !!b && Math.abs(a.value! - b.value!) <= PARTS_AT * (widths[i]! + widest)
  }
  return sorted.map((row, i) => {
    const own = figures[i]
    if (!own) return row
    const tied: number[] = []
    let better = i
    for (let j = i - 1; near(i, j); j--) {
      if (parts(own, figures[j]!)) continue
      tied.push(j)
      better--
    }
    for (let j = i + 1; near(i, j); j++) if (!parts(own, figures[j]!)) tied.push(j)
    const names = tied.toSorted((a, b) => a - b).map((j) => `${sorted[j]!.unit.id} ${sorted[j]!.subject}`)
    const next = figures[i + 1]
    const above = next ? probabilityAbove(own, next) : null
    const probabilityAboveNext = above === null ? null : direction === 'DESC' ? above : 1 - above
    return { ...row, rank: better + 1, tiedWith: names, probabilityAboveNext }
  })
}

/** Whether two figures differ beyond the uncertainty of their difference. */
export function parts(a: DerivedFigure, b: DerivedFigure): boolean {
  const difference = Math.abs(a.value! - b.value!)
  return difference > PARTS_AT * differenceUncertainty(a, b)
}

/**
 * Probability that a lies above b, causes that both share kept shared: Φ((a − b)/u(a − b)), the difference taken as
 * normal. A half where nothing parts them; 1 or 0 where there is no doubt at all.
 */
export function probabilityAbove(a: DerivedFigure, b: DerivedFigure): number {
  const difference = a.value! - b.value!
  const u = differenceUncertainty(a, b)
  if (u > 0) return normalBelow(difference / u)
  return difference === 0 ? 0.5 : difference > 0 ? 1 : 0
}

/** Standard uncertainty of a − b: by cause, so that a shared one counts once and with its sign. */
export function differenceUncertainty(a: DerivedFigure, b: DerivedFigure): number {
  const causes = new Set([...Object.keys(a.components), ...Object.keys(b.components)])
  let variance = 0
  for (const cause of causes) variance += ((a.components[cause] ?? 0) - (b.components[cause] ?? 0)) ** 2
  return Math.sqrt(variance + bentVariance(a) + bentVariance(b))
}

/** What a sampled figure has of variance beyond its straight-line components: nobody knows whose it is, so it is its own. */
function bentVariance({ components, uncertainty, how }: DerivedFigure): number {
  if (how !== 'sampled' || uncertainty === null) return 0
  const straight = Object.values(components).reduce((sum, c) => sum + c * c, 0)
  return Math.max(0, uncertainty ** 2 - straight)
}

function order(a: DerivedFigure | undefined, b: DerivedFigure | undefined, sign: number): number {
  if (!a || !b) return a ? -1 : b ? 1 : 0
  return sign * (b.value! - a.value!)
}
