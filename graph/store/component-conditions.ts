import { basesToBits } from './bases.ts'
import { normalMarking } from './marking.ts'
import type { ComponentWhere, PropertyRange } from './question.ts'
import { netPath } from './rows.ts'
import { allOf, among, type Sql, sql } from './sql.ts'
import { BadRequest } from './store-error.ts'
import { matchWords } from './words.ts'

/**
 * One condition on parts, in the two forms that it can be asked in.
 * `holds` tests the part named `p<depth>`; `set` lists the numbers of the parts that meet it.
 */
export interface Condition {
  readonly holds: Sql
  /** Null for conditions that nearly every part meets, and that are never worth starting from. */
  readonly set: Sql | null
  /** Whether `set` comes sorted by part without sorting, so that a page can stop early. */
  readonly sorted: boolean
}

/** Names of the part at each depth of nesting; how deep questions may be nested. */
const PART_AT = [sql`p0`, sql`p1`, sql`p2`, sql`p3`] as const

export function partAt(depth: number): Sql {
  const name = PART_AT[depth]
  if (!name) throw new BadRequest('where', `nested more than ${PART_AT.length - 1} deep`, 'ask in several steps')
  return name
}

/** The conditions of a question that speak of the part alone; relations to other parts are in `component-relations.ts`. */
export function ownConditions(where: ComponentWhere, depth: number): Condition[] {
  const p = partAt(depth)
  const conditions: Condition[] = []
  const tag = (kind: Sql, values: readonly string[] | undefined) => {
    if (values) conditions.push(tagCondition(p, kind, values))
  }
  // Words and markings first: of two equally common conditions the first leads, and these are dear to test part by part.
  if (where.marking !== undefined) conditions.push(markingCondition(p, where.marking))
  if (where.text?.trim()) conditions.push(textCondition(p, where.text))
  if (where.teardown) conditions.push(teardownCondition(p, where.teardown))
  if (where.partType !== undefined) conditions.push(columnCondition(p, sql`type`, where.partType))
  if (where.material !== undefined) conditions.push(columnCondition(p, sql`material`, where.material))
  tag(sql`'class'`, where.class)
  if (where.net !== undefined) tag(sql`'net'`, [netPath(where.net)])
  tag(sql`'potential'`, where.potential)
  tag(sql`'state'`, where.state)
  if (where.heatEndsIn !== undefined) tag(sql`'end-name'`, [where.heatEndsIn])
  for (const range of where.property ?? []) conditions.push(propertyCondition(p, range))
  if (where.basis) {
    conditions.push({ holds: sql`${p}.bases & ${basesToBits(where.basis)} <> 0`, set: null, sorted: false })
  }
  return conditions
}

function teardownCondition(p: Sql, ids: readonly string[]): Condition {
  const keys = sql`SELECT key FROM teardown WHERE ${among(sql`id`, ids)}`
  return {
    holds: sql`${p}.teardown IN (${keys})`,
    set: sql`SELECT part FROM part WHERE teardown IN (${keys})`,
    sorted: false,
  }
}

function columnCondition(p: Sql, column: Sql, value: string): Condition {
  return {
    holds: sql`${p}.${column} = ${value}`,
    set: sql`SELECT part FROM part WHERE ${column} = ${value}`,
    sorted: true,
  }
}

/** A row of tags is of this kind and has one of these values. */
export function tagHolds(kind: Sql, values: readonly string[]): Sql {
  return sql`kind = ${kind} AND ${among(sql`value`, values)}`
}

function tagCondition(p: Sql, kind: Sql, values: readonly string[]): Condition {
  const is = tagHolds(kind, values)
  return {
    holds: sql`EXISTS (SELECT 1 FROM part_tag WHERE part = ${p}.part AND ${is})`,
    set: sql`SELECT part FROM part_tag WHERE ${is}`,
    sorted: values.length === 1,
  }
}

function propertyCondition(p: Sql, { name, min, max }: PropertyRange): Condition {
  const within = (value: Sql) => {
    const bounds = [sql`name = ${name}`, sql`${value} IS NOT NULL`]
    if (min !== undefined) bounds.push(sql`${value} >= ${bound(name, min)}`)
    if (max !== undefined) bounds.push(sql`${value} <= ${bound(name, max)}`)
    return allOf(bounds)
  }
  return {
    // The sign keeps the database from walking the index of values anew for every part.
    holds: sql`EXISTS (SELECT 1 FROM part_property WHERE part = ${p}.part AND ${within(sql`+value`)})`,
    set: sql`SELECT part FROM part_property WHERE ${within(sql`value`)}`,
    sorted: false,
  }
}

/** Not a number would be bound as NULL, and a comparison with NULL holds for nothing: an answer that looks true. */
export function bound(name: string, value: number): number {
  if (Number.isNaN(value)) throw new BadRequest(name, 'a bound is not a number', 'give a number or leave it out')
  return value
}

/** The index of markings knows stretches of three characters and more; shorter ones are looked for one by one. */
function markingCondition(p: Sql, marking: string): Condition {
  const wanted = normalMarking(marking)
  if (wanted === '') throw new BadRequest('marking', 'there is no letter or digit in it', 'give part of the marking')
  if ([...wanted].length < 3) {
    return {
      holds: sql`instr(${p}.marking_normal, ${wanted}) > 0`,
      set: sql`SELECT part FROM part WHERE instr(marking_normal, ${wanted}) > 0`,
      sorted: true,
    }
  }
  const found = sql`SELECT rowid AS part FROM part_marking WHERE part_marking MATCH ${`"${wanted}"`}`
  return { holds: sql`${p}.part IN (${found})`, set: found, sorted: true }
}

function textCondition(p: Sql, text: string): Condition {
  const words = matchWords(text)
  if (words === null) return { holds: sql`FALSE`, set: sql`SELECT 0 AS part WHERE FALSE`, sorted: true }
  const found = sql`SELECT rowid AS part FROM part_text WHERE part_text MATCH ${words}`
  return { holds: sql`${p}.part IN (${found})`, set: found, sorted: true }
}
