import { z } from 'zod'
import type { Field } from '../record/field.ts'
import { schemaOf } from '../record/part.ts'
import { CLASS_NAMES, PART_CLASSES, partClassOf } from '../record/part-class.ts'
import { type Hint, hints } from '../record/piece.ts'
import { sheet } from '../record/sheet-schema.ts'
import { FIXED_DEFINITIONS, factSchema, SCALAR, wordSchema } from './json-schema-pieces.ts'

/** A node of JSON Schema, draft 2020-12. */
export interface JsonSchema {
  readonly [keyword: string]: unknown
}

interface ObjectSchema extends JsonSchema {
  readonly properties: Readonly<Record<string, JsonSchema>>
  readonly required?: readonly string[]
}

/** What editors check a sheet against while it is typed: made from the same schemas that read it. */
export function sheetJsonSchema(): JsonSchema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Sheet of one specimen',
    description:
      'A teardown as it is written down: parts, nets, layers of heat, coolant, steps, findings, and how each is known.',
    ...of(sheet),
    $defs: { ...FIXED_DEFINITIONS, part: partSchema(), ...classDefinitions() },
  }
}

/** The JSON Schema of what a schema takes in. */
function of(schema: z.ZodType): JsonSchema {
  const hint = hints.get(schema)
  if (hint) return ofHint(hint)
  const { def } = schema as { readonly def: z.core.$ZodTypeDef }
  switch (def.type) {
    case 'object':
      return ofObject(schema as z.ZodObject)
    case 'optional':
      return of((schema as z.ZodOptional).unwrap() as z.ZodType)
    case 'array':
      return { type: 'array', items: of((schema as z.ZodArray).element as z.ZodType) }
    case 'record':
      return { type: 'object', additionalProperties: of((schema as z.ZodRecord).valueType as z.ZodType) }
    case 'pipe':
      return of((schema as z.ZodPipe).in as z.ZodType)
    case 'lazy':
      return of((schema as z.ZodLazy).unwrap() as z.ZodType)
    case 'string':
      return SCALAR
    default:
      return {}
  }
}

function ofObject(schema: z.ZodObject): ObjectSchema {
  const properties: Record<string, JsonSchema> = {}
  const required: string[] = []
  for (const [key, value] of Object.entries(schema.shape)) {
    properties[key] = of(value as z.ZodType)
    if (!(value instanceof z.ZodOptional)) required.push(key)
  }
  return { type: 'object', additionalProperties: false, ...(required.length > 0 && { required }), properties }
}

function ofHint(hint: Hint): JsonSchema {
  const described = (schema: JsonSchema): JsonSchema =>
    hint.is === undefined ? schema : { ...schema, description: hint.is }
  switch (hint.hint) {
    case 'fact':
      return factSchema(hint.field as Field)
    case 'choice':
      return described(wordSchema(hint.words ?? []))
    case 'flag':
      return described(wordSchema(['yes', 'no', 'true', 'false']))
    case 'list':
      return described(oneOrMore(hint.of ? of(hint.of) : SCALAR))
    case 'each':
      return eachSchema(hint.of ? of(hint.of) : {})
    case 'section':
      return hint.of ? of(hint.of) : {}
    case 'part':
      return { $ref: '#/$defs/part' }
    case 'terminals':
      return terminalsSchema(hint.words ?? [])
    case 'circuits':
      return hint.of ? oneOrMore(of(hint.of)) : {}
    case 'relation':
      return described({ $ref: '#/$defs/relation' })
    case 'count':
      return described({ $ref: '#/$defs/count' })
    case 'map':
      return described({ type: 'object' })
    case 'tree':
      return described({})
    default:
      return described(SCALAR)
  }
}

function oneOrMore(one: JsonSchema): JsonSchema {
  return { anyOf: [one, { type: 'array', items: one }] }
}

function eachSchema(piece: JsonSchema): JsonSchema {
  const description = 'Pieces by name, or as a list: what differs from the entry.'
  return {
    description,
    anyOf: [
      { type: 'object', additionalProperties: piece },
      { type: 'array', items: piece },
    ],
  }
}

function terminalsSchema(names: readonly string[]): JsonSchema {
  const terminal = { $ref: '#/$defs/terminal' }
  const properties = Object.fromEntries(names.map((name) => [name, terminal]))
  return { type: 'object', description: 'Which net each terminal is on.', properties, additionalProperties: terminal }
}

/** A part is checked against the schema of its class. */
function partSchema(): JsonSchema {
  const names = [...CLASS_NAMES, ...PART_CLASSES.flatMap(({ aliases }) => aliases)]
  return {
    type: 'object',
    required: ['id', 'class'],
    properties: { class: { enum: names, description: 'Class from the table of part classes.' } },
    allOf: PART_CLASSES.map((one) => ({
      if: { properties: { class: { enum: [one.class, ...one.aliases] } }, required: ['class'] },
      // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
      then: { $ref: `#/$defs/class-${one.class}` },
    })),
  }
}

/** What all classes share stands once, long pieces that several have too; each class adds its own. */
function classDefinitions(): Readonly<Record<string, JsonSchema>> {
  const objects = CLASS_NAMES.map((name) => [name, objectOf(name)] as const)
  const first = objects[0]?.[1].properties ?? {}
  const same = ([key, value]: [string, JsonSchema]): boolean =>
    objects.every(([, { properties }]) => JSON.stringify(properties[key]) === JSON.stringify(value))
  const common = Object.fromEntries(Object.entries(first).filter(same))
  const definitions: Record<string, JsonSchema> = { 'part-common': { properties: common } }
  for (const [name, { properties }] of objects) {
    const found = partClassOf(name)
    const own = Object.entries(properties).filter(([key]) => !(key in common) && key !== 'each')
    const piece = { $ref: `#/$defs/class-${name}-own` }
    const shared = own.map(([key, schema]) => [key, hoisted(key, schema, definitions)] as const)
    definitions[`class-${name}-own`] = {
      allOf: [{ $ref: '#/$defs/part-common' }],
      properties: Object.fromEntries(shared),
    }
    definitions[`class-${name}`] = {
      title: found?.title,
      description: found?.is,
      allOf: [piece],
      properties: { each: eachSchema({ type: 'object', allOf: [piece], unevaluatedProperties: false }) },
      unevaluatedProperties: false,
    }
  }
  return definitions
}

/** Pieces longer than this are worth a definition of their own [characters]. */
const LONG = 400

function hoisted(key: string, schema: JsonSchema, definitions: Record<string, JsonSchema>): JsonSchema {
  const text = JSON.stringify(schema)
  if (text.length < LONG) return schema
  for (let n = 1; ; n++) {
    const name = n === 1 ? `of-${key}` : `of-${key}-${n}`
    definitions[name] ??= schema
    if (JSON.stringify(definitions[name]) === text) return { $ref: `#/$defs/${name}` }
  }
}

function objectOf(name: string): ObjectSchema {
  const found = partClassOf(name)
  const hint = found && hints.get(schemaOf(found))
  return ofObject(hint?.of as z.ZodObject)
}
