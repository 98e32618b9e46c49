import { asPath } from '../../graph/quantity/quantity.ts'
import { checklist } from '../../queries/checklist.ts'
import { measureNext } from '../../queries/measure-next.ts'
import { sideBySide } from '../../queries/side-by-side.ts'
import { axisOf, sweep } from '../../queries/sweep.ts'
import { changes } from '../../queries/what-if.ts'
import { sessionFor } from '../answers.ts'
import { CAUTIONS } from '../cautions.ts'
import { BeforeStep } from './checklist.ts'
import { ConditionsArg, conditionsFrom, WhatIfArg } from './conditions.ts'
import { keepTime } from './context.ts'
import { figuresOf, whatIfArgs } from './figure-args.ts'
import { partsOf } from './parts.ts'
import {
  Assembly,
  Caution,
  Check,
  Component,
  Figure,
  Finding,
  Loop,
  Net,
  Passage,
  Photo,
  Suggestion,
  Teardown,
  Trait,
} from './refs.ts'
import { SideBySide } from './side-by-side.ts'
import { Sweep } from './sweep.ts'
import { recordOf, type TeardownNode } from './teardown-node.ts'
import { ComponentWhereArg, componentWhere } from './where.ts'
import { MetricId } from './words.ts'

Teardown.implement({
  description: 'The record of one specimen: what it is made of, how its parts belong together, and how we know.',
  fields: (t) => ({
    id: t.id({ description: 'Id of the sheet.', resolve: ({ row }) => row.id }),
    title: t.string({ description: 'Title of the sheet.', resolve: ({ row }) => row.title }),
    revision: t.int({
      description: 'Number of the revision that is answered from, from 1.',
      resolve: ({ row }) => row.revision,
    }),
    kind: t.string({ description: 'Kind of converter, such as `traction-inverter`.', resolve: ({ row }) => row.kind }),
    maker: t.string({
      nullable: true,
      description: 'Who made it, as the sheet says.',
      resolve: ({ row }) => row.maker,
    }),
    model: t.string({ nullable: true, description: 'The design it is one of.', resolve: ({ row }) => row.model }),
    written: t.string({ description: 'When the revision was written, RFC 3339, UTC.', resolve: ({ row }) => row.at }),
    sheetHash: t.string({ description: 'SHA-256 of the content of the revision.', resolve: ({ row }) => row.hash }),
    assemblies: t.field({
      type: [Assembly],
      description: 'Parts that hold other parts.',
      extensions: { needs: 'body', many: 20 },
      resolve: (node) => partsOf(node).filter(({ leaf }) => !leaf),
    }),
    components: t.field({
      type: [Component],
      description: 'Parts of the list, in the order of the sheet.',
      args: { where: t.arg({ type: ComponentWhereArg, description: 'Which of them; all when left out.' }) },
      extensions: { needs: 'parts', many: 100 },
      resolve: (node, { where }) => {
        const chosen = where ? node.parts.get(JSON.stringify(componentWhere(where))) : undefined
        return partsOf(node).filter(({ path }) => !where || chosen?.has(path))
      },
    }),
    nets: t.field({
      type: [Net],
      description: 'Electrical nets.',
      extensions: { needs: 'body', many: 40 },
      resolve: (node) => answer(node, 'nets'),
    }),
    passages: t.field({
      type: [Passage],
      description: 'Coolant passages.',
      extensions: { needs: 'body', many: 15 },
      resolve: (node) => answer(node, 'passages'),
    }),
    loops: t.field({
      type: [Loop],
      description: 'Commutation loops, found from the nets.',
      extensions: { needs: 'body', many: 6 },
      resolve: (node) => answer(node, 'loops'),
    }),
    findings: t.field({
      type: [Finding],
      description: 'Observations, readings of them with their rivals, and open questions.',
      extensions: { needs: 'body', many: 15 },
      resolve: (node) =>
        (recordOf(node).record.sheet.findings ?? []).map((entry) => ({
          teardown: node,
          path: asPath(`findings/${entry.id}`),
          entry,
        })),
    }),
    photos: t.field({
      type: [Photo],
      description: 'Photos that the sheet names.',
      extensions: { needs: 'body', many: 20 },
      resolve: (teardown) => (recordOf(teardown).record.sheet.photos ?? []).map((photo) => ({ teardown, photo })),
    }),
    figures: t.field({
      type: [Figure],
      description: 'Figures of the record: one for each subject.',
      args: { ...whatIfArgs, subjects: t.arg.stringList({ description: 'Paths of subjects; all when left out.' }) },
      extensions: { needs: 'figures', many: 100 },
      resolve: (node, args) => figuresOf(node, args, (subject) => args.subjects?.includes(subject) ?? true),
    }),
    traits: t.field({
      type: [Trait],
      description: 'What kind of design it is, told from the graph.',
      extensions: { needs: 'traits', many: 10 },
      resolve: ({ traits }) => traits,
    }),
    checks: t.field({
      type: [Check],
      description: 'What is wrong or unlikely in the record.',
      extensions: { needs: 'checks', many: 20 },
      resolve: ({ checks }) => checks,
    }),
    measureNext: t.field({
      type: [Suggestion],
      description: 'What to measure before the unit goes back: first what coming steps destroy, then worst ignorance.',
      args: { metrics: t.arg({ type: [MetricId], description: 'For which figures; all when left out.' }) },
      extensions: { needs: 'body', many: 30, cost: 50 },
      resolve: (node, { metrics }) => measureNext(recordOf(node).session(), metrics ?? undefined),
    }),
    checklist: t.field({
      type: [BeforeStep],
      description: 'What to have on record before each step still to come that destroys something.',
      args: { metrics: t.arg({ type: [MetricId], description: 'For which figures; all when left out.' }) },
      extensions: { needs: 'body', many: 5, cost: 50 },
      resolve: (node, { metrics }) => checklist(recordOf(node).session(), metrics ?? undefined).steps,
    }),
    whatIf: t.field({
      type: SideBySide,
      description: 'What changes with these changes: figures, traits and checks, before and after. Nothing is written.',
      args: {
        changes: t.arg({ type: [WhatIfArg], required: true, description: 'Made together.' }),
        metrics: t.arg({ type: [MetricId], description: 'Figures to look at; all when left out.' }),
      },
      extensions: { needs: 'body', cost: 100 },
      resolve: (teardown, args) => {
        const { record, session } = recordOf(teardown)
        const edits = args.changes.flatMap(({ path, value }) => changes(record, path, value))
        const after = session().over(edits)
        return { teardown, sides: sideBySide(session(), after, args.metrics ?? undefined), also: after.also }
      },
    }),
    sweep: t.field({
      type: Sweep,
      description: 'Figures over a range of one or two values. At most 10,000 points.',
      args: {
        metrics: t.arg({ type: [MetricId], required: true, description: 'Which figures.' }),
        over: t.arg.stringList({
          required: true,
          description: 'One or two ranges: "coolant/flow=4..16 L/min:13"; ":13 log" for even decades.',
        }),
        subjects: t.arg.stringList({ description: 'Paths of subjects; all when left out.' }),
        conditions: t.arg({ type: ConditionsArg, description: 'Under which conditions.' }),
      },
      extensions: { needs: 'body', cost: 100 },
      resolve: (node, { metrics, over, subjects, conditions }, context) => {
        const session = sessionFor(recordOf(node), conditionsFrom(conditions))
        const axes = over.map((text) => axisOf(session, text))
        return sweep(session, { metrics, axes, ...(subjects && { subjects }) }, () => keepTime(context))
      },
    }),
    cautions: t.field({
      type: [Caution],
      description: 'What can hurt at a unit like this.',
      extensions: { many: 4 },
      resolve: () => CAUTIONS,
    }),
  }),
})

function answer(teardown: TeardownNode, ask: 'nets' | 'passages' | 'loops') {
  const { structure, settings } = recordOf(teardown).session()
  return structure.answer({ ask }, settings).paths.map((path) => ({ teardown, path }))
}
