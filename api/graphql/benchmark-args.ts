import { traits } from '../../queries/traits/registry.ts'
import { builder } from './builder.ts'
import { Direction, MetricId } from './words.ts'

export const BenchmarkPer = builder.enumType('BenchmarkPer', {
  description: 'What one row stands for.',
  values: {
    TEARDOWN: { description: 'One unit.' },
    SUBJECT: { description: 'One subject of a figure: one module, one loop, one passage.' },
  } as const,
})

export const Reduction = builder.enumType('Reduction', {
  description:
    'How the figures of several subjects become one. A largest or least one is sampled: it is biased otherwise.',
  values: {
    MAX: { description: 'The largest.' },
    MIN: { description: 'The least.' },
    MEAN: { description: 'Their mean.' },
    SUM: { description: 'Their sum.' },
  } as const,
})

export const BenchmarkOrder = builder.inputType('BenchmarkOrder', {
  description: 'Order of the rows, and the figure that they are ranked by.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, required: true, description: 'Which figure.' }),
    direction: t.field({ type: Direction, description: 'DESC when left out.' }),
  }),
})

export const BenchmarkGroup = builder.inputType('BenchmarkGroup', {
  description: 'What rows are gathered by: one of the two.',
  fields: (t) => ({
    kind: t.boolean({ description: 'By kind of converter.' }),
    trait: t.string({ description: `By a trait: ${traits.map(({ id }) => id).join(', ')}.` }),
  }),
})
