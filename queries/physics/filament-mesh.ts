/** A filament: upright rectangle in the plane across the bars, by its middle, with the bar that it belongs to [m]. */
export interface Cell {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly thickness: number
  readonly group: number
}

export interface MeshInputs {
  /** Middle of the bar [m]. */
  readonly x: number
  readonly y: number
  readonly width: number
  readonly thickness: number
  readonly group: number
  /** Skin depth [m]; infinite for direct current. */
  readonly depth: number
  /** Keep only the half at larger x (or y): the other half is its mirror image. */
  readonly halfX?: boolean
  readonly halfY?: boolean
  /** Each cell of the coarsest mesh is cut into so many, in both directions. */
  readonly split: number
}

/** Cells of a bar, thin at its faces where the current crowds. */
export function meshBar(inputs: MeshInputs): readonly Cell[] {
  const { x, y, width, thickness, group, depth, split } = inputs
  const columns = pieces({ side: width, depth, half: inputs.halfX ?? false, split })
  const rows = pieces({ side: thickness, depth, half: inputs.halfY ?? false, split })
  return columns.flatMap(([dx, w]) =>
    rows.map(([dy, t]): Cell => ({ x: x + dx, y: y + dy, width: w, thickness: t, group })),
  )
}

/** Outermost cell over the skin depth, and each cell over the one outside of it, in the coarsest mesh. */
const OUTERMOST = 1 / 3
const GROWTH = 1.7
/** Thickest cells over half the side: at the faces, and anywhere. */
const THICKEST_OUTER = 1 / 5
const THICKEST = 1 / 3

/** Middles (from the middle of the side) and sizes of the pieces of a side; `half`: those above the middle. */
function pieces(inputs: {
  side: number
  depth: number
  half: boolean
  split: number
}): readonly (readonly [number, number])[] {
  const { side, depth, half, split } = inputs
  const halfSide = side / 2
  const widths: number[] = []
  let covered = 0
  let next = Math.min(OUTERMOST * depth, THICKEST_OUTER * halfSide)
  while (covered < halfSide * (1 - 1e-12)) {
    const rest = halfSide - covered
    const one = rest < 1.5 * next ? rest : next
    widths.push(one)
    covered += one
    next = Math.min(GROWTH * next, THICKEST * halfSide)
  }
  const upper: (readonly [number, number])[] = []
  let edge = halfSide
  for (const one of widths) {
    for (let k = 0; k < split; k++) {
      upper.push([edge - one / split / 2, one / split])
      edge -= one / split
    }
  }
  return half ? upper : [...upper, ...upper.map(([at, size]) => [-at, size] as const)]
}
