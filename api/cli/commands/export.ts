import type { Command } from '../command.ts'

export const exportTable: Command = {
  name: 'export',
  summary: 'a flat table as CSV',
  about:
    'Tables: figures, components, teardowns, checks. Text that a spreadsheet would take for a formula is neutralised by a leading apostrophe; a missing value is empty, with the reason in its own column.',
  arguments: [{ name: 'table', about: 'figures, components, teardowns or checks' }],
  options: [
    { flags: '--output <file>', about: 'write to a file, complete or not at all (else standard output)' },
    { flags: '--conditions <name>', about: 'stored set of conditions: default or continuous; all when left out' },
  ],
  examples: ['lidoff export figures --output figures.csv', 'lidoff export components'],
  async run(call) {
    const { exportCsv } = await import('../export-csv.ts')
    return exportCsv(call)
  },
}
