import type { Answer, Answers, Case } from '../case.ts'
import { maybeQuantity, quantities } from './inputs.ts'

/** Case files spell the same idea as `phase_current_peak`, `phaseCurrentPeak` or `phase current peak`. */
const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9.]/g, '')

function keyOf(input: Case, names: readonly string[]): string | undefined {
  const wanted = names.map(plain)
  const keys = Object.keys(input.inputs)
  // In the order of the names asked for, so that the more telling spelling wins.
  return wanted.flatMap((name) => keys.filter((key) => plain(key) === name))[0]
}

/** The input of any of these names in SI, or undefined when there is none or it is a word. */
export function read(input: Case, ...names: readonly string[]): number | undefined {
  const key = keyOf(input, names)
  if (key === undefined) return undefined
  const found = input.inputs[key]
  return typeof found === 'string' && !/^\s*[-+.\d]/.test(found) ? undefined : maybeQuantity(input, key)
}

/** The input of any of these names in SI; a case without it fails with its names. */
export function need(input: Case, ...names: readonly string[]): number {
  const found = read(input, ...names)
  if (found === undefined) throw new Error(`case ${input.id} has no input ${names.join(' or ')}`)
  return found
}

export function readList(input: Case, ...names: readonly string[]): readonly number[] | undefined {
  const key = keyOf(input, names)
  if (key === undefined || !Array.isArray(input.inputs[key])) return undefined
  return (input.inputs[key] as readonly unknown[]).every(
    (one) => typeof one !== 'object' || one === null || 'unit' in one,
  )
    ? quantities(input, key)
    : undefined
}

/** Text of an input of any of these names, in small letters; empty when there is none. */
export function text(input: Case, ...names: readonly string[]): string {
  const key = keyOf(input, names)
  const found = key === undefined ? '' : input.inputs[key]
  return typeof found === 'string' ? found.toLowerCase() : ''
}

/** Everything the case says about itself, for telling neighbouring kinds apart. */
export const story = (input: Case): string =>
  `${input.id} ${input.quantity} ${Object.values(input.inputs)
    .filter((one) => typeof one === 'string')
    .join(' ')}`.toLowerCase()

/**
 * Answers under the expected keys, from values named by one or several spellings with `|` between them. A key that no
 * value answers is left out, and so is a value that is not known.
 */
export function answersBy(input: Case, values: Readonly<Record<string, Answer | undefined>>): Answers | undefined {
  const table = new Map(
    Object.entries(values).flatMap(([names, value]) => names.split('|').map((name) => [plain(name), value] as const)),
  )
  const found = Object.keys(input.expected).flatMap((key) => {
    const value = table.get(plain(key))
    return value === undefined ? [] : [[key, value] as const]
  })
  return found.length === 0 ? undefined : Object.fromEntries(found)
}

/** Leaves out what is not known, so that optional arguments stay optional. */
export function known<T extends object>(values: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as never
}
