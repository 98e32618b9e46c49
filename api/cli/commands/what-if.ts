import { CHANGE_WORDS } from '../../../queries/what-if.ts'
import { RELATION_FORMS } from '../../../queries/what-if-relation.ts'
import type { Command } from '../command.ts'

export const whatIf: Command = {
  name: 'what-if',
  summary: 'what would change: figures, traits and checks before and after',
  about: `Nothing is written. A change is path=quantity, path=word, terminal=net, or path=${Object.keys(CHANGE_WORDS).join('|')}. Relations: ${Object.keys(RELATION_FORMS).join('; ')}.`,
  arguments: [
    { name: 'id', about: 'id of the record' },
    { name: 'change', about: 'path=value; several are made together', many: true },
  ],
  options: [
    { flags: '--metric <id>', about: 'look at this figure; may be given several times; all when left out', many: true },
    { flags: '--condition <name=value>', about: 'after, under this condition', many: true },
  ],
  examples: [
    'lidoff what-if ferry-7-drive "specimen/mass=11 kg" --metric SPECIFIC_POWER',
    'lidoff what-if ferry-7-drive findings/split-even=refuted',
    'lidoff what-if ferry-7-drive film-upper=removed --metric JUNCTION_TEMPERATURE',
    'lidoff what-if ferry-7-drive "coolant/wall-run/cools/case-deck=removed" --metric COOLANT_RISE',
  ],
  async run(call) {
    const { playChanges } = await import('../play-changes.ts')
    return playChanges(call)
  },
}
