import type { Command } from '../command.ts'

export const trace: Command = {
  name: 'trace',
  summary: "a part's nets, heat paths and coolant positions",
  arguments: [
    { name: 'id', about: 'id of the record' },
    { name: 'part', about: 'path of the part or piece; parts/ may be left out' },
  ],
  options: [],
  examples: ['lidoff trace ferry-7-drive module', 'lidoff trace ferry-7-drive module.v/switch.high/igbt'],
  async run(call) {
    const { tracePart } = await import('../trace-part.ts')
    return tracePart(call)
  },
}
