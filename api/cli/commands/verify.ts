import { FAULTS } from '../../errors.ts'
import type { Command } from '../command.ts'
import { withCorpus } from '../database.ts'

export const verify: Command = {
  name: 'verify',
  summary: 'look for damage in the database',
  about:
    'Checks pages and references, and the hash and seal of every revision: a line of the history that was altered is found.',
  arguments: [],
  options: [],
  examples: ['lidoff verify', 'lidoff verify --db lidoff-2026-11-20.db'],
  run: (call) =>
    withCorpus(call, 'refuse', async ({ store }) => {
      const { terminal } = call
      const found = await store.verify()
      for (const { place, what, mend } of found.problems) terminal.print(`${place}: ${what}\n        ${mend}`)
      terminal.print(
        found.problems.length > 0 ? `${found.problems.length} problems` : `${found.revisions} revisions, all sound`,
      )
      terminal.document(found)
      return found.problems.length > 0 ? FAULTS.REFUSED.exit : 0
    }),
}
