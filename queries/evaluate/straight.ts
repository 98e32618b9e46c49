/** Deviations of an influence, draw by draw. */
export type Columns = (index: number) => Float64Array

/**
 * What each influence does by itself: with x its deviation over its standard uncertainty, slope·x + bend·x². The sum is
 * the additive part of a value.
 */
export interface Additive {
  readonly parts: readonly AdditivePart[]
}

interface AdditivePart {
  readonly index: number
  readonly u: number
  readonly slope: number
  readonly bend: number
}

/** The additive part under every draw of the columns. */
export function additiveSamples({ parts }: Additive, columns: Columns): Float64Array {
  const length = parts.length > 0 ? columns(parts[0]!.index).length : 0
  const sums = new Float64Array(length)
  for (const { index, u, slope, bend } of parts) {
    const column = columns(index)
    const a = slope / u
    const b = bend / (u * u)
    for (let k = 0; k < length; k++) {
      const z = column[k]!
      sums[k]! += z * (a + b * z)
    }
  }
  return sums
}

/** Variance of the additive part: influences are independent, so it is the sum of theirs, each known from its column. */
export function additiveVariance({ parts }: Additive, columns: Columns): number {
  let variance = 0
  for (const part of parts) variance += ownVariance(part, columns(part.index))
  return variance
}

function ownVariance({ u, slope, bend }: AdditivePart, column: Float64Array): number {
  let mean = 0
  let square = 0
  for (const z of column) {
    const x = z / u
    const value = x * (slope + bend * x)
    mean += value
    square += value * value
  }
  const n = column.length
  return Math.max(0, square / n - (mean / n) ** 2)
}
