import type { Nothing } from './quantity/basis.ts'
import type { Path } from './quantity/quantity.ts'
import type { Query } from './query.ts'
import { isCounted, queryWords } from './query-words.ts'

/** What keeps a figure from being computed, as a tree: all of these, any of those. */
export type Lack =
  | { readonly path: Path; readonly why: Nothing | 'bound-only' | 'no-such-key' | 'not-a-number' | 'refuted' }
  | { readonly query: Query; readonly why: 'none-found' | 'census-open' }
  /** The record has what is asked, but a method refuses it or a setting has nothing to stand on. */
  | { readonly reason: string; readonly at?: Path; readonly kind: 'refused' | 'not-applicable' | 'out-of-range' }
  | { readonly anyOf: readonly Lack[] }
  | { readonly allOf: readonly Lack[] }

/**
 * Thrown by a view when something needed is not there; caught by whoever collects lacks, and by the evaluator.
 * Not an Error: it is thrown thousands of times in a sampled evaluation, and a stack trace would cost more than the figure.
 */
export class Lacking {
  readonly lack: Lack

  constructor(lack: Lack) {
    this.lack = lack
  }
}

/** One lack for several that must all be met; flattens nested lists. */
export function allOf(lacks: readonly Lack[]): Lack {
  const flat = lacks.flatMap((lack) => ('allOf' in lack ? lack.allOf : [lack]))
  const unique = [...new Map(flat.map((lack) => [JSON.stringify(lack), lack])).values()]
  return unique.length === 1 ? unique[0]! : { allOf: unique }
}

/** Whether a lack says "there is no such thing here" rather than "nobody wrote it down". */
export function notApplicable(lack: Lack): boolean {
  if ('allOf' in lack) return lack.allOf.some(notApplicable)
  if ('anyOf' in lack) return lack.anyOf.length > 0 && lack.anyOf.every(notApplicable)
  if ('kind' in lack) return lack.kind === 'not-applicable'
  if ('query' in lack) return lack.why === 'none-found'
  return lack.why === 'not-applicable' || lack.why === 'absent'
}

/** Of a lack that says "there is no such thing here": what says so, without the gaps beside it. */
export function rulingOut(lack: Lack): Lack {
  if ('allOf' in lack) return allOf(lack.allOf.filter(notApplicable).map(rulingOut))
  if ('anyOf' in lack) return { anyOf: lack.anyOf.map(rulingOut) }
  return lack
}

/** The single gaps of a lack, without its and/or. */
export function leaves(lack: Lack): readonly Lack[] {
  if ('allOf' in lack) return lack.allOf.flatMap(leaves)
  if ('anyOf' in lack) return lack.anyOf.flatMap(leaves)
  return [lack]
}

const WORDS = {
  'not-looked-for': 'not looked for',
  absent: 'recorded as absent',
  'not-applicable': 'recorded as not applicable',
  unreadable: 'seen but unreadable',
  'bound-only': 'known only as a bound',
  'no-such-key': 'not on record',
  'not-a-number': 'a word where a number is needed',
  refuted: 'rests on a finding that was refuted',
} as const

/** A lack in one line of words. */
export function describeLack(lack: Lack): string {
  if ('allOf' in lack) return lack.allOf.map(describeLack).join('; ')
  if ('anyOf' in lack) return `one of: ${lack.anyOf.map((one) => `(${describeLack(one)})`).join(' or ')}`
  if ('reason' in lack) return lack.reason
  if ('query' in lack) {
    const words = queryWords(lack.query)
    if (lack.why !== 'none-found') return `not on record: ${words}`
    return isCounted(lack.query) ? `looked for and found none: ${words}` : `there is none: ${words}`
  }
  return `${lack.path}: ${WORDS[lack.why]}`
}
