import type { Axis, SweepColumn, SweepRow, Sweep as Swept } from '../../queries/sweep.ts'
import { builder } from './builder.ts'
import { MetricId } from './words.ts'

export const Sweep = builder.objectRef<Swept>('Sweep')
const SweepAxis = builder.objectRef<Axis>('SweepAxis')
const SweepFigure = builder.objectRef<SweepColumn>('SweepFigure')
const SweepPoint = builder.objectRef<SweepRow>('SweepPoint')

Sweep.implement({
  description: 'Figures over a range of one or two values, as a table fit for plotting; without intervals.',
  fields: (t) => ({
    axes: t.field({ type: [SweepAxis], description: 'What was varied.', resolve: ({ axes }) => axes }),
    figures: t.field({
      type: [SweepFigure],
      description: 'What stands in each place of `values`.',
      resolve: ({ columns }) => columns,
    }),
    points: t.field({
      type: [SweepPoint],
      description: 'One for each point, the first axis slowest.',
      extensions: { many: 100 },
      resolve: ({ rows }) => rows,
    }),
  }),
})

SweepAxis.implement({
  description: 'One value over a range.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Path of the value, or name of a condition.' }),
    unit: t.exposeString('unit', { description: 'Customary symbol of its unit of measure.' }),
    points: t.exposeFloatList('points', { description: 'Where, in `unit`.' }),
  }),
})

SweepFigure.implement({
  description: 'One figure of one subject.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    subject: t.string({ description: 'What it is about.', resolve: ({ subject }) => subject }),
    unit: t.exposeString('unit', { description: 'Customary symbol of its unit of measure.' }),
  }),
})

SweepPoint.implement({
  description: 'One point of the table.',
  fields: (t) => ({
    at: t.exposeFloatList('at', { description: 'One number for each axis, in its unit.' }),
    values: t.field({
      type: t.listRef('Float', { nullable: true }),
      description: 'One number for each figure, in its unit; null where there is no result.',
      resolve: ({ values }) => values,
    }),
    notes: t.exposeStringList('notes', { description: 'What lies outside the validated range of a method.' }),
  }),
})
