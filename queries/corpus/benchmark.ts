import type { DerivedFigure } from '../../graph/store/derived.ts'
import { quantileOf } from '../evaluate/sample.ts'
import type { Figure } from '../figures/figure.ts'
import { rankRows } from './rank.ts'
import { type Reduction, reduce } from './reduce.ts'

/** One unit of the corpus as a comparison needs it. */
export interface Unit {
  readonly id: string
  readonly title: string
  readonly revision: number
  readonly kind: string
  readonly traits: Readonly<Record<string, string>>
  /** Figures under the conditions asked for, all subjects. */
  readonly figures: readonly DerivedFigure[]
}

export interface BenchmarkAsk {
  readonly figures: readonly Figure[]
  readonly per: 'TEARDOWN' | 'SUBJECT'
  /** How several subjects of one unit become one number; needed for `per: TEARDOWN` of a figure with many. */
  readonly across: Reduction | null
  readonly orderBy: { readonly metric: string; readonly direction: 'ASC' | 'DESC' } | null
  /** `kind`, or the id of a trait. */
  readonly groupBy: string | null
  /** Numeric conditions that were set for all alike. */
  readonly set: readonly string[]
}

export interface Row {
  readonly unit: Unit
  readonly subject: string
  readonly figures: readonly DerivedFigure[]
  /** By the metric of the order; null when it is not ranked. */
  readonly rank: number | null
  /** Rows from which the intervals do not part it, as `id subject`. */
  readonly tiedWith: readonly string[]
  /** How likely it is better than the row that follows; null for the last one and where nothing is ranked. */
  readonly probabilityAboveNext: number | null
}

export interface GroupRow {
  readonly group: string
  readonly metric: string
  readonly count: number
  readonly low: number
  readonly median: number
  readonly high: number
  readonly unit: string
}

export interface LeftOut {
  readonly id: string
  readonly metric: string
  readonly status: string
  readonly reason: string
}

/** How many were left out of the column of a figure, by status. */
export interface LeftCount {
  readonly metric: string
  readonly status: string
  readonly count: number
}

/** Counts of what was left out, in the order in which it is first told. */
export function leftCounts(left: readonly LeftOut[]): readonly LeftCount[] {
  const counts = new Map<string, LeftCount>()
  for (const { metric, status } of left) {
    const key = `${metric} ${status}`
    counts.set(key, { metric, status, count: (counts.get(key)?.count ?? 0) + 1 })
  }
  return [...counts.values()]
}

export interface Benchmark {
  readonly rows: readonly Row[]
  readonly groups: readonly GroupRow[]
  readonly left: readonly LeftOut[]
  /** Why a metric is shown but not ranked, and of how many subjects a value is where some of a unit have none. */
  readonly notes: readonly string[]
}

/** Compares units on stated, equal conditions; whoever cannot be compared is named with the reason. */
export function benchmark(units: readonly Unit[], ask: BenchmarkAsk): Benchmark {
  const made = units.map((unit) => rowsOf(unit, ask))
  const rows = made.flatMap(({ rows }) => rows)
  const unranked = ask.figures.filter((figure) => unsettled(figure, ask.set).length > 0)
  const lead = ask.orderBy?.metric ?? ask.figures[0]?.id
  const rankable = lead !== undefined && !unranked.some((figure) => figure.id === lead)
  return {
    rows: rankable ? rankRows(rows, lead, ask.orderBy?.direction ?? 'DESC') : rows,
    groups: ask.groupBy === null ? [] : groupsOf(rows, ask),
    left: made.flatMap(({ left }) => left),
    notes: [
      ...unranked.map(
        (figure) =>
          `${figure.id} depends on ${unsettled(figure, ask.set).join(', ')}, which each record states for itself: ` +
          'set it to rank the units',
      ),
      ...made.flatMap(({ partial }) => partial),
    ],
  }
}

/** Operating conditions of a figure that nobody set: units then differ in more than their design. */
function unsettled(figure: Figure, set: readonly string[]): readonly string[] {
  return (figure.operating ?? []).filter((name) => !set.includes(name))
}

const NO_VALUE = 'known between bounds only'

interface Made {
  readonly rows: readonly Row[]
  readonly left: readonly LeftOut[]
  /** What is one value of several subjects, not of all. */
  readonly partial: readonly string[]
}

function rowsOf(unit: Unit, ask: BenchmarkAsk): Made {
  const wanted = ask.figures.map((figure) => unit.figures.filter((one) => one.metric === figure.id))
  const left: LeftOut[] = []
  const partial: string[] = []
  const leave = (metric: string, status: string, reason: string): void => {
    left.push({ id: unit.id, metric, status, reason })
  }
  const bySubject = new Map<string, DerivedFigure[]>()
  const put = (figure: DerivedFigure, subject: string): void => {
    bySubject.set(subject, [...(bySubject.get(subject) ?? []), figure])
  }
  ask.figures.forEach((figure, at) => {
    const found = wanted[at]!
    const usable = found.filter((one) => one.value !== null)
    if (found.length === 0) leave(figure.id, 'NOT_APPLICABLE', `nothing in this record is a ${figure.subject} for it`)
    for (const one of found) if (one.value === null) leave(figure.id, one.status, one.reason ?? NO_VALUE)
    const whole = found.find(({ subject }) => subject === 'specimen')
    const pieces = usable.filter((one) => one !== whole)
    if (ask.per === 'SUBJECT') for (const one of usable) put(one, one.subject)
    else if (whole && !(ask.across && pieces.length > 0)) {
      if (whole.value !== null) put(whole, 'specimen')
    } else if (pieces.length === 1 || (pieces.length > 1 && ask.across)) {
      put(pieces.length > 1 && ask.across ? reduce(pieces, ask.across) : pieces[0]!, 'specimen')
      const lacking = found.filter(
        (one) => one.value === null && one !== whole && one.status !== 'NOT_APPLICABLE',
      ).length
      if (lacking > 0)
        partial.push(`${unit.id}: ${figure.id} is of ${pieces.length} subject(s); ${lacking} more of it have no value`)
    } else if (pieces.length > 1)
      leave(figure.id, 'OK', `${usable.length} subjects: ask per SUBJECT, or say how across them`)
  })
  const rows = [...bySubject].map(([subject, figures]) => ({
    unit,
    subject,
    figures,
    rank: null,
    tiedWith: [],
    probabilityAboveNext: null,
  }))
  return { rows, left, partial }
}

function groupsOf(rows: readonly Row[], ask: BenchmarkAsk): readonly GroupRow[] {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const name = ask.groupBy === 'kind' ? row.unit.kind : (row.unit.traits[ask.groupBy ?? ''] ?? 'not known')
    groups.set(name, [...(groups.get(name) ?? []), row])
  }
  return [...groups].flatMap(([group, members]) =>
    ask.figures.flatMap((figure) => {
      const values = members
        .flatMap((row) => row.figures.filter((one) => one.metric === figure.id && one.value !== null))
        .map((one) => one.value!)
        .sort((a, b) => a - b)
      if (values.length === 0) return []
      const at = (p: number): number => quantileOf(values, p)
      return [
        {
          group,
          metric: figure.id,
          count: values.length,
          low: at(0.25),
          median: at(0.5),
          high: at(0.75),
          unit: figure.unit,
        },
      ]
    }),
  )
}
