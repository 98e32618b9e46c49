import type { Tallied, Tally } from './question.ts'
import { type Reader, type Sql, sql } from './sql.ts'

/** The closed list of what is counted: value, record, and whether a row is a part. */
const SOURCES: Readonly<Record<Tallied, { readonly from: Sql; readonly ofParts: boolean }>> = {
  kind: { from: sql`SELECT kind AS value, teardown FROM summary`, ofParts: false },
  maker: { from: sql`SELECT maker AS value, teardown FROM summary WHERE maker IS NOT NULL`, ofParts: false },
  class: { from: sql`SELECT class AS value, teardown FROM part`, ofParts: true },
  group: { from: sql`SELECT class_group AS value, teardown FROM part`, ofParts: true },
  type: { from: sql`SELECT type AS value, teardown FROM part WHERE type IS NOT NULL`, ofParts: true },
  material: { from: sql`SELECT material AS value, teardown FROM part WHERE material IS NOT NULL`, ofParts: true },
  instrument: { from: sql`SELECT instrument AS value, teardown FROM instrument`, ofParts: false },
}

/** How often each value occurs across records, most used first. */
export function tally(reader: Reader, of: Tallied): readonly Tally[] {
  const { from, ofParts } = SOURCES[of]
  return counted(reader, from, ofParts)
}

export function traitTally(reader: Reader, trait: string): readonly Tally[] {
  return counted(reader, sql`SELECT value, teardown FROM trait WHERE trait = ${trait}`, false)
}

function counted(reader: Reader, from: Sql, ofParts: boolean): readonly Tally[] {
  return reader
    .all(sql`SELECT value, count(DISTINCT teardown) AS teardowns, count(*) AS parts FROM (${from})
      GROUP BY value ORDER BY teardowns DESC, parts DESC, value`)
    .map((row) => ({
      value: String(row.value),
      teardowns: Number(row.teardowns),
      parts: ofParts ? Number(row.parts) : null,
    }))
}
