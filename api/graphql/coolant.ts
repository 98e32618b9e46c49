import { figureArgs, figuresOf } from './figure-args.ts'
import { partsAt } from './nets.ts'
import { type At, Component, CoolantPosition, Figure, Passage } from './refs.ts'
import { recordOf } from './teardown-node.ts'

const stageOf = ({ teardown, path }: At): number | null => recordOf(teardown).session().structure.stageOf(path)

function upstreamOf({ teardown, path }: At): readonly At[] {
  const { structure, settings } = recordOf(teardown).session()
  return structure.answer({ ask: 'upstream', passage: path }, settings).paths.map((one) => ({ teardown, path: one }))
}

const LOCAL_TEMPERATURE = 'COOLANT_TEMPERATURE'

const ABOUT_STAGE = 'Place along the coolant from the inlet, 0 first; null when nothing enters it.'

Passage.implement({
  description: 'A coolant passage.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: ({ teardown, path }) => `${teardown.row.id}/${path}` }),
    path: t.exposeString('path', { description: 'Canonical path.' }),
    stage: t.int({ nullable: true, description: ABOUT_STAGE, resolve: stageOf }),
    upstream: t.field({
      type: [Passage],
      description: 'Every passage that the coolant visits before.',
      extensions: { many: 5 },
      resolve: upstreamOf,
    }),
    components: t.field({
      type: [Component],
      description: 'Parts whose heat ends in it.',
      extensions: { many: 15 },
      resolve: (passage) => partsAt(passage, { ask: 'heated-by', passage: passage.path }),
    }),
    figures: t.field({
      type: [Figure],
      description: 'Figures about this passage.',
      args: figureArgs,
      extensions: { needs: 'figures', many: 5 },
      resolve: ({ teardown, path }, args) => figuresOf(teardown, args, (subject) => subject === path),
    }),
  }),
})

CoolantPosition.implement({
  description: 'Where along the coolant the heat of a part ends.',
  fields: (t) => ({
    passage: t.field({
      type: Passage,
      description: 'The passage.',
      resolve: ({ teardown, path }) => ({ teardown, path }),
    }),
    stage: t.int({ nullable: true, description: ABOUT_STAGE, resolve: stageOf }),
    upstream: t.field({
      type: [Passage],
      description: 'Every passage that the coolant visits before.',
      extensions: { many: 5 },
      resolve: upstreamOf,
    }),
    temperature: t.field({
      type: Figure,
      nullable: true,
      description: 'Coolant temperature there.',
      args: figureArgs,
      extensions: { needs: 'figures' },
      resolve: ({ teardown, path }, args) =>
        figuresOf(teardown, { ...args, metrics: [LOCAL_TEMPERATURE] }, (subject) => subject === path)[0],
    }),
  }),
})
