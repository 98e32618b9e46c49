import type { Frame, Vector } from './bar.ts'
import { dot, minus, norm, plus } from './bar.ts'
import { NEUMANN_FACTOR, nodesFor } from './bar-mutual-pair.ts'
import { legendre } from './quadrature.ts'

/** Block of metal with its own directions; current runs along `frame.along`. */
export interface Block {
  readonly frame: Frame
  readonly width: number
  readonly thickness: number
}

/** What a pair of bars at an angle couples, and how much the answer moved with the last refinement. */
export interface SkewMutual {
  readonly inductance: number
  /** Change by the last refinement, relative to µ₀/4π times the shorter length [1]. */
  readonly change: number
}

/**
 * Mutual partial inductance of two bars at any angle, uniform current. Both are cut into blocks that are small against
 * the distance between them; a pair of blocks is integrated exactly along one filament and by Gauss rules over the rest.
 * Where metal touches or overlaps (a corner), blocks are cut down to a finest size, which is halved until the answer
 * stands still.
 */
export function skewMutual(first: Block, second: Block): SkewMutual {
  const cosine = dot(first.frame.along, second.frame.along)
  const scale = Math.min(first.frame.length, second.frame.length)
  let finest = Math.max(first.width, first.thickness, second.width, second.thickness) / 2
  let before = cosine * meanInverse(first, second, finest)
  let change = Number.POSITIVE_INFINITY
  for (let step = 0; step < MOST_STEPS && change > STANDS_STILL; step++) {
    finest /= 2
    const now = cosine * meanInverse(first, second, finest)
    change = Math.abs(now - before) / scale
    before = now
  }
  return { inductance: NEUMANN_FACTOR * before, change }
}

const STANDS_STILL = 1e-5
const MOST_STEPS = 2
const AIM = 1e-5
const MOST_NODES = 4

/** ∫∫ 1/distance along both runs, averaged over both sections. */
function meanInverse(first: Block, second: Block, finest: number): number {
  const longer = longest(first) >= longest(second)
  const [a, b] = longer ? [first, second] : [second, first]
  const gap = norm(minus(a.frame.middle, b.frame.middle)) - (reach(a) + reach(b)) / 2
  if (gap <= 0 && longest(a) <= finest) return blockPair(a, b, TOUCHING_NODES)
  const nodes = gap > 0 ? nodesOf(a, b, gap) : undefined
  if (nodes && Math.max(...nodes) <= MOST_NODES) return blockPair(a, b, nodes)
  const [left, right] = halve(a)
  const halves = meanInverse(left, b, finest) + meanInverse(right, b, finest)
  return left.frame.length < a.frame.length ? halves : halves / 2
}

/** Nodes along, across and through of each block. The two differ where blocks touch, so that no two nodes coincide. */
type Nodes = readonly [number, number, number, number, number, number]

const TOUCHING_NODES: Nodes = [1, 3, 3, 2, 2, 2]

function nodesOf(a: Block, b: Block, distance: number): Nodes {
  const count = (side: number): number => nodesFor({ distance, half: side / 2, error: AIM })
  // Along the first block the integral is exact.
  return [1, count(a.width), count(a.thickness), count(b.frame.length), count(b.width), count(b.thickness)]
}

function longest({ frame, width, thickness }: Block): number {
  return Math.max(frame.length, width, thickness)
}

function reach({ frame, width, thickness }: Block): number {
  return Math.hypot(frame.length, width, thickness)
}

/** The two halves of a block cut across its longest side. */
function halve(block: Block): readonly [Block, Block] {
  const { frame, width, thickness } = block
  const most = longest(block)
  if (frame.length === most) {
    const half = (sign: number): Block => ({ ...block, frame: shifted(frame, frame.along, sign * most, most / 2) })
    return [half(-0.25), half(0.25)]
  }
  if (width === most) {
    const half = (sign: number): Block => ({
      ...block,
      frame: shifted(frame, frame.across, sign * most),
      width: most / 2,
    })
    return [half(-0.25), half(0.25)]
  }
  const half = (sign: number): Block => ({
    ...block,
    frame: shifted(frame, frame.normal, sign * most),
    thickness: thickness / 2,
  })
  return [half(-0.25), half(0.25)]
}

function shifted(frame: Frame, direction: Vector, by: number, length = frame.length): Frame {
  return { ...frame, middle: plus(frame.middle, direction, by), length }
}

function blockPair(a: Block, b: Block, [, aw, at, bl, bw, bt]: Nodes): number {
  let sum = 0
  for (const [p, weight] of sectionPoints(a, aw, at)) {
    const [p0, p1] = [plus(p, a.frame.along, -a.frame.length / 2), plus(p, a.frame.along, a.frame.length / 2)]
    for (const [q, share] of sectionPoints(b, bw, bt)) {
      sum += weight * share * alongSecond({ p0, p1, length: a.frame.length, q, block: b, count: bl })
    }
  }
  return sum
}

function alongSecond(inputs: {
  p0: Vector
  p1: Vector
  length: number
  q: Vector
  block: Block
  count: number
}): number {
  const { p0, p1, length, q, block, count } = inputs
  const rule = legendre(count)
  let sum = 0
  for (let i = 0; i < count; i++) {
    const at = plus(q, block.frame.along, ((rule.nodes[i] as number) - 0.5) * block.frame.length)
    const ends = norm(minus(at, p0)) + norm(minus(at, p1))
    sum += (rule.weights[i] as number) * Math.log((ends + length) / (ends - length))
  }
  return sum * block.frame.length
}

function sectionPoints({ frame, width, thickness }: Block, across: number, through: number): [Vector, number][] {
  const [rw, rt] = [legendre(across), legendre(through)]
  const points: [Vector, number][] = []
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < through; j++) {
      const shiftedAcross = plus(frame.middle, frame.across, ((rw.nodes[i] as number) - 0.5) * width)
      const at = plus(shiftedAcross, frame.normal, ((rt.nodes[j] as number) - 0.5) * thickness)
      points.push([at, (rw.weights[i] as number) * (rt.weights[j] as number)])
    }
  }
  return points
}
