import { bound, tagHolds } from './component-conditions.ts'
import { partsFound, searchOf } from './component-search.ts'
import { folded } from './marking.ts'
import type { ComponentWhere, FigureIs, TeardownWhere, TraitIs } from './question.ts'
import { allOf, among, type Reader, type Sql, sql } from './sql.ts'
import { matchWords } from './words.ts'

/** What must hold of the record `t` and its summary `s`. */
export function teardownHolds(reader: Reader, where: TeardownWhere): Sql {
  const holds: Sql[] = []
  if (where.id) holds.push(among(sql`t.id`, where.id))
  if (where.kind) holds.push(among(sql`s.kind`, where.kind))
  if (where.maker) holds.push(among(sql`s.maker_key`, where.maker.map(folded)))
  if (where.text?.trim()) holds.push(textHolds(where.text))
  if (where.class)
    holds.push(sql`EXISTS (SELECT 1 FROM part_tag WHERE ${tagHolds(sql`'class'`, where.class)} AND ${PARTS_OF_T})`)
  if (where.component) holds.push(componentHolds(reader, where.component))
  for (const trait of where.trait ?? []) holds.push(traitHolds(trait))
  for (const figure of where.figure ?? []) holds.push(figureHolds(figure))
  if (where.instrument !== undefined) {
    holds.push(sql`t.key IN (SELECT teardown FROM instrument WHERE instrument = ${where.instrument})`)
  }
  return allOf(holds)
}

const PARTS_OF_T = sql`part BETWEEN (t.key << 20) AND (t.key << 20) + 1048575`

/** From the parts to their records when they are few, else record by record. */
function componentHolds(reader: Reader, where: ComponentWhere): Sql {
  const search = searchOf(reader, where)
  return search.lead.way === 'few'
    ? sql`t.key IN (SELECT part >> 20 FROM (${partsFound(search, 0)}))`
    : sql`EXISTS (SELECT 1 FROM part p0 WHERE p0.${PARTS_OF_T} AND ${search.every})`
}

/** Words of the record's own text. */
function textHolds(text: string): Sql {
  const words = matchWords(text)
  return words === null ? sql`FALSE` : sql`t.key IN (SELECT rowid FROM summary_text WHERE summary_text MATCH ${words})`
}

function traitHolds({ id, value }: TraitIs): Sql {
  const is = value === undefined ? sql`` : sql` AND value = ${value}`
  return sql`t.key IN (SELECT teardown FROM trait WHERE trait = ${id}${is})`
}

function figureHolds({ metric, conditions = 'default', subject, status = ['OK'], min, max }: FigureIs): Sql {
  const holds = [
    sql`f.metric = ${metric} AND f.conditions = ${conditions} AND f.teardown = t.key`,
    among(sql`f.status`, status),
  ]
  if (subject !== undefined) holds.push(sql`f.subject = ${subject}`)
  if (min !== undefined) holds.push(sql`f.value >= ${bound(metric, min)}`)
  if (max !== undefined) holds.push(sql`f.value <= ${bound(metric, max)}`)
  return sql`EXISTS (SELECT 1 FROM figure f WHERE ${allOf(holds)})`
}
