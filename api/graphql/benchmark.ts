import { type LeftCount as Counted, leftCounts } from '../../queries/corpus/benchmark.ts'
import type { BenchmarkAnswer, RowAnswer } from './benchmark-page.ts'
import { builder } from './builder.ts'
import { ConditionsUsed, Figure, PageInfo, Teardown } from './refs.ts'
import { FigureStatus, MetricId } from './words.ts'

export const Benchmark = builder.objectRef<BenchmarkAnswer>('Benchmark')
const BenchmarkRow = builder.objectRef<RowAnswer>('BenchmarkRow')
const BenchmarkGroupRow = builder.objectRef<BenchmarkAnswer['groups'][number]>('BenchmarkGroupRow')
const LeftOut = builder.objectRef<BenchmarkAnswer['left'][number]>('LeftOut')
const LeftCount = builder.objectRef<Counted>('LeftCount')
const Target = builder.objectRef<BenchmarkAnswer['targets'][number]>('Target')

Benchmark.implement({
  description:
    'Units compared on stated, equal conditions, with intervals; whoever cannot be compared is named with the reason.',
  fields: (t) => ({
    conditions: t.expose('conditions', { type: ConditionsUsed, description: 'Conditions that all rows share.' }),
    rows: t.field({ type: [BenchmarkRow], description: 'One page of rows.', resolve: ({ rows }) => rows }),
    groups: t.field({
      type: [BenchmarkGroupRow],
      description: 'All rows gathered by `groupBy`.',
      resolve: ({ groups }) => groups,
    }),
    left: t.field({
      type: [LeftOut],
      description: 'Units left out, each with the reason.',
      resolve: ({ left }) => left,
    }),
    leftCounts: t.field({
      type: [LeftCount],
      description: 'How many are left out of each column, by status.',
      resolve: ({ left }) => leftCounts(left),
    }),
    notes: t.stringList({
      description: 'Why a figure is shown but not ranked, and where a value is of some subjects of a unit only.',
      resolve: ({ notes }) => notes,
    }),
    targets: t.field({
      type: [Target],
      description: 'Published targets, as reference lines.',
      resolve: ({ targets }) => targets,
    }),
    pageInfo: t.field({ type: PageInfo, description: 'Where the page stands.', resolve: ({ page }) => page }),
    totalCount: t.int({ description: 'Rows on all pages.', resolve: ({ page }) => page.total }),
  }),
})

BenchmarkRow.implement({
  description: 'One unit, or one subject of it.',
  fields: (t) => ({
    teardown: t.field({ type: Teardown, description: 'The unit.', resolve: ({ teardown }) => teardown }),
    subject: t.exposeString('subject', { description: 'What the figures are about.' }),
    figures: t.field({
      type: [Figure],
      description: 'Its figures, in the order of `metrics`; one that it lacks is told under `left`.',
      extensions: { many: 3 },
      resolve: ({ figures }) => figures,
    }),
    rank: t.exposeInt('rank', {
      nullable: true,
      description:
        'One more than the number of rows that are better beyond the uncertainty of the difference; null when not ranked.',
    }),
    probabilityAboveNext: t.exposeFloat('probabilityAboveNext', {
      nullable: true,
      description:
        'How likely it is better than the row that follows, shared causes kept shared; null when not ranked.',
    }),
    tiedWith: t.stringList({
      description: 'Rows from which the intervals do not part it: "id subject".',
      resolve: ({ tiedWith }) => tiedWith,
    }),
  }),
})

BenchmarkGroupRow.implement({
  description: 'A figure over a group: quartiles of the values.',
  fields: (t) => ({
    group: t.exposeString('group', { description: 'Kind or word of the trait.' }),
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    count: t.exposeInt('count', { description: 'Values in it.' }),
    low: t.exposeFloat('low', { description: 'A quarter of the values lie below.' }),
    median: t.exposeFloat('median', { description: 'Half of the values lie below.' }),
    high: t.exposeFloat('high', { description: 'A quarter of the values lie above.' }),
    unit: t.exposeString('unit', { description: 'Customary symbol of the unit of measure.' }),
  }),
})

LeftOut.implement({
  description: 'A unit that is not in the column of a figure, and why.',
  fields: (t) => ({
    teardown: t.id({ description: 'Id of the unit.', resolve: ({ id }) => id }),
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    status: t.field({
      type: FigureStatus,
      description: 'Status of the figure.',
      resolve: ({ status }) => status as never,
    }),
    reason: t.exposeString('reason', { description: 'Why, and what to measure.' }),
  }),
})

LeftCount.implement({
  description: 'How many were left out of the column of a figure for one reason.',
  fields: (t) => ({
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    status: t.field({
      type: FigureStatus,
      description: 'Status of the figure there.',
      resolve: ({ status }) => status as never,
    }),
    count: t.exposeInt('count', { description: 'How many.' }),
  }),
})

Target.implement({
  description: 'A published target: a line on the scale, never a row.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Id.' }),
    metric: t.field({ type: MetricId, description: 'Which figure.', resolve: ({ metric }) => metric }),
    value: t.exposeFloat('value', { description: 'In `unit`.' }),
    unit: t.exposeString('unit', { description: 'Customary symbol of the unit of measure.' }),
    conditions: t.stringList({
      description: 'What the source says of its conditions: "power=peak".',
      resolve: ({ conditions }) => Object.entries(conditions).map(([name, value]) => `${name}=${value}`),
    }),
    source: t.exposeString('source', { description: 'Who published it, and where.' }),
    year: t.exposeInt('year', { description: 'Year it is stated for.' }),
    note: t.exposeString('note', { nullable: true, description: 'What to know before leaning on it.' }),
  }),
})
