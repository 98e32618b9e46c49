import type { Bar } from './bar.ts'
import { dot, frameOf } from './bar.ts'
import type { FramedBar } from './bar-inductance.ts'
import { mutualOfFramed, PARALLEL, parallelPair } from './bar-inductance.ts'
import type { ParallelPair } from './bar-mutual-pair.ts'
import { parallelMutual } from './bar-mutual-parallel.ts'

/**
 * Partial self and mutual inductances of a set of bars, n × n by rows [H]. Pairs that lie to each other as an earlier
 * pair did (grids of plate cells have thousands) are computed once.
 *
 * @param error wanted of single coefficients of parallel bars, relative [1]; 10⁻¹¹ if left out
 */
export function inductanceMatrix(bars: readonly Bar[], error?: number): Float64Array {
  const n = bars.length
  const matrix = new Float64Array(n * n)
  const framed = bars.map((bar): FramedBar => ({ bar, frame: frameOf(bar) }))
  const pairs = pairsMet(error)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const value = pairValue(pairs, framed[i]!, framed[j]!, error)
      matrix[i * n + j] = value
      matrix[j * n + i] = value
    }
  }
  return matrix
}

/**
 * Mutual inductances between the bars of one set and those of another, by rows [H].
 *
 * @param error wanted of single coefficients of parallel bars, relative [1]; 10⁻¹¹ if left out
 */
export function mutualBlock(rows: readonly Bar[], columns: readonly Bar[], error?: number): Float64Array {
  const framed = (bars: readonly Bar[]): readonly FramedBar[] => bars.map((bar) => ({ bar, frame: frameOf(bar) }))
  const [a, b] = [framed(rows), framed(columns)]
  const pairs = pairsMet(error)
  const block = new Float64Array(a.length * b.length)
  a.forEach((one, i) => {
    b.forEach((other, j) => {
      block[i * b.length + j] = pairValue(pairs, one, other, error)
    })
  })
  return block
}

function pairValue(pairs: (pair: ParallelPair) => number, a: FramedBar, b: FramedBar, error?: number): number {
  const cosine = dot(a.frame.along, b.frame.along)
  if (Math.abs(cosine) < PARALLEL) return 0
  const aligned = parallelPair(a, b)
  return aligned ? Math.sign(cosine) * pairs(aligned) : mutualOfFramed(a, b, error)
}

/** Sizes and offsets that agree to a tenth of a picometre count as one. */
const STEPS = 1e13
/** Sizes of two bars and the offset between them in each of three directions. */
const NUMBERS = 9

/**
 * The mutual inductance of aligned pairs, each way of lying to each other computed once. It is an open table on numbers,
 * because making and hashing a text for each pair costs more than the integral of most of them.
 */
function pairsMet(error?: number): (pair: ParallelPair) => number {
  let slots = new Int32Array(256).fill(-1)
  let keys = new Float64Array(128 * NUMBERS)
  let values = new Float64Array(128)
  let count = 0
  const key = new Float64Array(NUMBERS)
  const slotOf = (from: Float64Array, at: number): number => {
    let slot = hashOf(from, at) & (slots.length - 1)
    while (slots[slot]! >= 0 && !isSame(keys, slots[slot]! * NUMBERS, from, at)) slot = (slot + 1) & (slots.length - 1)
    return slot
  }
  const grow = (): void => {
    keys = extended(keys)
    values = extended(values)
    slots = new Int32Array(slots.length * 2).fill(-1)
    for (let one = 0; one < count; one++) slots[slotOf(keys, one * NUMBERS)] = one
  }
  return (pair) => {
    writeKey(key, pair)
    const known = slots[slotOf(key, 0)]!
    if (known >= 0) return values[known]!
    if (count === values.length) grow()
    keys.set(key, count * NUMBERS)
    values[count] = parallelMutual(pair, error)
    slots[slotOf(key, 0)] = count
    return values[count++]!
  }
}

/** Which side of each other two aligned bars lie on does not matter. */
function writeKey(key: Float64Array, { x, y, z }: ParallelPair): void {
  let at = 0
  for (const { first, second, offset } of [x, y, z]) {
    key[at++] = Math.round(first * STEPS)
    key[at++] = Math.round(second * STEPS)
    key[at++] = Math.round(Math.abs(offset) * STEPS)
  }
}

function hashOf(keys: Float64Array, at: number): number {
  let hash = 0
  for (let k = at; k < at + NUMBERS; k++) {
    const one = keys[k]!
    hash = Math.imul(hash ^ (one | 0) ^ (one / 4294967296), 0x9e3779b1)
    hash ^= hash >>> 15
  }
  return hash
}

function isSame(keys: Float64Array, at: number, others: Float64Array, from: number): boolean {
  for (let k = 0; k < NUMBERS; k++) if (keys[at + k] !== others[from + k]) return false
  return true
}

function extended(array: Float64Array): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(array.length * 2)
  longer.set(array)
  return longer
}
