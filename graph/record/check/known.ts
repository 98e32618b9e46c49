import type { Book } from '../book.ts'
import { childOf, isMapping, type TreePath } from '../fault.ts'
import { partsById } from '../nets-used.ts'
import type { Part } from '../part.ts'
import { type PartReference, splitPiece } from '../part-index.ts'
import { pieceNames } from '../pieces.ts'
import type { TeardownRecord } from '../record.ts'
import { didYouMean } from '../suggest.ts'
import { namesBelow } from './names-below.ts'

/** What there is to refer to, and where to say that something is not. */
export interface Known {
  readonly record: TeardownRecord
  readonly parts: ReadonlyMap<string, Part>
  /** Where each part stands in the tree. */
  readonly partPlaces: ReadonlyMap<string, TreePath>
  readonly nets: ReadonlySet<string>
  /** Names of the pieces of each passage. */
  readonly passages: ReadonlyMap<string, readonly string[]>
  /** Ids by section, for what is no part, net or passage. */
  readonly ids: ReadonlyMap<string, ReadonlySet<string>>
  readonly say: (at: TreePath, what: string, mend: string) => void
  readonly warn: (at: TreePath, what: string, mend: string) => void
}

export function knownOf(record: TeardownRecord, book: Book): Known {
  const { sheet } = record
  const idsOf = (list: readonly { readonly id: string }[] | undefined): ReadonlySet<string> =>
    new Set((list ?? []).map(({ id }) => id))
  const passages = (sheet.coolant ?? []).flatMap((circuit) => circuit.passages ?? [])
  return {
    record,
    parts: partsById(sheet.parts),
    partPlaces: placesOf(sheet.parts ?? [], ['parts']),
    nets: new Set(Object.keys(sheet.nets ?? {})),
    passages: new Map(passages.map((passage) => [passage.id, pieceNames(passage)])),
    ids: new Map([
      ['heat', idsOf(sheet.heat)],
      ['joints', idsOf(sheet.joints)],
      ['voltages', idsOf(sheet.voltages)],
      ['spacings', idsOf(sheet.spacings)],
      ['boundaries', idsOf(sheet.boundaries)],
      ['steps', idsOf(sheet.steps)],
      ['findings', idsOf(sheet.findings)],
      ['photos', idsOf(sheet.photos)],
      ['census', idsOf(sheet.census)],
      ['observed', idsOf(sheet.observed)],
      ['instruments', new Set(Object.keys(sheet.instruments ?? {}))],
      ['materials', new Set(Object.keys(sheet.materials ?? {}))],
      ['loops', new Set(Object.keys(sheet.loops ?? {}))],
    ]),
    say: (at, what, mend) => void book.faults.push({ at, what, mend }),
    warn: (at, what, mend) => void book.warnings.push({ at, what, mend }),
  }
}

function placesOf(parts: readonly Part[], at: TreePath, into = new Map<string, TreePath>()): Map<string, TreePath> {
  for (const [n, part] of parts.entries()) {
    const here = [...at, n]
    into.set(part.id, here)
    placesOf(part.parts ?? [], [...here, 'parts'], into)
  }
  return into
}

/** A part or one of its faces. Undefined: there is none, and that was said. */
export function partRef(known: Known, text: string, at: TreePath): PartReference | undefined {
  const found = known.record.parts.refer(text)
  if ('what' in found) {
    known.say(at, found.what, didYouMean(found.word, found.known))
    return undefined
  }
  const left = found.rest[0]
  if (left === undefined) return found
  const { name } = splitPiece(left)
  const faces = found.entry.faces.map((face) => face.name)
  const children = found.entry.children.map((child) => child.id)
  known.say(at, `"${found.entry.id}" has no face and no part "${name}"`, didYouMean(name, [...faces, ...children]))
  return undefined
}

