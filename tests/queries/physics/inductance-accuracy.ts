import type { ParallelPair, Span } from '../../../queries/physics/bar-mutual-pair.ts'
import { parallelMutual } from '../../../queries/physics/bar-mutual-parallel.ts'

/**
 * Second method for parallel bars, sharing nothing with the product: the overlap-weighted mean of the two-filament
 * integral, by tanh-sinh rules over every piece between kinks, in both directions. Slow (tens of milliseconds).
 */
export function secondMethod({ x, y, z }: ParallelPair): number {
  const kernel = filaments(z)
  let sum = 0
  // Pieces also end where the distance across equals one between ends: the integrand turns there.
  const turns = endDistances(z).map(([at]) => Math.abs(at))
  for (const [xs, px] of weighted(x, turns))
    for (const [ys, py] of weighted(y, turns)) sum += px * py * kernel(Math.hypot(xs, ys))
  return 1e-7 * sum
}

/** Places and weights of the distance along one axis. */
function weighted({ first, second, offset }: Span, turns: readonly number[]): readonly (readonly [number, number])[] {
  const [half, flat] = [(first + second) / 2, Math.abs(first - second) / 2]
  const inner = [0, ...turns, ...turns.map((turn) => -turn)].filter((at) => Math.abs(at - offset) < half)
  const kinks = [offset - half, offset - flat, offset + flat, offset + half, ...inner].sort((a, b) => a - b)
  const density = (u: number): number => Math.min(1, Math.max(0, (half - Math.abs(u - offset)) / (half - flat)))
  const points: (readonly [number, number])[] = []
  for (const [i, high] of kinks.entries()) {
    const low = kinks[i - 1]
    if (low === undefined || high - low < 1e-14 * half) continue
    for (const [u, v, weight] of TANH_SINH) {
      // Counted from the nearer end, so that places next to 0 keep their digits.
      const at = u < v ? low + (high - low) * u : high - (high - low) * v
      points.push([at, (weight * (high - low) * density(at)) / Math.max(first, second)])
    }
  }
  return points
}

/** [distance from the lower end, from the upper end, weight] of a rule on 0 … 1. */
const TANH_SINH = Array.from({ length: 75 }, (_, k) => {
  const t = (k - 37) / 11
  const s = Math.PI * Math.sinh(t)
  return [
    1 / (1 + Math.exp(-s)),
    1 / (1 + Math.exp(s)),
    (Math.PI * Math.cosh(t)) / 11 / (2 + 2 * Math.cosh(s)),
  ] as const
})

/** Distances along the axis between the ends of two filaments, with their signs in the double integral. */
function endDistances({ first, second, offset }: Span): readonly (readonly [number, number])[] {
  const start = offset + (first - second) / 2
  return [
    [start + second, 1],
    [start - first, 1],
    [start, -1],
    [start + second - first, -1],
  ]
}

function filaments(z: Span): (rho: number) => number {
  const ends = endDistances(z)
  return (rho) => ends.reduce((sum, [at, sign]) => sum + sign * (at * Math.asinh(at / rho) - Math.hypot(at, rho)), 0)
}

export interface AccuracyRow {
  readonly what: string
  /** Sides and distances drawn [m]. */
  readonly box: string
  readonly pairs: number
  /** Largest relative difference between the product and the second method. */
  readonly worst: number
  readonly at: ParallelPair
}

const BOX = 'widths 0.5 … 100 mm, thicknesses 0.02 … 10 mm, lengths 2 mm … 1 m'

/** Worst differences over drawn pairs of each kind; even on a logarithmic scale. */
export function inductanceAccuracy({ pairs, seed }: { pairs: number; seed: number }): readonly AccuracyRow[] {
  const random = generator(seed)
  const between = (low: number, high: number): number => low * (high / low) ** random()
  const shape = () => ({ w: between(0.5e-3, 0.1), t: between(0.02e-3, 0.01), l: between(2e-3, 1) })
  const equal = (size: number, offset = 0): Span => ({ first: size, second: size, offset })
  const kinds: readonly { what: string; box: string; draw: () => ParallelPair }[] = [
    {
      what: 'self',
      box: BOX,
      draw: () => {
        const { w, t, l } = shape()
        return { x: equal(w), y: equal(t), z: equal(l) }
      },
    },
    {
      what: 'equal, face to face',
      box: `${BOX}, gap 0.02 … 20 mm`,
      draw: () => {
        const { w, t, l } = shape()
        return { x: equal(w), y: equal(t, t + between(0.02e-3, 0.02)), z: equal(l) }
      },
    },
    {
      what: 'any two, near',
      box: `${BOX}, middles less than their sizes apart in each direction`,
      draw: () => {
        const [a, b] = [shape(), shape()]
        const span = (first: number, second: number): Span => ({
          first,
          second,
          offset: (2 * random() - 1) * (first + second),
        })
        return { x: span(a.w, b.w), y: span(a.t, b.t), z: span(a.l, b.l) }
      },
    },
    {
      what: 'any two, apart',
      box: `${BOX}, 10 mm … 0.5 m apart across`,
      draw: () => {
        const [a, b] = [shape(), shape()]
        const far = (first: number, second: number): Span => ({
          first,
          second,
          offset: between(0.01, 0.5) + (first + second) / 2,
        })
        return { x: far(a.w, b.w), y: far(a.t, b.t), z: { first: a.l, second: b.l, offset: random() * (a.l + b.l) } }
      },
    },
  ]
  return kinds.map(({ what, box, draw }) => {
    let worst = -1
    let at = draw()
    for (let k = 0; k < pairs; k++) {
      const pair = draw()
      const off = Math.abs(parallelMutual(pair) / secondMethod(pair) - 1)
      if (off > worst) [worst, at] = [off, pair]
    }
    return { what, box, pairs, worst, at }
  })
}

/** Lehmer's generator: the same draws on every machine. */
function generator(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}
