import type { Basis } from '../graph/quantity/basis.ts'
import type { Path } from '../graph/quantity/quantity.ts'
import type { Claim, TeardownRecord } from '../graph/record/record.ts'
import type { Session } from './evaluate/session.ts'
import { type SideBySide, sideBySide } from './side-by-side.ts'

/** A statement of the record that is not what it was. */
export interface Restated {
  readonly path: string
  readonly before: Statement | null
  readonly after: Statement | null
}

export interface Statement {
  readonly text: string
  readonly basis: Basis | null
}

export interface ChangeOfBelief extends SideBySide {
  readonly statements: readonly Restated[]
}

/** What a record said and says: every statement that changed, and every figure, trait and check that moved because of it. */
export function changeOfBelief(before: Session, after: Session, metrics?: readonly string[]): ChangeOfBelief {
  const { figures, ...rest } = sideBySide(before, after, metrics)
  return {
    ...rest,
    figures: figures.filter(({ changed }) => changed),
    statements: [
      ...restated(factsOf(before.record), factsOf(after.record)),
      ...restated(partsOf(before.record), partsOf(after.record)),
      ...restated(findingsOf(before.record), findingsOf(after.record)),
    ],
  }
}

type Statements = ReadonlyMap<string, Statement>

function restated(before: Statements, after: Statements): readonly Restated[] {
  const paths = [...new Set([...before.keys(), ...after.keys()])].toSorted()
  return paths
    .map((path) => ({ path, before: before.get(path) ?? null, after: after.get(path) ?? null }))
    .filter((one) => one.before?.text !== one.after?.text || one.before?.basis !== one.after?.basis)
}

function factsOf({ facts }: TeardownRecord): Statements {
  return new Map(
    [...facts.values()]
      .filter(({ path }) => !path.startsWith('materials/') && !path.includes('/count/'))
      .map(({ path, taken }): [Path, Statement] => [path, { text: taken.text, basis: basisOf(taken) }]),
  )
}

const basisOf = ({ evidence, nothing }: Claim): Basis | null => (nothing ? null : evidence.basis)

function partsOf({ parts }: TeardownRecord): Statements {
  return new Map(
    parts.entries.map((entry) => [
      entry.path,
      { text: `${parts.piecesOf(entry).length} × ${entry.class}`, basis: null },
    ]),
  )
}

function findingsOf({ sheet }: TeardownRecord): Statements {
  return new Map(
    (sheet.findings ?? []).map(({ id, status, reading, question, observation }) => [
      `findings/${id}`,
      { text: [status ?? 'open', reading ?? question ?? observation].filter(Boolean).join(': '), basis: null },
    ]),
  )
}

/** The last of some revisions that was written by then; a date without a time means its end. */
export function revisionAsOf<R extends { readonly at: string }>(revisions: readonly R[], date: string): R | undefined {
  const limit = Date.parse(/^\d{4}-\d{2}-\d{2}$/.test(date) ? `${date}T23:59:59.999Z` : date)
  return revisions.findLast(({ at }) => Date.parse(at) <= limit)
}
