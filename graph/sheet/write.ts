import { isDeepStrictEqual } from 'node:util'
import {
  Document,
  isMap,
  isNode,
  isScalar,
  isSeq,
  type Node,
  Pair,
  parseDocument,
  Scalar,
  YAMLMap,
  YAMLSeq,
} from 'yaml'
import { isList, isMapping } from '../record/fault.ts'
import type { Tree } from '../record/record.ts'
import { treeOf } from './read.ts'

const WRITING = { lineWidth: 0, flowCollectionPadding: true, singleQuote: false } as const
/** Mappings and lists up to this long are written on one line [characters]. */
const ONE_LINE = 96

/**
 * The sheet of a tree, e.g. of a record after an edit. It reads back to the same tree.
 *
 * @param typed the sheet before the edit: what stayed the same keeps its remarks, its order and its form
 */
export function writeSheet(tree: Tree, typed?: string): string {
  if (typed !== undefined && isDeepStrictEqual(treeOf(typed), tree)) return typed
  const document = typed === undefined ? fresh() : parseDocument(typed, { schema: 'failsafe', logLevel: 'silent' })
  const old = isNode(document.contents) ? document.contents : undefined
  document.contents = merged(old, tree, true) as never
  return document.toString(WRITING)
}

function fresh(): Document {
  return new Document(undefined, { schema: 'failsafe' })
}

/** The node for a tree: the old one where it says the same, else the old one with what changed, else a new one. */
function merged(old: Node | undefined, tree: Tree, top = false): Node {
  if (typeof tree === 'string') return isScalar(old) && textOf(old) === tree ? old : words(tree)
  if (isList(tree)) return isSeq(old) ? mergedList(old, tree) : newList(tree)
  return isMap(old) ? mergedMapping(old, tree) : newMapping(tree, top)
}

function textOf(node: Scalar): string {
  return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value))
}

/** Entries are known by their id where they have one, so that a dropped one takes its remarks along and no other's. */
function mergedList(old: YAMLSeq, tree: readonly Tree[]): YAMLSeq {
  const byId = new Map(
    old.items.flatMap((item) => (isNode(item) && idOf(item) !== undefined ? [[idOf(item), item] as const] : [])),
  )
  old.items = tree.map((one, n) => {
    const id = isMapping(one) && typeof one.id === 'string' ? one.id : undefined
    const before = id === undefined ? old.items[n] : byId.get(id)
    return merged(isNode(before) ? before : undefined, one)
  })
  return old
}

function idOf(node: Node): string | undefined {
  const id = isMap(node) ? node.get('id', true) : undefined
  return isScalar(id) ? textOf(id) : undefined
}

function mergedMapping(old: YAMLMap, tree: { readonly [key: string]: Tree }): YAMLMap {
  const left = new Set(Object.keys(tree))
  old.items = old.items.filter(({ key }) => isScalar(key) && left.has(textOf(key)))
  for (const pair of old.items) {
    const key = isScalar(pair.key) ? textOf(pair.key) : ''
    left.delete(key)
    pair.value = merged(isNode(pair.value) ? pair.value : undefined, tree[key] as Tree)
  }
  for (const key of left) old.items.push(new Pair(words(key), merged(undefined, tree[key] as Tree)))
  return old
}

function newMapping(tree: { readonly [key: string]: Tree }, top: boolean): YAMLMap {
  const map = new YAMLMap()
  map.items = Object.keys(tree).map((key) => new Pair(words(key), merged(undefined, tree[key] as Tree)))
  map.flow = !top && shortEnough(tree)
  return map
}

function newList(tree: readonly Tree[]): YAMLSeq {
  const list = new YAMLSeq()
  list.items = tree.map((one) => merged(undefined, one))
  list.flow = shortEnough(tree)
  return list
}

function shortEnough(tree: Tree): boolean {
  const text = JSON.stringify(tree)
  return text.length <= ONE_LINE && !text.includes('\\n')
}

/** Line breaks and other invisible characters are written as escapes; the writer quotes what else needs it. */
const NEEDS_ESCAPES = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|^\s*$/u

function words(text: string): Scalar {
  const scalar = new Scalar(text)
  if (NEEDS_ESCAPES.test(text)) scalar.type = 'QUOTE_DOUBLE'
  return scalar
}
