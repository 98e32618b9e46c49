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

/** Means of the first four powers of an influence's deviation over its standard uncertainty. */
export type Moments = (part: AdditivePart) => readonly [number, number, number, number]

/** The additive part under one draw. */
export function additiveAt({ parts }: Additive, deviation: (index: number) => number): number {
  let sum = 0
  for (const { index, u, slope, bend } of parts) {
    const x = deviation(index) / u
    sum += x * (slope + bend * x)
  }
  return sum
}

/** Variance of the additive part: influences are independent, so it is the sum of theirs, each known from its column. */
export function additiveVariance({ parts }: Additive, moments: Moments): number {
  let variance = 0
  for (const part of parts) {
    const { slope, bend } = part
    const [first, second, third, fourth] = moments(part)
    variance += slope ** 2 * (second - first ** 2)
    variance += 2 * slope * bend * (third - first * second) + bend ** 2 * (fourth - second ** 2)
  }
  return Math.max(0, variance)
}

/** Moments from the columns, each influence looked at once. */
export function momentsOf(columns: Columns): Moments {
  const known: (readonly [number, number, number, number])[] = []
  return ({ index, u }) => {
    const made = known[index] ?? moments(columns(index), u)
    known[index] = made
    return made
  }
}

function moments(column: Float64Array, u: number): readonly [number, number, number, number] {
  let first = 0
  let second = 0
  let third = 0
  let fourth = 0
  for (const z of column) {
    const x = z / u
    const square = x * x
    first += x
    second += square
    third += square * x
    fourth += square * square
  }
  const n = column.length
  return [first / n, second / n, third / n, fourth / n]
}
