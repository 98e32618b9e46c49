import { at, type Place, placeToPath } from '../book.ts'
import { type Fault, isList } from '../fault.ts'
import type { PartIndex } from '../part-index.ts'
import type { Tree } from '../record.ts'

/** Most entries in one list or mapping, and most physical pieces in one record. A specimen has a few thousand parts. */
const MOST_ENTRIES = 20_000
const MOST_PIECES = 50_000

/** A list that no specimen needs, and that would take long to complain about. */
export function tooLong(tree: Tree, place: Place | null = null): Fault | undefined {
  if (typeof tree === 'string') return undefined
  const keys = isList(tree) ? undefined : Object.keys(tree)
  const entries = isList(tree) ? tree.length : (keys?.length ?? 0)
  if (entries > MOST_ENTRIES) {
    const what = `${entries} entries in one ${keys ? 'mapping' : 'list'}; up to ${MOST_ENTRIES} are read`
    return { at: placeToPath(place), what, mend: 'write alike parts as one entry with a count' }
  }
  for (let n = 0; n < entries; n++) {
    const key = keys?.[n] ?? n
    const below = (tree as Readonly<Record<string | number, Tree>>)[key]
    const fault = typeof below === 'object' ? tooLong(below, at(place, key)) : undefined
    if (fault) return fault
  }
  return undefined
}

/** Nested counts multiply: told before the pieces are made. */
export function tooMany(index: PartIndex): Fault | undefined {
  const pieces = new Map<string, number>()
  let all = 0
  for (const { id, parent, pieces: own } of index.entries) {
    const here = (parent ? (pieces.get(parent.id) ?? 1) : 1) * Math.max(1, own.length)
    pieces.set(id, here)
    all += here
  }
  if (all <= MOST_PIECES) return undefined
  return {
    at: ['parts'],
    what: `${all} pieces in all; up to ${MOST_PIECES} are kept`,
    mend: 'counts inside a repeated part are of one piece: check them',
  }
}
