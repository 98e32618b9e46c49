import { type Condition, ownConditions, partAt } from './component-conditions.ts'
import type { ComponentWhere } from './question.ts'
import { allOf, type Reader, type Sql, sql } from './sql.ts'

/**
 * A question about parts, ready to be run. The database has no statistics that it could rely on, so we look for
 * ourselves which condition the fewest parts meet and start from those: counting stops at `RARE`, which costs less
 * than one wrong choice over a large corpus.
 */
export interface Search {
  readonly lead: Lead
  /** What must hold of the part besides the condition that leads. */
  readonly rest: Sql
  /** The same with the condition that leads, to test a given part. */
  readonly every: Sql
}

type Lead =
  /** Few parts meet this condition: list them all. */
  | { readonly way: 'few'; readonly set: Sql }
  /** Many do, and they come in order: read along until the page is full. */
  | { readonly way: 'along'; readonly set: Sql }
  | { readonly way: 'all' }

export const RARE = 2000

/** @param rare up to how many parts are listed rather than read along */
export function searchOf(reader: Reader, where: ComponentWhere, depth = 0, rare = RARE): Search {
  const conditions = [...ownConditions(where, depth), ...relations(reader, where, depth, rare)]
  const leading = leadOf(reader, conditions, rare)
  const lead: Lead = leading ? { way: leading.way, set: leading.set } : { way: 'all' }
  const holding = (chosen: readonly Condition[]) => allOf(chosen.map(({ holds }) => holds))
  return {
    lead,
    rest: holding(conditions.filter((condition) => condition !== leading?.condition)),
    every: holding(conditions),
  }
}

function leadOf(reader: Reader, conditions: readonly Condition[], rare: number) {
  let least: { condition: Condition; set: Sql; way: 'few' | 'along'; count: number } | null = null
  for (const condition of conditions) {
    const { set, sorted } = condition
    if (!set) continue
    const count = reader.number(sql`SELECT count(*) FROM (${set} LIMIT ${Math.min(rare, least?.count ?? rare)})`)
    const way = count < rare ? 'few' : 'along'
    if ((way === 'few' || sorted) && (!least || count < least.count)) least = { condition, set, way, count }
  }
  return least
}

/** Numbers of the parts that are found, from the first after `after`, in order. */
export function foundParts({ lead, rest }: Search, after: number, first: number): Sql {
  if (lead.way === 'all') {
    return sql`SELECT p0.part FROM part p0 WHERE p0.part > ${after} AND ${rest} ORDER BY p0.part LIMIT ${first}`
  }
  const distinct = lead.way === 'few' ? sql`DISTINCT ` : sql``
  return sql`SELECT p0.part FROM (SELECT ${distinct}part FROM (${lead.set}) WHERE part > ${after}) lead
    CROSS JOIN part p0 ON p0.part = lead.part WHERE ${rest} ORDER BY lead.part LIMIT ${first}`
}

/** All parts that are found, at this depth of nesting, each once, in no order. */
export function partsFound({ lead, rest }: Search, depth: number): Sql {
  const p = partAt(depth)
  if (lead.way === 'all') return sql`SELECT ${p}.part AS part FROM part ${p} WHERE ${rest}`
  return sql`SELECT ${p}.part AS part FROM (SELECT DISTINCT part FROM (${lead.set})) lead
    CROSS JOIN part ${p} ON ${p}.part = lead.part WHERE ${rest}`
}

/**
 * Relations between parts of one record through the passages in which their heat ends. Both are one comparison of
 * tags: mine is the passage; theirs is the passage too (shared) or what lies upstream of theirs.
 */
function relations(reader: Reader, where: ComponentWhere, depth: number, rare: number): Condition[] {
  const conditions: Condition[] = []
  if (where.sharesPassageWith) conditions.push(relation(reader, where.sharesPassageWith, sql`'passage'`, depth, rare))
  if (where.upstreamOf) conditions.push(relation(reader, where.upstreamOf, sql`'upstream'`, depth, rare))
  return conditions
}

function relation(reader: Reader, other: ComponentWhere, theirKind: Sql, depth: number, rare: number): Condition {
  const p = partAt(depth)
  const o = partAt(depth + 1)
  const search = searchOf(reader, other, depth + 1, rare)
  const holds = sql`EXISTS (
    SELECT 1 FROM part_tag mine
    CROSS JOIN part_tag theirs ON theirs.kind = ${theirKind} AND theirs.value = mine.value
      AND ${sameRecord(sql`theirs.part`, sql`${p}.part`)}
    CROSS JOIN part ${o} ON ${o}.part = theirs.part
    WHERE mine.part = ${p}.part AND mine.kind = 'passage' AND ${search.every})`
  const set = sql`SELECT DISTINCT mine.part AS part FROM (${partsFound(search, depth + 1)}) other
    CROSS JOIN part_tag theirs ON theirs.part = other.part AND theirs.kind = ${theirKind}
    CROSS JOIN part_tag mine ON mine.kind = 'passage' AND mine.value = theirs.value
      AND ${sameRecord(sql`mine.part`, sql`other.part`)}`
  // Following the relation from the other end pays only when there are few to start from.
  return { holds, set: search.lead.way === 'few' ? set : null, sorted: false }
}

/** Two different parts of one record; as a range of numbers, so that an index can follow it. */
function sameRecord(part: Sql, other: Sql): Sql {
  return sql`${part} BETWEEN ((${other} >> 20) << 20) AND ((${other} >> 20) << 20) + 1048575 AND ${part} <> ${other}`
}
