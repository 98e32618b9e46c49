import { type Command, listOf } from '../command.ts'

export const figures: Command = {
  name: 'figures',
  summary: 'figures of a record, with working and budget',
  about:
    'Without --metric every figure is listed; with one, each value it read is shown with its part of the variance, and what is missing with what to measure.',
  arguments: [{ name: 'id', about: 'id of the record' }],
  options: [
    { flags: '--metric <id>', about: 'figure to show; may be given several times', many: true },
    { flags: '--subject <path>', about: 'what it is about: parts/link-cap; may be given several times', many: true },
    { flags: '--condition <name=value>', about: 'such as power=continuous or coolant-inlet="65 °C"', many: true },
    {
      flags: '--what-if <path=quantity>',
      about: 'a value replaced, or path=removed|doubled, terminal=net, findings/x=refuted; nothing is written',
      many: true,
    },
    { flags: '--every-input', about: 'with --metric: also the inputs whose share rounds to nothing' },
  ],
  examples: [
    'lidoff figures ferry-7-drive --metric POWER_DENSITY',
    'lidoff figures ferry-7-drive --condition power=continuous --what-if "specimen/mass=11 kg"',
  ],
  async run(call) {
    const { showFigures } = await import('../show-figures.ts')
    return showFigures(call, listOf(call.options, 'whatIf'))
  },
}
