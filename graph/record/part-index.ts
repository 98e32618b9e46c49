import { asPath, type Path } from '../quantity/quantity.ts'

/** What the index needs to know of a part as typed. */
export interface PartSeed {
  readonly id: string
  readonly class: string
  /** Names of its own pieces as built; empty when there is one piece and it has no name. */
  readonly pieces: readonly string[]
  readonly faces: readonly FaceSeed[]
  readonly parts: readonly PartSeed[]
}

export interface FaceSeed {
  readonly name: string
  /** Names of the pieces of a repeated face (`seat.u`), empty for a single one. */
  readonly pieces: readonly string[]
}

/** One line of the parts list, with its place in the assembly. */
export interface PartEntry {
  readonly id: string
  readonly class: string
  /** Canonical path of the entry: its repeated ancestors and itself, no piece named. */
  readonly path: Path
  readonly parent: PartEntry | null
  readonly pieces: readonly string[]
  readonly faces: readonly FaceSeed[]
  readonly children: readonly PartEntry[]
}

/** One physical piece: an entry with every repeated ancestor, and itself, narrowed to one piece. */
export interface Piece {
  readonly entry: PartEntry
  readonly path: Path
  /** Piece name by entry id, for the entry and each repeated ancestor. */
  readonly picks: ReadonlyMap<string, string>
}

/** A reference to a part, or to a face of it, after its words were looked up. */
export interface PartReference {
  readonly entry: PartEntry
  /** Piece names that were given, by entry id; '*' stands for "the same piece as on the other end". */
  readonly picks: ReadonlyMap<string, string>
  readonly face?: { readonly name: string; readonly piece?: string }
  /** Segments left over: a property below the part or face. */
  readonly rest: readonly string[]
}

export interface PartIndex {
  readonly entries: readonly PartEntry[]
  readonly byId: ReadonlyMap<string, PartEntry>
  /** All pieces as built of an entry, in the order of the sheet; repeated ancestors multiply. */
  piecesOf(entry: PartEntry): readonly Piece[]
  /** Looks up `module.v/switch/igbt`, `parts/link-cap.3/capacitance`, or a face with a star for its piece. */
  refer(text: string): PartReference | ReferenceFault
  /** Canonical path of what a reference names: entry or piece, and its face. */
  pathOf(reference: PartReference): Path
}

export interface ReferenceFault {
  readonly what: string
  /** The word that was not found, and those that would have been. */
  readonly word: string
  readonly known: readonly string[]
}

/** Makes the index of a parts tree. Ids are unique in the sheet: the reader has checked that. */
export function partIndex(roots: readonly PartSeed[]): PartIndex {
  const entries: PartEntry[] = []
  const byId = new Map<string, PartEntry>()
  const pieces = new Map<PartEntry, readonly Piece[]>()

  const enter = (seed: PartSeed, parent: PartEntry | null): PartEntry => {
    const children: PartEntry[] = []
    const entry: PartEntry = {
      id: seed.id,
      class: seed.class,
      path: entryPath(seed.id, parent),
      parent,
      pieces: seed.pieces,
      faces: seed.faces,
      children,
    }
    entries.push(entry)
    byId.set(seed.id, entry)
    children.push(...seed.parts.map((child) => enter(child, entry)))
    return entry
  }
  for (const root of roots) enter(root, null)

  const piecesOf = (entry: PartEntry): readonly Piece[] => {
    const known = pieces.get(entry)
    if (known) return known
    const made = expand(entry, entry.parent ? piecesOf(entry.parent) : null)
    pieces.set(entry, made)
    return made
  }
  return { entries, byId, piecesOf, refer: (text) => refer(text, byId), pathOf: pathOfReference }
}

/** Entries above a part that come in several pieces, outermost first. */
export function repeatedAncestors(entry: PartEntry): readonly PartEntry[] {
  const above: PartEntry[] = []
  for (let up = entry.parent; up; up = up.parent) if (up.pieces.length > 0) above.unshift(up)
  return above
}

