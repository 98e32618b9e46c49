import type { Path } from '../quantity/quantity.ts'
import { isOfClass, partClassOf } from '../record/part-class.ts'
import type { Context } from './context.ts'

type Census = NonNullable<Context['record']['sheet']['census']>[number]

/** Where somebody must have looked: between two nets, or inside a part; everywhere when neither is given. */
export interface Where {
  readonly across?: readonly [Path, Path] | undefined
  readonly in?: Path | undefined
}

/**
 * Whether somebody says that all of a class were looked for. A search for a group covers its classes; a search for
 * a class covers its group where some of that class are among what was found, for whoever counted those saw the others.
 *
 * @param found classes of what was found
 */
export function counted(context: Context, name: string, where: Where = {}, found: readonly string[] = []): boolean {
  const looked = (context.record.sheet.census ?? []).filter((census) => covers(context, census, where))
  const searched = (one: string): boolean => looked.some(({ of }) => isOfClass(one, partClassOf(of)?.class ?? of))
  return searched(name) || found.some(searched)
}

function covers({ record }: Context, census: Census, { across, in: inside }: Where): boolean {
  if (census.across && !(across && sameNets(census.across, across))) return false
  if (census.in === undefined) return true
  const reference = record.parts.refer(census.in)
  return inside !== undefined && 'entry' in reference && record.parts.pathOf(reference) === inside
}

function sameNets(typed: readonly string[], paths: readonly Path[]): boolean {
  const ids = paths.map((path) => path.replace('nets/', ''))
  return typed.toSorted().join() === ids.toSorted().join()
}
