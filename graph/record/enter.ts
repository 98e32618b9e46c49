import { asPath } from '../quantity/quantity.ts'
import { at, type Book, type Place, type Scope } from './book.ts'
import { enterFact } from './enter-fact.ts'
import { isList, isMapping, SILENT_KEYS } from './fault.ts'
import type { Tree } from './record.ts'
import { isStated } from './stated.ts'

/** Keys that hold no values of the thing in hand. */
const SKIPPED: ReadonlySet<string> = new Set(['also', 'evidence', 'parts', 'count', 'loss-of'])

/** The count of a fitting is a value like any other; that of a part says how many pieces there are. */
const skipped = (key: string, value: object): boolean => SKIPPED.has(key) && !(key === 'count' && isStated(value))

/** Enters every value below, by the keys that lead to it. Lists go by the ids of their entries. */
export function enter(
  book: Book,
  path: string,
  typed: unknown,
  tree: Tree | undefined,
  place: Place | null,
  scope: Scope,
): void {
  if (typeof typed !== 'object' || typed === null) return
  if (isStated(typed)) enterFact(book, asPath(path), typed, place, scope)
  else if (Array.isArray(typed)) enterList(book, path, typed, tree, place, scope)
  else enterMapping(book, path, typed as Readonly<Record<string, unknown>>, tree, place, scope)
}

function enterList(
  book: Book,
  path: string,
  typed: readonly unknown[],
  tree: Tree | undefined,
  place: Place | null,
  scope: Scope,
): void {
  for (const [n, one] of typed.entries()) {
    if (typeof one !== 'object' || one === null || !('id' in one)) continue
    enter(book, `${path}/${String(one.id)}`, one, isList(tree) ? tree[n] : undefined, at(place, n), scope)
  }
}

function enterMapping(
  book: Book,
  path: string,
  typed: Readonly<Record<string, unknown>>,
  tree: Tree | undefined,
  place: Place | null,
  scope: Scope,
): void {
  let n = 0
  for (const key in typed) {
    const value = typed[key]
    const position = n++
    if (typeof value !== 'object' || value === null || skipped(key, value)) continue
    const typedAs = isList(tree) ? position : keyTyped(key, value)
    const below = isList(tree) ? tree[position] : isMapping(tree) ? tree[typedAs] : undefined
    const where = below === undefined ? place : at(place, typedAs)
    const inner = key === 'conditions' ? { ...scope, exact: true } : scope
    if (key === 'each') enterEach(book, path, value as Readonly<Record<string, unknown>>, below, where, scope)
    else enter(book, SILENT_KEYS.has(key) ? path : `${path}/${key}`, value, below, where, inner)
  }
}

/** Where a key stood in the tree when it was typed as part of a list of pins. */
function keyTyped(key: string, value: object): string {
  return 'typed' in value && typeof value.typed === 'string' ? value.typed : key
}

function enterEach(
  book: Book,
  path: string,
  each: Readonly<Record<string, unknown>>,
  tree: Tree | undefined,
  place: Place | null,
  scope: Scope,
): void {
  let n = 0
  for (const name in each) {
    const key = isList(tree) ? n : name
    n += 1
    enter(
      book,
      `${path}.${name}`,
      each[name],
      isList(tree) ? tree[n - 1] : isMapping(tree) ? tree[name] : undefined,
      at(place, key),
      scope,
    )
  }
}
