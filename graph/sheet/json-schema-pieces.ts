import { BASES } from '../quantity/basis.ts'
import { type Dimension, fieldOf } from '../quantity/dimension.ts'
import { CONFIDENCES } from '../quantity/reading.ts'
import { CONDITIONS } from '../record/condition.ts'
import type { Field } from '../record/field.ts'
import type { JsonSchema } from './json-schema.ts'

/** A scalar: an editor sees numbers and yes/no where the reader sees the text that was typed. */
export const SCALAR: JsonSchema = { type: ['string', 'number', 'boolean'] }

/** One of some words, in every guise an editor may give them. */
export function wordSchema(words: readonly string[]): JsonSchema {
  const guises = words.flatMap((word): readonly (string | number | boolean)[] => {
    if (word === 'true' || word === 'yes') return [word, true]
    if (word === 'false' || word === 'no') return [word, false]
    return /^\d+$/.test(word) ? [word, Number(word)] : [word]
  })
  return { enum: [...new Set(guises)] }
}

/** A property: its text, its long form, or several claims. Units and an example stand in the description. */
export function factSchema(field: Field): JsonSchema {
  const description = describe(field)
  if (field.fields) {
    const properties = Object.fromEntries(Object.entries(field.fields).map(([key, one]) => [key, factSchema(one)]))
    return { type: 'object', description, properties, additionalProperties: false }
  }
  if (field.by)
    return {
      description,
      anyOf: [{ $ref: '#/$defs/fact' }, { type: 'object', additionalProperties: { $ref: '#/$defs/fact' } }],
    }
  if (!field.words || field.form !== 'word') return { $ref: '#/$defs/fact', description }
  return { description, anyOf: [wordSchema(field.words), { $ref: '#/$defs/fact' }] }
}

const EXAMPLES: Readonly<Partial<Record<Field['form'], string>>> = {
  box: '62 x 48 x 4.6 mm (measured)',
  place: '0 / 120 / 250 mm',
  area: '58 x 44 mm (measured)',
  volume: '8.9 ± 0.1 L (measured)',
  count: '4 (judged)',
  width: '± 0.1 %',
}

function describe(field: Field): string {
  const { form, dimension, is, words } = field
  const parts = is === undefined ? [] : [is]
  if (words) parts.push(`One of: ${words.join(', ')}.`)
  if (dimension === 'text') return parts.join(' ')
  if (dimension !== 'any' && form !== 'count') {
    const { name, offer } = fieldOf(dimension as Dimension)
    parts.push(`${name[0]?.toUpperCase()}${name.slice(1)}, e.g. in ${offer.slice(0, 4).join(', ')}.`)
  }
  const example = EXAMPLES[form]
  if (example !== undefined) parts.push(`Written like: ${example}`)
  return parts.join(' ')
}

const NOTE = {
  basis: { enum: [...BASES], description: 'How we know it.' },
  confidence: { enum: [...CONFIDENCES] },
  'rests-on': { anyOf: [SCALAR, { type: 'array', items: SCALAR }], description: 'Findings it stands or falls with.' },
  with: { ...SCALAR, description: 'Instrument.' },
  by: { ...SCALAR, description: 'Who.' },
  on: { ...SCALAR, description: 'Date.' },
  photo: { ...SCALAR, description: 'Photo and region: p31/r1.' },
  from: { ...SCALAR, description: 'Document and page.' },
  visible: { ...SCALAR, description: 'Who may see it.' },
  note: SCALAR,
} as const

const CONDITION_PROPERTIES = Object.fromEntries(
  Object.entries(CONDITIONS).map(([name, field]) => [name, { ...SCALAR, description: describe(field) }]),
)

/** Definitions that every property refers to. */
export const FIXED_DEFINITIONS: Readonly<Record<string, JsonSchema>> = {
  claim: {
    description: 'One statement: a text, or the long form.',
    anyOf: [
      SCALAR,
      {
        type: 'object',
        additionalProperties: false,
        properties: {
          value: SCALAR,
          readings: { type: 'array', items: SCALAR, minItems: 2, description: 'Several readings of the same thing.' },
          run: {
            type: 'string',
            description: 'Readings of one run were taken together: they go up and down together.',
          },
          at: { type: 'object', additionalProperties: false, properties: CONDITION_PROPERTIES },
          of: { ...SCALAR, description: 'The piece it was made on: link-cap.3' },
          because: SCALAR,
          ...NOTE,
        },
      },
    ],
  },
  fact: {
    anyOf: [
      { $ref: '#/$defs/claim' },
      { type: 'array', items: { $ref: '#/$defs/claim' } },
      {
        type: 'object',
        additionalProperties: false,
        required: ['claims'],
        properties: {
          claims: { type: 'array', items: { $ref: '#/$defs/claim' } },
          take: { ...SCALAR, description: 'Number of the claim that is taken, from 1.' },
          because: { ...SCALAR, description: 'Why.' },
        },
      },
    ],
  },
  relation: {
    anyOf: [
      SCALAR,
      { type: 'object', additionalProperties: false, required: ['value'], properties: { value: SCALAR, ...NOTE } },
    ],
  },
  terminal: {
    description: 'A net, with how it is known in brackets; or { net, at, … }.',
    anyOf: [
      SCALAR,
      {
        type: 'object',
        additionalProperties: false,
        required: ['net'],
        properties: { net: SCALAR, at: { $ref: '#/$defs/fact', description: 'Offset from the piece.' }, ...NOTE },
      },
    ],
  },
  count: {
    description: 'How many pieces.',
    anyOf: [
      { $ref: '#/$defs/claim' },
      {
        type: 'object',
        additionalProperties: false,
        properties: { built: { $ref: '#/$defs/fact' }, found: { $ref: '#/$defs/fact' }, because: SCALAR },
      },
    ],
  },
}
