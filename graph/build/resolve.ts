import { InvariantError } from '../invariants.ts'
import { asPath, type Path } from '../quantity/quantity.ts'
import { type PartEntry, type PartReference, type Piece, pathOf, splitPiece } from '../record/part-index.ts'
import type { TeardownRecord } from '../record/record.ts'
import { starOf } from './star.ts'

/** One start of a relation: a piece or one of its faces, and what a star on the other end stands for. */
export interface Start {
  readonly node: Path
  readonly piece: Piece
  readonly star: string | undefined
  /** Names that part this start from its sisters, for the path of the relation. */
  readonly suffix: string
}

/** Every piece (and piece of a face) that the first end of a relation names. */
export function startsOf(record: TeardownRecord, text: string): readonly Start[] {
  const reference = referenceOf(record, text)
  const named = [...reference.picks].filter(([, pick]) => pick !== '*')
  const pieces = record.parts
    .piecesOf(reference.entry)
    .filter((piece) => named.every(([entry, pick]) => piece.picks.get(entry) === pick))
  return pieces.flatMap((piece) => faceStarts(reference, piece))
}

function faceStarts({ entry, picks, face }: PartReference, piece: Piece): readonly Start[] {
  const starred = [...picks].find(([, pick]) => pick === '*')?.[0]
  const star = starred === undefined ? starOf(piece) : piece.picks.get(starred)
  const names = [...piece.picks.values()]
  if (!face) return [{ node: piece.path, piece, star, suffix: names.join('-') }]
  const declared = entry.faces.find((one) => one.name === face.name)?.pieces ?? []
  if (declared.length === 0) {
    return [{ node: asPath(`${piece.path}/${face.name}`), piece, star, suffix: names.join('-') }]
  }
  const wanted = face.piece === undefined || face.piece === '*' ? declared : [face.piece]
  return wanted.map((name) => ({
    node: asPath(`${piece.path}/${face.name}.${name}`),
    piece,
    star: name,
    suffix: [...names, name].join('-'),
  }))
}

/** The other end of a relation: the piece or face it names, as seen from one start. */
export function endFrom(record: TeardownRecord, text: string, start: Start): Path {
  const reference = referenceOf(record, text)
  const picks = picksFrom(reference, start)
  const open = chainOf(reference.entry).find((entry) => entry.pieces.length > 0 && !picks.has(entry.id))
  if (open) throw ambiguous(text, open.id, open.pieces)
  const base = pathOf(reference.entry, picks)
  if (!reference.face) return base
  const { name, piece } = reference.face
  const declared = reference.entry.faces.find((one) => one.name === name)?.pieces ?? []
  if (declared.length === 0) return asPath(`${base}/${name}`)
  const pick = piece === undefined || piece === '*' ? start.star : piece
  if (pick === undefined || !declared.includes(pick)) throw ambiguous(text, `${reference.entry.id}/${name}`, declared)
  return asPath(`${base}/${name}.${pick}`)
}

/** A part in the way of heat: the piece beside the start where one fits, else the entry, whose pieces are alike. */
export function layerPartFrom(record: TeardownRecord, text: string, start: Start): Path {
  const reference = referenceOf(record, text)
  return pathOf(reference.entry, picksFrom(reference, start))
}

function picksFrom(reference: PartReference, start: Start): ReadonlyMap<string, string> {
  const picks = new Map<string, string>()
  for (const entry of chainOf(reference.entry)) {
    const given = reference.picks.get(entry.id)
    const pick = given === '*' ? start.star : (given ?? start.piece.picks.get(entry.id))
    if (pick !== undefined && entry.pieces.includes(pick)) picks.set(entry.id, pick)
  }
  return picks
}

function chainOf(entry: PartEntry): readonly PartEntry[] {
  return entry.parent ? [...chainOf(entry.parent), entry] : [entry]
}

function referenceOf(record: TeardownRecord, text: string): PartReference {
  const reference = record.parts.refer(text)
  if ('entry' in reference) return reference
  throw new InvariantError(reference.what, text, `known: ${reference.known.slice(0, 12).join(', ')}`)
}

function ambiguous(text: string, what: string, pieces: readonly string[]): InvariantError {
  return new InvariantError(
    `"${text}" does not say which piece of "${what}"`,
    text,
    `write one of ${pieces.join(', ')} behind a dot, or .* for the same piece as on the other end`,
  )
}

/** Splits the last segment of a reference into name and piece. */
export function lastOf(text: string): { readonly name: string; readonly piece?: string } {
  return splitPiece(text.split('/').at(-1) ?? text)
}
