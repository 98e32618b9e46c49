import { z } from 'zod'
import { BASES } from '../quantity/basis.ts'
import { CONFIDENCES } from '../quantity/reading.ts'
import { type Fault, isList, isMapping, type TreePath } from './fault.ts'
import type { Field } from './field.ts'
import { asId, FORBIDDEN_NAMES, isId } from './ids.ts'
import { evidenceFrom, noteOf } from './note.ts'
import type { Evidence, Tree } from './record.ts'
import { readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'
import { readWord } from './word.ts'

/** Says what is wrong with the value in hand, or with what stands below it. */
export type Say = (what: string, mend: string, at?: TreePath, more?: Pick<Fault, 'key' | 'offset'>) => void

/** What an editor should know of a piece that zod sees only as a function; read by sheet/json-schema.ts. */
export interface Hint {
  readonly hint:
    | 'fact'
    | 'text'
    | 'id'
    | 'choice'
    | 'flag'
    | 'relation'
    | 'list'
    | 'map'
    | 'each'
    | 'part'
    | 'terminals'
    | 'tree'
    | 'count'
    | 'section'
    | 'circuits'
  readonly field?: Field
  readonly words?: readonly string[]
  readonly is?: string
  readonly of?: z.ZodType
}

export const hints = new WeakMap<z.ZodType, Hint>()

/** A schema piece that reads a tree itself and says its own faults. */
export function piece<T>(hint: Hint, read: (tree: Tree, say: Say) => T): z.ZodType<T, unknown> {
  const schema = z.unknown().transform((input, context): T => {
    const say: Say = (what, mend, at = [], more = {}) => {
      context.issues.push({ code: 'custom', input, message: what, path: [...at], params: { mend, ...more } })
    }
    if (input === undefined) {
      say('is missing', 'write it: it cannot be left out here')
      return z.NEVER
    }
    return read(input as Tree, say)
  })
  hints.set(schema, hint)
  return schema
}

/** A mapping with exactly these keys; what it says of others is made in zod-fault.ts, which knows the keys by this message. */
export function section<S extends z.ZodRawShape>(shape: S) {
  const known = Object.keys(shape).join(' ')
  return z.strictObject(shape, { error: (issue) => (issue.code === 'unrecognized_keys' ? known : undefined) })
}

/**
 * The same as a section, for shapes with many more keys than are ever typed at once: only what is there is looked at.
 * The schema of each key stands in the section, for its type and for editors.
 *
 * @param aliases other words for keys
 */
export function sparse<S extends z.ZodRawShape>(
  shape: S,
  aliases: Readonly<Record<string, string>> = {},
): z.ZodType<z.output<ReturnType<typeof section<S>>>, unknown> {
  const whole = section(shape)
  const required = Object.keys(shape).filter((key) => !(shape[key] instanceof z.ZodOptional))
  const known = Object.keys(shape)
  const fields = plainFields(shape)
  const schema = z.unknown().transform((input, context) => {
    const read: Record<string, unknown> = {}
    const wrong = (message: string, path: readonly string[], params: Readonly<Record<string, unknown>>): void => {
      context.issues.push({ code: 'custom', input, message, path: [...path], params })
    }
    if (!isMapping(input)) {
      wrong(`${kindOf(input)} where a mapping is expected`, [], { mend: 'write { key: value, … }' })
      return z.NEVER
    }
    for (const key of required) if (!(key in input)) wrong('is missing', [key], { mend: `add ${key}: …` })
    for (const key in input) {
      const meant = aliasIn(key, shape, aliases, input)
      const of = meant === undefined ? undefined : (shape[meant] as z.ZodType)
      if (meant === undefined || !of) {
        wrong(`unknown key "${key}"`, [key], { mend: didYouMean(key, known), key: true })
        continue
      }
      const field = fields.get(meant)
      if (field) {
        read[meant] = readStated(input[key], field)
        continue
      }
      const found = of.safeParse(input[key])
      if (found.success) read[meant] = found.data
      else
        for (const issue of found.error.issues)
          context.issues.push({ ...issue, input, path: [key, ...issue.path] } as never)
    }
    return read
  })
  hints.set(schema, { hint: 'section', of: whole })
  return schema as never
}

/** Keys that hold one plain property: these never say a fault of structure, and are read without a detour. */
function plainFields(shape: z.ZodRawShape): ReadonlyMap<string, Field> {
  const fields = new Map<string, Field>()
  for (const [key, schema] of Object.entries(shape)) {
    const inner = schema instanceof z.ZodOptional ? (schema.unwrap() as z.ZodType) : (schema as z.ZodType)
    const hint = hints.get(inner)
    if (hint?.hint === 'fact' && hint.field && !hint.field.by) fields.set(key, hint.field)
  }
  return fields
}

/** The key of a shape that a typed key stands for: itself, or what it is another word for. */
export function aliasIn(
  key: string,
  shape: Readonly<Record<string, unknown>>,
  aliases: Readonly<Record<string, string>>,
  input: Readonly<Record<string, unknown>>,
): string | undefined {
  if (Object.hasOwn(shape, key)) return key
  const meant = Object.hasOwn(aliases, key) ? aliases[key] : undefined
  return meant !== undefined && Object.hasOwn(shape, meant) && !Object.hasOwn(input, meant) ? meant : undefined
}

/** Everything stated about one property. Faults of the value travel in it, so that all are told at once. */
export const fact = (field: Field): z.ZodType<Stated, unknown> => {
  const known = facts.get(field)
  if (known) return known
  const made = piece({ hint: 'fact', field }, (tree) => readStated(tree, field))
  facts.set(field, made)
  return made
}
const facts = new Map<Field, z.ZodType<Stated, unknown>>()

/** The same for each key. */
export function factsOf<K extends string>(
  fields: Readonly<Record<K, Field>>,
): { [P in K]: z.ZodOptional<z.ZodType<Stated, unknown>> } {
  const shape: Record<string, z.ZodOptional<z.ZodType<Stated, unknown>>> = {}
  for (const key in fields) shape[key] = fact(fields[key]).optional()
  return shape as { [P in K]: z.ZodOptional<z.ZodType<Stated, unknown>> }
}

/** One line or more of plain words; nothing is computed from it. */
export const text = (is?: string) =>
  piece({ hint: 'text', ...(is !== undefined && { is }) }, (tree, say) => {
    if (typeof tree === 'string') return tree
    say(`${kindOf(tree)} where words are expected`, 'write one line of text')
    return ''
  })

export const id = piece({ hint: 'id', is: 'Small letters, digits and hyphens; unique in the sheet.' }, (tree, say) => {
  if (typeof tree !== 'string') say(`${kindOf(tree)} where an id is expected`, 'write a word such as link-cap')
  else if (FORBIDDEN_NAMES.has(tree)) say(`"${tree}" cannot be an id`, 'choose another name')
  else if (!isId(tree)) say(`"${tree}" cannot be an id`, `small letters, digits and single hyphens: "${asId(tree)}"`)
  else return tree
  return ''
})

export const choice = <const W extends readonly string[]>(words: W, is?: string): z.ZodType<W[number], unknown> =>
  piece({ hint: 'choice', words, ...(is !== undefined && { is }) }, (tree, say): W[number] => {
    if (typeof tree === 'string' && words.includes(tree)) return tree
    if (typeof tree === 'string') say(`"${tree}" is not known here`, didYouMean(tree, words))
    else say(`${kindOf(tree)} where a word is expected`, `one of: ${words.join(', ')}`)
    return words[0] as W[number]
  })

const FLAGS: Readonly<Record<string, boolean>> = { yes: true, true: true, no: false, false: false }

export const flag = (is?: string) =>
  piece({ hint: 'flag', ...(is !== undefined && { is }) }, (tree, say) => {
    const flagged = typeof tree === 'string' && Object.hasOwn(FLAGS, tree) ? FLAGS[tree] : undefined
    if (flagged === undefined)
      say(`${typeof tree === 'string' ? `"${tree}"` : kindOf(tree)} is neither yes nor no`, 'write yes or no')
    return flagged ?? false
  })

/** One thing or a list of things, as a list. */
export const oneOrMore = (of: z.ZodType<string, unknown>, is?: string) => {
  const schema = z.unknown().transform((input, context): readonly string[] => {
    const all = Array.isArray(input) ? input : [input]
    return all.map((one, n) => {
      const read = of.safeParse(one)
      if (read.success) return read.data
      for (const issue of read.error.issues)
        context.issues.push({
          ...issue,
          input: one,
          path: [...(Array.isArray(input) ? [n] : []), ...issue.path],
        } as never)
      return ''
    })
  })
  hints.set(schema, { hint: 'list', of, ...(is !== undefined && { is }) })
  return schema as z.ZodType<readonly string[], unknown>
}

/** A word that may carry how we know it: `net (judged; likely)`. */
export interface Told {
  readonly is: string
  readonly evidence: Evidence
}

/** A relation: to what, and how we know. By eye unless it says otherwise. */
export const told = (is?: string, words?: readonly string[]) =>
  piece({ hint: 'relation', ...(is !== undefined && { is }), ...(words && { words }) }, (tree, say): Told => {
    const found = typeof tree === 'string' ? readWord(tree) : longTold(tree, say)
    const said = found.word
    if (words && !words.includes(said)) say(`"${said}" is not known here`, didYouMean(said, words))
    return { is: said, evidence: evidenceFrom(found.note, 'judged') }
  })

function longTold(tree: Tree, say: Say) {
  const value = isMapping(tree) ? (tree.value ?? tree.net) : undefined
  if (!isMapping(tree) || typeof value !== 'string') {
    say(`${kindOf(tree)} where one word is expected`, 'write a word, or { value: …, basis: … }')
    return readWord('')
  }
  const { note, faults } = noteOf(tree)
  for (const { key, what, mend } of faults) say(what, mend, [key])
  return { ...readWord(value), note }
}

/** Keys that say how we know, for entries that are relations. */
export const evidenceShape = {
  basis: choice(BASES, 'How we know it.').optional(),
  confidence: choice(CONFIDENCES, 'How sure.').optional(),
  'rests-on': oneOrMore(text(), 'Findings it stands or falls with.').optional(),
  with: text('Instrument.').optional(),
  on: text('Date.').optional(),
  by: text('Who.').optional(),
  photo: text('Photo and region: p31/r1.').optional(),
  from: text('Document and page.').optional(),
  visible: text('Who may see it.').optional(),
  note: text('Remark; nothing is computed from it.').optional(),
} as const

const { from: _from, ...withoutFrom } = evidenceShape
const { on: _on, ...withoutOn } = evidenceShape
/** The same where `from` says where something starts. */
export const evidenceBesideFrom = withoutFrom
/** The same where `on` says what something lies on. */
export const evidenceBesideOn = withoutOn

export function kindOf(tree: unknown): string {
  if (typeof tree === 'string') return 'a text'
  if (isList(tree)) return 'a list'
  return isMapping(tree) ? 'a mapping' : 'nothing'
}
