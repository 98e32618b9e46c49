import { childOf, type Fault, isList, isMapping, type TreePath } from '../fault.ts'
import { FORBIDDEN_NAMES, isId } from '../ids.ts'
import { PART_CLASSES } from '../part-class.ts'
import { COMMON_FIELDS } from '../part-fields.ts'
import type { Tree } from '../record.ts'

/** Sections whose entries stand in a list, and those whose keys are ids. */
const LISTS = [
  'joints',
  'voltages',
  'spacings',
  'heat',
  'boundaries',
  'observed',
  'census',
  'steps',
  'findings',
  'photos',
] as const
const MAPS = ['instruments', 'materials', 'nets'] as const

const SECTION_NAMES: ReadonlySet<string> = new Set([
  'specimen',
  'frame',
  'instruments',
  'materials',
  'parts',
  'joints',
  'nets',
  'voltages',
  'spacings',
  'heat',
  'coolant',
  'ambient',
  'loops',
  'boundaries',
  'operating-points',
  'observed',
  'census',
  'steps',
  'findings',
  'photos',
  'loan',
])
/** Words that a reference may name beside ids. */
const PLACES: ReadonlySet<string> = new Set(['ambient', 'frame', 'inlet', 'outlet', 'whole'])

/** Names of what stands below a part in a path: an id of the same name could not be told apart. */
const BELOW_A_PART: ReadonlySet<string> = new Set([
  ...Object.keys(COMMON_FIELDS),
  ...PART_CLASSES.flatMap(({ properties }) => Object.keys(properties)),
  'at',
  'terminals',
  'faces',
  'count',
  'each',
  'loss',
  'run',
  'plate',
  'beside',
  'stack',
  'traces',
  'groove',
  'seals',
  'round',
  'joins',
  'state',
  'turn',
  'parts',
])

interface Seen {
  readonly at: TreePath
  readonly section: string
}

/** Every id once in the sheet, spelt as ids are, and never a word that means something else in a path. */
export function checkIds(tree: Tree): readonly Fault[] {
  const faults: Fault[] = []
  const seen = new Map<string, Seen>()
  const add = (id: Tree | undefined, section: string, at: TreePath, key: boolean): void => {
    if (typeof id !== 'string' || id.includes('*') || FORBIDDEN_NAMES.has(id)) return
    const place = { at, ...(key && { key: true as const }) }
    if (key && !isId(id))
      faults.push({ ...place, what: `"${id}" cannot be an id`, mend: 'small letters, digits and single hyphens' })
    else if (SECTION_NAMES.has(id) || (PLACES.has(id) && id !== 'whole'))
      faults.push({
        ...place,
        what: `"${id}" cannot be an id: it names something else in a path`,
        mend: `choose another, e.g. "${id}-1"`,
      })
    const before = seen.get(id)
    if (before)
      faults.push({
        ...place,
        what: `the id "${id}" is used twice, first in ${before.section}`,
        mend: 'ids are unique in the whole sheet: rename one',
      })
    else seen.set(id, { at, section })
  }
  for (const name of MAPS) {
    const section = childOf(tree, name)
    if (isMapping(section)) for (const id of Object.keys(section)) add(id, name, [name, id], true)
  }
  for (const name of LISTS) eachEntry(childOf(tree, name), [name], (id, at) => add(id, name, at, false))
  addCoolant(childOf(tree, 'coolant'), add)
  const faces = new Set<string>()
  addParts(childOf(tree, 'parts'), ['parts'], add, faces, faults)
  for (const face of faces) {
    const part = seen.get(face)
    if (part?.section === 'parts')
      faults.push({
        at: part.at,
        what: `"${face}" is the name of a face, and cannot be an id`,
        mend: `choose another, e.g. "${face}-part"`,
      })
  }
  forbidden(tree, [], faults)
  return faults
}

type Add = (id: Tree | undefined, section: string, at: TreePath, key: boolean) => void

function eachEntry(
  list: Tree | undefined,
  at: TreePath,
  visit: (id: Tree | undefined, at: TreePath, entry: Tree) => void,
): void {
  if (!isList(list)) return
  for (const [n, entry] of list.entries()) visit(childOf(entry, 'id'), [...at, n, 'id'], entry)
}

function addCoolant(coolant: Tree | undefined, add: Add): void {
  const circuits: readonly (readonly [Tree, TreePath])[] = isList(coolant)
    ? coolant.map((one, n) => [one, ['coolant', n]] as const)
    : coolant === undefined
      ? []
      : [[coolant, ['coolant']]]
  for (const [circuit, at] of circuits) {
    add(childOf(circuit, 'id'), 'coolant', [...at, 'id'], false)
    eachEntry(childOf(circuit, 'passages'), [...at, 'passages'], (id, where) => add(id, 'coolant', where, false))
  }
}

function addParts(parts: Tree | undefined, at: TreePath, add: Add, faces: Set<string>, faults: Fault[]): void {
  eachEntry(parts, at, (id, where, part) => {
    add(id, 'parts', where, false)
    if (typeof id === 'string' && BELOW_A_PART.has(id))
      faults.push({
        at: where,
        what: `"${id}" is the name of a property, and cannot be an id`,
        mend: `choose another, e.g. "${id}-part"`,
      })
    const own = childOf(part, 'faces')
    const above = where.slice(0, -1)
    if (isMapping(own)) for (const key of Object.keys(own)) addFace(key, [...above, 'faces', key], faces, faults)
    addParts(childOf(part, 'parts'), [...above, 'parts'], add, faces, faults)
  })
}

function addFace(key: string, at: TreePath, faces: Set<string>, faults: Fault[]): void {
  const name = key.split('.')[0] ?? key
  if (!/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*(?:\.[a-z0-9]+(?:-[a-z0-9]+)*)?$/.test(key))
    faults.push({
      at,
      key: true,
      what: `"${key}" cannot name a face`,
      mend: 'small letters, digits and hyphens; seat.u for a piece of a face',
    })
  else if (BELOW_A_PART.has(name))
    faults.push({
      at,
      key: true,
      what: `"${name}" is the name of a property, and cannot name a face`,
      mend: `choose another, e.g. "${name}-side"`,
    })
  else faces.add(name)
}

/** Names that would become more than a key. They may come in through an edit as well as through a sheet. */
function forbidden(tree: Tree, at: TreePath, faults: Fault[]): void {
  if (typeof tree === 'string') return
  if (isList(tree)) {
    for (const [n, one] of tree.entries()) if (typeof one !== 'string') forbidden(one, [...at, n], faults)
    return
  }
  for (const key of Object.getOwnPropertyNames(tree)) {
    if (FORBIDDEN_NAMES.has(key))
      faults.push({ at: [...at, key], key: true, what: `"${key}" cannot be a key`, mend: 'choose another name' })
    const below = tree[key]
    if (below !== undefined && typeof below !== 'string') forbidden(below, [...at, key], faults)
  }
}
