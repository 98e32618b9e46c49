import type { TeardownRow } from '../../../graph/store/store.ts'
import type { Command } from '../command.ts'
import { withCorpus } from '../database.ts'
import { table } from '../table.ts'

export const list: Command = {
  name: 'list',
  summary: 'list the records that are stored',
  arguments: [],
  options: [],
  examples: ['lidoff list', 'lidoff list --json'],
  run: (call) =>
    withCorpus(call, 'empty', async ({ store }) => {
      const { terminal } = call
      const rows = await store.teardownRows(await store.ids())
      const columns = [
        { head: 'id', cell: (row: TeardownRow) => row.id, wraps: true },
        { head: 'title', cell: (row: TeardownRow) => row.title, wraps: true },
        { head: 'kind', cell: (row: TeardownRow) => row.kind, wraps: true },
        { head: 'revision', cell: (row: TeardownRow) => String(row.revision), align: 'right' as const },
        { head: 'written', cell: (row: TeardownRow) => row.at.slice(0, 10) },
      ]
      terminal.print(
        rows.length > 0
          ? table(columns, rows, terminal.width)
          : 'nothing is stored yet; "lidoff demo" loads the demo units',
      )
      terminal.document({ teardowns: rows })
      return 0
    }),
}
