import { isList, isMapping } from './record/fault.ts'
import type { Tree } from './record/record.ts'
import {
  idOfCensus,
  idOfHeat,
  idOfLayer,
  idOfList,
  idOfMetric,
  idOfPair,
  idOfPhoto,
  idOfSpacing,
  idOfStep,
} from './record/relation-id.ts'
import { SPACING_KINDS } from './record/spacing.ts'

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

/** Id of an entry as typed, or the one that is derived from its content. */
export function idOf(entry: Tree): string | undefined {
  if (!isMapping(entry)) return undefined
  const { id, from, to, between, kind, metric, subject, file, about, of, part } = entry
  if (isText(id)) return id
  if (isText(from) && isText(to)) return idOfHeat(from, to)
  if (between !== undefined) return idOfBetween(texts(between), kind)
  if (isText(metric)) return idOfMetric(metric, isText(subject) ? subject : 'specimen')
  if (isText(file)) return idOfPhoto(file)
  if (about !== undefined) return idOfList(texts(about))
  if (isText(of)) return idOfCensus(of, texts(entry.across))
  const takes = entry['takes-off'] ?? entry.cuts
  const provesDead = entry['proved-dead'] !== undefined
  if (provesDead || takes !== undefined) return idOfStep(provesDead, texts(takes))
  if (isText(part) || isText(kind)) return idOfLayer(isText(part) ? part : undefined, isText(kind) ? kind : undefined)
  return undefined
}

function idOfBetween(between: readonly string[], kind: Tree | undefined): string {
  return isText(kind) && (SPACING_KINDS as readonly string[]).includes(kind)
    ? idOfSpacing(kind, between)
    : idOfPair(between)
}

const isText = (tree: Tree | undefined): tree is string => typeof tree === 'string'

/** What may be typed as one text or as a list of them. */
export function texts(tree: Tree | undefined): readonly string[] {
  return (isList(tree) ? tree : [tree]).filter(isText)
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
