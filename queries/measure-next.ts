import { allOf, describeLack, type Lack, leaves, notApplicable } from '../graph/lack.ts'
import { asPath, type Path } from '../graph/quantity/quantity.ts'
import { queryKey } from '../graph/query.ts'
import { isCounted, queryWords } from '../graph/query-words.ts'
import type { Result } from './evaluate/result.ts'
import type { Session } from './evaluate/session.ts'
import { figureById } from './figures/registry.ts'
import { wayOfMeasuring } from './instruments.ts'
import { fewestWith } from './lack-ways.ts'

/** One thing to measure or look for before the unit goes back. */
export interface Suggestion {
  /** Property or question, as a path or in words. */
  readonly path: string
  readonly asks: string
  /** What else must be had with it before one of the figures can be computed; nothing where it is enough alone. */
  readonly together: readonly string[]
  readonly why: 'lost at a coming step' | 'becomes computable' | 'narrows'
  /** Figures that gain, as `METRIC subject`. */
  readonly figures: readonly string[]
  /** Largest share by which the uncertainty of one of them would fall if this were known exactly; 1 for a missing one. */
  readonly gain: number
  /** Of the figure that gains most: its standard uncertainty now, and what would be left of it. */
  readonly narrows: Narrowing | null
  /** Steps still to come after which it cannot be had. */
  readonly lostWith: readonly string[]
  /** When the unit goes back, as the sheet says. */
  readonly before: string | null
  readonly instrument: string | null
  readonly minutes: number | null
}

interface Narrowing {
  readonly metric: string
  readonly subject: Path
  readonly unit: string
  readonly from: number
  readonly to: number
}

interface Draft {
  readonly path: string
  readonly asks: string
  readonly figures: Set<string>
  /** Of the figure that lacks least beside it; null where no figure lacks it. */
  together: readonly string[] | null
  gain: number
  narrows: Narrowing | null
}

/** Gains below this are not worth a measurement. */
const LEAST_GAIN = 0.05
/** So many of the first are computed again with the value known exactly; what shares promise of the others is near enough. */
const COMPUTED_AGAIN = 8

/**
 * What to measure next for the figures asked for: first what a coming step destroys, then what makes a figure
 * computable, then by how much the uncertainty of a figure would fall if the value were known exactly.
 */
export function measureNext(session: Session, metrics?: readonly string[]): readonly Suggestion[] {
  const drafts = new Map<string, Draft>()
  const draft = (path: string, asks: string): Draft => {
    const known = drafts.get(path) ?? { path, asks, figures: new Set<string>(), together: null, gain: 0, narrows: null }
    drafts.set(path, known)
    return known
  }
  for (const result of session.evaluateAll(metrics)) {
    if (result.status === 'MISSING') noteMissing(result, draft)
    else noteShares(result, draft)
  }
  const suggestions = [...drafts.values()].map((one) => suggestion(session, one))
  return firstComputedAgain(session, ranked(suggestions))
}

function ranked(suggestions: readonly Suggestion[]): readonly Suggestion[] {
  return suggestions.filter((one) => one.lostWith.length > 0 || one.gain >= LEAST_GAIN).toSorted(byUrgency)
}

/** Computes the first again, and those that come forward when one of them turns out to gain less. */
function firstComputedAgain(session: Session, suggestions: readonly Suggestion[]): readonly Suggestion[] {
  const sure = new Set<Suggestion>()
  let list = suggestions
  while (sure.size < 2 * COMPUTED_AGAIN) {
    const next = list.slice(0, COMPUTED_AGAIN).find((one) => !sure.has(one))
    if (!next) break
    const again = computedAgain(session, next)
    sure.add(again)
    list = ranked(list.map((one) => (one === next ? again : one)))
  }
  return list
}

const byUrgency = (a: Suggestion, b: Suggestion): number =>
  order(b) - order(a) ||
  b.gain - a.gain ||
  a.together.length - b.together.length ||
  b.figures.length - a.figures.length ||
  (a.path < b.path ? -1 : 1)

