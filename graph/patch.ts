import { type Cleared, cleared } from './cascade.ts'
import type { Edit, Relation } from './edit.ts'
import {
  onHolder,
  onPart,
  onTerminal,
  requireAlike,
  withoutPart,
  withoutPiece,
  withPiece,
  withText,
} from './patch-parts.ts'
import {
  idOf,
  lastName,
  listAt,
  type Mapping,
  mapping,
  nothingAt,
  onEntry,
  PatchError,
  shorten,
  texts,
  without,
} from './patch-tree.ts'
import { type Fault, isList, isMapping } from './record/fault.ts'
import { recordFromTree } from './record/from-tree.ts'
import type { TeardownRecord, Tree } from './record/record.ts'
import { idOfFace, idOfHeat, idOfPair } from './record/relation-id.ts'

type StructuralEdit = Exclude<Edit, { readonly set: unknown }>

/**
 * The record with parts, layers or relations added, dropped or related: its tree is patched and read again with the
 * same checks as a sheet. What referred to something that was dropped goes with it, and is named.
 * @throws PatchError when an edit names nothing, or the record would no longer be sound
 */
export function patched(record: TeardownRecord, edits: readonly Edit[]): Cleared {
  const structural = edits.filter((edit): edit is StructuralEdit => !('set' in edit))
  const tree = structural.reduce((before, edit) => patch(before, edit), record.tree)
  if (structural.some((edit) => 'drop' in edit)) {
    const left = cleared(tree)
    if (!left.record || (left.fault && left.also.some((path) => isWritten(structural, path))))
      throw refused(left.fault!)
    return left
  }
  const read = recordFromTree(tree)
  if ('record' in read) return { record: read.record, also: [] }
  throw refused(read.faults[0]!)
}

/** Whether it was put there by one of the edits: that does not go along in silence. A finding may lose what it is about. */
function isWritten(edits: readonly StructuralEdit[], path: string): boolean {
  return edits.some((edit) => {
    if ('drop' in edit) return false
    const entry = 'add' in edit ? idOf(edit.entry) : undefined
    const own = 'add' in edit ? (entry === undefined ? edit.add : `${edit.add}/${entry}`) : edit.from
    const itself = path === own || path.startsWith(`${own}/`)
    const end = 'add' in edit && typeof edit.entry === 'string' && own.startsWith(`${path}/`)
    return !own.startsWith('findings/') && (itself || end)
  })
}

function refused({ what, path, at, mend }: Fault): PatchError {
  return new PatchError(what, path || at.join('/') || 'the sheet', mend)
}

function patch(tree: Tree, edit: StructuralEdit): Tree {
  if ('add' in edit) return added(tree, edit.add, edit.entry)
  if ('drop' in edit) return dropped(tree, edit.drop)
  return related(tree, edit.relate, edit.from, edit.to, edit.on)
}

/**
 * Adds an entry to a section (`parts`, `heat`, `nets/aux-plus`), to the parts inside a part (`parts/module`), a piece to a
 * part (`parts/link-cap.3`), a layer to a heat path (`heat/choke-deck/pad`), a text to a part (`parts/bar/material`), or
 * puts an end of a heat path (`heat/choke-deck/to`) or the order of the coolant (`coolant/sequence`) in the place of the
 * one there.
 */
function added(tree: Tree, path: string, entry: Tree): Tree {
  const root = mapping(tree, path)
  const [section = '', ...rest] = path.split('/')
  const last = rest.at(-1) ?? ''
  if (section === 'parts' && !(typeof entry === 'string' && entry !== '')) requireAlike(path, rest.slice(0, -1))
  if (section === 'parts' && last.includes('.')) return onPart(root, last, (part) => withPiece(part, last, path, entry))
  if (section === 'parts' && typeof entry === 'string') return withText(root, rest, entry)
  if (section === 'heat' && rest.length === 2)
    return typeof entry === 'string' ? withEnd(root, path, rest[0]!, entry) : withLayer(root, path, rest[0]!, entry)
  if (section === 'parts' && rest.length > 0) {
    return onPart(root, rest.at(-1)!, (part) => ({ ...part, parts: [...listAt(part, 'parts'), entry] }))
  }
  if (section === 'coolant') {
    return onCircuit(root, path, (circuit) =>
      last === 'sequence'
        ? { ...circuit, sequence: entry }
        : { ...circuit, passages: [...listAt(circuit, 'passages'), entry] },
    )
  }
  const name = rest[0]
  if (name === undefined) return { ...root, [section]: [...listAt(root, section), entry] }
  const known = mapping(root[section] ?? {}, path)
  if (Object.hasOwn(known, name))
    throw new PatchError(`"${path}" is there already`, path, 'drop it first, or set its values')
  return { ...root, [section]: { ...known, [name]: entry } }
}

/** Drops a part, one piece of it, a heat path or one layer, or an entry of any other section. */
function dropped(tree: Tree, path: string): Tree {
  const root = mapping(tree, path)
  const [section = '', ...rest] = path.split('/')
  const last = rest.at(-1)
  if (last === undefined) throw new PatchError(`"${path}" names a whole section`, path, 'name what stands in it')
  if (section === 'parts') return withoutPart(root, path, last)
  if (section === 'heat' && rest.length === 2) return withoutLayer(root, path, rest[0]!, last)
  if (section === 'coolant' && last === 'sequence')
    return onCircuit(root, path, ({ sequence: _gone, ...circuit }) => circuit)
  if (section === 'coolant') return withoutPassage(root, path, last)
  if (rest.length > 1) throw nothingAt(path)
  const there = root[section]
  if (isList(there)) return { ...root, [section]: without(there, last, path) }
  if (!isMapping(there) || !Object.hasOwn(there, last)) throw nothingAt(path)
  return { ...root, [section]: Object.fromEntries(Object.entries(there).filter(([name]) => name !== last)) }
}