export function netRef(known: Known, text: string, at: TreePath): void {
  const id = text.replace(/^nets\//, '')
  if (known.nets.has(id)) return
  if (id.includes('*'))
    known.say(
      at,
      `"${text}": there is no piece here that a star could stand for`,
      'name one net; write an entry for each',
    )
  else known.say(at, `no net has the id "${id}"`, `${didYouMean(id, known.nets)}; a net is declared under nets:`)
}

/** One passage, or one piece of it. */
export function passageRef(known: Known, text: string, at: TreePath, whole = false): void {
  const { name, piece } = splitPiece(text.replace(/^coolant\//, ''))
  const pieces = known.passages.get(name)
  if (pieces === undefined) known.say(at, `no passage has the id "${name}"`, didYouMean(name, known.passages.keys()))
  else if (piece === undefined) {
    if (pieces.length > 0 && !whole)
      known.say(
        at,
        `"${name}" is ${pieces.length} passages: which one?`,
        `write ${pieces.map((one) => `${name}.${one}`).join(', ')}`,
      )
  } else if (piece !== '*' && !pieces.includes(piece))
    known.say(at, `passage "${name}" has no piece "${piece}"`, didYouMean(piece, pieces))
}

/** An entry of a section that is no part, net or passage. */
export function entryRef(known: Known, section: string, text: string, at: TreePath): void {
  const ids = known.ids.get(section) ?? new Set()
  const id = text.startsWith(`${section}/`) ? text.slice(section.length + 1) : text
  if (!ids.has(id)) known.say(at, `${section} holds no "${id}"`, didYouMean(id, ids))
}

const OTHERS = ['specimen', 'ambient', 'operating-points', 'coolant', 'loan', 'frame'] as const

/** Anything in the record: a part, a face, a property, a net, a passage, an entry of any section. */
export function thingRef(known: Known, text: string, at: TreePath): void {
  const [head = '', next = ''] = text.split('/')
  if ((OTHERS as readonly string[]).includes(head) && (next === '' || head !== 'coolant')) return
  if (head === 'nets') netRef(known, next, at)
  else if (head === 'coolant') passageOrProperty(known, next, at)
  else if (known.ids.has(head)) entryRef(known, head, next, at)
  else if (!standsAlone(known, head === 'parts' ? next : head, at)) propertyRef(known, text, at)
}

/** Whether a word without its section is that of a net, passage or other entry: parts go first. */
function standsAlone(known: Known, word: string, at: TreePath): boolean {
  const { name } = splitPiece(word)
  if (known.record.parts.byId.has(name)) return false
  if (known.nets.has(word)) return true
  if (known.passages.has(name)) {
    passageRef(known, word, at, true)
    return true
  }
  return [...known.ids.values()].some((ids) => ids.has(word))
}

function passageOrProperty(known: Known, name: string, at: TreePath): void {
  if (known.passages.has(splitPiece(name).name)) passageRef(known, name, at, true)
  else if (
    !['fluid', 'flow', 'inlet', 'outlet', 'pressure', 'glycol-by-volume', 'glycol-by-mass', 'fan', 'sequence'].includes(
      name,
    )
  ) {
    if (!(known.record.sheet.coolant ?? []).some((circuit) => circuit.id === name)) passageRef(known, name, at, true)
  }
}

const FACE_PROPERTIES = ['area', 'at', 'size', 'flatness', 'roughness', 'material']

/** A part or face, or a property that it could have. */
function propertyRef(known: Known, text: string, at: TreePath): void {
  const found = known.record.parts.refer(text)
  if ('what' in found) {
    known.say(at, found.what, didYouMean(found.word, found.known))
    return
  }
  const property = found.rest[0]
  if (property === undefined) return
  const names = found.face ? FACE_PROPERTIES : [...namesBelow([found.entry.class])]
  if (names.includes(splitPiece(property).name)) return
  const faces = found.entry.faces.map((face) => face.name)
  known.say(at, `"${found.entry.id}" has no property or face "${property}"`, didYouMean(property, [...names, ...faces]))
}

/** Where a circuit stands in the tree: a mapping when it is the only one, or a place in a list. */
export function circuitPlace({ record }: Known, n: number): TreePath {
  return isMapping(childOf(record.tree, 'coolant')) ? ['coolant'] : ['coolant', n]
}

/** Where one of a key's values stands: in a list, or alone. */
export function itemPlace({ record }: Known, at: TreePath, n: number): TreePath {
  let here = childOf(record.tree, at[0] ?? '')
  for (const key of at.slice(1)) here = childOf(here, key)
  return Array.isArray(here) ? [...at, n] : at
}
