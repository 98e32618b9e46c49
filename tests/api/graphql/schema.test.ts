import {
  type DocumentNode,
  type GraphQLArgument,
  GraphQLEnumType,
  type GraphQLField,
  type GraphQLInputField,
  isEnumType,
  isInputObjectType,
  isIntrospectionType,
  isObjectType,
  isScalarType,
  Kind,
  parse,
  print,
  specifiedScalarTypes,
  validateSchema,
} from 'graphql'
import { describe, expect, it } from 'vitest'
import { fieldName } from '../../../api/calculate.ts'
import { printedSchema, schema } from '../../../api/graphql/schema.ts'
import { calculators } from '../../../queries/calculators.ts'
import { figures } from '../../../queries/figures/registry.ts'
import { PINNED, PINNED_CONDITIONS, PINNED_VALUES } from './pinned.ts'

const ownTypes = Object.values(schema.getTypeMap()).filter(
  (type) => !isIntrospectionType(type) && !specifiedScalarTypes.some(({ name }) => name === type.name),
)

describe('the contract', () => {
  it('is a valid schema', () => {
    expect(validateSchema(schema)).toEqual([])
  })

  it('is the one that is committed: run "npm run schema" after a change', async () => {
    await expect(printedSchema()).toMatchFileSnapshot('../../../api/graphql/schema.graphql')
  })

  it('holds everything that is pinned, by name, argument and nullability', () => {
    expect(pinnedLines(parse(PINNED)).filter((line) => !servedLines().has(line))).toEqual([])
  })

  it.each(Object.entries(PINNED_VALUES))('holds the pinned values of %s', (name, values) => {
    const type = schema.getType(name)
    expect(type).toBeInstanceOf(GraphQLEnumType)
    expect((type as GraphQLEnumType).getValues().map((value) => value.name)).toEqual(
      expect.arrayContaining([...values]),
    )
  })

  it('takes the pinned conditions', () => {
    const type = schema.getType('Conditions')
    expect(isInputObjectType(type) && Object.keys(type.getFields())).toEqual(
      expect.arrayContaining([...PINNED_CONDITIONS]),
    )
  })

  it('has one MetricId a figure and one field of Calc a calculator', () => {
    const metric = schema.getType('MetricId') as GraphQLEnumType
    expect(
      metric
        .getValues()
        .map(({ name }) => name)
        .sort(),
    ).toEqual(figures.map(({ id }) => id).sort())
    const calc = schema.getType('Calc')
    expect(isObjectType(calc) && Object.keys(calc.getFields()).sort()).toEqual(
      calculators.map(({ id }) => fieldName(id)).sort(),
    )
  })
})

describe('descriptions', () => {
  it('stand on every type, field, argument and value', () => {
    const bare = ownTypes.flatMap((type): readonly string[] => {
      const own = type.description ? [] : [type.name]
      if (isEnumType(type))
        return [
          ...own,
          ...type
            .getValues()
            .filter(undescribed)
            .map(({ name }) => `${type.name}.${name}`),
        ]
      if (isScalarType(type)) return own
      if (!isObjectType(type) && !isInputObjectType(type)) return own
      return [
        ...own,
        ...Object.values(type.getFields()).flatMap((field) => [
          ...(undescribed(field) ? [`${type.name}.${field.name}`] : []),
          ...argumentsOf(field)
            .filter(undescribed)
            .map(({ name }) => `${type.name}.${field.name}(${name})`),
        ]),
      ]
    })
    expect(bare).toEqual([])
  })

  // The names of the cursor specification (Relay): edges in Edge types, PageInfo with four fields, the two flags non-null.
  it('lists follow the cursor specification', () => {
    const connections = ownTypes.filter(({ name }) => name.endsWith('Connection'))
    expect(connections.length).toBeGreaterThan(0)
    for (const { name } of connections) {
      const edge = name.replace(/Connection$/, 'Edge')
      expect([...servedLines()]).toEqual(
        expect.arrayContaining([
          `${name}.edges: [${edge}!]!`,
          `${name}.pageInfo: PageInfo!`,
          `${edge}.cursor: String!`,
        ]),
      )
    }
    expect([...servedLines()]).toEqual(
      expect.arrayContaining([
        'PageInfo.hasNextPage: Boolean!',
        'PageInfo.hasPreviousPage: Boolean!',
        'PageInfo.startCursor: String',
        'PageInfo.endCursor: String',
      ]),
    )
  })
})

const undescribed = ({ description }: { readonly description?: string | null | undefined }): boolean => !description

/** `Type.field: [Figure!]!` and `Type.field(metrics): [MetricId!]`, one line a thing that can be relied on. */
function pinnedLines(document: DocumentNode): readonly string[] {
  return document.definitions.flatMap((definition) => {
    if (definition.kind === Kind.OBJECT_TYPE_DEFINITION) {
      return (definition.fields ?? []).flatMap((field) => [
        `${definition.name.value}.${field.name.value}: ${print(field.type)}`,
        ...(field.arguments ?? []).map(
          (argument) => `${definition.name.value}.${field.name.value}(${argument.name.value}): ${print(argument.type)}`,
        ),
      ])
    }
    if (definition.kind !== Kind.INPUT_OBJECT_TYPE_DEFINITION) return []
    return (definition.fields ?? []).map(
      (field) => `${definition.name.value}.${field.name.value}: ${print(field.type)}`,
    )
  })
}

function servedLines(): ReadonlySet<string> {
  return new Set(
    ownTypes.flatMap((type) => {
      if (!isObjectType(type) && !isInputObjectType(type)) return []
      return Object.values(type.getFields()).flatMap((field) => [
        `${type.name}.${field.name}: ${String(field.type)}`,
        ...argumentsOf(field).map(
          (argument) => `${type.name}.${field.name}(${argument.name}): ${String(argument.type)}`,
        ),
      ])
    }),
  )
}

function argumentsOf(field: GraphQLField<unknown, unknown> | GraphQLInputField): readonly GraphQLArgument[] {
  return 'args' in field ? field.args : []
}
