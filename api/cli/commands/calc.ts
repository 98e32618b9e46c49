import type { Command } from '../command.ts'

export const calc: Command = {
  name: 'calc',
  summary: 'a bench calculator; without a name, the list of them',
  arguments: [{ name: 'name', about: 'which calculator', optional: true }],
  options: [
    {
      flags: '--arg <name=quantity>',
      about: 'an argument: phaseCurrent="330 A"; a list is given one by one',
      many: true,
    },
  ],
  examples: [
    'lidoff calc',
    'lidoff calc link-ripple --arg phaseCurrent="330 A" --arg modulationIndex=0.9 --arg powerFactor=0.85',
  ],
  async run(call) {
    const { runCalculator } = await import('../run-calculator.ts')
    return runCalculator(call)
  },
}
