import { openStructure } from '../../graph/build.ts'
import type { Edit } from '../../graph/edit.ts'
import { openView, seenOf } from '../../graph/open-view.ts'
import { patched } from '../../graph/patch.ts'
import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import { queryWords } from '../../graph/query-words.ts'
import type { TeardownRecord } from '../../graph/record/record.ts'
import { DEFAULT_SETTINGS, type Settings } from '../../graph/settings.ts'
import type { Structure } from '../../graph/structure.ts'
import type { Read } from '../../graph/trail.ts'
import { openValues, type Values } from '../../graph/values.ts'
import type { Viewer } from '../../graph/view.ts'
import type { Figure } from '../figures/figure.ts'
import { figureById, figures as registry } from '../figures/registry.ts'
import { atTaken, evaluateMany } from './evaluate.ts'
import type { Result } from './result.ts'

export interface Request {
  readonly figure: Figure
  readonly subject: Path
}

/** One record, one structure, one set of conditions, many draws. Synchronous; thrown away after use. */
export interface Session {
  readonly record: TeardownRecord
  readonly structure: Structure
  readonly settings: Settings
  readonly edits: readonly Edit[]
  readonly viewer: Viewer
  readonly values: Values
  /** What a figure is about in this record. */
  subjects(figure: Figure): Found
  evaluate(figure: Figure, subject: Path): Result
  /** The figure at the values written, in SI, without its uncertainty; null where there is none (bounds included). */
  atTaken(figure: Figure, subject: Path): { readonly value: number | null; readonly outside: readonly string[] }
  evaluateMany(requests: readonly Request[]): readonly Result[]
  /** All subjects of the figures named, or of every figure. */
  evaluateAll(metrics?: readonly string[]): readonly Result[]
  /** The same record edited, or under other settings. `set` keeps the structure; other edits rebuild the graph. */
  over(edits: readonly Edit[], settings?: Partial<Settings>): Session
  /** Every figure named, or every figure, with each of its subjects. */
  requests(metrics?: readonly string[]): readonly Request[]
  /** Whether any read of a stored log would come back different now. */
  stale(log: readonly Read[]): boolean
  /** Those that would: paths of values, structural questions, names of settings. */
  differs(log: readonly Read[]): readonly string[]
  /** What went along with what was dropped by edits. */
  readonly also: readonly string[]
}

/** Opens a session on a record. @throws PatchError when an edit does not fit the record */
export function openSession(
  record: TeardownRecord,
  { settings = {}, edits = [] }: { settings?: Partial<Settings>; edits?: readonly Edit[] } = {},
): Session {
  return sessionOn(openStructure(record), { ...DEFAULT_SETTINGS, ...settings }, []).over(edits)
}

function sessionOn(
  structure: Structure,
  settings: Settings,
  edits: readonly Edit[],
  also: readonly string[] = [],
): Session {
  const values = openValues(structure.record, edits, structure.variesEach)
  const viewer = openView(values, structure.answer, settings, (view, id, subject) =>
    figureById(id).compute(view, subject),
  )
  const results = new Map<Figure, Map<Path, Result>>()
  const remembered = (requests: readonly Request[]): readonly Result[] => {
    const open = requests.filter(({ figure, subject }) => !results.get(figure)?.has(subject))
    const made = open.length > 0 ? evaluateMany(session, open) : []
    for (const [at, { figure, subject }] of open.entries()) {
      const bySubject = results.get(figure) ?? new Map<Path, Result>()
      results.set(figure, bySubject.set(subject, made[at]!))
    }
    return requests.map(({ figure, subject }) => results.get(figure)!.get(subject)!)
  }
  const session: Session = {
    record: structure.record,
    structure,
    settings,
    edits,
    viewer,
    values,
    subjects: (figure) => {
      const { value, lack } = viewer.record((view) => figure.subjects(view))
      return lack || !value ? { paths: [], census: 'open', basis: 'assumed', restsOn: [] } : value
    },
    evaluate: (figure, subject) => remembered([{ figure, subject }])[0]!,
    atTaken: (figure, subject) => atTaken(viewer, figure, subject),
    evaluateMany: (requests) => remembered(requests),
    evaluateAll: (metrics) => remembered(requestsOf(session, metrics)),
    over: (more, other = {}) => overlay(session, { ...settings, ...other }, more),
    requests: (metrics) => requestsOf(session, metrics),
    stale: (log) => log.some((read) => seenNow(session, read) !== read.seen),
    differs: (log) => log.filter((read) => seenNow(session, read) !== read.seen).map(nameOf),
    also,
  }
  return session
}

function requestsOf(session: Session, metrics: readonly string[] | undefined): readonly Request[] {
  const wanted = metrics ? metrics.map(figureById) : registry
  return wanted.flatMap((figure) => session.subjects(figure).paths.map((subject) => ({ figure, subject })))
}

function overlay({ structure, edits, also }: Session, settings: Settings, more: readonly Edit[]): Session {
  const patches = more.filter((edit) => !('set' in edit))
  const sets = [...edits, ...more.filter((edit) => 'set' in edit)]
  if (patches.length === 0) return sessionOn(structure, settings, sets, also)
  const left = patched(structure.record, patches)
  return sessionOn(openStructure(left.record), settings, sets, [...also, ...left.also])
}

function nameOf(read: Read): string {
  if (read.kind === 'value') return read.path
  return read.kind === 'query' ? queryWords(read.query) : read.name
}

function seenNow(session: Session, read: Read): string {
  switch (read.kind) {
    case 'value':
      if (read.path.startsWith('tables/')) return read.seen // of the program, not of the record
      return session.values.slot(read.path).seen
    case 'query':
      return seenOf(session.structure.answer(read.query, session.settings))
    case 'setting':
      return session.settings[read.name]
  }
}
