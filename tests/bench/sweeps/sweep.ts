/** How far a method is off over its range, against what. */
export interface Sweep {
  readonly field: 'electrical' | 'thermal'
  readonly method: string
  readonly range: string
  readonly against: string
  readonly run: () => Worst
}

export interface Worst {
  /** Relative to the other method, with the sign that it has there. */
  readonly off: number
  readonly points: number
}

/** Largest relative difference of pairs [found, expected]. */
export function worst(pairs: Iterable<readonly [found: number, expected: number]>): Worst {
  let [off, points] = [0, 0]
  for (const [found, expected] of pairs) {
    points++
    const here = found / expected - 1
    if (!(Math.abs(here) <= Math.abs(off))) off = here
  }
  return { off, points }
}

/** Lehmer's generator: the same draws on every machine. */
export function draws(seed: number): {
  readonly even: (low: number, high: number) => number
  readonly log: (low: number, high: number) => number
} {
  let state = seed
  const next = (): number => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  return { even: (low, high) => low + (high - low) * next(), log: (low, high) => low * (high / low) ** next() }
}

/** n times what `draw` gives. */
export function* repeated<T>(n: number, draw: () => T): Iterable<T> {
  for (let k = 0; k < n; k++) yield draw()
}

/** Mean of a function over an interval, midpoint rule. */
export function mean(low: number, high: number, steps: number, of: (at: number) => number): number {
  let sum = 0
  for (let k = 0; k < steps; k++) sum += of(low + ((high - low) * (k + 0.5)) / steps)
  return sum / steps
}
