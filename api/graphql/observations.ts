import { checks } from '../../queries/checks/registry.ts'
import { dependence, refute } from '../../queries/findings.ts'
import { traits } from '../../queries/traits/registry.ts'
import { Caution, Check, Finding, Photo, Rival, Trait } from './refs.ts'
import { SideBySide } from './side-by-side.ts'
import { recordOf } from './teardown-node.ts'
import { BasisEnum, CheckSeverity } from './words.ts'

Trait.implement({
  description: 'A property of the design as a word instead of a number, told from the graph.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Such as `cooling-sides`.' }),
    title: t.string({
      description: 'In words.',
      resolve: ({ id }) => traits.find((one) => one.id === id)?.title ?? id,
    }),
    subject: t.exposeString('subject', { description: 'Path of what it is about.' }),
    value: t.exposeString('value', { description: 'One of the words that the trait may take.' }),
    basis: t.expose('basis', { type: BasisEnum, nullable: true, description: 'Weakest evidence it rests on.' }),
  }),
})

Check.implement({
  description: 'Something in the record that is wrong, unlikely, or a question.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Which check found it.' }),
    title: t.string({
      description: 'What the check looks for.',
      resolve: ({ id }) => checks.find((one) => one.id === id)?.title ?? id,
    }),
    path: t.exposeString('path', { description: 'Where it is.' }),
    severity: t.expose('severity', { type: CheckSeverity, description: 'How sure it is that something is wrong.' }),
    what: t.exposeString('what', { description: 'What was found.' }),
    mend: t.exposeString('mend', { description: 'What would settle it.' }),
  }),
})

Caution.implement({
  description: 'What can hurt. Local codes and the practice of a licensed person come before it.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Such as `stored-energy`.' }),
    title: t.exposeString('title', { description: 'In a word or two.' }),
    text: t.exposeString('text', { description: 'What to do and what a computed figure does not prove.' }),
  }),
})

Finding.implement({
  description: 'An observation, a reading of why it is so with its rivals, or an open question.',
  fields: (t) => ({
    id: t.id({ description: 'Global: teardown/path.', resolve: ({ teardown, path }) => `${teardown.row.id}/${path}` }),
    path: t.exposeString('path', { description: 'Canonical path.' }),
    about: t.stringList({ description: 'What it is about.', resolve: ({ entry }) => entry.about }),
    observation: t.string({ nullable: true, description: 'What was seen.', resolve: ({ entry }) => entry.observation }),
    reading: t.string({
      nullable: true,
      description: 'Why it is so, as far as is thought.',
      resolve: ({ entry }) => entry.reading,
    }),
    question: t.string({ nullable: true, description: 'What is still asked.', resolve: ({ entry }) => entry.question }),
    rivals: t.field({
      type: [Rival],
      description: 'Other readings that would leave the same traces.',
      resolve: ({ entry }) => entry.rivals ?? [],
    }),
    refute: t.string({
      nullable: true,
      description: 'What would show the reading wrong.',
      resolve: ({ entry }) => entry.refute,
    }),
    figures: t.stringList({
      description: 'Figures that stand or fall with it: `METRIC subject`.',
      extensions: { needs: 'body', cost: 50 },
      resolve: ({ teardown, path }) =>
        dependence(recordOf(teardown).session()).find(({ finding }) => finding === path)?.figures ?? [],
    }),
    ifRefuted: t.field({
      type: SideBySide,
      description: 'What changes if it is refuted: what rests on it is then lacking, or stands on the next best claim.',
      extensions: { needs: 'body', cost: 100 },
      resolve: ({ teardown, path }) => ({ teardown, sides: refute(recordOf(teardown).session(), path), also: [] }),
    }),
    status: t.string({
      nullable: true,
      description: '`open`, `held` or `refuted`.',
      resolve: ({ entry }) => entry.status,
    }),
    confidence: t.string({
      nullable: true,
      description: '`possible`, `likely` or `near-certain`.',
      resolve: ({ entry }) => entry.confidence,
    }),
    by: t.string({ nullable: true, description: 'Who says so.', resolve: ({ entry }) => entry.by }),
    on: t.string({ nullable: true, description: 'When.', resolve: ({ entry }) => entry.on }),
  }),
})

Photo.implement({
  description: 'A photo of the record.',
  fields: (t) => ({
    id: t.id({ description: 'Id in the sheet.', resolve: ({ photo }) => photo.id }),
    url: t.string({
      description: 'Where this server gives it, when its file lies in the photo folder.',
      resolve: ({ teardown, photo }) => `/photos/${teardown.row.id}/${photo.id}`,
    }),
    shows: t.stringList({ description: 'Parts and faces in it.', resolve: ({ photo }) => photo.shows ?? [] }),
  }),
})

Rival.implement({
  description: 'Another reading of the same observation.',
  fields: (t) => ({
    reading: t.exposeString('reading', { description: 'The reading.' }),
    against: t.string({ nullable: true, description: 'What speaks against it.', resolve: ({ against }) => against }),
  }),
})
