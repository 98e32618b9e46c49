import type { ComponentRow, FigureRow, Store } from '../../graph/store/store.ts'
import { NAMED_CONDITIONS } from '../../queries/corpus/materialise.ts'
import { type Cell, csvLine } from './csv.ts'

/** A flat table: one line a row, every column explained. */
export interface Table {
  readonly name: string
  readonly about: string
  readonly columns: Readonly<Record<string, string>>
  rows(store: Store, choice: TableChoice): AsyncIterable<readonly Cell[]>
}

export interface TableChoice {
  /** Stored set of conditions; all of them when not given. */
  readonly conditions?: string | undefined
}

const figures: Table = {
  name: 'figures',
  about: 'One row a figure of a subject under a stored set of conditions.',
  columns: {
    teardown: 'id of the record',
    subject: 'path of what the figure is about',
    metric: 'id of the figure',
    value: 'in unit; empty when there is none',
    unit: 'customary symbol of the unit of measure',
    uncertainty: 'standard uncertainty, in unit; empty when exact or when there is no value',
    low: 'lower end of the 95 % interval, in unit',
    high: 'upper end of the 95 % interval, in unit',
    status: 'OK, MISSING, NOT_APPLICABLE or OUT_OF_RANGE',
    reason: 'why there is no value',
    basis: 'weakest evidence it stands on',
    conditions: 'name of the set of conditions',
    revision: 'revision of the record it was computed from',
  },
  async *rows(store, { conditions }) {
    const sets = conditions === undefined ? Object.keys(NAMED_CONDITIONS) : [conditions]
    for (const id of await store.ids()) {
      for (const set of sets) for (const row of await store.figuresOf(id, set)) yield figureCells(row)
    }
  },
}

function figureCells(row: FigureRow): readonly Cell[] {
  const {
    teardown,
    subject,
    metric,
    value,
    unit,
    uncertainty,
    low,
    high,
    status,
    reason,
    basis,
    conditions,
    revision,
  } = row
  return [teardown, subject, metric, value, unit, uncertainty, low, high, status, reason, basis, conditions, revision]
}

const components: Table = {
  name: 'components',
  about: 'One row an entry of a parts list.',
  columns: {
    teardown: 'id of the record',
    path: 'path of the part',
    class: 'part class',
    group: 'group of classes',
    parent: 'path of the part it is inside',
    built: 'pieces as built',
    found: 'pieces as found',
    type: 'part type shared across records',
    marking: 'as seen',
    material: 'material',
    states: 'states of its pieces, parted by blanks',
    nets: 'nets of its terminals, parted by blanks',
    heat_ends: 'where its heat finally ends, parted by blanks',
    revision: 'revision of the record',
  },
  async *rows(store) {
    for (let after: string | null = null, more = true; more; ) {
      const page = await store.components({}, { first: 500, after })
      for (const { node } of page.items) yield componentCells(node)
      after = page.items.at(-1)?.cursor ?? null
      more = page.hasNext
    }
  },
}

function componentCells(row: ComponentRow): readonly Cell[] {
  const { teardown, path, parent, built, found, type, marking, material, states, nets, heatEnds, revision } = row
  const lists = [states, nets, heatEnds].map((list) => list.join(' '))
  return [teardown, path, row.class, row.group, parent, built, found, type, marking, material, ...lists, revision]
}

const teardowns: Table = {
  name: 'teardowns',
  about: 'One row a record.',
  columns: {
    teardown: 'id of the record',
    title: 'title of the sheet',
    kind: 'kind of converter',
    maker: 'who made it',
    model: 'the design it is one of',
    revision: 'current revision',
    written: 'when it was written, RFC 3339, UTC',
    hash: 'SHA-256 of its content',
  },
  async *rows(store) {
    for (const row of await store.teardownRows(await store.ids())) {
      yield [row.id, row.title, row.kind, row.maker, row.model, row.revision, row.at, row.hash]
    }
  },
}

const checks: Table = {
  name: 'checks',
  about: 'One row a finding of a check.',
  columns: {
    teardown: 'id of the record',
    check: 'id of the check',
    path: 'where',
    severity: 'error, warning or question',
    what: 'what was found',
    mend: 'what would settle it',
  },
  async *rows(store) {
    for (const { teardown, id, path, severity, what, mend } of await store.checksOf(await store.ids())) {
      yield [teardown, id, path, severity, what, mend]
    }
  },
}

export const tables: readonly Table[] = [figures, components, teardowns, checks]

/** A table as CSV, line by line: head first. */
export async function* csvOf(table: Table, store: Store, choice: TableChoice = {}): AsyncIterable<string> {
  yield csvLine(Object.keys(table.columns))
  for await (const cells of table.rows(store, choice)) yield csvLine(cells)
}
