import { nodesFor } from './bar-mutual-pair.ts'
import { legendre } from './quadrature.ts'

/** Straight strip of surface, level or upright, by its middle [m]. */
export interface Panel {
  /** Number of the conductor that it belongs to. */
  readonly owner: number
  readonly x: number
  readonly y: number
  readonly size: number
  readonly upright: boolean
}

const AIM = 1e-12
const MOST_NODES = 6

/** Mean of ln(distance/1 m) between the points of two panels, or of one and itself. */
export function meanPanelLog(a: Panel, b: Panel): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y]
  const distance = Math.hypot(dx, dy) - (a.size + b.size) / 2
  if (distance > 0) {
    const [na, nb] = [nodesOf(a, distance), nodesOf(b, distance)]
    if (Math.max(na, nb) <= MOST_NODES) return byPoints(a, b, na, nb)
  }
  if (a.upright === b.upright) return a.upright ? parallelMean(a, b, dy, dx) : parallelMean(a, b, dx, dy)
  return a.upright ? crossedMean(b, a, -dx, -dy) : crossedMean(a, b, dx, dy)
}

function nodesOf({ size }: Panel, distance: number): number {
  return nodesFor({ distance, half: size / 2, error: AIM })
}

function byPoints(a: Panel, b: Panel, na: number, nb: number): number {
  const [ra, rb] = [legendre(na), legendre(nb)]
  let sum = 0
  for (let i = 0; i < na; i++) {
    const along = ((ra.nodes[i] as number) - 0.5) * a.size
    const [ax, ay] = a.upright ? [a.x, a.y + along] : [a.x + along, a.y]
    for (let j = 0; j < nb; j++) {
      const other = ((rb.nodes[j] as number) - 0.5) * b.size
      const [bx, by] = b.upright ? [b.x, b.y + other] : [b.x + other, b.y]
      sum += (ra.weights[i] as number) * (rb.weights[j] as number) * Math.log((ax - bx) ** 2 + (ay - by) ** 2)
    }
  }
  return sum / 2
}

/** Panels in one direction, `along` and `apart` from middle to middle: second integral of the logarithm, four ends. */
function parallelMean(a: Panel, b: Panel, along: number, apart: number): number {
  const [outer, inner] = [(a.size + b.size) / 2, (a.size - b.size) / 2]
  const d = Math.abs(apart)
  const at = (u: number): number => {
    const square = u * u + d * d
    const log = square === 0 ? 0 : ((u * u - d * d) / 4) * Math.log(square)
    return log + u * d * Math.atan2(u, d) - (3 * u * u) / 4
  }
  const sum = at(along - outer) + at(along + outer) - at(along - inner) - at(along + inner)
  return sum / (a.size * b.size)
}

/** A level panel and an upright one: the integral once over each, four corners. */
function crossedMean(level: Panel, upright: Panel, dx: number, dy: number): number {
  const at = (x: number, y: number): number => {
    const square = x * x + y * y
    if (square === 0) return 0
    const angles = x * x * atanOf(y, x) + y * y * atanOf(x, y)
    return (x * y * (Math.log(square) - 3) + angles) / 2
  }
  const [x0, x1] = [dx - level.size / 2, dx + level.size / 2]
  const [y0, y1] = [dy - upright.size / 2, dy + upright.size / 2]
  return (at(x1, y1) - at(x0, y1) - at(x1, y0) + at(x0, y0)) / (level.size * upright.size)
}

function atanOf(y: number, x: number): number {
  return x === 0 ? 0 : Math.atan(y / x)
}
