import { legendre } from './quadrature.ts'
import type { Piece } from './strip-mesh.ts'

/** Potential at a point of one unit of charge per length spread evenly over a piece, times the electric constant. */
export type Kernel = (source: Piece, x: number, y: number) => number

/** Images below this share of the source are left out. */
const SMALLEST = 1e-8

/** Mean over a piece of the logarithm of the square of the distance from a point; `along` and `off` lead from its middle. */
function meanLog(along: number, off: number, half: number): number {
  return (antiderivative(along + half, off) - antiderivative(along - half, off)) / (2 * half)
}

function antiderivative(u: number, d: number): number {
  if (d === 0) return u === 0 ? 0 : u * Math.log(u * u) - 2 * u
  return u * Math.log(u * u + d * d) - 2 * u + 2 * d * Math.atan(u / d)
}

/** The same for a piece moved to height `y`: an image of it, which stays level or upright. */
function imageLog(source: Piece, y: number, atX: number, atY: number): number {
  return source.upright ? meanLog(atY - y, atX - source.x, source.half) : meanLog(atX - source.x, atY - y, source.half)
}

export type Slab = { height: number; permittivity: number }

/**
 * Above a dielectric slab on a perfect ground plane; heights count from the ground, sources and points lie on or above
 * the slab. Image series of the reflection −(k + q)/(1 + kq), q = exp(−2κh), k = (ε − 1)/(ε + 1).
 */
export function groundedSlab({ height, permittivity }: Slab): Kernel {
  const k = (permittivity - 1) / (permittivity + 1)
  const images: (readonly [coefficient: number, depth: number])[] = k === 0 ? [] : [[-k, 0]]
  for (let coefficient = k * k - 1, m = 1; Math.abs(coefficient) > SMALLEST; coefficient *= -k, m++) {
    images.push([coefficient, 2 * m * height])
    if (k === 0) break
  }
  return (source, x, y) => {
    let sum = imageLog(source, source.y, x, y)
    for (const [coefficient, depth] of images) {
      sum += coefficient * imageLog(source, 2 * height - source.y - depth, x, y)
    }
    return -sum / (4 * Math.PI)
  }
}

/**
 * Above or below a slab in free space, with no ground: heights count from its lower face, sources and points lie on that
 * face (height exactly 0) or on or above the upper one. Only for charges that add up to zero: the level is free.
 */
export function openSlab({ height, permittivity }: Slab): Kernel {
  const k = (permittivity - 1) / (permittivity + 1)
  const same: [number, number][] = k === 0 ? [] : [[-k, 0]]
  const across: [number, number][] = [[1 - k * k, height]]
  for (let power = k, n = 1; Math.abs(power) > SMALLEST; power *= k * k, n++) {
    same.push([power * (1 - k * k), 2 * n * height])
    across.push([power * k * (1 - k * k), (2 * n + 1) * height])
  }
  return (source, x, y) => {
    const above = (h: number): number => (h === 0 ? 0 : h - height)
    const [from, to] = [above(source.y), above(y)]
    if ((source.y === 0) !== (y === 0)) {
      let sum = 0
      for (const [coefficient, depth] of across) sum += coefficient * imageLog(source, from, x, -to - depth)
      return -sum / (4 * Math.PI)
    }
    let sum = imageLog(source, from, x, to)
    for (const [coefficient, depth] of same) sum += coefficient * imageLog(source, -from - depth, x, to)
    return -sum / (4 * Math.PI)
  }
}

/** Between two ground planes at heights 0 and `height`, filled with one dielectric. */
export function betweenPlanes({ height, permittivity }: Slab): Kernel {
  const { nodes, weights } = legendre(4)
  const scale = Math.PI / height
  return (source, x, y) => {
    if (scale * Math.abs(x - source.x) > 40 + scale * source.half) return 0
    // The source itself and its nearest image in closed form, what is left of both is smooth.
    const mirrored = source.y + y < height ? -source.y : 2 * height - source.y
    let sum = imageLog(source, mirrored, x, y) - imageLog(source, source.y, x, y)
    for (let i = 0; i < nodes.length; i++) {
      const shift = (2 * nodes[i]! - 1) * source.half
      const across = scale * (x - source.x - (source.upright ? 0 : shift))
      const [own, image] = source.upright ? [source.y + shift, mirrored - shift] : [source.y, mirrored]
      sum += weights[i]! * (smooth(across, scale * (y - image)) - smooth(across, scale * (y - own)))
    }
    return sum / (4 * Math.PI * permittivity)
  }
}

/** ln of (cosh X − cos Y) over (X² + Y²)/2, even in both and zero at the origin. */
function smooth(x: number, y: number): number {
  const square = x * x + y * y
  if (square < 1e-6) return (x * x - y * y) / 12
  return Math.log((Math.sinh(x / 2) ** 2 + Math.sin(y / 2) ** 2) / (square / 4))
}

/** Adds to each source its twin on the other side of x = 0, of the same sign or the opposite. */
export function mirrored(kernel: Kernel, sign: 1 | -1): Kernel {
  return (source, x, y) => kernel(source, x, y) + sign * kernel(source, -x, y)
}
