import type { Bar, Vector } from './bar.ts'
import type { BarBranch } from './inductance-network.ts'
import { DomainError, requirePositive } from './method.ts'
import type { Tile } from './plate-lines.ts'
import { gridLines } from './plate-lines.ts'

/** Box of metal along the axes: the corner with the lowest coordinates and its sizes along x, y and z [m]. */
export interface Box {
  readonly corner: Vector
  readonly size: Vector
}

/** Where something touches the plate: an area of one potential, with the name of the node it is joined to. */
export interface Contact extends Box {
  readonly node: string
}

export interface Plate extends Box {
  readonly id: string
  /** Number of the thin axis: 0, 1, 2 for x, y, z. */
  readonly thin: 0 | 1 | 2
  /** Openings, square-edged; their extent along the thin axis does not matter. */
  readonly holes?: readonly Box[]
  readonly contacts: readonly Contact[]
}

/** A plate as a grid of bars that current may take in two directions. */
export interface PlateGrid {
  readonly branches: readonly BarBranch[]
  readonly joined: readonly (readonly string[])[]
}

/**
 * Cuts a plate into a grid: nodes where lines cross, and between neighbouring nodes a bar as wide as half the tiles on
 * both sides of it. Current then finds its own way. Lines run along the edges of all holes and contacts, so that these
 * keep their true size. Within a contact all nodes are one.
 *
 * @param plate  at least one contact
 * @param across number of tiles across the shorter side of the plate, ≥ 1; about as fine along the longer one
 * @throws {DomainError} on a plate without extent, or a contact that touches no metal of it
 */
export function plateGrid(plate: Plate, across: number): PlateGrid {
  for (const [axis, size] of plate.size.entries()) requirePositive('plateGrid', `${plate.id} size ${axis}`, size)
  const [u, v] = planeAxes(plate.thin)
  const tile = Math.min(plate.size[u], plate.size[v]) / across
  const grid = {
    us: gridLines(
      extent(plate, u),
      [...(plate.holes ?? []), ...plate.contacts].map((box) => extent(box, u)),
      tile,
    ),
    vs: gridLines(
      extent(plate, v),
      [...(plate.holes ?? []), ...plate.contacts].map((box) => extent(box, v)),
      tile,
    ),
  }
  const metal = (i: number, j: number): boolean => isMetal(plate, grid, i, j)
  const tiles = { metal, name: (i: number, j: number) => `${plate.id}:${i}:${j}` }
  const bars = [
    ...cells({ plate, tiles, along: u, lines: grid.us, beside: grid.vs, swap: false }),
    ...cells({ plate, tiles, along: v, lines: grid.vs, beside: grid.us, swap: true }),
  ]
  return withContacts(plate, grid, bars)
}

type Grid = { readonly us: readonly number[]; readonly vs: readonly number[] }
type Axis = 0 | 1 | 2

function planeAxes(thin: Axis): readonly [Axis, Axis] {
  if (thin === 0) return [1, 2]
  return thin === 1 ? [0, 2] : [0, 1]
}

function extent({ corner, size }: Box, axis: Axis): readonly [number, number] {
  return [corner[axis], corner[axis] + size[axis]]
}

function isMetal(plate: Plate, { us, vs }: Grid, i: number, j: number): boolean {
  const [u, v] = planeAxes(plate.thin)
  if (i < 0 || j < 0 || i >= us.length - 1 || j >= vs.length - 1) return false
  const middle = [
    ((us[i] as number) + (us[i + 1] as number)) / 2,
    ((vs[j] as number) + (vs[j + 1] as number)) / 2,
  ] as const
  return !(plate.holes ?? []).some((hole) => within(middle[0], extent(hole, u)) && within(middle[1], extent(hole, v)))
}

function within(value: number, [low, high]: readonly [number, number], slack = 0): boolean {
  return value >= low - slack && value <= high + slack
}

interface CellInputs {
  readonly plate: Plate
  readonly tiles: { readonly metal: (i: number, j: number) => boolean; readonly name: (i: number, j: number) => string }
  readonly along: Axis
  readonly lines: readonly number[]
  readonly beside: readonly number[]
  /** Lines run along the second axis of the plane, so tile numbers come the other way round. */
  readonly swap: boolean
}

/** Bars along one axis: between neighbouring lines, each as wide as the half tiles of metal beside it. */
function cells({ plate, tiles, along, lines, beside, swap }: CellInputs): BarBranch[] {
  const at = <T>(read: (i: number, j: number) => T, i: number, j: number): T => (swap ? read(j, i) : read(i, j))
  const branches: BarBranch[] = []
  for (let i = 0; i < lines.length - 1; i++) {
    for (let j = 0; j < beside.length; j++) {
      const line = beside[j] as number
      const low = at(tiles.metal, i, j - 1) ? (line + (beside[j - 1] as number)) / 2 : line
      const high = at(tiles.metal, i, j) ? (line + (beside[j + 1] as number)) / 2 : line
      if (high <= low) continue
      const [from, to] = [at(tiles.name, i, j), at(tiles.name, i + 1, j)]
      const span: Tile = { start: lines[i] as number, end: lines[i + 1] as number, low, high }
      branches.push({ id: `${from}>${to}`, from, to, bar: cellBar(plate, along, span) })
    }
  }
  return branches
}

function cellBar(plate: Plate, along: Axis, { start, end, low, high }: Tile): Bar {
  const [u, v] = planeAxes(plate.thin)
  const beside = along === u ? v : u
  const point = (position: number): Vector => {
    const p: [number, number, number] = [0, 0, 0]
    p[along] = position
    p[beside] = (low + high) / 2
    p[plate.thin] = plate.corner[plate.thin] + plate.size[plate.thin] / 2
    return p
  }
  const flat: [number, number, number] = [0, 0, 0]
  flat[plate.thin] = 1
  return { start: point(start), end: point(end), width: high - low, thickness: plate.size[plate.thin], flat }
}

/** Nodes under a contact become one with it; bars between them carry nothing and go. */
function withContacts(plate: Plate, { us, vs }: Grid, bars: readonly BarBranch[]): PlateGrid {
  const [u, v] = planeAxes(plate.thin)
  const present = new Set(bars.flatMap(({ from, to }) => [from, to]))
  const owner = new Map<string, string>()
  const joined = plate.contacts.map((contact) => {
    const [cu, cv] = [extent(contact, u), extent(contact, v)]
    const slack = 1e-9 * Math.max(plate.size[u], plate.size[v])
    const under: string[] = []
    for (const [i, x] of us.entries()) {
      if (!within(x, cu, slack)) continue
      for (const [j, y] of vs.entries()) {
        const name = `${plate.id}:${i}:${j}`
        if (within(y, cv, slack) && present.has(name)) under.push(name)
      }
    }
    if (under.length === 0) throw new DomainError('plateGrid', 'contacts', contact.node, 'on metal of the plate')
    for (const name of under) owner.set(name, contact.node)
    return [contact.node, ...under]
  })
  const live = bars.filter(({ from, to }) => !owner.has(from) || owner.get(from) !== owner.get(to))
  return { branches: live, joined }
}
