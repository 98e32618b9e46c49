import type { NetworkAnswer, NetworkFault, NetworkInputs, SolvedNetwork } from './inductance-network.ts'
import { solveNetwork } from './inductance-network.ts'
import type { Plate } from './plate.ts'
import { plateGrid } from './plate.ts'

export interface PlateNetworkInputs extends NetworkInputs {
  readonly plates: readonly Plate[]
  /**
   * Tiles across the shorter side of each plate in the coarse grid, ≥ 2; 4 if left out. The fine grid has half as many
   * again.
   */
  readonly across?: number
}

export interface RefinedNetwork {
  readonly ok: true
  /** Solution on the fine grid. */
  readonly fine: SolvedNetwork
  /** Port inductances on the coarse grid [H]. */
  readonly coarse: readonly (readonly number[])[]
  /** Port inductances carried on to ever finer grids, error taken as proportional to the tile [H]. */
  readonly extrapolated: readonly (readonly number[])[]
  /** Largest difference between extrapolated and fine grid, relative to the largest inductance [1]. */
  readonly change: number
}

export type RefinedAnswer = RefinedNetwork | { readonly ok: false; readonly fault: NetworkFault }

/**
 * A network with plates in which current finds its own way, solved on two grids: what the grid changes is part of the
 * answer. A finer grid lets current crowd at edges, which lowers inductance, and squeezes it at the ends of contacts,
 * which raises it.
 *
 * Cost goes with the cube of the number of tiles: two plates of 12 × 20 tiles each take about a second.
 */
export function solvePlates(inputs: PlateNetworkInputs): RefinedAnswer {
  const { across = 4 } = inputs
  const coarse = solvedWith(inputs, across)
  if (!coarse.ok) return coarse
  const fine = solvedWith(inputs, Math.round(across * 1.5))
  if (!fine.ok) return fine
  const ratio = Math.round(across * 1.5) / across
  const extrapolated = fine.ports.map((row, i) =>
    row.map((value, j) => value + (value - (coarse.ports[i]?.[j] ?? value)) / (ratio - 1)),
  )
  return { ok: true, fine, coarse: coarse.ports, extrapolated, change: largestChange(extrapolated, fine.ports) }
}

function solvedWith({ plates, branches, joined = [], ...rest }: PlateNetworkInputs, across: number): NetworkAnswer {
  const grids = plates.map((plate) => plateGrid(plate, across))
  return solveNetwork({
    error: 1e-9,
    ...rest,
    branches: [...branches, ...grids.flatMap((grid) => grid.branches)],
    joined: [...joined, ...grids.flatMap((grid) => grid.joined)],
  })
}

function largestChange(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number {
  const size = Math.max(...a.flat().map(Math.abs))
  return Math.max(...a.flatMap((row, i) => row.map((value, j) => Math.abs(value - (b[i]?.[j] ?? value))))) / size
}
