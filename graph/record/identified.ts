import type { z } from 'zod'

/** Gives an entry the id that is derived from its content when it has none of its own. */
export function identified<S extends z.ZodType<{ id?: string | undefined }>>(
  schema: S,
  derive: (entry: z.output<S>) => string,
) {
  return schema.transform((entry) => ({ ...entry, id: entry.id ?? derive(entry) }) as z.output<S> & { id: string })
}
