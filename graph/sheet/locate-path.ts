import { isMap, isNode, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml'
import { LARGE_TO_POINT } from './locate.ts'

export interface Spot {
  readonly line: number
  readonly column: number
}

/**
 * Where in the text of a sheet a canonical path stands: as far along it as the text goes, for derived ids are not in it.
 * Slow: made only when something is to be told.
 */
export function pathLocator(text: string): (path: string) => Spot | null {
  if (text.length > LARGE_TO_POINT) return () => null
  const lines = new LineCounter()
  const options = { schema: 'failsafe', lineCounter: lines, maxAliasCount: 0, uniqueKeys: false, logLevel: 'silent' }
  const root = parseDocument(text, options as never).contents
  return (path) => {
    const found = isNode(root) ? follow(root, path.split('/')) : undefined
    if (!found) return null
    const { line, col } = lines.linePos(found.range?.[0] ?? 0)
    return { line, column: col }
  }
}

function follow(root: Node, steps: readonly string[]): Node | undefined {
  let at: readonly Node[] = [root]
  let told: Node | undefined
  for (const [n, step] of steps.entries()) {
    const [name = '', ...picks] = step.split('.')
    const next = nearest(at, n === 0 ? 1 : DEEPEST, (node) => named(node, step) ?? named(node, name))
    // A derived name is not in the text: of one entry it can only mean that one, of several nobody can tell.
    if (!next && at.some((node) => isSeq(node) && node.items.length > 1)) return told
    if (!next) continue
    told = isScalar(next.value) || !next.key ? next.value : next.key
    // What stands under one piece goes before what stands on all of them.
    const own = picks.flatMap((pick) => nearest([next.value], 2, (node) => named(node, pick))?.value ?? [])
    at = [...own, next.value]
  }
  return told
}

/** Sections nest parts in parts; nothing of a sheet lies deeper below its own name than this. */
const DEEPEST = 6

interface Hit {
  readonly key?: Node
  readonly value: Node
}

/** Breadth first: what stands nearest to a name is meant by it. */
function nearest(from: readonly Node[], depth: number, hit: (node: Node) => Hit | undefined): Hit | undefined {
  let level = from
  for (let n = 0; n < depth && level.length > 0; n++) {
    for (const node of level) {
      const found = hit(node)
      if (found) return found
    }
    level = level.flatMap(children)
  }
  return undefined
}

function children(node: Node): readonly Node[] {
  if (isSeq(node)) return node.items.filter(isNode)
  return isMap(node) ? node.items.flatMap(({ value }) => (isNode(value) ? [value] : [])) : []
}

/** A key of that name, or an entry that is called so. */
function named(node: Node, name: string): Hit | undefined {
  if (!isMap(node)) return undefined
  for (const { key, value } of node.items) {
    if (!isScalar(key) || !isNode(key)) continue
    if (text(key) === name) return { key, value: isNode(value) ? value : key }
    if (CALLED.has(text(key)) && isScalar(value) && asId(text(value)) === name) return { value: node }
  }
  return undefined
}

/** Layers go by their kind or part when nobody gave them an id, observed values by their metric. */
const CALLED = new Set(['id', 'kind', 'part', 'metric'])
const asId = (name: string): string => name.toLowerCase().replaceAll('_', '-')

const text = (scalar: { readonly value: unknown; readonly source?: string }): string =>
  scalar.source ?? String(scalar.value)
