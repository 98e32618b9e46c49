import type { Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import { DomainError } from '../../physics/method.ts'

/** What a read gives, or undefined where it lacks: the lack is then reported by whoever cannot do without. */
export function known<T>(view: View, read: () => T): T | undefined {
  return view.first<T | undefined>([
    { name: 'known', read },
    { name: 'lacking', read: () => undefined },
  ]).value
}

/** The first of several values that is on record; with none of them, all are named as ways out. */
export function firstOf(view: View, paths: readonly Path[]): number {
  for (const path of paths) {
    const value = view.may(path)
    if (value !== undefined) return value
  }
  return view.first(paths.map((path) => ({ name: path, read: () => view.need({ value: path }).value }))).value
}

/** A computation whose impossible arguments (zero area, negative flow) are gaps of one place, not of the whole network. */
export function sound<T>(view: View, at: Path, run: () => T): T {
  try {
    return run()
  } catch (error) {
    if (error instanceof DomainError) return view.fail(`${at}: ${error.message}`, 'refused', at)
    throw error
  }
}
