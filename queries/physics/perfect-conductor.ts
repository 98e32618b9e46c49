import { NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import { backward, choleskyInPlace, forward } from './dense.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'
import type { Panel } from './panel-log.ts'
import { meanPanelLog } from './panel-log.ts'

/** Upright rectangle in the plane across the conductors, by its middle [m]. */
export interface Rectangle {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly thickness: number
}

/**
 * Inductance coefficients per length of long parallel rectangular conductors at very high frequency: current on the
 * surfaces only, spread so that no field enters. Σ Iₘ Kₘₙ Iₙ is twice the energy for currents that add up to nothing
 * (per length); single coefficients depend on an arbitrary far return.
 *
 * Boundary method: surface current even over panels that shrink towards the corners (exponent 3), Galerkin, exact
 * integrals of the logarithm.
 *
 * @param conductors that do not touch
 * @param panels     on each side of each conductor, ≥ 4; 24 gives 4 parts in 10⁶ at right-angled corners, 1 in 10⁴ at
 *   knife edges
 * @returns n × n by rows [H/m]
 */
export function surfaceInductances(conductors: readonly Rectangle[], panels = 24): Float64Array {
  const all = conductors.flatMap((one, owner) => panelsOf(one, owner, panels))
  const n = all.length
  const matrix = new Float64Array(n * n)
  const scale = diameter(conductors)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      matrix[i * n + j] = Math.log(scale) - meanPanelLog(all[i] as Panel, all[j] as Panel)
    }
  }
  if (choleskyInPlace(matrix, n) !== undefined) {
    throw new DomainError('surfaceInductances', 'conductors', conductors.length, 'rectangles apart from each other')
  }
  const answers = conductors.map((_, owner) => {
    const drive = Float64Array.from(all, (panel) => (panel.owner === owner ? 1 : 0))
    forward(matrix, n, drive)
    return drive
  })
  const m = conductors.length
  const spread = new Float64Array(m * m)
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) spread[i * m + j] = product(answers[i] as Float64Array, answers[j] as Float64Array)
  }
  return inverse(spread, m).map((k) => 2 * NEUMANN_FACTOR * k)
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number)
  return sum
}

function inverse(matrix: Float64Array, m: number): Float64Array {
  const factor = matrix.slice()
  choleskyInPlace(factor, m)
  const result = new Float64Array(m * m)
  for (let j = 0; j < m; j++) {
    const column = new Float64Array(m)
    column[j] = 1
    forward(factor, m, column)
    backward(factor, m, column)
    for (let i = 0; i < m; i++) result[i * m + j] = column[i] as number
  }
  return result
}

/** Twice the size of a circle round all: keeps every logarithm on one side of zero, hence the matrix positive. */
function diameter(conductors: readonly Rectangle[]): number {
  const reach = ({ x, y, width, thickness }: Rectangle): number => Math.hypot(x, y) + width + thickness
  return 4 * Math.max(...conductors.map(reach))
}

function panelsOf({ x, y, width, thickness }: Rectangle, owner: number, panels: number): readonly Panel[] {
  const sides: Panel[] = []
  for (const [at, size] of graded(width, panels)) {
    for (const side of [-1, 1]) sides.push({ owner, x: x + at, y: y + (side * thickness) / 2, size, upright: false })
  }
  for (const [at, size] of graded(thickness, panels)) {
    for (const side of [-1, 1]) sides.push({ owner, x: x + (side * width) / 2, y: y + at, size, upright: true })
  }
  return sides
}

/** Middles and sizes of pieces of a side, shortest at its ends. */
function graded(side: number, count: number): readonly (readonly [number, number])[] {
  const edge = (i: number): number => {
    const t = i / count
    return side * (t ** 3 / (t ** 3 + (1 - t) ** 3) - 0.5)
  }
  return Array.from({ length: count }, (_, i) => [(edge(i) + edge(i + 1)) / 2, edge(i + 1) - edge(i)] as const)
}

export type SurfacePairInputs = { width: number; thickness: number; gap: number }

/**
 * High-frequency go-and-return inductance per length of two equal plates face to face, fringing included: current on
 * the surfaces only. Below the wide-plate limit µ₀ g/w, as field leaks round the edges.
 *
 * @param width     of each plate [m], > 0
 * @param thickness of each plate [m], > 0
 * @param gap       between the faces [m], > 0
 * @returns [H/m]
 * @throws {DomainError} on a size or gap of zero or less
 *
 * @example surfacePairInductance({ width: 0.02, thickness: 0.001, gap: 0.5e-3 }) // 29.398e-9
 */
export function surfacePairInductance({ width, thickness, gap }: SurfacePairInputs): number {
  for (const [name, value] of Object.entries({ width, thickness, gap })) {
    requirePositive('surfacePairInductance', name, value)
  }
  const y = (gap + thickness) / 2
  return goAndReturn([
    { x: 0, y: -y, width, thickness },
    { x: 0, y, width, thickness },
  ])
}

/** The same for two bars side by side in one plane, `gap` from edge to edge. @see surfacePairInductance */
export function surfaceCoplanarInductance({ width, thickness, gap }: SurfacePairInputs): number {
  return surfacePairInductance({ width: thickness, thickness: width, gap })
}

function goAndReturn(conductors: readonly [Rectangle, Rectangle]): number {
  const [a, b, c, d] = surfaceInductances(conductors)
  return (a as number) - (b as number) - (c as number) + (d as number)
}

const SECTION = {
  width: { unit: 'm', about: 'width of each bar' },
  thickness: { unit: 'm', about: 'thickness of each bar' },
} as const
const GIVES = {
  loopPerLength: { unit: 'H/m', print: 'nH/m', about: 'go and return, current on the surfaces' },
} as const
const SOURCES = [
  'two-dimensional boundary method, Galerkin; checked against the exact conformal map of coplanar strips',
]

export const surfacePair = defineMethod<SurfacePairInputs, { loopPerLength: number }>({
  id: 'laminated-pair-fast',
  title: 'Go-and-return inductance of a laminated pair per length, fast current',
  takes: { ...SECTION, gap: { unit: 'm', about: 'from face to face' } },
  gives: GIVES,
  sources: SOURCES,
  compute: (inputs) => ({ loopPerLength: surfacePairInductance(inputs) }),
})

export const surfaceCoplanar = defineMethod<SurfacePairInputs, { loopPerLength: number }>({
  id: 'coplanar-bars-fast',
  title: 'Go-and-return inductance of two bars side by side per length, fast current',
  takes: { ...SECTION, gap: { unit: 'm', about: 'from edge to edge' } },
  gives: GIVES,
  sources: SOURCES,
  compute: (inputs) => ({ loopPerLength: surfaceCoplanarInductance(inputs) }),
})

export const perfectConductorMethods = [surfacePair, surfaceCoplanar] as const
