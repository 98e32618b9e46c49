import { norm } from '../../physics/bar.ts'
import type { Metal, Stretch } from './geometry.ts'

type Span = readonly [low: number, high: number]
type Box = readonly [Span, Span, Span]

/** Box of a stretch that lies along the axes; undefined for one at an angle. */
function boxOf({ start, end, width, thickness, flat }: Stretch): Box | undefined {
  const along = [0, 1, 2].map((axis) => end[axis]! - start[axis]!)
  const length = norm(along as [number, number, number])
  const main = along.findIndex((one) => Math.abs(one) > length * STRAIGHT)
  const normal = flat.findIndex((one) => Math.abs(one) > STRAIGHT)
  if (main < 0 || normal < 0 || main === normal) return undefined
  const span = (axis: number): Span => {
    if (axis === main) return [Math.min(start[axis]!, end[axis]!), Math.max(start[axis]!, end[axis]!)]
    const half = (axis === normal ? thickness : width) / 2
    return [start[axis]! - half, start[axis]! + half]
  }
  return [span(0), span(1), span(2)]
}

const STRAIGHT = 1 - 1e-9

function boxesOf(metal: Metal): readonly Box[] {
  if (metal.shape === 'run') return metal.stretches.map(boxOf).filter((box) => box !== undefined)
  const { corner, size } = metal
  const span = (axis: number): Span => [corner[axis]!, corner[axis]! + size[axis]!]
  return [[span(0), span(1), span(2)]]
}

/**
 * How deep two metals stand in each other [m]: the least way by which one would have to be moved. Zero where they do not,
 * where one passes through a hole of the other, and for stretches at an angle, which are not told.
 */
export function overlapDepth(a: Metal, b: Metal): number {
  const depths = boxesOf(a).flatMap((one) => boxesOf(b).map((other) => depthOf(one, other)))
  const deepest = Math.max(0, ...depths)
  return deepest > 0 && !passesHole(a, b) && !passesHole(b, a) ? deepest : 0
}

function depthOf(one: Box, other: Box): number {
  return Math.min(...one.map(([low, high], axis) => Math.min(high, other[axis]![1]) - Math.max(low, other[axis]![0])))
}

/** Whether a hole of a plate lies where the other metal is. */
function passesHole(plate: Metal, other: Metal): boolean {
  if (plate.shape !== 'plate') return false
  const normal = plate.size.indexOf(Math.min(...plate.size))
  return plate.holes.some(({ at }) =>
    boxesOf(other).some((box) =>
      box.every(([low, high], axis) => axis === normal || (at[axis]! >= low && at[axis]! <= high)),
    ),
  )
}
