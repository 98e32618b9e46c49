import { z } from 'zod'
import { isList, isMapping } from './fault.ts'
import { isPieceName } from './ids.ts'
import { hints, kindOf } from './piece.ts'

/** What differs, by the name of the piece, in the order of the sheet. */
export type EachOf<T> = Readonly<Record<string, T>>

/** `each:` as a list (pieces 1, 2, …) or by name. */
export function eachOf<T>(of: z.ZodType<T, unknown>): z.ZodType<EachOf<T>, unknown> {
  const schema = z.unknown().transform((input, context): EachOf<T> => {
    const wrong = (what: string, mend: string, path: (string | number)[] = [], key = false): void => {
      context.issues.push({ code: 'custom', input, message: what, path, params: { mend, ...(key && { key: true }) } })
    }
    const pieces: Record<string, T> = {}
    const read = (one: unknown, name: string, key: string | number): void => {
      const found = of.safeParse(one)
      if (found.success) pieces[name] = found.data
      else
        for (const issue of found.error.issues)
          context.issues.push({ ...issue, input: one, path: [key, ...issue.path] } as never)
    }
    if (isList(input)) for (const [n, one] of input.entries()) read(one, String(n + 1), n)
    else if (isMapping(input)) {
      for (const name of Object.keys(input)) {
        if (isPieceName(name)) read(input[name], name, name)
        else wrong(`"${name}" cannot name a piece`, 'small letters, digits and single hyphens', [name], true)
      }
    } else wrong(`${kindOf(input)} where pieces are expected`, 'write each: { u: {}, v: {} }, or a list')
    return pieces
  })
  hints.set(schema, { hint: 'each', of })
  return schema
}
