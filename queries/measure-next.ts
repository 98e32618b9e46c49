import { describeLack, type Lack, leaves } from '../graph/lack.ts'
import { asPath } from '../graph/quantity/quantity.ts'
import { queryKey } from '../graph/query.ts'
import type { Result } from './evaluate/result.ts'
import type { Session } from './evaluate/session.ts'
import { wayOfMeasuring } from './instruments.ts'

/** One thing to measure or look for before the unit goes back. */
export interface Suggestion {
  /** Property or question, as a path or in words. */
  readonly path: string
  readonly asks: string
  readonly why: 'lost at a coming step' | 'becomes computable' | 'narrows'
  /** Figures that gain, as `METRIC subject`. */
  readonly figures: readonly string[]
  /** Largest share by which the uncertainty of one of them would fall if this were known exactly; 1 for a missing one. */
  readonly gain: number
  /** Steps still to come after which it cannot be had. */
  readonly lostWith: readonly string[]
  readonly instrument: string | null
  readonly minutes: number | null
}

interface Draft {
  readonly path: string
  readonly asks: string
  readonly figures: Set<string>
  missing: boolean
  gain: number
}

/** Gains below this are not worth a measurement. */
const LEAST_GAIN = 0.05

/**
 * What to measure next for the figures asked for: first what a coming step destroys, then what makes a figure
 * computable, then by how much the uncertainty of a figure would fall if the value were known exactly.
 */
export function measureNext(session: Session, metrics?: readonly string[]): readonly Suggestion[] {
  const drafts = new Map<string, Draft>()
  const draft = (path: string, asks: string): Draft => {
    const known = drafts.get(path) ?? { path, asks, figures: new Set<string>(), missing: false, gain: 0 }
    drafts.set(path, known)
    return known
  }
  for (const result of session.evaluateAll(metrics)) {
    if (result.status === 'MISSING') noteMissing(result, draft)
    else noteShares(result, draft)
  }
  return [...drafts.values()]
    .map((one) => suggestion(session, one))
    .filter((one) => one.lostWith.length > 0 || one.gain >= LEAST_GAIN)
    .sort(
      (a, b) =>
        order(b) - order(a) || b.gain - a.gain || b.figures.length - a.figures.length || (a.path < b.path ? -1 : 1),
    )
}

function noteMissing(result: Result, draft: (path: string, asks: string) => Draft): void {
  for (const lack of result.missing.flatMap(leaves)) {
    const one = draft(keyOf(lack), askFor(lack))
    one.missing = true
    one.gain = 1
    one.figures.add(`${result.metric} ${result.subject}`)
  }
}

function noteShares(result: Result, draft: (path: string, asks: string) => Draft): void {
  for (const { path, share, basis } of result.inputs) {
    if (share === null || share <= 0 || path.startsWith('tables/')) continue
    const gain = 1 - Math.sqrt(Math.max(0, 1 - share))
    if (gain < LEAST_GAIN) continue
    const one = draft(path, `${basis === 'measured' ? 'measure again, more narrowly' : 'measure'}: ${path}`)
    one.gain = Math.max(one.gain, gain)
    one.figures.add(`${result.metric} ${result.subject}`)
  }
}

function suggestion(session: Session, { path, asks, figures, missing, gain }: Draft): Suggestion {
  const { answer } = session.structure
  const lostWith = answer({ ask: 'lost-with', path: asPath(path) }, session.settings).paths
  const way = wayOfMeasuring(path, session.record.facts.get(asPath(path))?.dimension)
  return {
    path,
    asks,
    why: lostWith.length > 0 ? 'lost at a coming step' : missing ? 'becomes computable' : 'narrows',
    figures: [...figures].sort(),
    gain,
    lostWith,
    instrument: way?.instrument ?? null,
    minutes: way?.minutes ?? null,
  }
}

const order = ({ why }: Suggestion): number =>
  why === 'lost at a coming step' ? 2 : why === 'becomes computable' ? 1 : 0

function keyOf(lack: Lack): string {
  if ('path' in lack) return lack.path
  if ('query' in lack) return queryKey(lack.query)
  return describeLack(lack)
}

/** What to measure or look for, in words. */
export function askFor(lack: Lack): string {
  if ('allOf' in lack) return `all of: ${lack.allOf.map(askFor).join('; ')}`
  if ('anyOf' in lack) return `any of: ${lack.anyOf.map(askFor).join('; ')}`
  if ('query' in lack)
    return `look for it and record it: ${queryKey(lack.query)} (or write a census that none is there)`
  if ('reason' in lack) return lack.reason
  if (lack.why === 'refuted') return `state ${lack.path} on other grounds: the finding it rests on was refuted`
  if (lack.why === 'bound-only') return `measure ${lack.path}: only a bound is on record`
  return `${lack.why === 'unreadable' ? 'clean and read, or measure' : 'measure or read'} ${lack.path}`
}
