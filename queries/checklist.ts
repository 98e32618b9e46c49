import { leaves } from '../graph/lack.ts'
import type { Basis } from '../graph/quantity/basis.ts'
import { asPath, type Path } from '../graph/quantity/quantity.ts'
import type { Result } from './evaluate/result.ts'
import type { Session } from './evaluate/session.ts'
import { wayOfMeasuring } from './instruments.ts'

/** One thing that cannot be had after a step. */
export interface AtStake {
  readonly path: Path
  /** As written; null when nothing is on record. */
  readonly text: string | null
  readonly basis: Basis | null
  /** Whether somebody observed it: measured, marked, published or reported. */
  readonly onRecord: boolean
  /** Figures that stand on it or lack it: `METRIC subject`. */
  readonly figures: readonly string[]
  readonly instrument: string | null
  readonly minutes: number | null
}

/** What to have done before one step that cannot be undone. */
export interface BeforeStep {
  readonly step: Path
  readonly title: string | null
  readonly takesOff: readonly string[]
  /** Steps that come first and are not done yet. */
  readonly after: readonly string[]
  readonly atStake: readonly AtStake[]
  /** Nothing is written of what is lost with it. */
  readonly silent: boolean
}

export interface Checklist {
  readonly steps: readonly BeforeStep[]
  readonly loan: { readonly back: string | null; readonly may: readonly string[]; readonly mayNot: readonly string[] }
}

const OBSERVED: readonly Basis[] = ['measured', 'marked', 'published', 'reported']

/** Steps still to come that destroy something, in order, each with what is lost with it and is not on record yet first. */
export function checklist(session: Session, metrics?: readonly string[]): Checklist {
  const { sheet } = session.record
  const results = session.evaluateAll(metrics)
  const coming = (sheet.steps ?? []).filter(({ done }) => done === undefined)
  const open = new Set<string>(coming.map(({ id }) => String(id)))
  const steps = coming
    .filter((step) => step.destructive || (step.loses ?? []).length > 0 || (step.cuts ?? []).length > 0)
    .map((step): BeforeStep => {
      const path = asPath(`steps/${step.id}`)
      const atStake = stakes(session, path, results)
      const blockers = session.structure.answer({ ask: 'blockers', step: path }, session.settings).paths
      return {
        step: path,
        title: step.title ?? null,
        takesOff: [...(step['takes-off'] ?? []), ...(step.cuts ?? [])],
        after: blockers.filter((one) => open.has(one.slice('steps/'.length))),
        atStake,
        silent: atStake.length === 0,
      }
    })
  const { back, may, 'may-not': mayNot } = sheet.loan ?? {}
  return { steps, loan: { back: back ?? null, may: may ?? [], mayNot: mayNot ?? [] } }
}

/** What a step destroys: every recorded value below what it loses, what figures lack there, and what it names itself. */
function stakes(session: Session, step: Path, results: readonly Result[]): readonly AtStake[] {
  const { structure, settings, record } = session
  const isLost = (path: Path): boolean => structure.answer({ ask: 'lost-with', path }, settings).paths.includes(step)
  const lacking = results.flatMap(({ missing }) =>
    missing.flatMap(leaves).flatMap((lack) => ('path' in lack ? [lack.path] : [])),
  )
  const named = structure.answer({ ask: 'at-risk' }, settings).paths
  const recorded = [...record.facts.keys()].filter((path) => !path.includes('#') && !path.includes('/at/'))
  const known = [...new Set([...recorded, ...lacking])].filter(isLost)
  const bare = named.filter((path) => isLost(path) && !known.some((one) => one === path || one.startsWith(`${path}/`)))
  return [...known, ...bare]
    .map((path) => stake(session, path, results))
    .toSorted(
      (a, b) =>
        Number(a.onRecord) - Number(b.onRecord) || b.figures.length - a.figures.length || (a.path < b.path ? -1 : 1),
    )
}

function stake({ record }: Session, path: Path, results: readonly Result[]): AtStake {
  const fact = record.facts.get(path)
  const taken = fact?.taken
  const basis = taken && !taken.nothing ? taken.evidence.basis : null
  const way = wayOfMeasuring(path, fact?.dimension)
  return {
    path,
    text: taken?.text ?? null,
    basis,
    onRecord: basis !== null && OBSERVED.includes(basis) && taken?.quantity?.bound === undefined,
    figures: results.filter((result) => standsOn(result, path)).map(({ metric, subject }) => `${metric} ${subject}`),
    instrument: way?.instrument ?? null,
    minutes: way?.minutes ?? null,
  }
}

function standsOn({ inputs, missing }: Result, path: Path): boolean {
  const plain = (one: string): string => one.replace(/\.[^/]*/g, '')
  const same = (one: string): boolean => one === path || plain(one) === path
  return (
    inputs.some((input) => same(input.path)) ||
    missing.flatMap(leaves).some((lack) => 'path' in lack && same(lack.path))
  )
}
