import type { RevisionHead } from '../../graph/store/store.ts'
import { changeOfBelief, type Restated, type Statement } from '../../queries/history.ts'
import { revisionAt } from '../as-of.ts'
import type { Corpus } from '../corpus.ts'
import { builder } from './builder.ts'
import { fetchOpened } from './fetch-opened.ts'
import { SideBySide, type SideBySideAt } from './side-by-side.ts'
import { BasisEnum } from './words.ts'

interface HistoryAnswer {
  readonly revisions: readonly RevisionHead[]
  readonly from: number
  readonly to: number
  readonly statements: readonly Restated[]
  readonly moved: SideBySideAt
}

export const History = builder.objectRef<HistoryAnswer>('History')
const Revision = builder.objectRef<RevisionHead>('Revision')
const StatementChange = builder.objectRef<Restated>('StatementChange')
const StatementRef = builder.objectRef<Statement>('Statement')

/** What was thought at one time and at another, and what moved because of it. */
export async function historyOf(
  corpus: Corpus,
  { id, since, asOf, metrics }: { id: string; since?: string; asOf?: string; metrics?: readonly string[] },
): Promise<HistoryAnswer> {
  const revisions = await corpus.store.history(id)
  const after = await revisionAt(corpus, id, asOf)
  const before = await revisionAt(corpus, id, since ?? '1')
  const { statements, ...sides } = changeOfBelief(before.session(), after.session(), metrics)
  const teardown = await fetchOpened(corpus, after)
  return { revisions, from: before.revision, to: after.revision, statements, moved: { teardown, sides, also: [] } }
}

History.implement({
  description: 'How belief about one unit changed.',
  fields: (t) => ({
    revisions: t.field({
      type: [Revision],
      description: 'All revisions, oldest first.',
      resolve: ({ revisions }) => revisions,
    }),
    from: t.exposeInt('from', { description: 'Revision that is compared from.' }),
    to: t.exposeInt('to', { description: 'Revision that is compared to.' }),
    statements: t.field({
      type: [StatementChange],
      description: 'Statements that changed: values, parts, findings.',
      extensions: { many: 50 },
      resolve: ({ statements }) => statements,
    }),
    moved: t.field({ type: SideBySide, description: 'What moved because of it.', resolve: ({ moved }) => moved }),
  }),
})

Revision.implement({
  description: 'One revision of a record.',
  fields: (t) => ({
    revision: t.exposeInt('revision', { description: 'Number, from 1.' }),
    written: t.string({ description: 'When, RFC 3339, UTC.', resolve: ({ at }) => at }),
    by: t.exposeString('by', { nullable: true, description: 'Who.' }),
    note: t.exposeString('note', { nullable: true, description: 'Why.' }),
    withdrawn: t.exposeBoolean('withdrawn', { description: 'Whether it withdraws the record.' }),
  }),
})

StatementChange.implement({
  description: 'One statement of the record before and after; null where it is not there.',
  fields: (t) => ({
    path: t.exposeString('path', { description: 'Of what it is said.' }),
    before: t.field({
      type: StatementRef,
      nullable: true,
      description: 'What was said.',
      resolve: ({ before }) => before,
    }),
    after: t.field({ type: StatementRef, nullable: true, description: 'What is said.', resolve: ({ after }) => after }),
  }),
})

StatementRef.implement({
  description: 'What was said, and how it was known.',
  fields: (t) => ({
    text: t.exposeString('text', { description: 'As written.' }),
    basis: t.expose('basis', { type: BasisEnum, nullable: true, description: 'How it was known.' }),
  }),
})
