/** A piece of the plane between two lines one way and two the other [m]. */
export interface Tile {
  readonly start: number
  readonly end: number
  readonly low: number
  readonly high: number
}

type Interval = readonly [number, number]

/**
 * Lines across a side: at its ends and at all ends of the intervals within it, and evenly between, no further apart
 * than `tile`. Ends closer than a millionth of the side count as one.
 */
export function gridLines(side: Interval, intervals: readonly Interval[], tile: number): readonly number[] {
  const [low, high] = side
  const least = 1e-6 * (high - low)
  const marks = [low, high, ...intervals.flat().filter((at) => at > low && at < high)].sort((a, b) => a - b)
  const kept = marks.filter((at, i) => i === 0 || at - (marks[i - 1] as number) > least)
  return kept.flatMap((at, i) => {
    const next = kept[i + 1]
    if (next === undefined) return [at]
    const count = Math.max(1, Math.ceil((next - at) / tile - 1e-9))
    return Array.from({ length: count }, (_, k) => at + ((next - at) * k) / count)
  })
}
