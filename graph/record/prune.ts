import { type Fault, isList, isMapping, type Key, type TreePath } from './fault.ts'
import type { Tree } from './record.ts'

/** Without these an entry is nothing, and what refers to it would be told as well. */
const NEEDED: ReadonlySet<Key> = new Set([
  'id',
  'class',
  'kind',
  'between',
  'from',
  'to',
  'count',
  'each',
  'faces',
  'parts',
])

/**
 * The tree without what does not fit its structure, so that everything else in it can be told in the same reading.
 * Undefined when what does not fit holds others: their faults would follow from it.
 */
export function pruned(tree: Tree, faults: readonly Fault[]): Tree | undefined {
  let left: Tree | undefined = tree
  for (const { at, what } of faults) {
    if (left === undefined || what.endsWith('is missing')) return undefined
    const cut = cutAt(at)
    left = cut && without(left, cut)
  }
  return left
}

/** The nearest key above a place that can be left out. */
function cutAt(at: TreePath): TreePath | undefined {
  const last = at.at(-1)
  if (at.length < 2 || last === undefined) return undefined
  if (typeof last === 'number') return cutAt(at.slice(0, -1))
  return NEEDED.has(last) ? undefined : at
}

/** Nothing is left out of a list: its other entries keep their places. */
function without(tree: Tree, at: TreePath): Tree | undefined {
  const [key, ...rest] = at
  if (key === undefined || typeof tree === 'string') return tree
  if (isList(tree)) {
    const below = typeof key === 'number' ? tree[key] : undefined
    const left = below === undefined || rest.length === 0 ? undefined : without(below, rest)
    return left === undefined ? undefined : tree.map((one, n) => (n === key ? left : one))
  }
  if (!isMapping(tree) || typeof key !== 'string') return undefined
  const below = tree[key]
  if (below === undefined) return tree
  const { [key]: _cut, ...others } = tree
  if (rest.length === 0) return others
  const left = without(below, rest)
  return left === undefined ? undefined : { ...others, [key]: left }
}
