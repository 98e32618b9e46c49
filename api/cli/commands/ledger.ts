import type { Command } from '../command.ts'

export const ledger: Command = {
  name: 'ledger',
  summary: 'every watt of a record, from its sources to where it ends',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [],
  examples: ['lidoff ledger ferry-7-drive'],
  async run(call) {
    const { printLedger } = await import('../print-ledger.ts')
    return printLedger(call)
  },
}
