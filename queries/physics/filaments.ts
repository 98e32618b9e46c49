import { MAGNETIC_CONSTANT, NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import type { Complex } from './dense.ts'
import { factorSymmetric, solveSymmetric } from './dense.ts'
import { meshBar } from './filament-mesh.ts'
import { axialEnds, parallelIntegral } from './filament-mutual.ts'
import type { Image } from './filament-solve.ts'
import { groupAdmittance, NO_IMAGE } from './filament-solve.ts'
import { DomainError, requirePositive } from './method.ts'
import type { Rectangle } from './perfect-conductor.ts'
import { skinDepth } from './skin-effect.ts'

export interface BarsInputs {
  /** Sections of the bars in the plane across them, by their middles [m]. */
  readonly bars: readonly Rectangle[]
  readonly conductivity: number
  readonly frequency: number
  /** Length of the bars [m]; per unit of length without ends if left out. */
  readonly length?: number
  /** Mirror images of the bars that carry the same (+1) or opposite (−1) currents. */
  readonly images?: readonly Image[]
  /** Bars that are cut in halves by a mirror: keep the half at larger x (or y) only. */
  readonly halfX?: boolean
  readonly halfY?: boolean
}

/** Impedances of the bars among each other, n × n by rows; of all their images together where there are any. */
export interface BarsImpedance {
  /** [Ohm], or [Ohm/m] without length */
  readonly resistance: Float64Array
  /** [H], or [H/m] without length: then only combinations of currents that add up to nothing mean something. */
  readonly inductance: Float64Array
}

export interface CheckedImpedance extends BarsImpedance {
  /** What the last refinement of the mesh left open, relative to the largest coefficient [1]. */
  readonly resistanceError: number
  readonly inductanceError: number
}

/**
 * Resistances and inductances of parallel bars at a frequency, skin and proximity effect included: bars are cut into
 * filaments a third of a skin depth thin at the faces, each with resistance and self and mutual inductance; two meshes,
 * one with each cell cut in four, are extrapolated (errors go with the square of the cell size).
 *
 * @throws {DomainError} on no bars, or a size, conductivity or frequency of zero or less
 */
export function barsImpedance(inputs: BarsInputs): CheckedImpedance {
  const { bars, conductivity, frequency, length } = inputs
  if (bars.length === 0) throw new DomainError('barsImpedance', 'bars', 0, 'one or more')
  for (const { width, thickness } of bars) {
    requirePositive('barsImpedance', 'width', width)
    requirePositive('barsImpedance', 'thickness', thickness)
  }
  requirePositive('barsImpedance', 'conductivity', conductivity)
  requirePositive('barsImpedance', 'frequency', frequency)
  if (length !== undefined) requirePositive('barsImpedance', 'length', length)
  const coarse = meshedImpedance(inputs, 1)
  const fine = meshedImpedance(inputs, 2)
  const resistance = extrapolated(coarse.resistance, fine.resistance)
  const inductance = extrapolated(coarse.inductance, fine.inductance)
  return {
    resistance,
    inductance,
    resistanceError: largestChange(resistance, fine.resistance),
    inductanceError: largestChange(inductance, fine.inductance),
  }
}

function extrapolated(coarse: Float64Array, fine: Float64Array): Float64Array {
  return fine.map((value, i) => value + (value - (coarse[i] as number)) / 3)
}

function largestChange(a: Float64Array, b: Float64Array): number {
  const size = Math.max(...a.map(Math.abs))
  return Math.max(...a.map((value, i) => Math.abs(value - (b[i] as number)))) / size
}

function meshedImpedance(inputs: BarsInputs, split: number): BarsImpedance {
  const { bars, conductivity, frequency, length, images = [NO_IMAGE], halfX = false, halfY = false } = inputs
  const depth = skinDepth({ conductivity, frequency })
  const mesh = { depth, halfX, halfY, split }
  const farReturn = farReturnOf(bars)
  const admittance = groupAdmittance({
    cells: bars.flatMap((bar, group) => meshBar({ ...bar, group, ...mesh })),
    images,
    groups: bars.length,
    conductivity,
    frequency,
    farReturn,
    ...(length === undefined ? {} : { ends: endCorrection(length, farReturn) }),
  })
  const { re, im } = inverse(admittance, bars.length)
  const size = length ?? 1
  return { resistance: re.map((r) => r * size), inductance: im.map((x) => (x * size) / (2 * Math.PI * frequency)) }
}

/** Where currents do not add up to nothing: far enough to keep all coefficients positive. */
export function farReturnOf(bars: readonly Rectangle[]): number {
  return 4 * Math.max(...bars.map(({ x, y, width, thickness }) => Math.abs(x) + Math.abs(y) + width + thickness))
}

/** Per length: two filaments of that length, less two endless ones with the far return. */
function endCorrection(length: number, farReturn: number): (rho: number) => number {
  const ends = axialEnds({ firstLength: length, secondLength: length, start: 0 })
  return (rho) =>
    (NEUMANN_FACTOR * parallelIntegral(ends, rho)) / length -
    (MAGNETIC_CONSTANT / (2 * Math.PI)) * Math.log(farReturn / rho)
}

/** Inverse of an admittance matrix: its conjugate has positive real and imaginary parts, as the solver asks. */
function inverse({ re, im }: Complex, n: number): Complex {
  const factor = { re: re.slice(), im: im.map((b) => -b) }
  factorSymmetric(factor, n)
  const result = { re: new Float64Array(n * n), im: new Float64Array(n * n) }
  for (let j = 0; j < n; j++) {
    const column = { re: new Float64Array(n), im: new Float64Array(n) }
    column.re[j] = 1
    solveSymmetric(factor, n, column)
    for (let i = 0; i < n; i++) {
      result.re[i * n + j] = column.re[i] as number
      result.im[i * n + j] = -(column.im[i] as number)
    }
  }
  return result
}
