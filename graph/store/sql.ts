import type Database from 'better-sqlite3'

/** Text of a statement and what is bound to it. */
export interface Sql {
  readonly text: string
  readonly values: readonly SqlValue[]
}

export type SqlValue = string | number | null

/**
 * A piece of SQL. What stands in a hole is bound as a value unless it is itself such a piece, so that no text from
 * outside ever becomes part of a statement.
 *
 * @example sql`part.path = ${'parts/link-cap'}` // text 'part.path = ?', values ['parts/link-cap']
 */
export function sql(strings: TemplateStringsArray, ...holes: readonly (Sql | SqlValue)[]): Sql {
  let text = strings[0] ?? ''
  const values: SqlValue[] = []
  holes.forEach((hole, at) => {
    if (hole !== null && typeof hole === 'object') {
      text += hole.text
      values.push(...hole.values)
    } else {
      text += '?'
      values.push(hole)
    }
    text += strings[at + 1] ?? ''
  })
  return { text, values }
}

/** Pieces one after the other, parted by another. */
function joined(pieces: readonly Sql[], between: Sql): Sql {
  const values = pieces.flatMap((piece, at) => (at === 0 ? piece.values : [...between.values, ...piece.values]))
  return { text: pieces.map((piece) => piece.text).join(between.text), values }
}

/** All of these hold; true when there are none. */
export function allOf(conditions: readonly Sql[]): Sql {
  return conditions.length === 0 ? sql`TRUE` : sql`(${joined(conditions, sql`) AND (`)})`
}

/** The column has one of these values; the statement's text does not depend on how many. */
export function among(column: Sql, list: readonly string[]): Sql {
  return list.length === 1
    ? sql`${column} = ${list[0] ?? null}`
    : sql`${column} IN (SELECT value FROM json_each(${JSON.stringify(list)}))`
}

export type Row = Readonly<Record<string, SqlValue>>

/** Runs composed questions; a statement of the same text is prepared once. */
export interface Reader {
  all(question: Sql): readonly Row[]
  /** Rows as lists of values, for the few questions that return tens of thousands. */
  lists(question: Sql): readonly (readonly SqlValue[])[]
  one(question: Sql): Row | undefined
  /** The first column of the only row. */
  number(question: Sql): number
}

const KEPT = 300

export function readerOf(database: Database.Database): Reader {
  const prepared = new Map<string, Database.Statement<SqlValue[], Row>>()
  const prepare = ({ text }: Sql) => {
    const known = prepared.get(text)
    if (known) return known
    const fresh = database.prepare<SqlValue[], Row>(text)
    const oldest = prepared.size >= KEPT ? prepared.keys().next().value : undefined
    if (oldest !== undefined) prepared.delete(oldest)
    prepared.set(text, fresh)
    return fresh
  }
  const one = (question: Sql) =>
    prepare(question)
      .raw(false)
      .get(...question.values)
  return {
    all: (question) =>
      prepare(question)
        .raw(false)
        .all(...question.values),
    lists: (question) =>
      prepare(question)
        .raw(true)
        .all(...question.values) as unknown as readonly SqlValue[][],
    one,
    number: (question) => Number(Object.values(one(question) ?? {})[0] ?? 0),
  }
}
