import type { Command } from '../command.ts'

export const demo: Command = {
  name: 'demo',
  summary: 'load the demo corpus',
  about: 'The units of the Saltmarsh Yard, an invented training workshop: no maker, marking or number in them is real.',
  arguments: [],
  options: [],
  examples: ['lidoff demo', 'lidoff demo --db demo.db'],
  async run(call) {
    const { addFiles } = await import('../add-files.ts')
    const { demoSheets } = await import('../../demo.ts')
    const status = await addFiles(call, demoSheets(), { by: 'demo' })
    call.terminal.say(
      'next: lidoff list · lidoff figures ferry-7-drive · lidoff compare --metric POWER_DENSITY · lidoff serve',
    )
    return status
  },
}
