/** Straight piece of a conductor's outline, level or upright, with even charge on it. Lengths in metres. */
export interface Piece {
  /** Its middle. */
  readonly x: number
  readonly y: number
  readonly half: number
  readonly upright: boolean
  /** Which conductor it belongs to, counted from 0. */
  readonly conductor: number
}

/** Edges from `from` to `to`, crowded towards both ends as the charge is. */
function crowded(from: number, to: number, count: number): readonly number[] {
  const [middle, half] = [(from + to) / 2, (to - from) / 2]
  return Array.from({ length: count + 1 }, (_, i) => middle - half * Math.cos((i * Math.PI) / count))
}

const pieces = (edges: readonly number[], at: number, upright: boolean, conductor: number): readonly Piece[] =>
  edges.slice(1).map((edge, i) => {
    const [along, half] = [(edge + edges[i]!) / 2, (edge - edges[i]!) / 2]
    return { x: upright ? at : along, y: upright ? along : at, half, upright, conductor }
  })

export type Strip = { left: number; right: number; bottom: number; thickness: number; conductor: number }

/** Outline of a rectangular conductor; one line of pieces where it has no thickness. */
export function stripPieces({ left, right, bottom, thickness, conductor }: Strip, count = 16): readonly Piece[] {
  const level = (y: number) => pieces(crowded(left, right, count), y, false, conductor)
  if (thickness === 0) return level(bottom)
  const sides = Math.max(8, 2 * Math.round((count * Math.sqrt(thickness / (right - left))) / 2))
  const upright = (x: number) =>
    pieces(crowded(bottom, bottom + thickness, Math.min(sides, 2 * count)), x, true, conductor)
  return [...level(bottom), ...level(bottom + thickness), ...upright(left), ...upright(right)]
}

export type HalfPlane = { edge: number; reach: number; scale: number; bottom: number; conductor: number }

/** Plane without thickness from an edge to the right: fine at the edge and over the given scale, then ever coarser. */
export function halfPlanePieces({ edge, reach, scale, bottom, conductor }: HalfPlane, count = 40): readonly Piece[] {
  const end = Math.asinh(Math.sqrt(reach / scale))
  const edges = Array.from({ length: count + 1 }, (_, i) => edge + scale * Math.sinh((end * i) / count) ** 2)
  return pieces(edges, bottom, false, conductor)
}
