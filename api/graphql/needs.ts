import {
  type GraphQLField,
  type GraphQLResolveInfo,
  getArgumentValues,
  getNamedType,
  isObjectType,
  Kind,
  type SelectionSetNode,
} from 'graphql'

/**
 * What must be fetched before a field can answer without waiting. Fields say it in their `extensions`; root resolvers
 * gather it from the query, fetch once, and everything below them is synchronous.
 */
export type Need = 'body' | 'parts' | 'figures' | 'working' | 'traits' | 'checks'

export interface Selected {
  readonly field: GraphQLField<unknown, unknown>
  readonly args: Readonly<Record<string, unknown>>
  readonly needs: Need | undefined
}

/** Every field selected anywhere under the one that is being resolved, each occurrence with its arguments. */
export function selectedUnder(info: GraphQLResolveInfo): readonly Selected[] {
  const found: Selected[] = []
  const seen = new Set<SelectionSetNode>()
  const visit = (set: SelectionSetNode, typeName: string): void => {
    if (seen.has(set)) return
    seen.add(set)
    for (const selection of set.selections) {
      if (selection.kind === Kind.FIELD) {
        const type = info.schema.getType(typeName)
        const field = isObjectType(type) ? type.getFields()[selection.name.value] : undefined
        if (!field) continue
        const needs = field.extensions.needs as Need | undefined
        found.push({ field, needs, args: getArgumentValues(field, selection, info.variableValues) })
        if (selection.selectionSet) visit(selection.selectionSet, getNamedType(field.type).name)
      } else {
        const inner = selection.kind === Kind.FRAGMENT_SPREAD ? info.fragments[selection.name.value] : selection
        if (inner) visit(inner.selectionSet, inner.typeCondition?.name.value ?? typeName)
      }
    }
  }
  for (const node of info.fieldNodes) {
    if (node.selectionSet) visit(node.selectionSet, getNamedType(info.returnType).name)
  }
  return found
}
