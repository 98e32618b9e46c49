import { fromSI } from '../../graph/quantity/units.ts'
import type { Answer, Answers, Case } from './case.ts'

/** How one case came out. */
export interface Grade {
  readonly id: string
  readonly outcome: 'passed' | 'failed' | 'not mapped'
  /** What was off by how much against which tolerance, or what is not mapped. */
  readonly detail: string
}

/** Keys that explain a case and expect nothing of the product. */
const EXPLAINS = /^(note|published|monteCarloSe|if[A-Z].*|dist)$/

/** Grades one case: every expected key within relTol; `oneOf` passes with any alternative. */
export function grade(input: Case, answers: Answers | undefined): Grade {
  if (answers === undefined) return { id: input.id, outcome: 'not mapped', detail: `topic ${input.topic}` }
  if (answers.error === true && !expectsError(input.expected)) {
    return { id: input.id, outcome: 'failed', detail: String(answers.message ?? 'refused without a word') }
  }
  const results = compare(input.expected, answers, input.relTol, '')
  const failed = results.filter((one): one is Unmet => one.kind === 'off')
  const missing = results.filter((one): one is Unmet => one.kind === 'missing')
  const worst = results.reduce((most, one) => Math.max(most, one.kind === 'met' ? one.off : 0), 0)
  if (failed.length > 0) return { id: input.id, outcome: 'failed', detail: failed.map((one) => one.text).join('; ') }
  if (missing.length > 0) {
    return { id: input.id, outcome: 'not mapped', detail: missing.map((one) => one.text).join('; ') }
  }
  return { id: input.id, outcome: 'passed', detail: `off by ${worst.toExponential(1)}, allowed ${input.relTol}` }
}

function expectsError(expected: Case['expected']): boolean {
  const ways = expected.oneOf as readonly Readonly<Record<string, unknown>>[] | undefined
  return expected.error === true || (ways ?? []).some((way) => way.error === true)
}

type Unmet = { readonly kind: 'off' | 'missing'; readonly text: string }
type Comparison = { readonly kind: 'met'; readonly off: number } | Unmet

function compare(
  expected: Readonly<Record<string, unknown>>,
  answers: Answers,
  relTol: number,
  above: string,
): readonly Comparison[] {
  return Object.entries(expected).flatMap(([key, want]): readonly Comparison[] => {
    const name = `${above}${key}`
    if (EXPLAINS.test(key)) return []
    if (key === 'oneOf') return anyOf(want as readonly Readonly<Record<string, unknown>>[], answers, relTol, above)
    if (key === 'mustMention') return mentions(want as readonly string[], answers)
    if (key === 'warning' || key === 'firstOrderMisleads') return want === true ? [yes(name, answers[key])] : []
    const got = answers[key]
    if (got === undefined) return [{ kind: 'missing', text: name }]
    const errors = answers.standardErrors as Readonly<Record<string, Answer>> | undefined
    return compareOne(name, want, withErrors(got, errors?.[key]), relTol, Number(errors?.[key] ?? 0))
  })
}

/** Standard errors of a nested answer travel with it. */
function withErrors(got: Answer, errors: Answer | undefined): Answer {
  return typeof errors === 'object' && typeof got === 'object' ? { ...got, standardErrors: errors } : got
}

/** @param standardError of a drawn answer: four of them are allowed beside the tolerance */
function compareOne(
  name: string,
  want: unknown,
  got: Answer,
  relTol: number,
  standardError = 0,
): readonly Comparison[] {
  if (typeof want === 'number') return [number(name, want, got, relTol, standardError)]
  if (Array.isArray(want)) {
    return want.flatMap((one, at) =>
      compareOne(`${name}[${at}]`, one, (got as readonly Answer[])[at] ?? 'nothing', relTol),
    )
  }
  if (isValue(want)) return [number(name, want.value as never, inUnit(got, want.unit), relTol)]
  if (typeof want === 'object' && want !== null) return compare(want as never, got as Answers, relTol, `${name}.`)
  return [
    want === got ? { kind: 'met', off: 0 } : { kind: 'off', text: `${name}: ${String(got)}, not ${String(want)}` },
  ]
}

const isValue = (want: unknown): want is { value: unknown; unit: string } =>
  typeof want === 'object' && want !== null && 'value' in want && 'unit' in want

function inUnit(got: Answer, unit: string): Answer {
  return typeof got === 'number' && unit !== 'boolean' ? fromSI(got, unit) : got
}

function number(
  name: string,
  want: number | boolean | string,
  got: Answer,
  relTol: number,
  standardError = 0,
): Comparison {
  if (typeof want !== 'number' || typeof got !== 'number') {
    return want === got ? { kind: 'met', off: 0 } : { kind: 'off', text: `${name}: ${String(got)}, not ${want}` }
  }
  const off = want === 0 ? Math.abs(got) : Math.abs(got / want - 1)
  // A printed expected value carries its own rounding: exact means equal in the last bits of a double, and one printed
  // to seven digits or more cannot be met closer than half a unit of its last place.
  const rounding = roundingOf(want)
  const drawn = (4 * standardError) / (want === 0 ? 1 : Math.abs(want))
  const allowed = (want === 0 ? 1e-12 : Math.max(relTol, rounding, 4 * Number.EPSILON)) + drawn
  if (off <= allowed) return { kind: 'met', off }
  return {
    kind: 'off',
    text: `${name}: ${got} where ${want} is expected, off by ${off.toExponential(2)}, allowed ${allowed}`,
  }
}

/** Half a unit of the last printed place, relative; 0 for a value printed to fewer than seven digits. */
function roundingOf(want: number): number {
  const [mantissa = ''] = String(want).split('e')
  const digits = mantissa.replace(/^-?0*\.?0*/, '').replace('.', '')
  if (digits.length < 7 || want === 0) return 0
  const decimals = mantissa.split('.')[1]?.length ?? 0
  return (0.5 * 10 ** -decimals) / Math.abs(Number(mantissa))
}

function yes(name: string, got: Answer | undefined): Comparison {
  return got === true ? { kind: 'met', off: 0 } : { kind: 'off', text: `${name} is expected` }
}

function mentions(words: readonly string[], answers: Answers): readonly Comparison[] {
  const message = String(answers.message ?? '').toLowerCase()
  return words.map((word) =>
    message.includes(word.toLowerCase())
      ? { kind: 'met', off: 0 }
      : { kind: 'off', text: `the message does not mention "${word}": ${answers.message ?? 'no message'}` },
  )
}

function anyOf(
  ways: readonly Readonly<Record<string, unknown>>[],
  answers: Answers,
  relTol: number,
  above: string,
): readonly Comparison[] {
  const tries = ways.map((way) => compare(way, answers, relTol, above))
  return tries.find((results) => results.every((one) => one.kind === 'met')) ?? tries[0] ?? []
}
