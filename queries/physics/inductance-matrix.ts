import type { Bar } from './bar.ts'
import { dot, frameOf, minus } from './bar.ts'
import type { FramedBar } from './bar-inductance.ts'
import { mutualOfFramed, self } from './bar-inductance.ts'

/**
 * Partial self and mutual inductances of a set of bars, n × n by rows [H]. Pairs that lie to each other as an earlier
 * pair did (grids of plate cells have thousands) are computed once.
 *
 * @param known keeps pairs met before; of one `error` only
 * @param error wanted of single coefficients of parallel bars, relative [1]; 10⁻¹¹ if left out
 */
export function inductanceMatrix(
  bars: readonly Bar[],
  known = new Map<string, number>(),
  error?: number,
): Float64Array {
  const n = bars.length
  const matrix = new Float64Array(n * n)
  const framed = bars.map((bar): FramedBar => ({ bar, frame: frameOf(bar) }))
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const [a, b] = [framed[i] as FramedBar, framed[j] as FramedBar]
      const value = i === j ? remembered(known, selfKey(a), () => self(a.bar)) : pairValue(known, a, b, error)
      matrix[i * n + j] = value
      matrix[j * n + i] = value
    }
  }
  return matrix
}

/**
 * Mutual inductances between the bars of one set and those of another, by rows [H].
 *
 * @param known keeps pairs met before; of one `error` only
 * @param error wanted of single coefficients of parallel bars, relative [1]; 10⁻¹¹ if left out
 */
export function mutualBlock(
  rows: readonly Bar[],
  columns: readonly Bar[],
  known: Map<string, number>,
  error?: number,
): Float64Array {
  const framed = (bars: readonly Bar[]): readonly FramedBar[] => bars.map((bar) => ({ bar, frame: frameOf(bar) }))
  const [a, b] = [framed(rows), framed(columns)]
  const block = new Float64Array(a.length * b.length)
  a.forEach((one, i) => {
    b.forEach((other, j) => {
      block[i * b.length + j] = pairValue(known, one, other, error)
    })
  })
  return block
}

function pairValue(known: Map<string, number>, a: FramedBar, b: FramedBar, error?: number): number {
  const cosine = dot(a.frame.along, b.frame.along)
  const rightAngle = Math.abs(cosine) < 1e-9
  return rightAngle ? 0 : remembered(known, pairKey(a, b), () => mutualOfFramed(a, b, error))
}

function remembered(known: Map<string, number>, key: string, compute: () => number): number {
  const found = known.get(key)
  if (found !== undefined) return found
  const value = compute()
  known.set(key, value)
  return value
}

/** Pairs whose sizes and offsets agree to a tenth of a picometre, and directions to 10⁻¹², count as one. */
const step = (value: number): number => Math.round(value * 1e13)
const turn = (value: number): number => Math.round(value * 1e12)

function selfKey({ bar, frame }: FramedBar): string {
  return `${step(bar.width)},${step(bar.thickness)},${step(frame.length)}`
}

function pairKey(a: FramedBar, b: FramedBar): string {
  const between = minus(b.frame.middle, a.frame.middle)
  const { along, across, normal } = a.frame
  const place = [along, across, normal].map((axis) => step(dot(between, axis))).join()
  const pose = [dot(b.frame.along, along), dot(b.frame.along, across), dot(b.frame.along, normal)]
  const roll = [dot(b.frame.normal, along), dot(b.frame.normal, across), dot(b.frame.normal, normal)]
  return `${selfKey(a)};${selfKey(b)};${place};${[...pose, ...roll].map(turn).join()}`
}
