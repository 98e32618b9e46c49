import type { ParallelPair, Span } from './bar-mutual-pair.ts'
import { NEUMANN_FACTOR } from './bar-mutual-pair.ts'

/** A sum of large terms that nearly cancel, with what rounding can have done to it. */
export interface Cancelled {
  readonly inductance: number
  /** Estimated relative rounding error [1]. */
  readonly rounding: number
}

/**
 * Mutual partial inductance of two parallel bars, exact volume integral in closed form: 64 terms of
 *
 *     f = Σ_cyclic (y²z²/4 − y⁴/24 − z⁴/24) x asinh(x/√(y²+z²)) − Σ_cyclic (x y z³/6) atan(x y/(z r))
 *         + (x⁴ + y⁴ + z⁴ − 3x²y² − 3y²z² − 3z²x²) r/60
 *
 * Terms may exceed the result by 10¹⁰ and more (long, thin or distant bars); `rounding` says what is left.
 *
 * @see C. Hoer, C. Love, "Exact inductance equations for rectangular conductors with applications to more complicated
 *   geometries", J. Res. NBS 69C (1965) 127-137 (from memory)
 */
export function closedForm(pair: ParallelPair): Cancelled {
  const [x, y, z] = [corners(pair.x), corners(pair.y), corners(pair.z)]
  const total: Total = { sum: 0, size: 0 }
  for (const [xi, wx] of x)
    for (const [yi, wy] of y) for (const [zi, wz] of z) addTerm(total, wx * wy * wz, [xi, yi, zi])
  const area = pair.x.first * pair.x.second * pair.y.first * pair.y.second
  return {
    inductance: (NEUMANN_FACTOR * total.sum) / area,
    rounding: (ROUNDING * total.size) / Math.abs(total.sum),
  }
}

/** Rounding of one term relative to its size; 2 × that of a double. */
const ROUNDING = 4.5e-16

/** The four distances between faces with their signs, equal distances merged: f is even in each of its arguments. */
function corners({ first, second, offset }: Span): readonly (readonly [number, number])[] {
  const merged = new Map<number, number>()
  const add = (at: number, sign: number): void => {
    merged.set(Math.abs(at), (merged.get(Math.abs(at)) ?? 0) + sign)
  }
  const outer = (first + second) / 2
  const inner = (first - second) / 2
  add(offset - outer, 1)
  add(offset + outer, 1)
  add(offset - inner, -1)
  add(offset + inner, -1)
  return [...merged].filter(([, sign]) => sign !== 0)
}

interface Total {
  sum: number
  /** Sum of the absolute values of all terms. */
  size: number
}

function addTerm(total: Total, weight: number, [x, y, z]: readonly [number, number, number]): void {
  const [x2, y2, z2] = [x * x, y * y, z * z]
  const r = Math.sqrt(x2 + y2 + z2)
  const a = logTerm(x, y2, z2)
  const b = logTerm(y, z2, x2)
  const c = logTerm(z, x2, y2)
  const d = (r * (x2 * x2 + y2 * y2 + z2 * z2 - 3 * (x2 * y2 + y2 * z2 + z2 * x2))) / 60
  const e = arcTerm(x, y, z, r)
  total.sum += weight * (a + b + c + d - e)
  total.size += Math.abs(weight) * (Math.abs(a) + Math.abs(b) + Math.abs(c) + Math.abs(d) + Math.abs(e))
}

function logTerm(x: number, y2: number, z2: number): number {
  const rest = y2 + z2
  if (x === 0 || rest === 0) return 0
  return ((6 * y2 * z2 - y2 * y2 - z2 * z2) / 24) * x * Math.asinh(x / Math.sqrt(rest))
}

function arcTerm(x: number, y: number, z: number, r: number): number {
  const xyz = (x * y * z) / 6
  if (xyz === 0) return 0
  const arcs =
    z * z * Math.atan((x * y) / (z * r)) + y * y * Math.atan((x * z) / (y * r)) + x * x * Math.atan((y * z) / (x * r))
  return xyz * arcs
}
