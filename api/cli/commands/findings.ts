import type { Command } from '../command.ts'

export const findings: Command = {
  name: 'findings',
  summary: 'findings of a record, each with the figures that rest on it',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--metric <id>', about: 'for this figure; may be given several times; all when left out', many: true },
  ],
  examples: ['lidoff findings ferry-7-drive'],
  async run(call) {
    const { listFindings } = await import('../list-findings.ts')
    return listFindings(call)
  },
}
