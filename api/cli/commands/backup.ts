import { resolve } from 'node:path'
import type { Command } from '../command.ts'
import { withCorpus } from '../database.ts'

export const backup: Command = {
  name: 'backup',
  summary: 'a complete copy of the database in one file',
  about:
    'May be taken while others write. The copy is checked before it gets its name, and no file is overwritten. To restore, name the copy with --db.',
  arguments: [{ name: 'file', about: 'the copy' }],
  options: [],
  examples: ['lidoff backup lidoff-2026-11-20.db'],
  run: (call) =>
    withCorpus(call, 'refuse', async ({ store }) => {
      const { terminal } = call
      const copy = await store.backup(resolve(call.args[0]!))
      terminal.print(`${copy.file}: ${copy.revisions} revisions, ${copy.bytes} bytes, checked`)
      terminal.document(copy)
      return 0
    }),
}
