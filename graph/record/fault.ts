import type { Tree } from './record.ts'

export type Key = string | number
/** Where in the tree: keys and list positions from the top. For pointing at the text only; paths of things never hold positions. */
export type TreePath = readonly Key[]

/** One thing wrong (or, as a warning, doubtful) in a tree, and what mends it. */
export interface Fault {
  readonly at: TreePath
  /** Points at the key rather than at what stands behind it. */
  readonly key?: true
  /** Characters into the scalar. */
  readonly offset?: number
  readonly what: string
  readonly mend: string
  /** Canonical path, when it is known; otherwise told from the tree. */
  readonly path?: string
}

/** Keys that group things in a sheet and leave no trace in a canonical path. */
export const SILENT_KEYS: ReadonlySet<string> = new Set(['layers', 'passages', 'faces', 'claims'])

interface PartStep {
  readonly name: string
  readonly repeated: boolean
}

/**
 * The nearest canonical path to a place in the tree, for a message about something that could not be read.
 *
 * @param derived id of the entry of a section, where the tree gives it none
 */
export function pathOfPlace(tree: Tree, at: TreePath, derived?: string): string {
  let here: Tree | undefined = tree
  let chain: readonly PartStep[] = []
  let rest: string[] = []
  for (const [depth, key] of at.entries()) {
    const before = at[depth - 1]
    here = childOf(here, key)
    if (before === 'parts' && typeof key === 'number') {
      chain = [...chain.filter(({ repeated }) => repeated), partStep(here, key)]
      rest = []
    } else if (before === 'each') {
      const name = typeof key === 'number' ? String(key + 1) : key
      const last = chain[chain.length - 1]
      if (rest.length > 0) rest.push(`${rest.pop()}.${name}`)
      else if (last) chain = [...chain.slice(0, -1), { name: `${last.name}.${name}`, repeated: true }]
    } else if (key === 'passages' && at[0] === 'coolant') rest = ['coolant']
    else rest.push(...segmentOf(here, key, depth === 1 ? derived : undefined))
  }
  return [...(at[0] === 'parts' ? ['parts'] : []), ...chain.map(({ name }) => name), ...rest].join('/')
}

function partStep(part: Tree | undefined, position: number): PartStep {
  const repeated = childOf(part, 'each') !== undefined || childOf(part, 'count') !== undefined
  return { name: nameOf(part) ?? `(part ${position + 1})`, repeated }
}

function segmentOf(entry: Tree | undefined, key: Key, derived: string | undefined): readonly string[] {
  if (typeof key === 'string') return key === 'each' || key === 'parts' || SILENT_KEYS.has(key) ? [] : [key]
  const name = nameOf(entry) ?? derived
  return name === undefined ? [] : [name]
}

function nameOf(entry: Tree | undefined): string | undefined {
  const id = childOf(entry, 'id')
  return typeof id === 'string' ? id : undefined
}

/** What stands under a key or at a position, if anything. */
export function childOf(tree: Tree | undefined, key: Key): Tree | undefined {
  if (tree === undefined || typeof tree === 'string') return undefined
  if (isList(tree)) return typeof key === 'number' ? tree[key] : undefined
  return Object.hasOwn(tree, key) ? tree[key] : undefined
}

export function isList(tree: unknown): tree is readonly Tree[] {
  return Array.isArray(tree)
}

export function isMapping(tree: unknown): tree is { readonly [key: string]: Tree } {
  return typeof tree === 'object' && tree !== null && !Array.isArray(tree)
}
