import type { AtStake as Stake, BeforeStep as Step } from '../../queries/checklist.ts'
import { builder } from './builder.ts'
import { BasisEnum } from './words.ts'

export const BeforeStep = builder.objectRef<Step>('BeforeStep')
const AtStake = builder.objectRef<Stake>('AtStake')

BeforeStep.implement({
  description: 'What to have on record before a step that destroys something.',
  fields: (t) => ({
    step: t.string({ description: 'Path of the step.', resolve: ({ step }) => step }),
    title: t.exposeString('title', { nullable: true, description: 'Title of the step.' }),
    takesOff: t.exposeStringList('takesOff', { description: 'What it takes off or cuts.' }),
    after: t.exposeStringList('after', { description: 'Steps that come first and are not done yet.' }),
    atStake: t.field({
      type: [AtStake],
      description: 'What cannot be had after it; what nobody observed yet comes first.',
      extensions: { many: 10 },
      resolve: ({ atStake }) => atStake,
    }),
    silent: t.exposeBoolean('silent', { description: 'Nothing is written of what is lost with it.' }),
  }),
})

AtStake.implement({
  description: 'One thing that is lost with a step.',
  fields: (t) => ({
    path: t.string({ description: 'Path of the value.', resolve: ({ path }) => path }),
    text: t.exposeString('text', { nullable: true, description: 'As written; null when nothing is on record.' }),
    basis: t.expose('basis', { type: BasisEnum, nullable: true, description: 'How it is known so far.' }),
    onRecord: t.exposeBoolean('onRecord', { description: 'Whether it was measured, read or published.' }),
    figures: t.exposeStringList('figures', { description: 'Figures that stand on it or lack it: `METRIC subject`.' }),
    instrument: t.exposeString('instrument', { nullable: true, description: 'What it is usually had with.' }),
    minutes: t.exposeFloat('minutes', { nullable: true, description: 'About how long, with setting up.' }),
  }),
})
