import type { Command } from '../command.ts'

export const compare: Command = {
  name: 'compare',
  summary: 'compare units on equal conditions',
  about:
    'Rows whose intervals overlap share their rank; "ahead" is how likely a row is better than the next. Who is left out is named with the reason. Filters: id, kind, maker, text, class, instrument, and trait.NAME=value.',
  arguments: [],
  options: [
    { flags: '--metric <id>', about: 'figure to compare; several make several columns, the first ranks', many: true },
    { flags: '--where <filter=value>', about: 'which units; several must all hold', many: true },
    {
      flags: '--condition <name=value>',
      about: 'the same for all: power=continuous, coolant-inlet="65 °C"',
      many: true,
    },
    { flags: '--per <what>', about: 'one row for each teardown or subject (teardown)' },
    { flags: '--across <how>', about: 'several subjects of a unit as one: max, min, mean or sum' },
    { flags: '--order <direction>', about: 'desc (largest first) or asc' },
    { flags: '--group <by>', about: 'kind, or the id of a trait' },
  ],
  examples: [
    'lidoff compare --metric POWER_DENSITY --metric SPECIFIC_POWER',
    'lidoff compare --metric HEAT_FLUX --per subject --where kind=traction-inverter',
  ],
  async run(call) {
    const { compareUnits } = await import('../compare-units.ts')
    return compareUnits(call)
  },
}
