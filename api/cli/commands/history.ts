import type { Command } from '../command.ts'

export const history: Command = {
  name: 'history',
  summary: 'revisions of a record, and what was thought on a date',
  about:
    'Without a date the revisions are listed. With one: every statement that changed since, and every figure, trait and check that moved because of it.',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--as-of <date>', about: 'what was thought then, against now; with --since, the later of the two' },
    { flags: '--since <date>', about: 'date (2026-11-20), moment or number of a revision to start from' },
    { flags: '--metric <id>', about: 'look at this figure; may be given several times', many: true },
  ],
  examples: ['lidoff history ferry-7-drive', 'lidoff history ferry-7-drive --since 1'],
  async run(call) {
    const { showHistory } = await import('../show-history.ts')
    return showHistory(call)
  },
}
