import type { Basis } from '../quantity/basis.ts'
import type { Path } from '../quantity/quantity.ts'
import type { DerivedFigure } from './derived.ts'
import { unpacked } from './packed.ts'
import type { FigureQuestion } from './question.ts'
import { allOf, among, type Reader, type Sql, type SqlValue, sql } from './sql.ts'
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
      .lists(sql`SELECT ${COLUMNS} FROM figure f CROSS JOIN teardown t ON t.key = f.teardown
        WHERE f.metric = ${metric} AND f.conditions = ${conditions} AND ${others} ORDER BY f.teardown, f.subject`)
      .map(figureRow),
  )
}

export function figuresOf(reader: Reader, teardown: string, conditions: string): readonly FigureRow[] {
  return reader
    .lists(sql`SELECT ${COLUMNS} FROM teardown t CROSS JOIN figure f ON f.teardown = t.key
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
      components: JSON.parse(unpacked(row.components as unknown as Uint8Array)),
      body: unpacked(row.body as unknown as Uint8Array),
    }
  })
}

/** In the order of COLUMNS. */
function figureRow(row: readonly SqlValue[]): FigureRow {
  return {
    teardown: row[0] as string,
    revision: row[1] as number,
    metric: row[2] as string,
    subject: row[3] as Path,
    conditions: row[4] as string,
    status: row[5] as DerivedFigure['status'],
    unit: row[6] as string,
    value: row[7] as number | null,
    atTaken: row[8] as number | null,
    uncertainty: row[9] as number | null,
    low: row[10] as number | null,
    high: row[11] as number | null,
    how: row[12] as string,
    basis: row[13] as Basis | null,
    reason: row[14] as string | null,
  }
}
