import type { Moved, SideBySide as Sides } from '../../queries/side-by-side.ts'
import { figureAnswer } from '../answers.ts'
import { builder } from './builder.ts'
import { Figure, type TeardownAt } from './refs.ts'
import { MetricId } from './words.ts'

/** A change of a record, with the record it is of. */
export type SideBySideAt = TeardownAt & { readonly sides: Sides; readonly also: readonly string[] }
type MovedAt = TeardownAt & { readonly moved: Moved }

export const SideBySide = builder.objectRef<SideBySideAt>('SideBySide')
const FigureChange = builder.objectRef<MovedAt>('FigureChange')
const TraitChange = builder.objectRef<Sides['traits'][number]>('TraitChange')
const CheckChange = builder.objectRef<Sides['checks'][number]>('CheckChange')

SideBySide.implement({
  description: 'Figures, traits and checks before and after a change. Nothing is written.',
  fields: (t) => ({
    figures: t.field({
      type: [FigureChange],
      description: 'Figures that change.',
      extensions: { many: 50 },
      resolve: ({ teardown, sides }) =>
        sides.figures.filter(({ changed }) => changed).map((moved) => ({ teardown, moved })),
    }),
    unchanged: t.int({
      description: 'How many figures were looked at and stay as they are.',
      resolve: ({ sides }) => sides.figures.filter(({ changed }) => !changed).length,
    }),
    traits: t.field({ type: [TraitChange], description: 'Traits that change.', resolve: ({ sides }) => sides.traits }),
    checks: t.field({
      type: [CheckChange],
      description: 'Checks that are raised or settled by it.',
      extensions: { many: 10 },
      resolve: ({ sides }) => sides.checks,
    }),
    also: t.exposeStringList('also', { description: 'What went along with what was taken out.' }),
  }),
})

FigureChange.implement({
  description: 'One figure before and after.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ moved }) => moved.metric }),
    subject: t.string({ description: 'What it is about.', resolve: ({ moved }) => moved.subject }),
    before: t.field({
      type: Figure,
      nullable: true,
      description: 'As it was; null where there was no such subject.',
      resolve: ({ teardown, moved }) => moved.before && figureAnswer(teardown.row.id, moved.before),
    }),
    after: t.field({
      type: Figure,
      nullable: true,
      description: 'As it would be; null where there is no such subject any more.',
      resolve: ({ teardown, moved }) => moved.after && figureAnswer(teardown.row.id, moved.after),
    }),
    because: t.stringList({
      description: 'What it reads that is different: paths of values, structural questions.',
      resolve: ({ moved }) => moved.because,
    }),
  }),
})

TraitChange.implement({
  description: 'A trait before and after; null where it cannot be told.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Which trait.' }),
    before: t.exposeString('before', { nullable: true, description: 'As it was.' }),
    after: t.exposeString('after', { nullable: true, description: 'As it would be.' }),
  }),
})

CheckChange.implement({
  description: 'A check that is raised or settled.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Which check.' }),
    path: t.exposeString('path', { description: 'Where it is.' }),
    what: t.exposeString('what', { description: 'What was found.' }),
    now: t.exposeString('now', { description: '`raised` or `settled`.' }),
  }),
})
