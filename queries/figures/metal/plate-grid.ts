import type { Vector } from '../../physics/bar.ts'
import type { BarBranch } from '../../physics/inductance-network.ts'
import { type Box, plateGrid } from '../../physics/plate.ts'
import type { Metal } from './geometry.ts'
import type { CutMetal } from './network.ts'

type Plate = Extract<Metal, { shape: 'plate' }>

/** Tiles across the shorter side of a plate: the grid of the value, and the one it is compared with. */
export const FINE = 6
export const ROUGH = 4
/**
 * By how much the part in plates may be larger than on the grid of the value: on one of eight tiles across, it was 1 to
 * 17 % larger on the demo units, and most of that is reached there.
 */
export const GRID_DOUBT = { kind: 'rectangular', low: 0, high: 0.18 } as const

/** Tiles of a long plate at most: coarser ones beyond, on both grids alike. */
const MOST_TILES = 72

/** Stands for the even grid that carries doubts: pairs of its bars repeat, so that a plate that moves costs few integrals. */
export const EVEN = 0

/** Side of the area over which a terminal touches a plate, for no sheet records it [m]. */
export const CONTACT = 8e-3

/** A plate as a grid in which current finds its own way, each terminal touching it over a small square. */
export function contactPlate(plate: Plate, taps: readonly { id: string; point: Vector }[], across: number): CutMetal {
  const thin = plate.size.indexOf(Math.min(...plate.size)) as 0 | 1 | 2
  const { branches, joined } = plateGrid(
    {
      id: plate.part,
      corner: plate.corner,
      size: plate.size,
      thin,
      holes: plate.holes.map(({ at, diameter }) => square(at, diameter * Math.sqrt(Math.PI / 4))),
      contacts: taps.map(({ id, point }) => ({ node: id, ...inside(plate, square(point, CONTACT)) })),
    },
    tilesAcross(plate, across),
  )
  return { branches, joined, nodes: new Map(taps.map(({ id }) => [id, id])) }
}

function tilesAcross({ size }: Plate, across: number): number {
  const [, short, long] = [...size].sort((a, b) => a - b) as [number, number, number]
  return Math.max(2, Math.round(across * Math.min(1, Math.sqrt((MOST_TILES * short) / (FINE ** 2 * long)))))
}

function square(middle: Vector, side: number): Box {
  const corner = middle.map((one) => one - side / 2) as unknown as Vector
  return { corner, size: [side, side, side] }
}

/** A contact moved so that it lies on the plate. */
function inside(plate: Plate, { corner, size }: Box): Box {
  const fitted = size.map((one, axis) => Math.min(one, plate.size[axis]!)) as unknown as Vector
  const moved = corner.map((one, axis) => {
    const low = plate.corner[axis]!
    return Math.min(Math.max(one, low), low + plate.size[axis]! - fitted[axis]!)
  }) as unknown as Vector
  return { corner: moved, size: fitted }
}

const EVEN_CELLS = 4

/** The same plate as an even grid; a tap enters at the node that `choose` keeps for it. */
export function evenPlate(
  plate: Plate,
  choose: (nearest: (point: Vector) => string) => ReadonlyMap<string, string>,
): CutMetal {
  const order = [0, 1, 2].toSorted((a, b) => plate.size[b]! - plate.size[a]!)
  const [u, v, n] = [order[0]!, order[1]!, order[2]!]
  const cells = [EVEN_CELLS, Math.max(2, Math.round((EVEN_CELLS * plate.size[v]!) / plate.size[u]!))] as const
  const step = [plate.size[u]! / cells[0], plate.size[v]! / cells[1]] as const
  const name = (i: number, j: number): string => `${plate.part}@${i},${j}`
  const at = (a: number, b: number): Vector => {
    const point = [...plate.corner] as [number, number, number]
    point[u]! += a
    point[v]! += b
    point[n]! += plate.size[n]! / 2
    return point
  }
  const shared = { thickness: plate.size[n]!, flat: [0, 1, 2].map((one) => (one === n ? 1 : 0)) as unknown as Vector }
  const bars = (swap: boolean): readonly BarBranch[] => {
    const [count, lines] = swap ? [cells[1], cells[0]] : [cells[0], cells[1]]
    const [along, across] = swap ? [step[1], step[0]] : [step[0], step[1]]
    const point = (a: number, b: number): Vector => (swap ? at(b, a) : at(a, b))
    return Array.from({ length: lines + 1 }, (_, j) => {
      const edge = j === 0 || j === lines
      const centre = j * across + (j === 0 ? across / 4 : j === lines ? -across / 4 : 0)
      return Array.from({ length: count }, (_, i) => ({
        id: `${plate.part}#${swap ? 'v' : 'u'}${i},${j}`,
        from: swap ? name(j, i) : name(i, j),
        to: swap ? name(j, i + 1) : name(i + 1, j),
        bar: {
          ...shared,
          start: point(i * along, centre),
          end: point((i + 1) * along, centre),
          width: edge ? across / 2 : across,
        },
      }))
    }).flat()
  }
  const clamp = (value: number, most: number): number => Math.min(most, Math.max(0, Math.round(value)))
  const nodes = choose((point) =>
    name(
      clamp((point[u]! - plate.corner[u]!) / step[0], cells[0]),
      clamp((point[v]! - plate.corner[v]!) / step[1], cells[1]),
    ),
  )
  return { branches: [...bars(false), ...bars(true)], joined: [], nodes }
}
