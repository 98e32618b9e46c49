import { openBook } from './book.ts'
import { checkIds } from './check/ids.ts'
import { checkRecord } from './check/record.ts'
import { tooLong, tooMany } from './check/size.ts'
import { overridesOf, wrongWidths } from './default-widths.ts'
import { enterSheet } from './enter-sheet.ts'
import { childOf, type Fault, pathOfPlace } from './fault.ts'
import { instrumentDoubts } from './instruments.ts'
import { withNets } from './nets-used.ts'
import { partIndex } from './part-index.ts'
import { partSeed } from './pieces.ts'
import { pruned } from './prune.ts'
import { type ReadBack, readBacks } from './read-back.ts'
import type { TeardownRecord, Tree } from './record.ts'
import { type Sheet, sheet as schema } from './sheet-schema.ts'
import { faultsOf } from './zod-fault.ts'

/** How a text was read, for whoever typed it. */
export type Reading = ReadBack

/** What a tree was read as: a record, or everything that is wrong with it. */
export type FromTree =
  | { readonly record: TeardownRecord; readonly warnings: readonly Fault[]; readonly readings: readonly Reading[] }
  | { readonly faults: readonly Fault[]; readonly warnings: readonly Fault[] }

/**
 * Reads a tree, as typed or after an edit, into a record. Pure, and quick enough to be called for every edit: texts and
 * parts that were read before are remembered.
 */
export function recordFromTree(tree: Tree): FromTree {
  const long = tooLong(tree)
  if (long) return { faults: named([long], tree), warnings: [] }
  const ids = checkIds(tree)
  const read = schema.safeParse(tree)
  if (read.success) return recordOf(read.data, tree, ids)
  const wrong = [...ids, ...faultsOf(read.error, tree)]
  const further = furtherFaults(tree, wrong)
  return { faults: named([...wrong, ...further.faults], tree), warnings: named(further.warnings, tree) }
}

/** What else is wrong, apart from what does not fit the structure. */
function furtherFaults(tree: Tree, wrong: readonly Fault[]): { faults: readonly Fault[]; warnings: readonly Fault[] } {
  const left = pruned(tree, wrong)
  const read = left === undefined ? undefined : schema.safeParse(left)
  if (left === undefined || !read?.success) return { faults: [], warnings: [] }
  const found = recordOf(read.data, left, [])
  return { faults: 'faults' in found ? found.faults : [], warnings: found.warnings }
}

function recordOf(typed: Sheet, tree: Tree, ids: readonly Fault[]): FromTree {
  const parts = partIndex((typed.parts ?? []).map(partSeed))
  const many = tooMany(parts)
  if (many) return { faults: named([...ids, many], tree, typed), warnings: [] }
  const { sheet, nets } = withNets(typed, parts)
  const book = openBook(
    instrumentDoubts(typed.instruments, childOf(tree, 'instruments')),
    overridesOf(typed.defaults, childOf(tree, 'defaults')),
  )
  for (const { basis, name } of wrongWidths(typed.defaults)) {
    const mend = name === 'else' ? 'write it relative: ± 20 %' : `a width of ${name}, or relative: ± 20 %`
    book.faults.push({ at: ['defaults', basis, name], what: `a width that does not fit ${name}`, mend })
  }
  book.faults.push(...ids)
  if (ids.length > 0) return { faults: named(ids, tree, typed), warnings: [] }
  enterSheet(book, sheet, { tree, parts, nets })
  const { facts, influences } = book
  const record: TeardownRecord = { id: typed.id, title: typed.title, tree, sheet, parts, facts, influences }
  checkRecord(record, book)
  const warnings = named(book.warnings, tree, typed)
  if (book.faults.length > 0) return { faults: named(book.faults, tree, typed), warnings }
  let readings: readonly Reading[] | undefined
  return {
    record,
    warnings,
    get readings() {
      readings ??= readBacks(book)
      return readings
    },
  }
}

/** Most faults that are told of one sheet: whoever mends these comes back for the rest. */
const MOST = 200

/** Each fault once, with its canonical path; a key that is wrong belongs to what it stands in. */
function named(faults: readonly Fault[], tree: Tree, typed?: Sheet): readonly Fault[] {
  const once = new Map<string, Fault>()
  for (const fault of faults) {
    if (once.size >= MOST) break
    const key = `${fault.at.join('\u0000')}\u0001${fault.what}`
    if (once.has(key)) continue
    const place = fault.key && fault.what.startsWith('unknown') ? fault.at.slice(0, -1) : fault.at
    once.set(key, { ...fault, path: fault.path ?? pathOfPlace(tree, place, derivedId(typed, place)) })
  }
  return [...once.values()]
}

/** The id that an entry of a section got from its content. */
function derivedId(typed: Sheet | undefined, at: Fault['at']): string | undefined {
  const section: unknown = typed?.[at[0] as keyof Sheet]
  const entry: unknown = Array.isArray(section) && typeof at[1] === 'number' ? section[at[1]] : undefined
  return typeof entry === 'object' && entry !== null && 'id' in entry && typeof entry.id === 'string'
    ? entry.id
    : undefined
}
