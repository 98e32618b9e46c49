import { cautionsOf } from '../cautions.ts'
import { Caution, Metric } from './refs.ts'
import { MetricId } from './words.ts'

Metric.implement({
  description: 'What a figure is: one entry of the registry.',
  fields: (t) => ({
    id: t.field({ type: MetricId, description: 'Id.', resolve: ({ id }) => id }),
    title: t.exposeString('title', { description: 'In words.' }),
    definition: t.exposeString('definition', { description: 'What is divided by what, on which basis.' }),
    unit: t.exposeString('unit', { description: 'Customary symbol of its unit of measure.' }),
    subject: t.exposeString('subject', { description: 'Kind of thing it is about.' }),
    honours: t.stringList({ description: 'Settings it depends on.', resolve: ({ honours }) => honours }),
    operating: t.stringList({
      description: 'Numeric conditions it depends on: units are ranked by it only when these were set alike for all.',
      resolve: ({ operating }) => operating ?? [],
    }),
    method: t.exposeString('method', { description: 'How it is computed.' }),
    sources: t.stringList({ description: 'Where that comes from.', resolve: ({ sources }) => sources }),
    cautions: t.field({
      type: [Caution],
      description: 'What can hurt where it is used.',
      resolve: ({ id }) => cautionsOf(id),
    }),
  }),
})
