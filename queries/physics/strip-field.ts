import { DomainError } from './method.ts'
import type { Kernel } from './strip-kernel.ts'
import type { Piece } from './strip-mesh.ts'

/** Electric constant [F/m] and speed of light [m/s], CODATA 2018. */
export const EPSILON0 = 8.8541878128e-12
export const LIGHT = 299792458

/** Kernels of one arrangement: with its dielectric, and with all of it taken away. */
export type Fill = { readonly filled: Kernel; readonly air: Kernel }

export type FieldInputs = {
  pieces: readonly Piece[]
  fill: Fill
  /** Potential of each conductor, by its number. */
  potentials: readonly number[]
  /** Charges add up to zero: for arrangements without an infinite ground plane. */
  neutral?: boolean
}

/**
 * Charge per length on each conductor [C/m] by the method of moments in two dimensions: even charge on each piece of the
 * outlines, chosen so that the potential in the middle of every piece is that of its conductor. Quasi-static: the cross
 * section is small beside the wavelength, conductors are perfect.
 */
export function charges(
  { pieces, fill, potentials, neutral = false }: FieldInputs,
  kernel: keyof Fill,
): readonly number[] {
  const solved = solve(pieces, fill[kernel], potentials, neutral)
  return potentials.map((_, conductor) =>
    pieces.reduce((sum, piece, i) => (piece.conductor === conductor ? sum + EPSILON0 * solved[i]! : sum), 0),
  )
}

function solve(
  pieces: readonly Piece[],
  kernel: Kernel,
  potentials: readonly number[],
  neutral: boolean,
): Float64Array {
  const n = pieces.length + (neutral ? 1 : 0)
  const width = n + 1
  const matrix = new Float64Array(n * width)
  pieces.forEach(({ x, y, conductor }, row) => {
    pieces.forEach((source, column) => {
      matrix[row * width + column] = kernel(source, x, y)
    })
    // Without a ground plane the level of all potentials is one more unknown.
    if (neutral) matrix[row * width + n - 1] = 1
    matrix[row * width + n] = potentials[conductor]!
  })
  if (neutral) matrix.fill(1, (n - 1) * width, (n - 1) * width + n - 1)
  return eliminate(matrix, n)
}

/** Gaussian elimination with partial pivoting of an augmented matrix by rows, which it uses up. */
function eliminate(matrix: Float64Array, n: number): Float64Array {
  const width = n + 1
  for (let column = 0; column < n; column++) {
    let pivot = column
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(matrix[row * width + column]!) > Math.abs(matrix[pivot * width + column]!)) pivot = row
    }
    if (matrix[pivot * width + column] === 0)
      throw new DomainError('charges', 'pieces', 'a singular arrangement', 'conductors apart from each other')
    if (pivot !== column) swap(matrix, pivot * width, column * width, width)
    for (let row = column + 1; row < n; row++) {
      const factor = matrix[row * width + column]! / matrix[column * width + column]!
      if (factor === 0) continue
      for (let k = column; k < width; k++) matrix[row * width + k]! -= factor * matrix[column * width + k]!
    }
  }
  const solution = new Float64Array(n)
  for (let row = n - 1; row >= 0; row--) {
    let rest = matrix[row * width + n]!
    for (let k = row + 1; k < n; k++) rest -= matrix[row * width + k]! * solution[k]!
    solution[row] = rest / matrix[row * width + row]!
  }
  return solution
}

function swap(matrix: Float64Array, a: number, b: number, width: number): void {
  const kept = matrix.slice(a, a + width)
  matrix.copyWithin(a, b, b + width)
  matrix.set(kept, b)
}

export type Line = {
  readonly impedance: number
  readonly effectivePermittivity: number
  readonly inductancePerLength: number
  readonly capacitancePerLength: number
  readonly delay: number
}

/**
 * A line from its capacitance per length with and without the dielectric: Z = 1/(c √(C C_air)), L = 1/(c² C_air),
 * ε_eff = C/C_air, delay √ε_eff/c. The inductance is the external one at high frequency.
 *
 * @param capacitance per length, with the dielectric [F/m]
 * @param inAir       without it [F/m]
 */
export function lineOf(capacitance: number, inAir: number): Line {
  return {
    impedance: 1 / (LIGHT * Math.sqrt(capacitance * inAir)),
    effectivePermittivity: capacitance / inAir,
    inductancePerLength: 1 / (LIGHT ** 2 * inAir),
    capacitancePerLength: capacitance,
    delay: Math.sqrt(capacitance / inAir) / LIGHT,
  }
}

/** Pieces to a face, coarse; the fine solve takes twice as many. */
const COARSE = 12

/**
 * Line of conductor 0 against the rest. Two solves, one with twice the pieces, are extrapolated: the error falls with the
 * square of their number (seen on lines with exact answers).
 *
 * @param arrangement pieces and potentials for a number of pieces to a face
 * @param share       part of conductor 0 that is in the pieces: ½ where only the right half is
 */
export function fieldLine(arrangement: (count: number) => FieldInputs, share = 1): Line {
  const [coarse, fine] = [arrangement(COARSE), arrangement(2 * COARSE)]
  const per = (kernel: keyof Fill): number => {
    const [rough, better] = [charges(coarse, kernel)[0]!, charges(fine, kernel)[0]!]
    return (better + (better - rough) / 3) / (share * fine.potentials[0]!)
  }
  return lineOf(per('filled'), per('air'))
}
