import type { Command } from '../command.ts'

export const measureNext: Command = {
  name: 'measure-next',
  summary: 'what to measure before the unit goes back',
  about: 'First what a coming step destroys, then what makes a figure computable, then what narrows one most.',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--metric <id>', about: 'for this figure; may be given several times; all when left out', many: true },
  ],
  examples: ['lidoff measure-next ferry-7-drive', 'lidoff measure-next ferry-7-drive --metric LINK_ENERGY'],
  async run(call) {
    const { suggestMeasuring } = await import('../suggest-measuring.ts')
    return suggestMeasuring(call)
  },
}
