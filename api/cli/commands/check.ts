import type { Command } from '../command.ts'

export const check: Command = {
  name: 'check',
  summary: 'validate sheets; write nothing',
  about: 'Prints every error and warning with its place and what mends it, and how each quantity was read.',
  arguments: [{ name: 'file', about: 'sheets, or - for standard input', many: true }],
  options: [{ flags: '--quiet', about: 'leave out how quantities were read' }],
  examples: ['lidoff check seeds/ferry-7-drive.yaml', 'lidoff check --quiet seeds/*.yaml'],
  async run(call) {
    const { readSheetFile } = await import('../sheet-file.ts')
    const { printReading, readingDocument } = await import('../sheet-report.ts')
    const read = []
    for (const file of call.args) read.push(await readSheetFile(file, call.stdin))
    for (const one of read) printReading(one, call.terminal, { readings: call.options.quiet !== true })
    const bad = read.filter(({ complaints }) => complaints.length > 0)
    call.terminal.document({ ok: bad.length === 0, files: read.map(readingDocument) })
    return bad.length > 0 ? 1 : 0
  },
}
