import { BASES } from '../quantity/basis.ts'
import { CONFIDENCES } from '../quantity/reading.ts'
import type { Fault, TreePath } from '../record/fault.ts'
import type { Tree } from '../record/record.ts'

const NOTE_WORDS: ReadonlySet<string> = new Set([...BASES, ...CONFIDENCES])

/** A tree of texts, lists and mappings only. Keys without a value are what is left of a slip; each is told with its mend. */
export function emptyValues(parsed: unknown): { readonly tree: Tree; readonly faults: readonly Fault[] } {
  const faults: Fault[] = []
  if (typeof parsed !== 'object' || parsed === null || Array.isArray(parsed)) {
    const what = parsed === undefined || parsed === null ? 'the sheet is empty' : 'the sheet is no mapping'
    return { tree: {}, faults: [{ at: [], what, mend: 'start with "lidoff: 1", then id:, title:, specimen: …' }] }
  }
  look(parsed, [], faults)
  return { tree: parsed as Tree, faults }
}

function look(node: object, at: TreePath, faults: Fault[]): void {
  if (Array.isArray(node)) {
    for (const [n, one] of node.entries()) {
      if (one === null) faults.push({ at: [...at, n], what: 'an empty entry in a list', mend: 'leave it out' })
      else if (typeof one === 'object') look(one, [...at, n], faults)
      else if (n > 0 && typeof one === 'string' && NOTE_WORDS.has(one)) faults.push(splitInList(node, n, one, at))
    }
    return
  }
  const mapping = node as Readonly<Record<string, unknown>>
  const broken = Object.keys(mapping).some((key) => mapping[key] === null) ? openBracket(mapping) : undefined
  if (broken !== undefined) faults.push(bracketFault(broken, String(mapping[broken]), at))
  let before: string | undefined
  for (const key of Object.keys(mapping)) {
    const value = mapping[key]
    if (value === null && broken === undefined) faults.push(splitInMapping(mapping, key, before, at))
    else if (typeof value === 'object' && value !== null) look(value, [...at, key], faults)
    before = key
  }
}

/** The key whose value has a bracket that a comma tore apart. */
function openBracket(mapping: Readonly<Record<string, unknown>>): string | undefined {
  return Object.keys(mapping).find((key) => {
    const value = mapping[key]
    return typeof value === 'string' && /\([^)]*$/.test(value)
  })
}

function bracketFault(key: string, value: string, at: TreePath): Fault {
  const what = `the brackets of "${value}" were torn apart: inside braces a comma parts keys, also within brackets`
  const mend = /^\(\s*[-\d]/.test(value)
    ? `write a place as ${key}: 0 / 120 / 250 mm`
    : 'part notes by semicolons: (measured; with caliper)'
  return { at: [...at, key], what, mend }
}

/** `[9.35 kg, measured]`: the comma made two entries of one value. */
function splitInList(list: readonly unknown[], n: number, word: string, at: TreePath): Fault {
  const value = String(list[n - 1])
  return {
    at: [...at, n],
    what: `"${word}" stands as an entry of its own: inside [ ] a comma parts entries`,
    mend: `write it in brackets behind the value: ${value} (${word})`,
  }
}

/** `{ mass: 9.35 kg, measured }` and `{ mass: 9,35 kg }`: inside braces a comma parts keys. */
function splitInMapping(
  node: Readonly<Record<string, unknown>>,
  key: string,
  before: string | undefined,
  at: TreePath,
): Fault {
  const here = { at: [...at, key], key: true as const }
  const value = before === undefined ? undefined : node[before]
  if (typeof value === 'string' && NOTE_WORDS.has(key.split(/[;,(]/)[0]?.trim() ?? '')) {
    return {
      ...here,
      what: `"${key}" became a key: inside braces a comma parts keys`,
      mend: `write it in brackets: ${before}: ${value} (${key})`,
    }
  }
  if (typeof value === 'string' && /^\d/.test(key) && /\d$/.test(value)) {
    return {
      ...here,
      what: `"${value},${key}" was parted at the comma: inside braces it parts keys`,
      mend: `use a point: ${before}: ${value}.${key}`,
    }
  }
  return {
    ...here,
    what: `"${key}" has no value`,
    mend: 'write one, leave the key out, or say: not looked for, absent, not applicable, unreadable',
  }
}
