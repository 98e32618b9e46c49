import { lexicographicSortSchema, printSchema } from 'graphql'
import './benchmark.ts'
import './calc.ts'
import './claims.ts'
import './connections.ts'
import './coolant.ts'
import './figure.ts'
import './heat.ts'
import './metric.ts'
import './nets.ts'
import './observations.ts'
import './parts.ts'
import './query.ts'
import './suggestion.ts'
import './teardown.ts'
import { builder } from './builder.ts'

/** The schema that is served, each type from its own file. */
export const schema = builder.toSchema({ sortSchema: false })

/** The contract on one page, sorted so that a change of it is a small difference. */
export function printedSchema(): string {
  return `${printSchema(lexicographicSortSchema(schema))}\n`
}
