import { at, type Book, type Scope } from './book.ts'
import { enter } from './enter.ts'
import { enterMaterials } from './enter-materials.ts'
import { enterParts } from './enter-parts.ts'
import { childOf, isMapping } from './fault.ts'
import type { NamedNet } from './nets-used.ts'
import type { PartIndex } from './part-index.ts'
import type { Tree } from './record.ts'
import type { Sheet } from './sheet-schema.ts'
import { enterShortForms, withoutShortForms } from './short-forms.ts'

/** Sections whose values are entered as they stand, by the keys that lead to them. */
const SECTIONS = [
  'defaults',
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

/** Enters every value of a sheet by its canonical path. */
export function enterSheet(
  book: Book,
  sheet: Sheet,
  { tree, parts, nets }: { readonly tree: Tree; readonly parts: PartIndex; readonly nets: readonly NamedNet[] },
): void {
  const scope = { basis: sheet.basis }
  enter(book, 'specimen', withoutShortForms(sheet.specimen), childOf(tree, 'specimen'), at(null, 'specimen'), scope)
  for (const name of SECTIONS) enter(book, name, sheet[name], childOf(tree, name), at(null, name), scope)
  const declared = childOf(tree, 'nets')
  for (const { id, net, key } of nets) {
    enter(book, `nets/${id}`, net, childOf(declared, key), at(at(null, 'nets'), key), scope)
  }
  enterShortForms(book, sheet, scope)
  enterCoolant(book, sheet, tree, scope)
  enterParts(book, parts, sheet.parts ?? [], childOf(tree, 'parts'), scope)
  enterMaterials(book)
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
