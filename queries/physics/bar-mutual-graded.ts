import type { ParallelPair, Span } from './bar-mutual-pair.ts'
import { clearance, endsOf, NEUMANN_FACTOR, nodesFor } from './bar-mutual-pair.ts'
import { parallelIntegral } from './filament-mutual.ts'
import { doubleExponential, legendre } from './quadrature.ts'

/** Density of the absolute distance across one axis, and where it has kinks, from 0 to its end. */
export interface Fold {
  readonly density: (u: number) => number
  readonly kinks: readonly number[]
}

/**
 * Mutual partial inductance of two parallel bars, safe for thin, long, short and overlapping ones: the two-filament
 * integral, averaged over the distances (x, y) between points of the two sections,
 *
 *     M = µ₀/4π ∫∫ p(x) q(y) G(√(x² + y²)) dx dy,   p and q: trapezia folded to x, y ≥ 0
 *
 * by Gauss rules over cells that shrink towards x = y = 0, where G is singular. No large terms cancel.
 *
 * @param error aimed at, relative [1]
 */
export function gradedMutual(pair: ParallelPair, error = FINEST): number {
  const ends = endsOf(pair.z)
  const integral = gradedIntegral({
    x: fold(pair.x),
    y: fold(pair.y),
    clear: clearance(pair.z),
    turn: Math.min(...ends.distances),
    error,
    kernel: (rho) => parallelIntegral(ends, rho),
  })
  return NEUMANN_FACTOR * integral
}

export interface GradedInputs {
  readonly x: Fold
  readonly y: Fold
  /** How far the kernel's singularity lies beyond the plane x, y (0: it is at x = y = 0). */
  readonly clear?: number
  /** Distance from the origin at which the kernel changes its character: no cell at the origin is larger. */
  readonly turn?: number
  /** Relative error aimed at in each cell [1]; 10⁻¹⁴ if left out. */
  readonly error?: number
  /** May depend on x and y by themselves; singular at the origin at most like a logarithm. */
  readonly kernel: (rho: number, x: number, y: number) => number
}

/** ∫∫ p(x) q(y) kernel over the first quadrant, kernel singular at the origin only. */
export function gradedIntegral(inputs: GradedInputs): number {
  let sum = 0
  for (let i = 1; i < inputs.x.kinks.length; i++) {
    for (let j = 1; j < inputs.y.kinks.length; j++) {
      sum += cellIntegral(inputs, {
        x0: inputs.x.kinks[i - 1] as number,
        x1: inputs.x.kinks[i] as number,
        y0: inputs.y.kinks[j - 1] as number,
        y1: inputs.y.kinks[j] as number,
      })
    }
  }
  return sum
}

export function fold(span: Span): Fold {
  const half = (span.first + span.second) / 2
  const flat = Math.abs(span.first - span.second) / 2
  const top = 1 / Math.max(span.first, span.second)
  const one = (u: number): number => {
    const beyond = Math.abs(u - span.offset) - flat
    return beyond <= 0 ? top : Math.max(0, top * (1 - beyond / (half - flat)))
  }
  return {
    density: (u) => one(u) + one(-u),
    kinks: kinksOf(span.offset, half, flat),
  }
}

/** Absolute values of the corners of a trapezium and 0 where it lies within, sorted, without empty pieces. */
function kinksOf(offset: number, half: number, flat: number): readonly number[] {
  const corners = [offset - half, offset - flat, offset + flat, offset + half].map(Math.abs)
  const crosses = Math.abs(offset) < half
  const sorted = [...corners, ...(crosses ? [0] : [])].sort((a, b) => a - b)
  const least = 1e-14 * (Math.abs(offset) + half)
  return sorted.filter((one, i) => i === 0 || one - (sorted[i - 1] as number) > least)
}

interface Cell {
  readonly x0: number
  readonly x1: number
  readonly y0: number
  readonly y1: number
}

const FINEST = 1e-14

function cellIntegral(inputs: GradedInputs, cell: Cell): number {
  const { x0, x1, y0, y1 } = cell
  const [width, height] = [x1 - x0, y1 - y0]
  const distance = Math.hypot(x0, y0, inputs.clear ?? 0)
  if (Math.max(width, height) <= 1.001 * distance) return gaussCell(inputs, cell, distance)
  const turn = turnWithin(inputs.turn, Math.min(width, height))
  const atOrigin = x0 === 0 && y0 === 0
  if (atOrigin && Math.max(width, height) < 1.5 * Math.min(width, height, turn)) return originCell(inputs, cell)
  // Cut the longer side where the near part becomes as long as it is far away, or square if it touches the origin.
  const near = atOrigin ? Math.max(distance, Math.min(width, height, turn)) : distance
  if (width >= height) {
    const cut = x0 + (near < width ? near : width / 2)
    return cellIntegral(inputs, { ...cell, x1: cut }) + cellIntegral(inputs, { ...cell, x0: cut })
  }
  const cut = y0 + (near < height ? near : height / 2)
  return cellIntegral(inputs, { ...cell, y1: cut }) + cellIntegral(inputs, { ...cell, y0: cut })
}

/** A turn at less than a thousandth of the cell covers too little of it to matter. */
function turnWithin(turn: number | undefined, size: number): number {
  return turn === undefined || turn < 1e-3 * size ? Number.POSITIVE_INFINITY : turn
}

function gaussCell({ x, y, kernel, error = FINEST }: GradedInputs, { x0, x1, y0, y1 }: Cell, distance: number): number {
  // One node more than the kernel needs: the densities are linear within a cell.
  const rx = legendre(1 + nodesFor({ distance, half: (x1 - x0) / 2, error }))
  const ry = legendre(1 + nodesFor({ distance, half: (y1 - y0) / 2, error }))
  let sum = 0
  for (let j = 0; j < ry.nodes.length; j++) {
    const yj = y0 + (y1 - y0) * (ry.nodes[j] as number)
    let row = 0
    for (let i = 0; i < rx.nodes.length; i++) {
      const xi = x0 + (x1 - x0) * (rx.nodes[i] as number)
      row += (rx.weights[i] as number) * x.density(xi) * kernel(Math.sqrt(xi * xi + yj * yj), xi, yj)
    }
    sum += (ry.weights[j] as number) * y.density(yj) * row
  }
  return sum * (x1 - x0) * (y1 - y0)
}

const ANGULAR_NODES = 14

/** Two triangles that meet at the origin, each mapped to a square so that the singularity lies on one edge of it. */
function originCell({ x, y, kernel }: GradedInputs, { x1, y1 }: Cell): number {
  const radial = doubleExponential()
  const angular = legendre(ANGULAR_NODES)
  let sum = 0
  for (let i = 0; i < radial.nodes.length; i++) {
    const u = radial.nodes[i] as number
    let ring = 0
    for (let k = 0; k < ANGULAR_NODES; k++) {
      const v = angular.nodes[k] as number
      const [xa, ya] = [x1 * u, y1 * u * v]
      const [xb, yb] = [x1 * u * v, y1 * u]
      const lower = x.density(xa) * y.density(ya) * kernel(Math.sqrt(xa * xa + ya * ya), xa, ya)
      const upper = x.density(xb) * y.density(yb) * kernel(Math.sqrt(xb * xb + yb * yb), xb, yb)
      ring += (angular.weights[k] as number) * (lower + upper)
    }
    sum += (radial.weights[i] as number) * u * ring
  }
  return sum * x1 * y1
}
