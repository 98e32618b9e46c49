import { VERSION } from '../../place.ts'
import type { Command } from '../command.ts'

export const version: Command = {
  name: 'version',
  summary: 'print the version',
  arguments: [],
  options: [],
  examples: ['lidoff version'],
  async run({ terminal }) {
    terminal.print(VERSION)
    terminal.document({ version: VERSION, node: process.version })
    return 0
  },
}
