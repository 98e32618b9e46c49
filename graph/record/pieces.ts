import type { Part } from './part.ts'
import { type PartCount, piecesIn } from './part-count.ts'
import type { FaceSeed, PartSeed } from './part-index.ts'

/** What tells how many pieces something comes in, and what they are called. */
interface Repeated {
  readonly count?: PartCount | undefined
  readonly each?: Readonly<Record<string, unknown>> | undefined
}

/** Names of the pieces as built; empty for a thing that comes once and has no piece name. */
export function pieceNames({ count, each }: Repeated): readonly string[] {
  const named = Object.keys(each ?? {})
  const built = builtOf(count)
  if (built === undefined) return named
  if (named.length > 0 && (built === named.length || !named.every(isNumber))) return named
  if (built <= 1) return named
  return Array.from({ length: built }, (_, n) => String(n + 1))
}

/** How many were built, as stated. A count that is no number says nothing: the piece names do. */
export function builtOf(count: PartCount | undefined): number | undefined {
  return piecesIn(count?.built) ?? piecesIn(count?.found)
}

const isNumber = (name: string): boolean => /^[1-9]\d*$/.test(name)

/** Why `count` and `each` do not fit together; undefined: they do. */
export function pieceFault({ count, each }: Repeated): string | undefined {
  const named = Object.keys(each ?? {})
  const built = builtOf(count)
  if (built === undefined || named.length === 0 || built === named.length) return undefined
  if (named.every(isNumber) && named.every((name) => Number(name) <= built)) return undefined
  return `${built} pieces are counted and ${named.length} are named in "each"`
}

export function partSeed(part: Part): PartSeed {
  return {
    id: part.id,
    class: part.class,
    pieces: pieceNames(part),
    faces: faceSeeds(part),
    parts: (part.parts ?? []).map(partSeed),
  }
}

/** Faces by name; `seat.u` and `seat.v` are two pieces of one face. */
function faceSeeds(part: Part): readonly FaceSeed[] {
  const faces = new Map<string, string[]>()
  for (const [key, face] of Object.entries(part.faces ?? {})) {
    const dot = key.indexOf('.')
    const name = dot < 0 ? key : key.slice(0, dot)
    const pieces = dot < 0 ? pieceNames(face) : [key.slice(dot + 1)]
    faces.set(name, [...(faces.get(name) ?? []), ...pieces])
  }
  for (const piece of Object.values(part.each ?? {})) {
    for (const name of Object.keys(piece.faces ?? {})) if (!name.includes('.') && !faces.has(name)) faces.set(name, [])
  }
  return [...faces].map(([name, pieces]) => ({ name, pieces }))
}
