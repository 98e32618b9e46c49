import { quantile } from '../../graph/quantity/shape.ts'
import type { InfluenceSlot } from '../../graph/values.ts'

/**
 * Deviations of one influence, the same ones wherever it appears: the generator is seeded by the influence's name,
 * so that two figures that share a cause share its draws, within a record and across records. One draw falls in each
 * of `count` equally likely strata, in an order of the influence's own (Latin hypercube), so that what a single
 * influence does is known far better than by plain chance. More draws than `count` come in further blocks.
 */
export function deviations(influence: InfluenceSlot, count: number, block = 0): Float64Array {
  const next = generator(block === 0 ? influence.id : `${influence.id} ${block}`)
  const column = new Float64Array(count)
  for (let k = 0; k < count; k++) column[k] = quantile(influence.shape, (k + next()) / count)
  for (let k = count - 1; k > 0; k--) {
    const other = Math.floor(next() * (k + 1))
    const kept = column[k]!
    column[k] = column[other]!
    column[other] = kept
  }
  return column
}

/** Uniform numbers in (0, 1), seeded by a text (xmur3 mixing into sfc32, both public domain algorithms). */
export function generator(seed: string): () => number {
  let mix = 1779033703 ^ seed.length
  const scramble = (): number => {
    mix = Math.imul(mix ^ (mix >>> 16), 2246822507)
    mix = Math.imul(mix ^ (mix >>> 13), 3266489909)
    mix ^= mix >>> 16
    return mix >>> 0
  }
  for (let at = 0; at < seed.length; at++) mix = Math.imul(mix ^ seed.charCodeAt(at), 3432918353)
  let a = scramble()
  let b = scramble()
  let c = scramble()
  let counter = scramble()
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (((c << 21) | (c >>> 11)) + sum) | 0
    return ((sum >>> 0) + 0.5) / 4294967296
  }
  for (let warm = 0; warm < 12; warm++) next()
  return next
}
