import type { Command } from '../command.ts'

export const sweep: Command = {
  name: 'sweep',
  summary: 'figures over a range of one or two values, as a table for plotting',
  about:
    'CSV on standard output: a row for each point. Everything else stays at the values written; there are no intervals. At most 10,000 points.',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--metric <id>', about: 'figure; may be given several times', many: true },
    {
      flags: '--over <path=from..to:points>',
      about: 'value or numeric condition, once or twice: coolant-flow="4..16 L/min:13", ":13 log" for even decades',
      many: true,
    },
    { flags: '--subject <path>', about: 'only of this subject; may be given several times', many: true },
    { flags: '--condition <name=value>', about: 'such as power=continuous', many: true },
  ],
  examples: ['lidoff sweep ferry-7-drive --metric COOLANT_RISE --subject specimen --over "coolant-flow=4..16 L/min:7"'],
  async run(call) {
    const { sweepValues } = await import('../sweep-values.ts')
    return sweepValues(call)
  },
}
