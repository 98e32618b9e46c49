import type { Command } from '../command.ts'

export const checklist: Command = {
  name: 'checklist',
  summary: 'what to have on record before each step that destroys something',
  about:
    'For each step still to come: what is lost with it, whether anybody observed it yet, and which figures stand on it.',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--metric <id>', about: 'for this figure; may be given several times; all when left out', many: true },
  ],
  examples: ['lidoff checklist ferry-7-drive'],
  async run(call) {
    const { beforeSteps } = await import('../before-steps.ts')
    return beforeSteps(call)
  },
}
