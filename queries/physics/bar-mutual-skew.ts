import type { Frame, Vector } from './bar.ts'
import { dot, minus, norm, plus } from './bar.ts'
import { NEUMANN_FACTOR, nodesFor } from './bar-mutual-pair.ts'
import { boxPotential } from './box-potential.ts'
import { legendre } from './quadrature.ts'

/** Block of metal with its own directions; current runs along `frame.along`. */
export interface Block {
  readonly frame: Frame
  readonly width: number
  readonly thickness: number
}

/** What a pair of bars at an angle couples, and how exactly that was found. */
export interface SkewMutual {
  readonly inductance: number
  /** Estimated error of the quadrature, relative to µ₀/4π times the shorter length [1]. */
  readonly error: number
}

/**
 * Mutual partial inductance of two bars at any angle, evenly spread current:
 *
 *     M = µ₀/4π cos(angle) / (section₁ section₂) ∫∫ dV₁ dV₂ / r
 *
 * The integral over the larger bar is exact (potential of an even box); that over the smaller one goes by Gauss rules
 * over blocks, halved where halving still changes something. Far pairs take points in both bars, where the box would
 * cancel.
 */
export function skewMutual(first: Block, second: Block): SkewMutual {
  const cosine = dot(first.frame.along, second.frame.along)
  const [large, small] = volume(first) >= volume(second) ? [first, second] : [second, first]
  const scale = large.width * large.thickness * small.width * small.thickness
  const far = farIntegral(large, small)
  if (far !== undefined) return { inductance: (NEUMANN_FACTOR * cosine * far) / scale, error: AIM }
  const tolerance = AIM * scale * Math.min(first.frame.length, second.frame.length)
  const found = overBlock(large, small, { tolerance, depth: MOST_HALVINGS })
  return {
    inductance: (NEUMANN_FACTOR * cosine * found.integral) / scale,
    error: (found.error / tolerance) * AIM,
  }
}

const AIM = 1e-6
const MOST_HALVINGS = 12
const FAR_NODES = 4

function volume({ frame, width, thickness }: Block): number {
  return frame.length * width * thickness
}

type Counts = readonly [along: number, across: number, through: number]

/** Points in both boxes, if that takes few enough of them. */
function farIntegral(large: Block, small: Block): number | undefined {
  const gap = norm(minus(large.frame.middle, small.frame.middle)) - (reach(large) + reach(small)) / 2
  if (gap <= 0) return undefined
  const counts = ({ frame, width, thickness }: Block): Counts => [
    nodesFor({ distance: gap, half: frame.length / 2, error: AIM }),
    nodesFor({ distance: gap, half: width / 2, error: AIM }),
    nodesFor({ distance: gap, half: thickness / 2, error: AIM }),
  ]
  const [a, b] = [counts(large), counts(small)]
  if (Math.max(...a, ...b) > FAR_NODES) return undefined
  const others = pointsIn(small, b)
  let sum = 0
  for (const [p, weight] of pointsIn(large, a)) {
    for (const [q, share] of others) sum += (weight * share) / norm(minus(p, q))
  }
  return sum
}

function reach({ frame, width, thickness }: Block): number {
  return Math.hypot(frame.length, width, thickness)
}

interface Found {
  readonly integral: number
  readonly error: number
}

/** Halves the block until a finer rule agrees with a coarser one within the tolerance. */
function overBlock(large: Block, block: Block, { tolerance, depth }: { tolerance: number; depth: number }): Found {
  const integral = gaussSum(large, block, FINE)
  const error = Math.abs(integral - gaussSum(large, block, COARSE))
  if (error <= tolerance || depth === 0) return { integral, error }
  const [left, right] = halves(block)
  // Errors of the parts differ in sign and are overestimated: each may keep more than its share.
  const next = { tolerance: tolerance / 1.5, depth: depth - 1 }
  const [one, other] = [overBlock(large, left, next), overBlock(large, right, next)]
  return { integral: one.integral + other.integral, error: one.error + other.error }
}

const FINE: Counts = [5, 5, 4]
const COARSE: Counts = [4, 4, 3]

function gaussSum(large: Block, block: Block, counts: Counts): number {
  let sum = 0
  for (const [q, weight] of pointsIn(block, counts)) sum += weight * potentialAt(large, q)
  return sum
}

function potentialAt({ frame, width, thickness }: Block, q: Vector): number {
  const from = minus(q, frame.middle)
  return boxPotential({
    x: dot(from, frame.along),
    y: dot(from, frame.across),
    z: dot(from, frame.normal),
    length: frame.length,
    width,
    thickness,
  })
}

/** The two halves of a block cut across its longest side. */
function halves(block: Block): readonly [Block, Block] {
  const { frame, width, thickness } = block
  const most = Math.max(frame.length, width, thickness)
  if (frame.length === most)
    return [moved(block, frame.along, { length: -most }), moved(block, frame.along, { length: most })]
  if (width === most) return [moved(block, frame.across, { width: -most }), moved(block, frame.across, { width: most })]
  return [moved(block, frame.normal, { thickness: -most }), moved(block, frame.normal, { thickness: most })]
}

/** Half of the block on the side that the sign of the named side says. */
function moved(block: Block, direction: Vector, side: { length?: number; width?: number; thickness?: number }): Block {
  const { length, width, thickness } = side
  const middle = plus(block.frame.middle, direction, (length ?? width ?? thickness ?? 0) / 4)
  return {
    frame: { ...block.frame, middle, length: length === undefined ? block.frame.length : Math.abs(length) / 2 },
    width: width === undefined ? block.width : Math.abs(width) / 2,
    thickness: thickness === undefined ? block.thickness : Math.abs(thickness) / 2,
  }
}

/** Gauss points in a block; weights add up to its volume. */
function pointsIn(block: Block, [along, across, through]: Counts): [Vector, number][] {
  const { frame, width, thickness } = block
  const [rl, rw, rt] = [legendre(along), legendre(across), legendre(through)]
  const points: [Vector, number][] = []
  for (let i = 0; i < along; i++) {
    const onAxis = plus(frame.middle, frame.along, ((rl.nodes[i] as number) - 0.5) * frame.length)
    for (let j = 0; j < across; j++) {
      const onFace = plus(onAxis, frame.across, ((rw.nodes[j] as number) - 0.5) * width)
      for (let k = 0; k < through; k++) {
        const weight = (rl.weights[i] as number) * (rw.weights[j] as number) * (rt.weights[k] as number)
        points.push([plus(onFace, frame.normal, ((rt.nodes[k] as number) - 0.5) * thickness), weight * volume(block)])
      }
    }
  }
  return points
}
