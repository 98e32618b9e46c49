import { childOf, type Fault, isList, isMapping, type TreePath } from '../fault.ts'
import { FORBIDDEN_NAMES, isId } from '../ids.ts'
import type { Tree } from '../record.ts'
import { namesBelow } from './names-below.ts'

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
]
const MAPS = ['instruments', 'materials', 'nets']
/** Words that name something else in a reference: other sections, and ends of heat and coolant. */
const TAKEN: ReadonlySet<string> = new Set([
  ...LISTS,
  ...MAPS,
  ...[
    'specimen',
    'frame',
    'parts',
    'coolant',
    'ambient',
    'loops',
    'operating-points',
    'loan',
    'defaults',
    'inlet',
    'outlet',
  ],
])

interface Seen {
  readonly at: TreePath
  readonly section: string
}

interface Ids {
  readonly faults: Fault[]
  readonly seen: Map<string, Seen>
  /** Names of faces, and where one of them stands. */
  readonly faces: Map<string, TreePath>
  readonly classes: Set<string>
}

/** Every id once in the sheet, spelt as ids are, and never a word that means something else in a path. */
export function checkIds(tree: Tree): readonly Fault[] {
  const ids: Ids = { faults: [], seen: new Map(), faces: new Map(), classes: new Set() }
  for (const name of MAPS) {
    const section = childOf(tree, name)
    if (isMapping(section)) for (const id of Object.keys(section)) addKey(ids, id, name)
  }
  for (const name of LISTS) eachEntry(childOf(tree, name), [name], (id, at) => add(ids, id, name, at))
  addCoolant(ids, childOf(tree, 'coolant'))
  addParts(ids, childOf(tree, 'parts'), ['parts'])
  checkNames(ids)
  forbidden(tree, [], ids.faults)
  return ids.faults
}

function addKey(ids: Ids, id: string, section: string): void {
  const at = [section, id]
  if (!id.includes('*') && !isId(id) && !FORBIDDEN_NAMES.has(id)) {
    ids.faults.push({
      at,
      key: true,
      what: `"${id}" cannot be an id`,
      mend: 'small letters, digits and single hyphens',
    })
  } else add(ids, id, section, at, true)
}

function add({ faults, seen }: Ids, id: Tree | undefined, section: string, at: TreePath, key = false): void {
  if (typeof id !== 'string' || id.includes('*') || FORBIDDEN_NAMES.has(id)) return
  const place = { at, ...(key && { key: true as const }) }
  const before = seen.get(id)
  if (TAKEN.has(id)) {
    const what = `"${id}" cannot be an id: it names something else in a path`
    faults.push({ ...place, what, mend: `choose another, e.g. "${id}-1"` })
  } else if (before) {
    const what = `the id "${id}" is used twice, first in ${before.section}`
    faults.push({ ...place, what, mend: 'ids are unique in the whole sheet: rename one' })
  } else seen.set(id, { at, section })
}

type Visit = (id: Tree | undefined, at: TreePath, entry: Tree) => void

function eachEntry(list: Tree | undefined, at: TreePath, visit: Visit): void {
  if (!isList(list)) return
  for (const [n, entry] of list.entries()) visit(childOf(entry, 'id'), [...at, n, 'id'], entry)
}

function addCoolant(ids: Ids, coolant: Tree | undefined): void {
  const circuits = isList(coolant)
    ? [...coolant.entries()]
    : coolant === undefined
      ? []
      : [[undefined, coolant] as const]
  for (const [n, circuit] of circuits) {
    const at = n === undefined ? ['coolant'] : ['coolant', n]
    add(ids, childOf(circuit, 'id'), 'coolant', [...at, 'id'])
    eachEntry(childOf(circuit, 'passages'), [...at, 'passages'], (id, where) => add(ids, id, 'coolant', where))
  }
}

function addParts(ids: Ids, parts: Tree | undefined, at: TreePath): void {
  eachEntry(parts, at, (id, where, part) => {
    const here = where.slice(0, -1)
    const ofClass = childOf(part, 'class')
    add(ids, id, 'parts', where)
    if (typeof ofClass === 'string') ids.classes.add(ofClass)
    const faces = childOf(part, 'faces')
    if (isMapping(faces)) for (const key of Object.keys(faces)) addFace(ids, key, [...here, 'faces', key])
    addParts(ids, childOf(part, 'parts'), [...here, 'parts'])
  })
}

function addFace({ faces, faults }: Ids, key: string, at: TreePath): void {
  const [name = '', piece, ...more] = key.split('.')
  if (isId(name) && more.length === 0 && (piece === undefined || /^[a-z0-9-]+$/.test(piece))) faces.set(name, at)
  else if (!FORBIDDEN_NAMES.has(key)) {
    const mend = 'small letters, digits and hyphens; seat.u for a piece of a face'
    faults.push({ at, key: true, what: `"${key}" cannot name a face`, mend })
  }
}

/** Part, face and property follow each other in a path: one word must not be two of them. */
function checkNames({ faults, seen, faces, classes }: Ids): void {
  const properties = namesBelow(classes)
  for (const [id, { at, section }] of seen) {
    const is =
      section !== 'parts' ? undefined : properties.has(id) ? 'a property' : faces.has(id) ? 'a face' : undefined
    if (is)
      faults.push({
        at,
        what: `"${id}" is the name of ${is}, and cannot be an id`,
        mend: `choose another, e.g. "${id}-part"`,
      })
  }
  for (const [name, at] of faces) {
    const what = `"${name}" is the name of a property, and cannot name a face`
    if (properties.has(name)) faults.push({ at, key: true, what, mend: `choose another, e.g. "${name}-side"` })
  }
}

/** Names that would become more than a key. They may come in through an edit as well as through a sheet. */
function forbidden(tree: Tree, at: TreePath, faults: Fault[]): void {
  if (typeof tree === 'string') return
  if (isList(tree)) {
    for (const [n, one] of tree.entries()) if (typeof one !== 'string') forbidden(one, [...at, n], faults)
    return
  }
  for (const key of Object.getOwnPropertyNames(tree)) {
    const here = { at: [...at, key], key: true as const }
    if (FORBIDDEN_NAMES.has(key))
      faults.push({ ...here, what: `"${key}" cannot be a key`, mend: 'choose another name' })
    const below = tree[key]
    if (below !== undefined && typeof below !== 'string') forbidden(below, here.at, faults)
  }
}
