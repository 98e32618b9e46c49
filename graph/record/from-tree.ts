import { at, type Book, openBook, type ReadBack, type Scope } from './book.ts'
import { checkIds } from './check/ids.ts'
import { checkRecord } from './check/record.ts'
import { enter } from './enter.ts'
import { enterMaterials } from './enter-materials.ts'
import { enterParts } from './enter-parts.ts'
import { childOf, type Fault, isMapping, pathOfPlace } from './fault.ts'
import { instrumentDoubts } from './instruments.ts'
import { withNets } from './nets-used.ts'
import { partIndex } from './part-index.ts'
import { partSeed } from './pieces.ts'
import type { TeardownRecord, Tree } from './record.ts'
import { type Sheet, sheet as schema } from './sheet-schema.ts'
import { enterShortForms } from './short-forms.ts'
import { faultsOf } from './zod-fault.ts'

/** How a text was read, for whoever typed it. */
export type Reading = ReadBack

/** What a tree was read as: a record, or everything that is wrong with it. */
export type FromTree =
  | { readonly record: TeardownRecord; readonly warnings: readonly Fault[]; readonly readings: readonly Reading[] }
  | { readonly faults: readonly Fault[]; readonly warnings: readonly Fault[] }

/** Sections whose values are entered as they stand, by the keys that lead to them. */
const SECTIONS = [
  'instruments',
  'materials',
  'joints',
  'voltages',
  'spacings',
  'heat',
  'ambient',
  'loops',
  'boundaries',
  'operating-points',
  'observed',
  'steps',
  'findings',
  'photos',
] as const satisfies readonly (keyof Sheet)[]

/**
 * Reads a tree, as typed or after an edit, into a record. Pure, and quick enough to be called for every edit: texts and
 * parts that were read before are remembered.
 */
export function recordFromTree(tree: Tree): FromTree {
  const ids = checkIds(tree)
  const read = schema.safeParse(tree)
  if (!read.success) return { faults: named([...ids, ...faultsOf(read.error, tree)], tree), warnings: [] }
  const typed = read.data
  const parts = partIndex((typed.parts ?? []).map(partSeed))
  const { sheet, nets } = withNets(typed, parts)
  const book = openBook(instrumentDoubts(typed.instruments, childOf(tree, 'instruments')))
  book.faults.push(...ids)
  const scope = { basis: typed.basis }
  enter(book, 'specimen', withoutShortForms(typed.specimen), childOf(tree, 'specimen'), at(null, 'specimen'), scope)
  for (const name of SECTIONS) enter(book, name, sheet[name], childOf(tree, name), at(null, name), scope)
  for (const { id, net, key } of nets)
    enter(book, `nets/${id}`, net, childOf(childOf(tree, 'nets'), key), at(at(null, 'nets'), key), scope)
  enterShortForms(book, typed, scope)
  enterCoolant(book, typed, tree, scope)
  enterParts(book, parts, typed.parts ?? [], childOf(tree, 'parts'), scope)
  enterMaterials(book)
  const record: TeardownRecord = {
    id: typed.id,
    title: typed.title,
    tree,
    sheet,
    parts,
    facts: book.facts,
    influences: book.influences,
  }
  checkRecord(record, book)
  const warnings = named(book.warnings, tree)
  if (book.faults.length > 0) return { faults: named(book.faults, tree), warnings }
  return { record, warnings, readings: book.readings }
}

function withoutShortForms({
  'peak-power': _peak,
  'continuous-power': _continuous,
  'phase-current': _current,
  'switching-frequency': _frequency,
  ...rest
}: Sheet['specimen']) {
  return rest
}

/** The only circuit lies at `coolant`, one of several at `coolant/<id>`; a passage always at `coolant/<passage>`. */
function enterCoolant(book: Book, { coolant }: Sheet, tree: Tree, scope: Scope): void {
  const below = childOf(tree, 'coolant')
  const single = isMapping(below)
  for (const [n, { passages, ...circuit }] of (coolant ?? []).entries()) {
    const here = single ? below : childOf(below, n)
    const place = single ? at(null, 'coolant') : at(at(null, 'coolant'), n)
    enter(book, circuit.id === undefined ? 'coolant' : `coolant/${circuit.id}`, circuit, here, place, scope)
    enter(book, 'coolant', passages, childOf(here, 'passages'), at(place, 'passages'), scope)
  }
}

/** Each fault once, with its canonical path. */
function named(faults: readonly Fault[], tree: Tree): readonly Fault[] {
  const once = new Map<string, Fault>()
  for (const fault of faults) {
    const key = `${fault.at.join('\u0000')}\u0001${fault.what}`
    if (!once.has(key))
      once.set(key, fault.path === undefined ? { ...fault, path: pathOfPlace(tree, fault.at) } : fault)
  }
  return [...once.values()]
}
