import type { Vector } from '../../physics/bar.ts'
import type { BarBranch } from '../../physics/inductance-network.ts'
import type { Hole, Metal } from './geometry.ts'

type Plate = Extract<Metal, { shape: 'plate' }>

/** Cells along the longer side at least; the shorter side gets as many as keep them nearly square, two at least. */
export const CELLS = 8

/** The even grid that carries doubts: pairs of its bars repeat, so that a plate that moves costs few integrals. */
export const COARSE = 6

/** Lines of a plate's grid, as shares of its two sides (0 … 1), longer side first. */
export interface GridLines {
  readonly u: readonly number[]
  readonly v: readonly number[]
}

/** Lines nearer to each other than this share of a cell are one. */
const MERGED = 1 / 8

/** Lines through every place at which current enters, with more between them where they lie far apart. */
export function linesThrough(plate: Plate, points: readonly Vector[], cells: number = CELLS): GridLines {
  const [u, v] = axesOf(plate.size)
  const ratio = plate.size[u]! / plate.size[v]!
  const share = (axis: number): readonly number[] =>
    points.map((point) => Math.min(1, Math.max(0, (point[axis]! - plate.corner[axis]!) / plate.size[axis]!)))
  const cellsAcross = Math.max(2, Math.round(cells / ratio))
  return {
    u: filled(merged(share(u), MERGED / cells), cells),
    v: filled(merged(share(v), MERGED / cellsAcross), cellsAcross),
  }
}

/** Sorted shares with the two edges, near ones taken as one. */
function merged(shares: readonly number[], tolerance: number): readonly number[] {
  const inner = shares.filter((one) => one > tolerance && one < 1 - tolerance).toSorted((a, b) => a - b)
  const distinct = inner.filter((one, at) => at === 0 || one - inner[at - 1]! > tolerance)
  return [0, ...distinct, 1]
}

function filled(lines: readonly number[], cells: number): readonly number[] {
  return lines.flatMap((line, at) => {
    const next = lines[at + 1]
    if (next === undefined) return [line]
    const pieces = Math.max(1, Math.round((next - line) * cells))
    return Array.from({ length: pieces }, (_, k) => line + ((next - line) * k) / pieces)
  })
}

/** A plate as a grid: nodes where lines cross, straight bars between them. */
export interface PlateGrid {
  readonly branches: readonly BarBranch[]
  /** Name of the node nearest to a point. */
  node(point: Vector): string
}

/**
 * A plate as bars along its two directions between the nodes of a grid, so that current finds its own way. Each bar is
 * as wide as reaches half-way to the next lines; a bar whose middle lies in a hole is left out.
 */
export function plateGrid(plate: Plate, lines: GridLines): PlateGrid {
  const [u, v, n] = axesOf(plate.size)
  const along = lines.u.map((share) => share * plate.size[u]!)
  const across = lines.v.map((share) => share * plate.size[v]!)
  const name = (i: number, j: number): string => `${plate.part}@${i},${j}`
  const middle = plate.corner[n]! + plate.size[n]! / 2
  const at = (a: number, b: number): Vector => {
    const point = [0, 0, 0]
    point[u] = plate.corner[u]! + a
    point[v] = plate.corner[v]! + b
    point[n] = middle
    return point as unknown as Vector
  }
  const shared = { thickness: plate.size[n]!, flat: [0, 1, 2].map((one) => (one === n ? 1 : 0)) as unknown as Vector }
  const strips = (positions: readonly number[]) =>
    positions.map((position, j) => {
      const low = j === 0 ? position : (positions[j - 1]! + position) / 2
      const high = j === positions.length - 1 ? position : (position + positions[j + 1]!) / 2
      return { centre: (low + high) / 2, width: high - low }
    })
  const uBars = strips(across).flatMap(({ centre, width }, j) =>
    along.slice(1).map((end, i) => ({
      id: `${plate.part}#u${i},${j}`,
      from: name(i, j),
      to: name(i + 1, j),
      bar: { ...shared, start: at(along[i]!, centre), end: at(end, centre), width },
    })),
  )
  const vBars = strips(along).flatMap(({ centre, width }, i) =>
    across.slice(1).map((end, j) => ({
      id: `${plate.part}#v${i},${j}`,
      from: name(i, j),
      to: name(i, j + 1),
      bar: { ...shared, start: at(centre, across[j]!), end: at(centre, end), width },
    })),
  )
  const closest = (positions: readonly number[], value: number): number =>
    positions.reduce((best, one, k) => (Math.abs(one - value) < Math.abs(positions[best]! - value) ? k : best), 0)
  return {
    branches: [...uBars, ...vBars].filter(({ bar }) => !inHole(plate.holes, bar.start, bar.end, [u, v])),
    node: (point) => name(closest(along, point[u]! - plate.corner[u]!), closest(across, point[v]! - plate.corner[v]!)),
  }
}

/** The longer and the shorter side of a plate, and its thin axis. */
function axesOf(size: Vector): readonly [number, number, number] {
  const order = [0, 1, 2].toSorted((a, b) => size[b]! - size[a]!)
  return [order[0]!, order[1]!, order[2]!]
}

function inHole(holes: readonly Hole[], start: Vector, end: Vector, [u, v]: readonly [number, number]): boolean {
  const middle = (axis: number): number => (start[axis]! + end[axis]!) / 2
  return holes.some(({ at, diameter }) => Math.hypot(middle(u) - at[u]!, middle(v) - at[v]!) < diameter / 2)
}
