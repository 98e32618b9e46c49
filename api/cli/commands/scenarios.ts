import type { Command } from '../command.ts'

export const scenarios: Command = {
  name: 'scenarios',
  summary: 'play a sheet of scenarios, each side by side with the record as it stands',
  about:
    'A sheet is YAML: metrics: [ … ], scenarios: [ { id, title, what-if: [ "path=value", … ], conditions: { power: continuous } } ]. With --counts, every count that nobody made is one more and one less.',
  arguments: [
    { name: 'id', about: 'id of the record' },
    { name: 'file', about: 'sheet of scenarios, or - for standard input', optional: true },
  ],
  options: [
    { flags: '--metric <id>', about: 'look at this figure; may be given several times', many: true },
    { flags: '--counts', about: 'judged and assumed counts, plus and minus one' },
  ],
  examples: [
    'lidoff scenarios ferry-7-drive --counts --metric LINK_CAPACITANCE',
    'lidoff scenarios ferry-7-drive my-scenarios.yaml',
  ],
  async run(call) {
    const { playScenarios } = await import('../play-changes.ts')
    return playScenarios(call)
  },
}
