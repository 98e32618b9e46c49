import { z } from 'zod'
import { BASES, type Basis } from '../quantity/basis.ts'
import type { DefaultOverrides } from '../quantity/defaults.ts'
import { DIMENSIONS, fieldOf, isDimension } from '../quantity/dimension.ts'
import { isMapping } from './fault.ts'
import type { Field } from './field.ts'
import { hints, kindOf } from './piece.ts'
import type { Tree } from './record.ts'
import { readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'

const WIDTH: Field = { form: 'width', dimension: 'any', is: 'Half-width: ± 20 %, or absolute ± 0.5 mm.' }
const NAMES: readonly string[] = [...DIMENSIONS, 'else']

/** Widths by basis and dimension that hold in this sheet instead of those of the table, `else` for all other dimensions. */
export type DefaultWidths = Readonly<Partial<Record<Basis, Readonly<Record<string, Stated>>>>>

export const defaultWidths: z.ZodType<DefaultWidths, unknown> = z
  .unknown()
  .transform((input, context): DefaultWidths => {
    const wrong = (what: string, mend: string, path: string[]): void => {
      context.issues.push({
        code: 'custom',
        input,
        message: what,
        path,
        params: { mend, ...(path.length > 0 && { key: true }) },
      })
    }
    const read: { [B in Basis]?: Record<string, Stated> } = {}
    if (!isMapping(input)) {
      wrong(`${kindOf(input)} where widths by basis are expected`, 'write defaults: { judged: { length: ± 20 % } }', [])
      return read
    }
    for (const basis of Object.keys(input)) {
      const widths = input[basis]
      if (!BASES.includes(basis as Basis)) wrong(`unknown basis "${basis}"`, didYouMean(basis, BASES), [basis])
      else if (!isMapping(widths))
        wrong(`${kindOf(widths)} where widths by dimension are expected`, 'write judged: { length: ± 20 % }', [basis])
      else {
        read[basis as Basis] = {}
        for (const name of Object.keys(widths)) {
          if (NAMES.includes(name))
            (read[basis as Basis] as Record<string, Stated>)[name] = readStated(widths[name], WIDTH)
          else wrong(`unknown dimension "${name}"`, didYouMean(name, NAMES), [basis, name])
        }
      }
    }
    return read
  })
hints.set(defaultWidths, {
  hint: 'map',
  is: 'Widths of values that state none, by basis and dimension: judged: { length: ± 20 % }.',
})

const made = new WeakMap<object, DefaultOverrides>()
const NONE: DefaultOverrides = {}

/** The same as the table of defaults takes them. @param tree the section as typed: the same one gives the same answer */
export function overridesOf(widths: DefaultWidths | undefined, tree: Tree | undefined): DefaultOverrides {
  if (!widths || typeof tree !== 'object') return NONE
  const known = made.get(tree)
  if (known) return known
  const overrides: { [B in Basis]?: Record<string, { relative?: number; absolute?: number; why: string }> } = {}
  for (const [basis, byName] of Object.entries(widths)) {
    const own: Record<string, { relative?: number; absolute?: number; why: string }> = {}
    for (const [name, stated] of Object.entries(byName)) {
      const reading = stated.claims[0]?.reading
      if (reading?.form !== 'scalar' || !reading.own) continue
      own[name] = {
        ...(reading.own.mode === 'scale' ? { relative: reading.value } : { absolute: reading.value }),
        why: 'set in the sheet',
      }
    }
    overrides[basis as Basis] = own
  }
  made.set(tree, overrides)
  return overrides
}

/** An absolute width has to be of the dimension it is for. */
export function wrongWidths(
  widths: DefaultWidths | undefined,
): readonly { readonly basis: string; readonly name: string }[] {
  return Object.entries(widths ?? {}).flatMap(([basis, byName]) =>
    Object.entries(byName).flatMap(([name, stated]) => {
      const reading = stated.claims[0]?.reading
      if (reading?.form !== 'scalar' || reading.own?.mode !== 'add') return []
      const fits = isDimension(name) && fieldOf(name).si.exponents.join() === reading.unit.exponents.join()
      return fits ? [] : [{ basis, name }]
    }),
  )
}
