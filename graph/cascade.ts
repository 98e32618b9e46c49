import { idOf } from './patch-tree.ts'
import { type Fault, isList, isMapping, pathOfPlace, type TreePath } from './record/fault.ts'
import { recordFromTree } from './record/from-tree.ts'
import type { TeardownRecord, Tree } from './record/record.ts'

/** A record after something was taken out of it, and what went with it. */
export interface Cleared {
  readonly record: TeardownRecord
  /** Canonical paths of what referred to it and could not stay. */
  readonly also: readonly string[]
  /** What was wrong before anything went along. */
  readonly fault?: Fault
}

/** Taking out a reference may leave an entry that is nothing any more, and what refers to that: so many rounds at most. */
const ROUNDS = 12

/**
 * Reads a tree that something was dropped from. What referred to it goes too (a layer made of it, a joint with it, a
 * remark about it), until the record is sound again. What is wrong otherwise stays wrong.
 */
export function cleared(tree: Tree): Cleared | { readonly fault: Fault; readonly record?: undefined } {
  const also: string[] = []
  let left = tree
  let first: Fault | undefined
  for (let round = 0; round < ROUNDS; round++) {
    const read = recordFromTree(left)
    if ('record' in read) return { record: read.record, also, ...(first && { fault: first }) }
    first ??= read.faults[0]!
    const places = deepestLast(read.faults.map(({ at }) => entryWithout(at)))
    if (places.some((at) => at.length < 2)) break
    for (const at of places.toReversed()) {
      also.push(pathAt(left, at))
      left = without(left, at)
    }
  }
  return { fault: first! }
}

/** What an entry is nothing without: the ends of a path, both sides of a joint, the part of a layer, the face of a cooling. */
const ESSENTIAL: readonly (readonly [list: string, key: string])[] = [
  ['joints', 'between'],
  ['voltages', 'between'],
  ['spacings', 'between'],
  ['heat', 'from'],
  ['heat', 'to'],
  ['layers', 'part'],
  ['cools', 'face'],
  ['doubts', 'flow'],
]

/** The place of what must go: that of a whole entry where what is wrong is essential to it. */
function entryWithout(at: TreePath): TreePath {
  const found = at.findIndex((key, depth) => ESSENTIAL.some(([list, one]) => list === key && one === at[depth + 2]))
  return found < 0 ? at : at.slice(0, found + 2)
}

/** Heat paths and joints seldom have an id of their own: they go by the one derived from their ends. */
function pathAt(tree: Tree, at: TreePath): string {
  const [section, position] = at
  const list = isMapping(tree) && (section === 'heat' || section === 'joints') ? tree[section] : undefined
  const entry = isList(list) && typeof position === 'number' ? list[position] : undefined
  return pathOfPlace(tree, at, entry === undefined ? undefined : idOf(entry))
}

/** Each place once, in the order of the sheet: taken out from the end, positions of the others stay what they are. */
function deepestLast(places: readonly TreePath[]): readonly TreePath[] {
  const byText = new Map(places.map((at) => [at.join('\u0000'), at]))
  const inside = (at: TreePath): boolean =>
    [...byText.values()].some((other) => other.length < at.length && other.every((key, depth) => key === at[depth]))
  return [...byText.values()].filter((at) => !inside(at)).toSorted(compare)
}

function compare(a: TreePath, b: TreePath): number {
  for (const [depth, key] of a.entries()) {
    const other = b[depth]
    if (other === undefined) return 1
    if (key === other) continue
    return typeof key === 'number' && typeof other === 'number' ? key - other : String(key) < String(other) ? -1 : 1
  }
  return -1
}

function without(tree: Tree, [key, ...rest]: TreePath): Tree {
  if (isList(tree)) {
    if (rest.length === 0) return tree.filter((_, n) => n !== key)
    return tree.map((one, n) => (n === key ? without(one, rest) : one))
  }
  if (!isMapping(tree) || typeof key !== 'string') return tree
  const { [key]: below, ...others } = tree
  if (below === undefined || rest.length === 0) return others
  return Object.fromEntries(Object.entries(tree).map(([name, one]) => [name, name === key ? without(one, rest) : one]))
}
