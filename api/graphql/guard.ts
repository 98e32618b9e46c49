import {
  type DocumentNode,
  type FieldNode,
  type FragmentDefinitionNode,
  type GraphQLField,
  type GraphQLSchema,
  getNamedType,
  getNullableType,
  isCompositeType,
  isListType,
  isObjectType,
  Kind,
  type OperationDefinitionNode,
  type SelectionNode,
  type SelectionSetNode,
} from 'graphql'
import { Fault } from '../errors.ts'

/** How much one query may ask for. Honest queries stay far below; the cost of a list is what stands in it, times its size. */
export const LIMITS = { tokens: 2000, depth: 12, rootFields: 30, aliases: 30, directives: 20, cost: 200_000 } as const

/** A list whose size neither `first` nor the field's `many` tells. */
const MANY_UNKNOWN = 10

export interface Weight {
  readonly cost: number
  readonly depth: number
  readonly aliases: number
  readonly directives: number
  readonly rootFields: number
}

export type Variables = Readonly<Record<string, unknown>>

/** What a field says of itself in its `extensions`: cost of one answer, and how many a list is likely to hold at most. */
export interface FieldWeight {
  readonly cost?: number
  readonly many?: number
}

/** Refuses a query that asks for too much, before anything of it is run. */
export function guardQuery(schema: GraphQLSchema, document: DocumentNode, variables: Variables, name?: string): Weight {
  const weight = weigh(schema, document, variables, name)
  const over = (['depth', 'aliases', 'directives', 'rootFields', 'cost'] as const).find(
    (key) => weight[key] > LIMITS[key],
  )
  if (!over) return weight
  const mend =
    over === 'cost' ? 'ask for fewer with "first", or for fewer fields under the lists' : 'ask for less in one query'
  throw new Fault(
    'QUERY_COSTLY',
    `the query's ${WORDS[over]} is ${weight[over]}, and at most ${LIMITS[over]} is answered`,
    mend,
    {
      [over]: weight[over],
      limit: LIMITS[over],
    },
  )
}

const WORDS = {
  depth: 'depth',
  aliases: 'number of aliases',
  directives: 'number of directives',
  rootFields: 'number of root fields',
  cost: 'cost',
} as const

/** Weighs the operation that would run. Fragments are weighed once for each type and size they are spread under. */
export function weigh(schema: GraphQLSchema, document: DocumentNode, variables: Variables, name?: string): Weight {
  const operation = operationOf(document, name)
  if (!operation) return { cost: 0, depth: 0, aliases: 0, directives: 0, rootFields: 0 }
  const fragments = new Map(
    document.definitions.flatMap((one) =>
      one.kind === Kind.FRAGMENT_DEFINITION ? [[one.name.value, one] as const] : [],
    ),
  )
  const scale = {
    schema,
    fragments,
    variables: withDefaults(operation, variables),
    known: new Map<SelectionSetNode, Part>(),
  }
  const root = schema.getRootType(operation.operation)?.name ?? 'Query'
  const part = weighSet(scale, operation.selectionSet, root)
  return { ...part, depth: part.depth, rootFields: rootFields(operation.selectionSet, fragments) }
}

type Part = Omit<Weight, 'rootFields'>

interface Scale {
  readonly schema: GraphQLSchema
  readonly fragments: ReadonlyMap<string, FragmentDefinitionNode>
  readonly variables: Variables
  readonly known: Map<SelectionSetNode, Part>
}

function weighSet(scale: Scale, set: SelectionSetNode, typeName: string): Part {
  const known = scale.known.get(set)
  if (known) return known
  const parts = set.selections.map((selection) => weighSelection(scale, selection, typeName))
  const sum = (key: keyof Part): number => parts.reduce((total, part) => total + part[key], 0)
  const part: Part = {
    cost: sum('cost'),
    depth: parts.reduce((deepest, one) => Math.max(deepest, one.depth), 0),
    aliases: sum('aliases'),
    directives: sum('directives'),
  }
  scale.known.set(set, part)
  return part
}

