import type { Basis } from '../quantity/basis.ts'
import { asPath } from '../quantity/quantity.ts'
import { number, text } from './components.ts'
import type { DerivedFigure } from './derived.ts'
import type { FigureQuestion } from './question.ts'
import { allOf, among, type Reader, type Row, type Sql, sql } from './sql.ts'
import type { FigureDetail, FigureKey, FigureRow } from './store.ts'
import { teardownHolds } from './teardown-conditions.ts'

const COLUMNS = sql`t.id AS teardown, t.revision, f.metric, f.subject, f.conditions, f.status, f.unit, f.value, f.at_taken,
  f.uncertainty, f.low, f.high, f.how, f.basis, f.reason`

/** Metric by metric in the order asked, records in the order added, subjects by path. */
export function figureRows(reader: Reader, question: FigureQuestion): readonly FigureRow[] {
  const { metrics, conditions = 'default', where, subject, status } = question
  const holds: Sql[] = []
  if (subject !== undefined) holds.push(sql`f.subject = ${subject}`)
  if (status) holds.push(among(sql`f.status`, status))
  if (where && Object.values(where).some((part) => part !== undefined)) {
    const chosen = sql`SELECT t.key FROM teardown t JOIN summary s ON s.teardown = t.key WHERE ${teardownHolds(reader, where)}`
    holds.push(sql`f.teardown IN (${chosen})`)
  }
  const others = allOf(holds)
  return metrics.flatMap((metric) =>
    reader
      .all(sql`SELECT ${COLUMNS} FROM figure f CROSS JOIN teardown t ON t.key = f.teardown
        WHERE f.metric = ${metric} AND f.conditions = ${conditions} AND ${others} ORDER BY f.teardown, f.subject`)
      .map(figureRow),
  )
}

export function figuresOf(reader: Reader, teardown: string, conditions: string): readonly FigureRow[] {
  return reader
    .all(sql`SELECT ${COLUMNS} FROM teardown t CROSS JOIN figure f ON f.teardown = t.key
      WHERE t.id = ${teardown} AND f.conditions = ${conditions} ORDER BY f.metric, f.subject`)
    .map(figureRow)
}

/** Working and components, for the few figures that are shown or compared. */
export function figureDetails(reader: Reader, keys: readonly FigureKey[]): readonly (FigureDetail | null)[] {
  return keys.map((key) => {
    const row = reader.one(sql`SELECT components, body FROM figure_detail WHERE teardown =
      (SELECT key FROM teardown WHERE id = ${key.teardown}) AND metric = ${key.metric}
      AND conditions = ${key.conditions} AND subject = ${key.subject}`)
    if (!row) return null
    const { teardown, metric, subject, conditions } = key
    return {
      teardown,
      metric,
      subject,
      conditions,
      components: JSON.parse(String(row.components)),
      body: String(row.body),
    }
  })
}

function figureRow(row: Row): FigureRow {
  return {
    teardown: String(row.teardown),
    revision: Number(row.revision),
    metric: String(row.metric),
    subject: asPath(String(row.subject)),
    conditions: String(row.conditions),
    status: row.status as DerivedFigure['status'],
    unit: String(row.unit),
    value: number(row.value),
    atTaken: number(row.at_taken),
    uncertainty: number(row.uncertainty),
    low: number(row.low),
    high: number(row.high),
    how: String(row.how),
    basis: row.basis as Basis | null,
    reason: text(row.reason),
  }
}