function withoutPassage(root: Mapping, path: string, segment: string): Tree {
  const [id = '', piece] = segment.split('.')
  if (piece !== undefined) return onPassage(root, path, (passage) => withoutPiece(passage, piece, path))
  return onCircuit(root, path, (circuit) => ({
    ...circuit,
    passages: without(listAt(circuit, 'passages'), id, path),
  }))
}

/** A heat path that begins or ends elsewhere. */
function withEnd(root: Mapping, path: string, heat: string, place: string): Tree {
  const end = lastName(path)
  if (end !== 'from' && end !== 'to') throw nothingAt(path)
  const change = (one: Mapping): Mapping => ({ ...one, [end]: shorten(place) })
  return { ...root, heat: onEntry(listAt(root, 'heat'), heat, path, change) }
}

/** A layer after the one that it doubles (`pad-2` after `pad`), or as the last. */
function withLayer(root: Mapping, path: string, heat: string, entry: Tree): Tree {
  const name = idOf(entry)?.replace(/-2$/, '')
  return {
    ...root,
    heat: onEntry(listAt(root, 'heat'), heat, path, (one) => {
      const layers = listAt(one, 'layers')
      const at = layers.findIndex((layer) => idOf(layer) === name)
      return { ...one, layers: at < 0 ? [...layers, entry] : layers.toSpliced(at + 1, 0, entry) }
    }),
  }
}

function withoutLayer(root: Mapping, path: string, heat: string, layer: string): Tree {
  return {
    ...root,
    heat: onEntry(listAt(root, 'heat'), heat, path, (entry) => ({
      ...entry,
      layers: without(listAt(entry, 'layers'), layer, path),
    })),
  }
}

/** Relates two things, or takes the relation back. */
function related(tree: Tree, relation: Relation, from: string, to: string, on: boolean): Tree {
  const root = mapping(tree, from)
  switch (relation) {
    case 'terminal':
      return onTerminal(root, from, to, on)
    case 'contains':
      return onHolder(root, from, to, on)
    case 'joins': {
      const between = [from, to].map((path) => path.split('/').at(-1)!)
      if (on) return added(root, 'joints', { between })
      const same = (one: Mapping): boolean => sameTexts(texts(one.between), between)
      return { ...root, joints: withoutOne(listAt(root, 'joints'), same, `joints/${idOfPair(between)}`) }
    }
    case 'conducts': {
      const ends = { from: shorten(from), to: shorten(to) }
      if (on) return added(root, 'heat', ends)
      const same = (one: Mapping): boolean =>
        [one.from, one.to].flatMap(texts).map(shorten).join() === [ends.from, ends.to].join()
      return { ...root, heat: withoutOne(listAt(root, 'heat'), same, `heat/${idOfHeat(ends.from, ends.to)}`) }
    }
    case 'cools':
      return onCools(root, from, shorten(to), on)
    case 'flows':
      throw new PatchError(
        'the order of the coolant is one list',
        from,
        'put the whole order in its place: add coolant/sequence',
      )
  }
}

/** A list without the one entry that is meant. */
function withoutOne(list: readonly Tree[], meant: (entry: Mapping) => boolean, path: string): readonly Tree[] {
  const at = list.findIndex((entry) => isMapping(entry) && meant(entry))
  if (at < 0) throw nothingAt(path)
  return list.toSpliced(at, 1)
}

const sameTexts = (a: readonly string[], b: readonly string[]): boolean => a.toSorted().join() === b.toSorted().join()

/** What all pieces of a passage cool stands on it; what one of them cools besides, or no longer, stands with that piece. */
function onCools(root: Mapping, path: string, face: string, on: boolean): Tree {
  const piece = path.split('/').at(-1)!.split('.')[1]
  const changed = (list: readonly Tree[]): readonly Tree[] => {
    const rest = list.filter((one) => !isMapping(one) || one.face !== face)
    if (!on && rest.length === list.length) throw nothingAt(`${path}/cools/${idOfFace(face)}`)
    return on ? [...rest, { face }] : rest
  }
  return onPassage(root, path, (passage) => {
    const all = listAt(passage, 'cools')
    if (piece === undefined) return { ...passage, cools: changed(all) }
    const { each = {} } = passage
    if (!isMapping(each) || !isMapping(each[piece])) throw nothingAt(path)
    const own = each[piece]
    const cools = changed(own.cools === undefined ? all : listAt(own, 'cools'))
    return { ...passage, each: { ...each, [piece]: { ...own, cools } } }
  })
}

function onPassage(root: Mapping, path: string, change: (passage: Mapping) => Mapping): Tree {
  return onCircuit(root, path, (circuit) => ({
    ...circuit,
    passages: onEntry(listAt(circuit, 'passages'), lastName(path), path, change),
  }))
}

/** The circuit that a path names or that has the passage it names; the only one where there is one. */
function onCircuit(root: Mapping, path: string, change: (circuit: Mapping) => Mapping): Tree {
  const { coolant = {} } = root
  if (!isList(coolant)) return { ...root, coolant: change(mapping(coolant, path)) }
  const names = path.split('/').map((segment) => segment.split('.')[0]!)
  const at = coolant.findIndex(
    (circuit) =>
      isMapping(circuit) &&
      (names.slice(1).includes(String(circuit.id)) ||
        listAt(circuit, 'passages').some((passage) => idOf(passage) === names.at(-1))),
  )
  if (at < 0) throw nothingAt(path)
  return { ...root, coolant: coolant.map((circuit, n) => (n === at ? change(mapping(circuit, path)) : circuit)) }
}
