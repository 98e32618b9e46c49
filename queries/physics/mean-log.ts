import { fold, gradedIntegral } from './bar-mutual-graded.ts'
import type { Span } from './bar-mutual-pair.ts'
import { clearance, nodesFor } from './bar-mutual-pair.ts'
import { defineMethod, requirePositive } from './method.ts'
import { emptyRule, TRAPEZIUM_MOST, trapezium } from './quadrature.ts'

/** Two upright rectangles in a plane. */
export interface RectanglePair {
  readonly x: Span
  readonly y: Span
}

/**
 * Mean of ln(distance/1 m) between the points of two upright rectangles in a plane, or of one and itself: the logarithm
 * of their geometric mean distance. As in three dimensions: Gauss rule where far apart, closed form where it does not
 * cancel, graded integral elsewhere.
 *
 * @param error wanted of the logarithm [1], 10⁻¹³ at best
 *
 * @example Math.exp(meanLog({ x: { first: 10e-3, second: 10e-3, offset: 0 }, y: { first: 1e-3, second: 1e-3, offset: 0 } }))
 * // 2.45959e-3
 */
export function meanLog(pair: RectanglePair, error = 1e-12): number {
  const far = farMean(pair, error)
  if (far !== undefined) return far
  const exact = closedMean(pair)
  if (exact.rounding <= error) return exact.mean
  return gradedIntegral({ x: fold(pair.x), y: fold(pair.y), kernel: Math.log })
}

// Overwritten by each call: a mesh asks for hundreds of thousands of means.
const ruleX = emptyRule()
const ruleY = emptyRule()

function farMean({ x, y }: RectanglePair, error: number): number | undefined {
  const distance = Math.hypot(clearance(x), clearance(y))
  const nx = nodesFor({ distance, half: (x.first + x.second) / 2, error })
  const ny = nodesFor({ distance, half: (y.first + y.second) / 2, error })
  if (nx > TRAPEZIUM_MOST || ny > TRAPEZIUM_MOST) return undefined
  trapezium({ first: x.first, second: x.second, offset: x.offset, count: nx }, ruleX)
  trapezium({ first: y.first, second: y.second, offset: y.offset, count: ny }, ruleY)
  let sum = 0
  for (let i = 0; i < nx; i++) {
    const x2 = (ruleX.nodes[i] as number) ** 2
    let column = 0
    for (let j = 0; j < ny; j++) column += (ruleY.weights[j] as number) * Math.log(x2 + (ruleY.nodes[j] as number) ** 2)
    sum += (ruleX.weights[i] as number) * column
  }
  return sum / 2
}

/**
 * Σ± h over the distances between edges, h = (6x²y² − x⁴ − y⁴)/48 ln(x²+y²) + (x³y atan(y/x) + xy³ atan(x/y))/6,
 * less 25/12 (since ∂⁴h/∂x²∂y² = ln r + 25/12).
 */
function closedMean({ x, y }: RectanglePair): { mean: number; rounding: number } {
  const area = x.first * x.second * y.first * y.second
  // Lengths are counted from the largest one, so that logarithms stay small.
  const scale = Math.abs(x.offset) + Math.abs(y.offset) + x.first + x.second + y.first + y.second
  let sum = 0
  let size = 0
  for (const [xi, wx] of edges(x)) {
    for (const [yi, wy] of edges(y)) {
      const term = wx * wy * fourfold(Math.abs(xi), Math.abs(yi), scale)
      sum += term
      size += Math.abs(term)
    }
  }
  return { mean: Math.log(scale) + sum / area - 25 / 12, rounding: (4e-16 * size) / area }
}

function edges({ first, second, offset }: Span): readonly (readonly [number, number])[] {
  const [outer, inner] = [(first + second) / 2, (first - second) / 2]
  return [
    [offset - outer, 1],
    [offset + outer, 1],
    [offset - inner, -1],
    [offset + inner, -1],
  ]
}

function fourfold(x: number, y: number, scale: number): number {
  const [x2, y2] = [x * x, y * y]
  if (x2 + y2 === 0) return 0
  const log = ((6 * x2 * y2 - x2 * x2 - y2 * y2) / 48) * Math.log((x2 + y2) / (scale * scale))
  const angle = Math.atan2(y, x)
  return log + (x * y * (x2 * angle + y2 * (Math.PI / 2 - angle))) / 6
}

export type MeanDistanceInputs = { width: number; thickness: number }

/**
 * Geometric mean distance of a rectangle from itself: about 0.2235 (w + t).
 *
 * @throws {DomainError} on a side of zero or less
 *
 * @example rectangleMeanDistance({ width: 10e-3, thickness: 1e-3 }) // 2.459589e-3
 */
export function rectangleMeanDistance({ width, thickness }: MeanDistanceInputs): number {
  requirePositive('rectangleMeanDistance', 'width', width)
  requirePositive('rectangleMeanDistance', 'thickness', thickness)
  const span = (size: number): Span => ({ first: size, second: size, offset: 0 })
  return Math.exp(meanLog({ x: span(width), y: span(thickness) }))
}

export const meanDistance = defineMethod<MeanDistanceInputs, { meanDistance: number }>({
  id: 'rectangle-mean-distance',
  title: 'Geometric mean distance of a rectangle',
  takes: { width: { unit: 'm', about: 'one side' }, thickness: { unit: 'm', about: 'the other side' } },
  gives: { meanDistance: { unit: 'm', print: 'mm', about: 'exponential of the mean logarithm of the distance' } },
  sources: [
    'mean of the logarithm over the rectangle, closed form; F. W. Grover, Inductance Calculations, 1946 (from memory)',
  ],
  compute: (inputs) => ({ meanDistance: rectangleMeanDistance(inputs) }),
})

export const meanLogMethods = [meanDistance] as const
