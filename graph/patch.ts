import type { Edit, Relation } from './edit.ts'
import { isList, isMapping } from './record/fault.ts'
import { recordFromTree } from './record/from-tree.ts'
import type { TeardownRecord, Tree } from './record/record.ts'
import { idOfHeat, idOfPair } from './record/relation-id.ts'

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

type Mapping = { readonly [key: string]: Tree }
type StructuralEdit = Exclude<Edit, { readonly set: unknown }>

/**
 * The record with parts, layers or relations added, dropped or related: its tree is patched and read again with the
 * same checks as a sheet.
 * @throws PatchError when an edit names nothing, or the record would no longer be sound
 */
export function patchRecord(record: TeardownRecord, edits: readonly Edit[]): TeardownRecord {
  const structural = edits.filter((edit): edit is StructuralEdit => !('set' in edit))
  const tree = structural.reduce((patched, edit) => patch(patched, edit), record.tree)
  const read = recordFromTree(tree)
  if ('record' in read) return read.record
  const first = read.faults[0]!
  throw new PatchError(first.what, first.path ?? first.at.join('/'), first.mend)
}

function patch(tree: Tree, edit: StructuralEdit): Tree {
  if ('add' in edit) return added(tree, edit.add, edit.entry)
  if ('drop' in edit) return dropped(tree, edit.drop)
  return related(tree, edit.relate, edit.from, edit.to, edit.on)
}

/** Adds an entry to a section (`parts`, `heat`, `nets/aux-plus`) or to the parts inside a part (`parts/module`). */
function added(tree: Tree, path: string, entry: Tree): Tree {
  const root = mapping(tree, path)
  const [section = '', ...rest] = path.split('/')
  if (section === 'parts' && rest.length > 0) {
    return onPart(root, rest.at(-1)!, (part) => ({ ...part, parts: [...listAt(part, 'parts'), entry] }))
  }
  if (section === 'coolant') {
    const coolant = mapping(root.coolant ?? {}, path)
    return { ...root, coolant: { ...coolant, passages: [...listAt(coolant, 'passages'), entry] } }
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
  if (section === 'coolant') {
    const coolant = mapping(root.coolant ?? {}, path)
    return { ...root, coolant: { ...coolant, passages: without(listAt(coolant, 'passages'), last, path) } }
  }
  const there = root[section]
  if (isList(there)) return { ...root, [section]: without(there, last, path) }
  if (!isMapping(there) || !Object.hasOwn(there, last)) throw nothingAt(path)
  return { ...root, [section]: Object.fromEntries(Object.entries(there).filter(([name]) => name !== last)) }
}

function withoutPart(root: Mapping, path: string, segment: string): Tree {
  const [id = '', piece] = segment.split('.')
  if (piece !== undefined) return onPart(root, id, (part) => withoutPiece(part, piece, path))
  let found = false
  const prune = (parts: readonly Tree[]): readonly Tree[] =>
    parts.flatMap((part): readonly Tree[] => {
      if (!isMapping(part)) return [part]
      if (part.id === id) {
        found = true
        return []
      }
      return part.parts === undefined ? [part] : [{ ...part, parts: prune(listAt(part, 'parts')) }]
    })
  const parts = prune(listAt(root, 'parts'))
  if (!found) throw nothingAt(path)
  return { ...root, parts }
}

/** A named piece leaves its name; of pieces that are only counted, one fewer is left. */
function withoutPiece(part: Mapping, piece: string, path: string): Mapping {
  const { each, count } = part
  if (isMapping(each) && Object.hasOwn(each, piece)) {
    return { ...part, each: Object.fromEntries(Object.entries(each).filter(([name]) => name !== piece)) }
  }
  if (isList(each) && each[Number(piece) - 1] !== undefined) {
    return { ...part, each: each.filter((_, at) => at !== Number(piece) - 1) }
  }
  if (typeof count === 'string' && Number.parseInt(count, 10) > 1) {
    return { ...part, count: String(Number.parseInt(count, 10) - 1) }
  }
  throw nothingAt(path)
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
      return onPart(withPartMoved(root, to), from.split('/').at(-1)!, (part) =>
        on ? { ...part, parts: [...listAt(part, 'parts'), partOf(root, to)] } : part,
      )
    case 'joins': {
      const between = [from, to].map(lastName)
      if (!on) return dropped(root, `joints/${idOfPair(between)}`)
      return added(root, 'joints', { between })
    }
    case 'conducts': {
      const ends = { from: shorten(from), to: shorten(to) }
      return on ? added(root, 'heat', ends) : dropped(root, `heat/${idOfHeat(ends.from, ends.to)}`)
    }
    case 'cools':
      return onPassage(root, from, (passage) => {
        const rest = listAt(passage, 'cools').filter((one) => !isMapping(one) || one.face !== shorten(to))
        return { ...passage, cools: on ? [...rest, { face: shorten(to) }] : rest }
      })
    case 'flows':
      throw new PatchError(
        'the order of the coolant is one list',
        from,
        'set the sequence as a whole: drop and add the circuit',
      )
  }
}

