import type { TreePath } from '../fault.ts'
import type { Known } from './known.ts'

/** Ids that were derived from content may come out equal: the sheet is then asked for one. */
export function repeatedIds(known: Known, entries: readonly { readonly id: string }[], at: TreePath): void {
  const seen = new Set<string>()
  for (const [n, { id }] of entries.entries()) {
    if (seen.has(id))
      known.say([...at, n], `two entries of ${at.at(-1)} come out as "${id}"`, 'give one of them an id of its own')
    seen.add(id)
  }
}
