import { normalQuantile } from '../../graph/quantity/student.ts'
import type { DerivedFigure } from '../../graph/store/derived.ts'
import { generator } from '../evaluate/random.ts'
import { summarise } from '../evaluate/sample.ts'

export type Reduction = 'MAX' | 'MIN' | 'MEAN' | 'SUM'

const DRAWS = 2_000

const OF: Readonly<Record<Reduction, (values: readonly number[]) => number>> = {
  MAX: (values) => Math.max(...values),
  MIN: (values) => Math.min(...values),
  SUM: (values) => values.reduce((sum, value) => sum + value, 0),
  MEAN: (values) => values.reduce((sum, value) => sum + value, 0) / values.length,
}

/**
 * Several subjects of one unit as one figure. A largest or smallest value is a kink, so it is drawn: each figure moves
 * along its stored components, and a cause that several share moves them together.
 */
export function reduce(figures: readonly DerivedFigure[], how: Reduction): DerivedFigure {
  const first = figures[0]!
  const values = figures.map((one) => one.value!)
  const combine = OF[how]
  const draws = Float64Array.from({ length: DRAWS }, (_, k) =>
    combine(figures.map((one) => one.value! + shift(one, k))),
  )
  const { value, u, low, high } = summarise(draws, 0)
  const sampled = u > 0
  return {
    ...first,
    subject: 'specimen' as DerivedFigure['subject'],
    atTaken: combine(figures.map((one) => one.atTaken!)),
    value: sampled ? value : combine(values),
    uncertainty: sampled ? u : null,
    low: sampled ? low : combine(values),
    high: sampled ? high : combine(values),
    how: sampled ? 'sampled' : first.how,
    components: meanComponents(figures, how),
  }
}

/** Standard normal deviation of an influence in one draw: the same wherever the influence appears. */
const columns = new Map<string, Float64Array>()

function deviation(influence: string, draw: number): number {
  let column = columns.get(influence)
  if (!column) {
    const next = generator(influence)
    column = Float64Array.from({ length: DRAWS }, () => normalQuantile(next()))
    if (columns.size > 5_000) columns.clear() // bounds the memory of a long-lived server
    columns.set(influence, column)
  }
  return column[draw]!
}

function shift(figure: DerivedFigure, draw: number): number {
  let sum = 0
  for (const [influence, component] of Object.entries(figure.components)) sum += component * deviation(influence, draw)
  return sum
}

/** Components of the sum or mean; of a largest or smallest, those of the subject that is it at the values taken. */
function meanComponents(figures: readonly DerivedFigure[], how: Reduction): Readonly<Record<string, number>> {
  if (how === 'MAX' || how === 'MIN') {
    const wanted = OF[how](figures.map((one) => one.value!))
    return figures.find((one) => one.value === wanted)?.components ?? {}
  }
  const weight = how === 'SUM' ? 1 : 1 / figures.length
  const total: Record<string, number> = {}
  for (const { components } of figures) {
    for (const [influence, c] of Object.entries(components)) total[influence] = (total[influence] ?? 0) + weight * c
  }
  return total
}
