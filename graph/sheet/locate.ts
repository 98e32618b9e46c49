import { isAlias, isMap, isNode, isScalar, isSeq, LineCounter, type Node, type Pair, parseDocument } from 'yaml'
import type { Fault, TreePath } from '../record/fault.ts'
import type { Complaint } from './complaint.ts'
import { placeAt } from './gate.ts'

/** Above this a sheet is far larger than any specimen needs, and is not parsed a second time only to point [characters]. */
export const LARGE_TO_POINT = 400_000

/** Finds where in the text a place of the tree stands. Slow: made only when something is to be told. */
export function locator(text: string, file: string): (fault: Fault) => Complaint {
  if (text.length > LARGE_TO_POINT) return (fault) => complaint(fault, file, placeAt(text, nearKey(text, fault.at)))
  const lines = new LineCounter()
  const document = parseDocument(text, {
    schema: 'failsafe',
    lineCounter: lines,
    maxAliasCount: 0,
    uniqueKeys: false,
    logLevel: 'silent',
  } as never)
  const root = document.contents
  return (fault) => {
    const offset = isNode(root) ? offsetOf(root, fault) : 0
    const { line, col } = lines.linePos(offset)
    return complaint(fault, file, { line: line || 1, column: col || 1 })
  }
}

function complaint({ path = '', what, mend }: Fault, file: string, at: { line: number; column: number }): Complaint {
  return { file, ...at, path, what, mend }
}

/** Where the keys of a path first follow each other: near enough to look for, in one pass. */
function nearKey(text: string, at: TreePath): number {
  let offset = 0
  for (const key of at) {
    if (typeof key !== 'string' || key.length > 100) continue
    const found = text.indexOf(`${key}:`, offset)
    if (found < 0) break
    offset = found
  }
  return offset
}

function offsetOf(root: Node, fault: Fault): number {
  const found = find(root, fault.at)
  const node = fault.key && found.key ? found.key : found.node
  const start = node.range?.[0] ?? 0
  if (fault.offset === undefined || !found.whole || !isScalar(node)) return start
  const quoted = node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE' ? 1 : 0
  const end = node.range?.[1] ?? start
  return Math.min(start + quoted + fault.offset, Math.max(start, end - 1))
}

interface Found {
  readonly node: Node
  /** Of the last step. */
  readonly key?: Node
  /** Whether every step was found. */
  readonly whole: boolean
}

/** Goes as far along a path as the document does. */
function find(root: Node, at: TreePath): Found {
  let found: Found = { node: root, whole: true }
  for (const step of at) {
    const next = below(found.node, step)
    if (!next) return { ...found, whole: false }
    found = next
  }
  return found
}

function below(node: Node, step: string | number): Found | undefined {
  if (isAlias(node)) return undefined
  if (isSeq(node)) {
    const item = typeof step === 'number' ? node.items[step] : undefined
    return isNode(item) ? { node: item, whole: true } : undefined
  }
  if (!isMap(node)) return undefined
  const pair = node.items.find((one: Pair) => isScalar(one.key) && keyText(one.key) === String(step))
  if (!pair || !isNode(pair.key)) return undefined
  return { node: isNode(pair.value) ? pair.value : pair.key, key: pair.key, whole: true }
}

function keyText(key: { readonly value: unknown; readonly source?: string }): string {
  return typeof key.value === 'string' ? key.value : (key.source ?? String(key.value))
}
