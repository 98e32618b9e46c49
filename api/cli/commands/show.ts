import type { Command } from '../command.ts'

export const show: Command = {
  name: 'show',
  summary: 'what is stored of a record',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--sheet', about: 'print the sheet as it was typed' },
    { flags: '--revision <n>', about: 'of this revision, with --sheet' },
    { flags: '--history', about: 'list the revisions' },
    { flags: '--values', about: 'list every value with its path' },
  ],
  examples: ['lidoff show ferry-7-drive', 'lidoff show ferry-7-drive --sheet --revision 1'],
  async run(call) {
    const { showRecord } = await import('../show-record.ts')
    return showRecord(call)
  },
}
