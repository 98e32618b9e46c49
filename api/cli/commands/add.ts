import { Fault } from '../../errors.ts'
import type { Call, Command } from '../command.ts'
import { textOf } from '../command.ts'

export const add: Command = {
  name: 'add',
  summary: 'check sheets and store each as a new revision',
  about: 'All or nothing for each file. A sheet that says what is stored already makes no new revision.',
  arguments: [{ name: 'file', about: 'sheets, or - for standard input', many: true }],
  options: [
    { flags: '--expect <revision>', about: 'store only if this is the current revision; 0 when there must be none' },
    { flags: '--by <name>', about: 'who writes' },
  ],
  examples: ['lidoff add seeds/ferry-7-drive.yaml', 'lidoff add --expect 2 my-sheet.yaml'],
  async run(call) {
    const { addFiles } = await import('../add-files.ts')
    const by = textOf(call.options, 'by')
    return addFiles(call, call.args, { expected: expectedOf(call), ...(by && { by }) })
  },
}

/** The revision that must be the current one; undefined where the sheet is simply the newest. */
function expectedOf({ options }: Call): number | null | undefined {
  const given = textOf(options, 'expect')
  if (given === undefined) return undefined
  if (!/^\d{1,9}$/.test(given))
    throw new Fault('USAGE', `"${given}" is not a revision`, 'a whole number; 0 when there must be none')
  return given === '0' ? null : Number(given)
}
