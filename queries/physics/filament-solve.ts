import { fold, gradedIntegral } from './bar-mutual-graded.ts'
import { MAGNETIC_CONSTANT } from './bar-mutual-pair.ts'
import type { Complex } from './dense.ts'
import { factorSymmetric, solveSymmetric } from './dense.ts'
import type { Cell } from './filament-mesh.ts'
import type { RectanglePair } from './mean-log.ts'
import { meanLog } from './mean-log.ts'
import { emptyRule, trapezium } from './quadrature.ts'

/** A mirror image of all cells, with the sign of its currents. */
export interface Image {
  readonly flipX: boolean
  readonly flipY: boolean
  readonly sign: 1 | -1
}

export const NO_IMAGE: Image = { flipX: false, flipY: false, sign: 1 }

export interface FilamentInputs {
  readonly cells: readonly Cell[]
  /** The cells themselves (NO_IMAGE) and their mirror images. */
  readonly images: readonly Image[]
  readonly groups: number
  readonly conductivity: number
  readonly frequency: number
  /** Distance of the far return, where currents do not add up to nothing [m]. */
  readonly farReturn: number
  /** What ends add to the inductance per length of two filaments a distance apart [H/m]; 0 for endless bars. */
  readonly ends?: (rho: number) => number
}

/**
 * Currents of parallel filaments driven by a voltage per length in each group (bar): admittance of the groups,
 * groups × groups by rows [S.m], complex.
 *
 *     (1/(σ Aᵢ) δᵢⱼ + jω Lᵢⱼ) iⱼ = U of the group of i,   L = −µ₀/2π mean ln(distance/far return)
 */
export function groupAdmittance(inputs: FilamentInputs): Complex {
  const { cells, groups } = inputs
  const n = cells.length
  const matrix = impedance(inputs)
  factorSymmetric(matrix, n)
  const re = new Float64Array(groups * groups)
  const im = new Float64Array(groups * groups)
  for (let driven = 0; driven < groups; driven++) {
    const x = { re: Float64Array.from(cells, ({ group }) => (group === driven ? 1 : 0)), im: new Float64Array(n) }
    solveSymmetric(matrix, n, x)
    for (const [i, { group }] of cells.entries()) {
      const at = group * groups + driven
      re[at] = (re[at] as number) + (x.re[i] as number)
      im[at] = (im[at] as number) + (x.im[i] as number)
    }
  }
  return { re, im }
}

/** Error of single logarithms: errors of single cells average out over the whole. */
const LOG_ERROR = 1e-8

function impedance({ cells, images, conductivity, frequency, farReturn, ends }: FilamentInputs): Complex {
  const n = cells.length
  const re = new Float64Array(n * n)
  const im = new Float64Array(n * n)
  const omega = 2 * Math.PI * frequency
  for (const [i, a] of cells.entries()) {
    re[i * n + i] = 1 / (conductivity * a.width * a.thickness)
    for (let j = 0; j <= i; j++) {
      const b = cells[j] as Cell
      let inductance = 0
      for (const image of images) inductance += image.sign * between(a, b, image, { farReturn, ends })
      im[i * n + j] = omega * inductance
    }
  }
  return { re, im }
}

type Medium = Pick<FilamentInputs, 'farReturn'> & { ends: FilamentInputs['ends'] | undefined }

function between(a: Cell, b: Cell, { flipX, flipY }: Image, { farReturn, ends }: Medium): number {
  const dx = (flipX ? -b.x : b.x) - a.x
  const dy = (flipY ? -b.y : b.y) - a.y
  const pair = {
    x: { first: a.width, second: b.width, offset: dx },
    y: { first: a.thickness, second: b.thickness, offset: dy },
  }
  const log = meanLog(pair, LOG_ERROR)
  const endless = (MAGNETIC_CONSTANT / (2 * Math.PI)) * (Math.log(farReturn) - log)
  return ends ? endless + meanEnds(pair, ends) : endless
}

const ruleX = emptyRule()
const ruleY = emptyRule()

/**
 * The end correction is smooth but for a cusp at distance 0: a graded integral for a cell and itself, few points where
 * near, one elsewhere.
 */
function meanEnds({ x, y }: RectanglePair, ends: (rho: number) => number): number {
  const square = x.offset ** 2 + y.offset ** 2
  if (square === 0) return gradedIntegral({ x: fold(x), y: fold(y), kernel: ends })
  const [alongX, alongY] = [(x.first ** 2 + x.second ** 2) / 12, (y.first ** 2 + y.second ** 2) / 12]
  if (square > 20 * (alongX + alongY)) {
    // Mean distance to second order: only spread at right angles to the line between the cells lengthens it.
    return ends(Math.sqrt(square + (alongX * y.offset ** 2 + alongY * x.offset ** 2) / square))
  }
  trapezium({ ...x, count: NEAR_NODES }, ruleX)
  trapezium({ ...y, count: NEAR_NODES }, ruleY)
  let sum = 0
  for (let i = 0; i < NEAR_NODES; i++) {
    for (let j = 0; j < NEAR_NODES; j++) {
      const rho = Math.hypot(ruleX.nodes[i] as number, ruleY.nodes[j] as number)
      sum += (ruleX.weights[i] as number) * (ruleY.weights[j] as number) * ends(rho)
    }
  }
  return sum
}

/** Even, so that no node lies at distance 0. */
const NEAR_NODES = 4
