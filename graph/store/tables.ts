/**
 * The tables of derived rows as the writer sees them: which columns name a row, which it carries, and by which column
 * the rows of one record are found. Parts before what refers to them.
 */
export interface Table {
  readonly name: string
  readonly key: readonly string[]
  readonly rest: readonly string[]
  readonly belongs: 'teardown' | 'part'
}

const table = (name: string, belongs: Table['belongs'], key: readonly string[], rest: readonly string[]): Table => ({
  name,
  belongs,
  key,
  rest,
})

const NUMBERS = ['value', 'at_taken', 'uncertainty', 'low', 'high']

export const TABLES = {
  summary: table(
    'summary',
    'teardown',
    ['teardown'],
    ['title', 'title_key', 'kind', 'maker', 'maker_key', 'model', 'text'],
  ),
  // The path belongs to the key: a part that moves to another number is another row.
  part: table(
    'part',
    'part',
    ['part', 'path'],
    [
      ...['teardown', 'id', 'class', 'class_group', 'parent', 'built', 'found', 'type', 'marking', 'marking_normal'],
      ...['material', 'bases', 'text'],
    ],
  ),
  tag: table('part_tag', 'part', ['part', 'kind', 'value'], []),
  property: table('part_property', 'part', ['part', 'name', 'rank'], ['value', 'word', 'basis']),
  passage: table('passage', 'teardown', ['teardown', 'path'], ['stage', 'upstream']),
  figure: table(
    'figure',
    'teardown',
    ['metric', 'conditions', 'teardown', 'subject'],
    ['status', 'unit', ...NUMBERS, 'how', 'basis', 'reason'],
  ),
  detail: table('figure_detail', 'teardown', ['teardown', 'metric', 'conditions', 'subject'], ['components', 'body']),
  trait: table('trait', 'teardown', ['trait', 'value', 'teardown', 'subject'], ['basis']),
  finding: table('check_finding', 'teardown', ['teardown', 'rank'], ['check_id', 'path', 'severity', 'what', 'mend']),
  instrument: table('instrument', 'teardown', ['instrument', 'teardown', 'path'], []),
} as const

export type TableName = keyof typeof TABLES
export const TABLE_NAMES = Object.keys(TABLES) as readonly TableName[]

/** Values in the order key, rest. */
export type StoredRow = readonly (string | number | Uint8Array | null)[]
export type StoredRows = Readonly<Record<TableName, readonly StoredRow[]>>
