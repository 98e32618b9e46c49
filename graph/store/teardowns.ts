import { text } from './components.ts'
import { assertSpan, cursorsOf, pageOf } from './cursor.ts'
import type { Page, Span, TeardownOrder, TeardownWhere } from './question.ts'
import { type Reader, type Row, type Sql, type SqlValue, sql } from './sql.ts'
import type { TeardownRow } from './store.ts'
import { teardownHolds } from './teardown-conditions.ts'

const COLUMNS = sql`t.id, t.revision, s.title, s.kind, s.maker, s.model, r.hash, r.at`
const FROM = sql`teardown t JOIN summary s ON s.teardown = t.key
  JOIN revision r ON r.teardown = t.key AND r.revision = t.revision`

/** One page of current records. */
export function teardownPage(
  reader: Reader,
  where: TeardownWhere,
  order: TeardownOrder,
  span: Span,
): Page<TeardownRow> {
  assertSpan(span)
  const cursors = cursorsOf(['teardowns', where, order])
  const after = span.after ? cursors.read(span.after) : null
  const descending = order.descending ?? false
  // Sorted by id, reading stops when the page is full; else the keys are worked out once each, and then sorted.
  const byId = order.by === 'id'
  const keyed = sql`WITH keyed AS ${byId ? sql`NOT MATERIALIZED` : sql`MATERIALIZED`} (
    SELECT t.key, t.id, ${sortKey(order)} AS sort FROM teardown t JOIN summary s ON s.teardown = t.key
    JOIN revision r ON r.teardown = t.key AND r.revision = t.revision WHERE ${teardownHolds(reader, where)})`
  const direction = descending ? sql`DESC` : sql`ASC`
  const ordering = byId ? sql`id ${direction}` : sql`sort IS NULL, sort ${direction}, id ${direction}`
  const beyond = after ? beyondOf(after, descending, byId) : sql`TRUE`
  const places = reader.all(
    sql`${keyed} SELECT id, sort FROM keyed WHERE ${beyond} ORDER BY ${ordering} LIMIT ${span.first + 1}`,
  )
  const rows = teardownRows(
    reader,
    places.map(({ id }) => String(id)),
  )
  const found = rows.map((node, at) => ({ cursor: cursors.write([places[at]?.sort ?? null, node.id]), node }))
  const hasPrevious =
    after !== null && reader.number(sql`${keyed} SELECT EXISTS (SELECT 1 FROM keyed WHERE NOT (${beyond}))`) === 1
  return pageOf(found, span, hasPrevious)
}

/** The closed list of what one may sort by. */
function sortKey(order: TeardownOrder): Sql {
  switch (order.by) {
    case 'id':
      return sql`t.id`
    case 'title':
      return sql`s.title_key`
    case 'written':
      return sql`r.at`
    case 'figure':
      return figureKey(order)
  }
}

function figureKey({
  metric,
  conditions = 'default',
  subject,
  descending,
}: Extract<TeardownOrder, { by: 'figure' }>): Sql {
  const best = descending ? sql`max` : sql`min`
  const about = subject === undefined ? sql`` : sql` AND f.subject = ${subject}`
  return sql`(SELECT ${best}(f.value) FROM figure f WHERE f.metric = ${metric} AND f.conditions = ${conditions}
    AND f.teardown = t.key AND f.status = 'OK'${about})`
}

/** What comes after a place in the order; never NULL, so that its contrary is what comes up to that place. */
function beyondOf([sort = null, id = null]: readonly SqlValue[], descending: boolean, byId: boolean): Sql {
  const past = (column: Sql, value: SqlValue) => (descending ? sql`${column} < ${value}` : sql`${column} > ${value}`)
  if (byId) return past(sql`id`, id)
  if (sort === null) return sql`sort IS NULL AND ${past(sql`id`, id)}`
  return sql`sort IS NULL OR ${past(sql`sort`, sort)} OR (sort = ${sort} AND ${past(sql`id`, id)})`
}

export function countTeardowns(reader: Reader, where: TeardownWhere): number {
  return reader.number(sql`SELECT count(*) FROM teardown t JOIN summary s ON s.teardown = t.key
    WHERE ${teardownHolds(reader, where)}`)
}

export function teardownRows(reader: Reader, ids: readonly string[]): readonly TeardownRow[] {
  const rows = reader.all(sql`SELECT ${COLUMNS} FROM ${FROM}
    WHERE t.id IN (SELECT value FROM json_each(${JSON.stringify(ids)}))`)
  const byId = new Map(rows.map((row) => [String(row.id), teardownRow(row)]))
  return ids.flatMap((id) => byId.get(id) ?? [])
}

function teardownRow(row: Row): TeardownRow {
  return {
    id: String(row.id),
    revision: Number(row.revision),
    hash: String(row.hash),
    at: String(row.at),
    title: String(row.title),
    kind: String(row.kind),
    maker: text(row.maker),
    model: text(row.model),
  }
}