function weighSelection(scale: Scale, selection: SelectionNode, typeName: string): Part {
  const directives = selection.directives?.length ?? 0
  if (selection.kind === Kind.FIELD) return weighField(scale, selection, typeName, directives)
  const fragment = selection.kind === Kind.FRAGMENT_SPREAD ? scale.fragments.get(selection.name.value) : selection
  if (!fragment) return { cost: 0, depth: 0, aliases: 0, directives }
  const inside = weighSet(scale, fragment.selectionSet, fragment.typeCondition?.name.value ?? typeName)
  return { ...inside, directives: inside.directives + directives }
}

function weighField(scale: Scale, node: FieldNode, typeName: string, directives: number): Part {
  const own = { aliases: node.alias ? 1 : 0, directives }
  // Introspection answers from the schema alone, and graphql has a depth rule of its own for it.
  if (node.name.value.startsWith('__')) return { ...own, cost: 1, depth: 1 }
  const field = fieldOf(scale.schema, typeName, node.name.value)
  if (!field) return { ...own, cost: 1, depth: 1 }
  const weight = field.extensions as FieldWeight
  const inner = getNamedType(field.type)
  const under =
    node.selectionSet && isCompositeType(inner)
      ? weighSet(scale, node.selectionSet, inner.name)
      : { cost: 0, depth: 0, aliases: 0, directives: 0 }
  return {
    cost: (weight.cost ?? 1) + manyOf(scale, node, field, weight) * under.cost,
    depth: under.depth + 1,
    aliases: own.aliases + under.aliases,
    directives: own.directives + under.directives,
  }
}

/** How many answers stand under a field: what `first` says, else what the field says, else one, or a guess for a list. */
function manyOf(scale: Scale, node: FieldNode, field: GraphQLField<unknown, unknown>, weight: FieldWeight): number {
  const first = node.arguments?.find((argument) => argument.name.value === 'first')?.value
  if (first?.kind === Kind.INT) return Math.max(1, Number(first.value))
  if (first?.kind === Kind.VARIABLE && typeof scale.variables[first.name.value] === 'number') {
    return Math.max(1, scale.variables[first.name.value] as number)
  }
  if (weight.many !== undefined) return weight.many
  return isListType(getNullableType(field.type)) ? MANY_UNKNOWN : 1
}

function fieldOf(schema: GraphQLSchema, typeName: string, name: string): GraphQLField<unknown, unknown> | undefined {
  const type = schema.getType(typeName)
  return isObjectType(type) ? type.getFields()[name] : undefined
}

function operationOf(document: DocumentNode, name?: string): OperationDefinitionNode | undefined {
  const all = document.definitions.filter((one) => one.kind === Kind.OPERATION_DEFINITION)
  return name ? all.find((one) => one.name?.value === name) : all[0]
}

/** Numbers that the operation itself gives a variable that was not sent. */
function withDefaults({ variableDefinitions }: OperationDefinitionNode, variables: Variables): Variables {
  const defaults = (variableDefinitions ?? []).flatMap(({ variable, defaultValue }) =>
    defaultValue?.kind === Kind.INT ? [[variable.name.value, Number(defaultValue.value)] as const] : [],
  )
  return { ...Object.fromEntries(defaults), ...variables }
}

/** Root fields, those of fragments included; validation has refused cycles. */
function rootFields(set: SelectionSetNode, fragments: ReadonlyMap<string, FragmentDefinitionNode>): number {
  const counted = new Map<SelectionSetNode, number>()
  const count = (one: SelectionSetNode): number => {
    const known = counted.get(one)
    if (known !== undefined) return known
    const total = one.selections.reduce((sum, selection) => {
      if (selection.kind === Kind.FIELD) return sum + 1
      const inner = selection.kind === Kind.FRAGMENT_SPREAD ? fragments.get(selection.name.value) : selection
      return sum + (inner ? count(inner.selectionSet) : 0)
    }, 0)
    counted.set(one, total)
    return total
  }
  return count(set)
}