/** `parts/link-cap.2/terminals/plus` on net `nets/dc-plus`. */
function onTerminal(root: Mapping, from: string, to: string, on: boolean): Tree {
  const segments = from.split('/').filter((segment) => segment !== 'terminals')
  const terminal = segments.at(-1)!
  const [id = '', piece] = segments.at(-2)!.split('.')
  const put = (holder: Mapping): Mapping => {
    const rest = Object.fromEntries(
      Object.entries(mapping(holder.terminals ?? {}, from)).filter(([name]) => name !== terminal),
    )
    return { ...holder, terminals: on ? { ...rest, [terminal]: lastName(to) } : rest }
  }
  return onPart(root, id, (part) => {
    if (piece === undefined) return put(part)
    const each = part.each
    if (!isMapping(each) || !Object.hasOwn(each, piece)) throw nothingAt(from)
    return { ...part, each: { ...each, [piece]: put(mapping(each[piece]!, from)) } }
  })
}

function withPartMoved(root: Mapping, path: string): Mapping {
  return withoutPart(root, path, path.split('/').at(-1)!) as Mapping
}

function partOf(root: Mapping, path: string): Tree {
  const id = lastName(path)
  const find = (parts: readonly Tree[]): Tree | undefined => {
    for (const part of parts) {
      if (!isMapping(part)) continue
      if (part.id === id) return part
      const inside = find(listAt(part, 'parts'))
      if (inside) return inside
    }
    return undefined
  }
  const found = find(listAt(root, 'parts'))
  if (!found) throw nothingAt(path)
  return found
}

function onPart(root: Mapping, segment: string, change: (part: Mapping) => Mapping): Tree {
  const id = segment.split('.')[0]!
  let found = false
  const visit = (parts: readonly Tree[]): readonly Tree[] =>
    parts.map((part) => {
      if (!isMapping(part)) return part
      if (part.id === id) {
        found = true
        return change(part)
      }
      return part.parts === undefined ? part : { ...part, parts: visit(listAt(part, 'parts')) }
    })
  const parts = visit(listAt(root, 'parts'))
  if (!found) throw nothingAt(`parts/${segment}`)
  return { ...root, parts }
}

function onPassage(root: Mapping, path: string, change: (passage: Mapping) => Mapping): Tree {
  const coolant = mapping(root.coolant ?? {}, path)
  return {
    ...root,
    coolant: { ...coolant, passages: onEntry(listAt(coolant, 'passages'), lastName(path), path, change) },
  }
}

function onEntry(
  list: readonly Tree[],
  id: string,
  path: string,
  change: (entry: Mapping) => Mapping,
): readonly Tree[] {
  const at = list.findIndex((entry) => idOf(entry) === id)
  if (at < 0) throw nothingAt(path)
  return list.map((entry, position) => (position === at ? change(entry as Mapping) : entry))
}

function without(list: readonly Tree[], id: string, path: string): readonly Tree[] {
  const rest = list.filter((entry) => idOf(entry) !== id)
  if (rest.length === list.length) throw nothingAt(path)
  return rest
}

/** Id of an entry as typed, or the one derived from its content. */
function idOf(entry: Tree): string | undefined {
  if (!isMapping(entry)) return undefined
  if (typeof entry.id === 'string') return entry.id
  if (typeof entry.from === 'string' && typeof entry.to === 'string') return idOfHeat(entry.from, entry.to)
  if (isList(entry.between)) return idOfPair(entry.between.filter((one) => typeof one === 'string'))
  const name = entry.part ?? entry.kind
  return typeof name === 'string' ? name.replace(/\..*$/, '') : undefined
}

function mapping(tree: Tree, path: string): Mapping {
  if (isMapping(tree)) return tree
  throw nothingAt(path)
}

function listAt(tree: Mapping, key: string): readonly Tree[] {
  const there = tree[key]
  return isList(there) ? there : []
}

const lastName = (path: string): string => path.split('/').at(-1)!.split('.')[0]!
const shorten = (path: string): string => path.replace(/^parts\//, '')

function nothingAt(path: string): PatchError {
  return new PatchError(`there is nothing at "${path}"`, path, 'lidoff show ID lists the paths of a record')
}
