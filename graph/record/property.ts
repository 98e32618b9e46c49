import { z } from 'zod'
import { isMapping } from './fault.ts'
import type { Field } from './field.ts'
import { isId } from './ids.ts'
import { fact, factsOf, hints, section } from './piece.ts'
import { readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'

export type Property = Stated | { readonly [name: string]: Stated }

/** A property of a class: one value, one for each of some names, or a mapping of its own fields. */
export function property(field: Field): z.ZodType<Property, unknown> {
  if (field.fields) return section(factsOf(field.fields)) as unknown as z.ZodType<Property, unknown>
  if (!field.by) return fact(field)
  const known = byName.get(field)
  if (known) return known
  const made = named(field, field.by)
  byName.set(field, made)
  hints.set(made, { hint: 'fact', field })
  return made
}
const byName = new Map<Field, z.ZodType<Property, unknown>>()

function named(field: Field, names: readonly string[] | 'any'): z.ZodType<Property, unknown> {
  return z.unknown().transform((input, context): Property => {
    if (!isMapping(input) || 'value' in input || 'claims' in input || 'readings' in input)
      return readStated(input, field)
    const values: Record<string, Stated> = {}
    for (const name of Object.keys(input)) {
      if (names === 'any' ? isId(name) : names.includes(name)) values[name] = readStated(input[name], field)
      else {
        const mend = names === 'any' ? 'small letters, digits and hyphens' : didYouMean(name, names)
        context.issues.push({
          code: 'custom',
          input,
          message: `unknown key "${name}"`,
          path: [name],
          params: { mend, key: true },
        })
      }
    }
    return values
  })
}
