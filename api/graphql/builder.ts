import SchemaBuilder from '@pothos/core'
import type { ApiContext } from './context.ts'

/** Fields are non-null unless they say otherwise: the contract tells which may be silent. */
export const builder = new SchemaBuilder<{
  Context: ApiContext
  DefaultFieldNullability: false
}>({ defaultFieldNullability: false })
