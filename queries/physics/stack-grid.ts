/** A layer of a stack, listed from the bottom face up; its rectangle is centred unless an offset is given. */
export type FieldLayer = {
  readonly thickness: number
  readonly thermalConductivity: number
  readonly x: number
  readonly y: number
}

/** Even flux on the top face of a layer, over the whole of it or a centred rectangle. */
export type FieldSource = { readonly layer: number; readonly x: number; readonly y: number }

export type StackFieldSpec = {
  readonly layers: readonly FieldLayer[]
  readonly source: FieldSource
  readonly bottomCoefficient: number
  readonly topCoefficient?: number
  /** Cells across half the source, and the grid that follows from it; 8 if left out. */
  readonly cells?: number
}

/** Cells of a quarter of the stack, its axis at x = y = 0; conductivity 0 where there is no material. */
export type FieldGrid = {
  readonly nx: number
  readonly ny: number
  readonly nz: number
  readonly dx: Float64Array
  readonly dy: Float64Array
  readonly dz: Float64Array
  readonly conductivity: Float64Array
  /** For each layer the number of cell layers up to its top face. */
  readonly layerTop: readonly number[]
}

/** Grid lines at every edge of a layer and of the source, finer towards the edges where heat turns. */
export function fieldGrid({ layers, source, cells = 8 }: StackFieldSpec): FieldGrid {
  const dx = cellsBetween(edges([...layers.map(({ x }) => x), source.x]), source.x / 2 / cells)
  const dy = cellsBetween(edges([...layers.map(({ y }) => y), source.y]), source.y / 2 / cells)
  const size = Math.min(source.x, source.y) / 2 / cells
  const perLayer = layers.map(({ thickness }) =>
    spaced(thickness, Math.min(Math.max(Math.ceil(thickness / size), 2), 2 * cells)),
  )
  const dz = Float64Array.from(perLayer.flat())
  const layerTop: number[] = []
  for (const steps of perLayer) layerTop.push((layerTop.at(-1) ?? 0) + steps.length)
  const [nx, ny, nz] = [dx.length, dy.length, dz.length]
  const conductivity = new Float64Array(nx * ny * nz)
  const middles = { x: middlesOf(dx), y: middlesOf(dy) }
  for (let k = 0, layer = 0; k < nz; k++) {
    if (k >= layerTop[layer]!) layer++
    const { x, y, thermalConductivity } = layers[layer]!
    for (let j = 0; j < ny; j++) {
      if (middles.y[j]! > y / 2) continue
      for (let i = 0; i < nx; i++) if (middles.x[i]! < x / 2) conductivity[(k * ny + j) * nx + i] = thermalConductivity
    }
  }
  return { nx, ny, nz, dx, dy, dz, conductivity, layerTop }
}

/** Half-sizes without repetition, rising; sizes within a part in 10⁹ are one edge. */
function edges(sizes: readonly number[]): number[] {
  const sorted = sizes.map((size) => size / 2).sort((a, b) => a - b)
  return sorted.filter((edge, i) => i === 0 || edge > sorted[i - 1]! * (1 + 1e-9))
}

function cellsBetween(lines: readonly number[], size: number): Float64Array {
  const widths: number[] = []
  let from = 0
  for (const [i, to] of lines.entries()) {
    // Beyond the source the field is smoother the farther out: cells may grow.
    const coarser = i === 0 ? 1 : 1.6
    widths.push(...spaced(to - from, Math.max(Math.ceil((to - from) / (size * coarser)), 2)))
    from = to
  }
  return Float64Array.from(widths)
}

/** Widths that are fine at both ends and twice as wide in the middle. */
function spaced(length: number, count: number): number[] {
  const shape = Array.from({ length: count }, (_, i) => 1 + Math.sin((Math.PI * (i + 0.5)) / count))
  const sum = shape.reduce((total, one) => total + one, 0)
  return shape.map((one) => (one * length) / sum)
}

function middlesOf(widths: Float64Array): Float64Array {
  let edge = 0
  return widths.map((width) => {
    edge += width
    return edge - width / 2
  })
}
