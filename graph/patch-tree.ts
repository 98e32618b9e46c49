import { isList, isMapping } from './record/fault.ts'
import type { Tree } from './record/record.ts'
import { idOfHeat, idOfPair } from './record/relation-id.ts'

/** An edit that does not fit the record, with what mends it; the record is untouched. */
export class PatchError extends Error {
  readonly at: string
  readonly mend: string

  constructor(what: string, at: string, mend: string) {
    super(what)
    this.name = 'PatchError'
    this.at = at
    this.mend = mend
  }
}

export type Mapping = { readonly [key: string]: Tree }

export function onEntry(
  list: readonly Tree[],
  id: string,
  path: string,
  change: (entry: Mapping) => Mapping,
): readonly Tree[] {
  const at = list.findIndex((entry) => idOf(entry) === id)
  if (at < 0) throw nothingAt(path)
  return list.map((entry, position) => (position === at ? change(entry as Mapping) : entry))
}

export function without(list: readonly Tree[], id: string, path: string): readonly Tree[] {
  const rest = list.filter((entry) => idOf(entry) !== id)
  if (rest.length === list.length) throw nothingAt(path)
  return rest
}

/** Id of an entry as typed, or the one derived from its content. */
export function idOf(entry: Tree): string | undefined {
  if (!isMapping(entry)) return undefined
  if (typeof entry.id === 'string') return entry.id
  if (typeof entry.from === 'string' && typeof entry.to === 'string') return idOfHeat(entry.from, entry.to)
  if (isList(entry.between)) return idOfPair(entry.between.filter((one) => typeof one === 'string'))
  const name = entry.part ?? entry.kind
  return typeof name === 'string' ? lastName(name) : undefined
}

export function mapping(tree: Tree, path: string): Mapping {
  if (isMapping(tree)) return tree
  throw nothingAt(path)
}

export function listAt(tree: Mapping, key: string): readonly Tree[] {
  const there = tree[key]
  return isList(there) ? there : []
}

export const lastName = (path: string): string => path.split('/').at(-1)!.split('.')[0]!

export const shorten = (path: string): string => path.replace(/^parts\//, '')

export function nothingAt(path: string): PatchError {
  return new PatchError(`there is nothing at "${path}"`, path, 'lidoff show ID lists the paths of a record')
}
