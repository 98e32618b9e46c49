import type { Basis } from '../quantity/basis.ts'
import { asPath } from '../quantity/quantity.ts'
import { bitsToBases } from './bases.ts'
import { foundParts, partsFound, RARE, searchOf } from './component-search.ts'
import { assertSpan, cursorsOf, pageOf } from './cursor.ts'
import type { DerivedProperty } from './derived.ts'
import { partRange } from './part-number.ts'
import type { ComponentWhere, Page, Span } from './question.ts'
import { type Reader, type Row, sql } from './sql.ts'
import type { ComponentRow } from './store.ts'

/** One page of parts: records in the order they were first added, parts by path. */
export function componentPage(reader: Reader, where: ComponentWhere, span: Span, rare = RARE): Page<ComponentRow> {
  assertSpan(span)
  const cursors = cursorsOf(['components', where])
  const search = searchOf(reader, where, 0, rare)
  const after = span.after ? numberUpTo(reader, cursors.read(span.after)) : -1
  const numbers = reader.all(foundParts(search, after, span.first + 1)).map(({ part }) => Number(part))
  const rows = componentRows(reader, numbers)
  const found = rows.map((node) => ({ cursor: cursors.write([node.teardown, node.path]), node }))
  return pageOf(
    found,
    span,
    after >= 0 && reader.all(foundParts(search, -1, 1)).some(({ part }) => Number(part) <= after),
  )
}

export function countComponents(reader: Reader, where: ComponentWhere, rare = RARE): number {
  return reader.number(sql`SELECT count(*) FROM (${partsFound(searchOf(reader, where, 0, rare), 0)})`)
}

export function componentAt(reader: Reader, teardown: string, path: string): ComponentRow | null {
  const row = reader.one(
    sql`SELECT part FROM part WHERE teardown = (SELECT key FROM teardown WHERE id = ${teardown}) AND path = ${path}`,
  )
  return row ? (componentRows(reader, [Number(row.part)])[0] ?? null) : null
}

/**
 * The greatest number at or before a place, looked up anew: numbers shift when parts are added to a record between
 * two pages, places do not.
 */
function numberUpTo(reader: Reader, [teardown, path]: readonly (string | number | null)[]): number {
  const key = reader.number(sql`SELECT key FROM teardown WHERE id = ${String(teardown)}`)
  const { low } = partRange(key)
  const last = reader.number(sql`SELECT max(part) FROM part WHERE teardown = ${key} AND path <= ${String(path)}`)
  return Math.max(last, low - 1)
}

/** Parts by number, in the order given, with everything known of them. */
function componentRows(reader: Reader, numbers: readonly number[]): readonly ComponentRow[] {
  const list = sql`(SELECT value FROM json_each(${JSON.stringify(numbers)}))`
  const parts = reader.all(sql`
    SELECT p.*, t.id AS teardown_id, t.revision FROM part p JOIN teardown t ON t.key = p.teardown WHERE p.part IN ${list}`)
  const tags = grouped(
    reader.all(sql`SELECT part, kind, value FROM part_tag WHERE part IN ${list}
    AND kind IN ('net', 'potential', 'state', 'end') ORDER BY part, kind, value`),
  )
  const properties = grouped(
    reader.all(sql`SELECT * FROM part_property WHERE part IN ${list} ORDER BY part, name, rank`),
  )
  const byNumber = new Map(parts.map((row) => [Number(row.part), row]))
  return numbers.flatMap((number) => {
    const row = byNumber.get(number)
    return row ? [componentRow(row, tags.get(number) ?? [], properties.get(number) ?? [])] : []
  })
}

function grouped(rows: readonly Row[]): ReadonlyMap<number, readonly Row[]> {
  const groups = new Map<number, Row[]>()
  for (const row of rows) {
    const group = groups.get(Number(row.part))
    if (group) group.push(row)
    else groups.set(Number(row.part), [row])
  }
  return groups
}

function componentRow(row: Row, tags: readonly Row[], properties: readonly Row[]): ComponentRow {
  const tagged = (kind: string) => tags.filter((tag) => tag.kind === kind).map((tag) => String(tag.value))
  return {
    teardown: String(row.teardown_id),
    revision: Number(row.revision),
    path: asPath(String(row.path)),
    id: String(row.id),
    class: String(row.class),
    group: String(row.class_group),
    parent: row.parent === null ? null : asPath(String(row.parent)),
    built: Number(row.built),
    found: Number(row.found),
    type: text(row.type),
    marking: text(row.marking),
    markingNormal: text(row.marking_normal),
    material: text(row.material),
    states: tagged('state'),
    nets: tagged('net'),
    potentials: tagged('potential'),
    heatEnds: tagged('end').map(asPath),
    properties: properties.map(property),
    bases: bitsToBases(Number(row.bases)),
  }
}

function property({ name, value, word, basis }: Row): DerivedProperty {
  return { name: String(name), value: number(value), word: text(word), basis: String(basis) as Basis }
}

export function text(value: Row[string] | undefined): string | null {
  return value === null || value === undefined ? null : String(value)
}

export function number(value: Row[string] | undefined): number | null {
  return value === null || value === undefined ? null : Number(value)
}