function noteMissing(result: Result, draft: (path: string, asks: string) => Draft): void {
  const whole = allOf(result.missing)
  const asked = new Map(leaves(whole).map((lack) => [keyOf(lack), lack]))
  for (const [key, lack] of asked) {
    const one = draft(key, askFor(ofType(lack)))
    const needed = new Map(
      fewestWith(whole, (leaf) => keyOf(leaf) === key)?.map((leaf) => [keyOf(leaf), wordsOf(leaf)]),
    )
    needed.delete(key)
    if (one.together === null || needed.size < one.together.length) one.together = [...needed.values()]
    one.gain = 1
    one.figures.add(`${result.metric} ${result.subject}`)
  }
}

function noteShares({ metric, subject, unit, u, inputs }: Result, draft: (path: string, asks: string) => Draft): void {
  for (const { path, remaining, basis } of inputs) {
    if (u === null || remaining === null || path.startsWith('tables/')) continue
    const gain = 1 - remaining / u
    if (gain < LEAST_GAIN) continue
    const one = draft(path, `${basis === 'measured' ? 'measure again, more narrowly' : 'measure'}: ${path}`)
    one.figures.add(`${metric} ${subject}`)
    if (one.narrows !== null && 1 - one.narrows.to / one.narrows.from >= gain) continue
    one.narrows = { metric, subject, unit, from: u, to: remaining }
    one.gain = Math.max(one.gain, gain)
  }
}

/** What is left of the figure's uncertainty with the value known exactly, as it is written: shares are a straight line. */
function computedAgain(session: Session, one: Suggestion): Suggestion {
  const { narrows } = one
  const quantity = narrows && session.values.slot(asPath(one.path)).quantity
  if (!narrows || !quantity || one.why === 'becomes computable') return one
  const known = session.over([{ set: asPath(one.path), to: { ...quantity, terms: [], defaulted: false } }])
  const to = known.evaluate(figureById(narrows.metric), narrows.subject).u ?? 0
  return { ...one, gain: Math.max(0, 1 - to / narrows.from), narrows: { ...narrows, to } }
}

function suggestion(session: Session, { path, asks, figures, together, gain, narrows }: Draft): Suggestion {
  const { answer } = session.structure
  const lostWith = answer({ ask: 'lost-with', path: asPath(path) }, session.settings).paths
  const way = wayOfMeasuring(path, session.record.facts.get(asPath(path))?.dimension)
  return {
    path,
    asks,
    together: together ?? [],
    why: lostWith.length > 0 ? 'lost at a coming step' : together ? 'becomes computable' : 'narrows',
    figures: [...figures].sort(),
    gain,
    narrows,
    lostWith,
    before: session.record.sheet.loan?.back ?? null,
    instrument: way?.instrument ?? null,
    minutes: way?.minutes ?? null,
  }
}

const order = ({ why }: Suggestion): number =>
  why === 'lost at a coming step' ? 2 : why === 'becomes computable' ? 1 : 0

/** What is lacking of every piece is asked for once, of the entry. */
function ofType(lack: Lack): Lack {
  return 'path' in lack ? { ...lack, path: asPath(lack.path.replace(/\.[^/]*/g, '')) } : lack
}

function keyOf(lack: Lack): string {
  const whole = ofType(lack)
  if ('path' in whole) return whole.path
  if ('query' in lack) return queryKey(lack.query)
  return describeLack(lack)
}

/** As a person is told of it, beside what is asked for. */
const wordsOf = (lack: Lack): string => ('query' in lack ? queryWords(lack.query) : keyOf(lack))

/** What to measure or look for, in words; null where there is no such thing to look for. */
export function asksOf(lack: Lack): string | null {
  return notApplicable(lack) ? null : askFor(lack)
}

/** What to measure or look for, in words. */
export function askFor(lack: Lack): string {
  if ('allOf' in lack) return `all of: ${lack.allOf.map(askFor).join('; ')}`
  if ('anyOf' in lack) return `any of: ${lack.anyOf.map(askFor).join('; ')}`
  if ('query' in lack)
    return `look for and record: ${queryWords(lack.query)}${isCounted(lack.query) ? ' (or write a census that none is there)' : ''}`
  if ('reason' in lack) return lack.reason
  if (lack.why === 'refuted') return `state ${lack.path} on other grounds: the finding it rests on was refuted`
  if (lack.why === 'bound-only') return `measure ${lack.path}: only a bound is on record`
  return `${lack.why === 'unreadable' ? 'clean and read, or measure' : 'measure or read'} ${lack.path}`
}
