import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { cross, dot, minus, norm, plus, type Vector } from '../../physics/bar.ts'
import { place } from '../paths.ts'

/** One straight stretch of bar: its centre line, section, and the normal of its wide face. */
export interface Stretch {
  readonly start: Vector
  readonly end: Vector
  readonly width: number
  readonly thickness: number
  readonly flat: Vector
}

/** Metal of a part as recorded: a bar in stretches, or a plate along the axes. */
export type Metal =
  | { readonly shape: 'run'; readonly part: Path; readonly stretches: readonly Stretch[] }
  | {
      readonly shape: 'plate'
      readonly part: Path
      readonly corner: Vector
      readonly size: Vector
      readonly holes: readonly Hole[]
    }

export interface Hole {
  readonly at: Vector
  readonly diameter: number
}

const AXES: Readonly<Record<string, Vector>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }

/** Geometry of a metal part, placed by its own coordinates or by the measured gap to its neighbour. */
export const metalOfPart: Model<Metal> = {
  id: 'metal',
  compute(view, part) {
    const shape = view.some({ ask: 'shape-of', part }).paths[0]!
    return shape === 'plate' ? plateOf(view, part) : barOf(view, part)
  },
}

function barOf(view: View, part: Path): Metal {
  const [points, section, flat] = view.all(
    () => view.each(view.some({ ask: 'run-points', part }).paths, (point) => vector(view, point)),
    () => view.need({ width: asPath(`${part}/run/width`), thickness: asPath(`${part}/run/thickness`) }),
    () => AXES[view.some({ ask: 'flat-of', part }).paths[0]!]!,
  )
  const line = shifted(view, part, points, section, flat)
  return { shape: 'run', part, stretches: stretchesOf(line, section, flat, view, part) }
}

function vector(view: View, path: Path): Vector {
  const { x, y, z } = view.need(place(path))
  return [x, y, z]
}

interface Section {
  readonly width: number
  readonly thickness: number
}

/** Normals follow a bend: the wide face turns with the bar. */
function stretchesOf(
  line: readonly Vector[],
  section: Section,
  flat: Vector,
  view: View,
  part: Path,
): readonly Stretch[] {
  const directions = directionsOf(line, view, part)
  const normals = carried(flat, directions)
  return directions.map((direction, at) => {
    const normal = normals[at]!
    if (Math.abs(dot(normal, direction)) > LEAN) {
      view.fail(`the axis named by flat: of ${part} runs along the bar instead of across it`, 'refused', part)
    }
    const straight = squared(line[at]!, line[at + 1]!, direction, view, part)
    return { ...straight, ...section, flat: upright(normal, minus(straight.end, straight.start)) }
  })
}

/** Cosine up to which a stretch counts as lying along an axis, and a normal as across it: 10°. */
const LEAN = Math.sin((10 * Math.PI) / 180)

/**
 * A stretch that lies along an axis to within 10° is taken along it, through the middle of its ends: places are known to
 * a fraction of a millimetre, and bars are bent square.
 */
function squared(
  start: Vector,
  end: Vector,
  direction: Vector,
  view: View,
  part: Path,
): Pick<Stretch, 'start' | 'end'> {
  const axis = [0, 1, 2].find((one) => Math.abs(direction[one]!) > Math.cos(Math.asin(LEAN)))
  if (axis === undefined) return { start, end }
  if (Math.abs(Math.abs(direction[axis]!) - 1) > 1e-6)
    view.note(`a stretch of ${part} is taken along the axis it nearly follows`)
  const middle = (one: number): number => (start[one]! + end[one]!) / 2
  const on = (point: Vector): Vector =>
    [0, 1, 2].map((one) => (one === axis ? point[one]! : middle(one))) as unknown as Vector
  return { start: on(start), end: on(end) }
}

/** The normal without what of it points along the bar, of length one. */
function upright(normal: Vector, way: Vector): Vector {
  const length = norm(way)
  const lean = dot(normal, way) / length
  const across = plus(normal, way, -lean / length)
  const size = norm(across)
  return [across[0] / size, across[1] / size, across[2] / size]
}

function directionsOf(line: readonly Vector[], view: View, part: Path): readonly Vector[] {
  return line.slice(1).map((end, at) => {
    const way = minus(end, line[at]!)
    const length = norm(way)
    if (!(length > 0)) view.fail(`two points of the run of ${part} are the same`, 'refused', part)
    return [way[0] / length, way[1] / length, way[2] / length]
  })
}

/** A vector across the first stretch, turned with every bend (the smallest rotation from one direction to the next). */
function carried(first: Vector, directions: readonly Vector[]): readonly Vector[] {
  const carriedSoFar: Vector[] = [first]
  for (let at = 1; at < directions.length; at++) {
    const [before, now, normal] = [directions[at - 1]!, directions[at]!, carriedSoFar[at - 1]!]
    const bend = dot(normal, now)
    const both = plus(before, now)
    const fold = 1 + dot(before, now)
    // A hairpin has no smallest rotation; the face then keeps its normal.
    carriedSoFar.push(fold < 1e-9 ? normal : plus(normal, both, -bend / fold))
  }
  return carriedSoFar
}

