import type { Suggestion as Suggested } from '../../queries/measure-next.ts'
import { Suggestion } from './refs.ts'
import { SuggestionReason } from './words.ts'

const REASONS: Readonly<Record<Suggested['why'], string>> = {
  'lost at a coming step': 'LOST_AT_COMING_STEP',
  'becomes computable': 'BECOMES_COMPUTABLE',
  narrows: 'NARROWS',
}

Suggestion.implement({
  description: 'One thing to measure or look for before the unit goes back.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Path of the value, or the question in words.' }),
    asks: t.exposeString('asks', { description: 'What to measure or look for.' }),
    why: t.field({
      type: SuggestionReason,
      description: 'Why it is worth it.',
      resolve: ({ why }) => REASONS[why] as never,
    }),
    figures: t.exposeStringList('figures', { description: 'Figures that gain: `METRIC subject`.' }),
    gain: t.exposeFloat('gain', {
      description:
        'Largest share by which the uncertainty of one of them would fall if this were known exactly; 1 when it is missing.',
    }),
    lostWith: t.exposeStringList('lostWith', { description: 'Steps still to come after which it cannot be had.' }),
    instrument: t.exposeString('instrument', { nullable: true, description: 'What it is usually had with.' }),
    minutes: t.exposeFloat('minutes', { nullable: true, description: 'About how long, with setting up.' }),
  }),
})
