import type { Suggestion as Suggested } from '../../queries/measure-next.ts'
import { Narrowing, Suggestion } from './refs.ts'
import { MetricId, SuggestionReason } from './words.ts'

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
    together: t.exposeStringList('together', {
      description: 'What else must be had with it before one of the figures can be computed; none where it is enough.',
    }),
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
    narrows: t.expose('narrows', {
      type: Narrowing,
      nullable: true,
      description: 'Of the figure that gains most: its uncertainty now and then; null where it has none yet.',
    }),
    before: t.exposeString('before', { nullable: true, description: 'When the unit goes back.' }),
    lostWith: t.exposeStringList('lostWith', { description: 'Steps still to come after which it cannot be had.' }),
    instrument: t.exposeString('instrument', { nullable: true, description: 'What it is usually had with.' }),
    minutes: t.exposeFloat('minutes', { nullable: true, description: 'About how long, with setting up.' }),
  }),
})

Narrowing.implement({
  description: 'What a measurement would do to the uncertainty of a figure.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    subject: t.string({ description: 'What it is about.', resolve: ({ subject }) => subject }),
    unit: t.exposeString('unit', { description: 'Customary symbol of the unit of measure.' }),
    from: t.exposeFloat('from', { description: 'Standard uncertainty now, in `unit`.' }),
    to: t.exposeFloat('to', { description: 'Standard uncertainty with the value known exactly, in `unit`.' }),
  }),
})