/** Centre line of a bar placed by the gap to its neighbour: every stretch is moved along its own turned normal. */
function shifted(view: View, part: Path, points: readonly Vector[], section: Section, flat: Vector): readonly Vector[] {
  const stated = view.find({ ask: 'beside', part }).paths
  if (stated.length === 0) return points
  const [other, side] = [stated[0]!, stated[1]!]
  const axis = AXES[side.slice(1)]!
  const sign = side.startsWith('-') ? -1 : 1
  const [{ gap }, neighbour] = view.all(
    () => view.need({ gap: asPath(`${part}/beside/gap`) }),
    () => view.model(metalOfPart, other),
  )
  if (!(gap > 0)) view.fail(`the gap of ${part} to ${other} must be above zero`, 'refused', part)
  const half = extentAlong(axis, flat, section) / 2
  if (neighbour.shape === 'plate') return besidePlate(points, axis, sign, gap + half, neighbour)
  const first = neighbour.stretches[0]!
  const distance = gap + half + extentAlong(axis, first.flat, first) / 2
  const directions = directionsOf(points, view, part)
  if (Math.abs(dot(axis, directions[0]!)) > LEAN)
    view.fail(`${part} cannot lie on side ${side} of ${other}: it runs that way`, 'refused', part)
  const along = onLine(points, axis, first)
  const normals = carried([axis[0] * sign, axis[1] * sign, axis[2] * sign], directions)
  return along.map((point, at) => {
    const [before, now] = [normals[at - 1], normals[at]]
    if (!before || !now || dot(before, now) > 1 - 1e-9) return plus(point, (now ?? before)!, distance)
    // At a bend the corner moves along both normals, so that each stretch keeps its distance.
    const both = plus(before, now)
    return plus(point, both, distance / (1 + dot(before, now)))
  })
}

/** The coordinate along the side comes from the neighbour: the gap is the one home of that distance. */
function onLine(points: readonly Vector[], axis: Vector, neighbour: Stretch): readonly Vector[] {
  const shift = dot(minus(neighbour.start, points[0]!), axis)
  return points.map((point) => plus(point, axis, shift))
}

function besidePlate(
  points: readonly Vector[],
  axis: Vector,
  sign: number,
  distance: number,
  plate: Extract<Metal, { shape: 'plate' }>,
): readonly Vector[] {
  const face = dot(plate.corner, axis) + (sign > 0 ? dot(plate.size, axis) : 0)
  return points.map((point) => plus(point, axis, face + sign * distance - dot(point, axis)))
}

function extentAlong(axis: Vector, flat: Vector, { width, thickness }: Section): number {
  return Math.abs(dot(axis, flat)) > 0.5 ? thickness : width
}

function plateOf(view: View, part: Path): Metal {
  const path = asPath(`${part}/plate`)
  const [corner, { length, width, height }, holes] = view.all(
    () => vector(view, asPath(`${path}/corner`)),
    () =>
      view.need({
        length: asPath(`${path}/size/length`),
        width: asPath(`${path}/size/width`),
        height: asPath(`${path}/size/height`),
      }),
    () =>
      view.each(view.find({ ask: 'holes-of', part }).paths, (hole) => ({
        at: vector(view, asPath(`${hole}/at`)),
        diameter: view.need({ d: asPath(`${hole}/diameter`) }).d,
      })),
  )
  const size: Vector = [length, width, height]
  return { shape: 'plate', part, corner: besideNeighbour(view, part, corner, size), size, holes }
}

function besideNeighbour(view: View, part: Path, corner: Vector, size: Vector): Vector {
  const stated = view.find({ ask: 'beside', part }).paths
  if (stated.length === 0) return corner
  const axis = AXES[stated[1]!.slice(1)]!
  const sign = stated[1]!.startsWith('-') ? -1 : 1
  const [{ gap }, other] = view.all(
    () => view.need({ gap: asPath(`${part}/beside/gap`) }),
    () => view.model(metalOfPart, stated[0]!),
  )
  const [low, high] = reach(other, axis)
  const wanted = sign > 0 ? high + gap : low - gap - dot(size, axis)
  return plus(corner, axis, wanted - dot(corner, axis))
}

/** Lowest and highest coordinate of a metal along an axis. */
function reach(metal: Metal, axis: Vector): readonly [number, number] {
  if (metal.shape === 'plate') {
    const low = dot(metal.corner, axis)
    return [low, low + dot(metal.size, axis)]
  }
  const ends = metal.stretches.flatMap((one) => {
    const half = extentAlong(axis, one.flat, one) / 2
    return [one.start, one.end].flatMap((point) => [dot(point, axis) - half, dot(point, axis) + half])
  })
  return [Math.min(...ends), Math.max(...ends)]
}

/** Distance of a point from a stretch of bar, and how far along it the nearest point of its centre line lies (0 … 1). */
export function nearest(point: Vector, stretch: Stretch): { readonly along: number; readonly distance: number } {
  const way = minus(stretch.end, stretch.start)
  const length = norm(way)
  const direction: Vector = [way[0] / length, way[1] / length, way[2] / length]
  const across = cross(stretch.flat, direction)
  const from = minus(point, stretch.start)
  const over = (value: number, half: number): number => Math.max(0, Math.abs(value) - half)
  const position = dot(from, direction)
  const outside = Math.max(0, -position, position - length)
  const distance = Math.hypot(
    outside,
    over(dot(from, stretch.flat), stretch.thickness / 2),
    over(dot(from, across), stretch.width / 2),
  )
  return { along: Math.min(1, Math.max(0, position / length)), distance }
}