/** Path of an entry or piece under the given picks: `parts/module.v/switch/igbt.2`. */
export function pathOf(entry: PartEntry, picks: ReadonlyMap<string, string>): Path {
  const segment = (one: PartEntry): string => {
    const pick = picks.get(one.id)
    return pick === undefined ? one.id : `${one.id}.${pick}`
  }
  return asPath(['parts', ...repeatedAncestors(entry).map(segment), segment(entry)].join('/'))
}

function pathOfReference({ entry, picks, face }: PartReference): Path {
  const base = pathOf(entry, picks)
  if (!face) return base
  return asPath(`${base}/${face.name}${face.piece === undefined ? '' : `.${face.piece}`}`)
}

function entryPath(id: string, parent: PartEntry | null): Path {
  const above = parent ? [...repeatedAncestors(parent), ...(parent.pieces.length > 0 ? [parent] : [])] : []
  return asPath(['parts', ...above.map((one) => one.id), id].join('/'))
}

function expand(entry: PartEntry, parents: readonly Piece[] | null): readonly Piece[] {
  const above = parents ? parents.map((piece) => piece.picks) : [new Map<string, string>()]
  return above.flatMap((picks) => {
    if (entry.pieces.length === 0) return [{ entry, picks, path: pathOf(entry, picks) }]
    return entry.pieces.map((name) => {
      const own = new Map(picks).set(entry.id, name)
      return { entry, picks: own, path: pathOf(entry, own) }
    })
  })
}

/** Walks the segments of a reference: ancestors may be typed and are then checked. */
function refer(text: string, byId: ReadonlyMap<string, PartEntry>): PartReference | ReferenceFault {
  const segments = text.replace(/^parts\//, '').split('/')
  const picks = new Map<string, string>()
  let entry: PartEntry | undefined
  let at = 0
  for (; at < segments.length; at++) {
    const { name, piece } = splitPiece(segments[at]!)
    const next = byId.get(name)
    if (!next || (entry && !isAbove(entry, next))) break
    const fault = piece === undefined ? undefined : wrongPiece(next, piece)
    if (fault) return fault
    if (piece !== undefined) picks.set(name, piece)
    entry = next
  }
  if (!entry) {
    const word = splitPiece(segments[0]!).name
    return { what: `no part has the id "${word}"`, word, known: [...byId.keys()] }
  }
  const misplaced = at < segments.length ? byId.get(splitPiece(segments[at]!).name) : undefined
  if (misplaced) {
    const parent = misplaced.parent?.id
    return {
      what: `"${misplaced.id}" is not inside "${entry.id}"${parent ? ` but inside "${parent}"` : ''}`,
      word: misplaced.id,
      known: entry.children.map((child) => child.id),
    }
  }
  return withFace(entry, picks, segments.slice(at))
}

function withFace(
  entry: PartEntry,
  picks: ReadonlyMap<string, string>,
  rest: readonly string[],
): PartReference | ReferenceFault {
  if (rest.length === 0) return { entry, picks, rest }
  const { name, piece } = splitPiece(rest[0]!)
  const face = entry.faces.find((one) => one.name === name)
  if (!face) return { entry, picks, rest }
  if (piece !== undefined && piece !== '*' && !face.pieces.includes(piece)) {
    return { what: `face "${entry.id}/${name}" has no piece "${piece}"`, word: piece, known: face.pieces }
  }
  return { entry, picks, face: piece === undefined ? { name } : { name, piece }, rest: rest.slice(1) }
}

function wrongPiece(entry: PartEntry, piece: string): ReferenceFault | undefined {
  if (piece === '*' || entry.pieces.includes(piece)) return undefined
  return { what: `"${entry.id}" has no piece "${piece}"`, word: piece, known: entry.pieces }
}

function isAbove(upper: PartEntry, lower: PartEntry): boolean {
  for (let up = lower.parent; up; up = up.parent) if (up === upper) return true
  return false
}

/** Splits `module.v` into name and piece. */
export function splitPiece(segment: string): { name: string; piece?: string } {
  const dot = segment.indexOf('.')
  return dot < 0 ? { name: segment } : { name: segment.slice(0, dot), piece: segment.slice(dot + 1) }
}
