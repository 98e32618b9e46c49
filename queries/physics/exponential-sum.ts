import { findRoot } from './root.ts'

/** u(t) = Σ amount · exp(−rate · t), every rate zero or above. */
export interface Decay {
  readonly amount: number
  readonly rate: number
}

/** Value of a sum of exponentials at a time. */
export function decayed(terms: readonly Decay[], time: number): number {
  return terms.reduce((sum, { amount, rate }) => sum + amount * Math.exp(-rate * time), 0)
}

/**
 * Time after which a sum of exponentials stays within ± a level, whatever it did before: it may fall, rise again and
 * cross more than once. Zero when it never leaves the level; undefined when what is left in the end is not below it.
 *
 * Its crossings are isolated by Rolle's theorem (between two crossings lies a zero of the derivative, which has a term
 * less), so that none is overlooked.
 *
 * @example lastTimeAbove([{ amount: 800, rate: 0.1 }], 60) // 10 ln(800/60) = 25.903
 */
export function lastTimeAbove(terms: readonly Decay[], level: number): number | undefined {
  const kept = merged(terms)
  const left = kept.reduce((sum, { amount, rate }) => (rate === 0 ? sum + amount : sum), 0)
  if (Math.abs(left) >= level) return undefined
  const end = quietAfter(kept, level)
  const crossings = [level, -level].flatMap((one) => zeros(merged([...kept, { amount: -one, rate: 0 }]), end))
  return Math.max(0, ...crossings)
}

/** Terms of one rate added, those that round to nothing beside the others left out; slowest first. */
function merged(terms: readonly Decay[]): readonly Decay[] {
  const least = 1e-15 * Math.max(...terms.map(({ amount }) => Math.abs(amount)))
  const sums: Decay[] = []
  for (const term of terms.toSorted((a, b) => a.rate - b.rate)) {
    const last = sums.at(-1)
    if (last && term.rate - last.rate <= 1e-13 * term.rate)
      sums[sums.length - 1] = { amount: last.amount + term.amount, rate: last.rate }
    else sums.push(term)
  }
  return sums.filter(({ amount }) => Math.abs(amount) > least)
}

/** A time from which on even the sizes of the terms, all of one sign, are within the level: nothing crosses later. */
function quietAfter(terms: readonly Decay[], level: number): number {
  const left = Math.abs(terms.reduce((sum, { amount, rate }) => (rate === 0 ? sum + amount : sum), 0))
  const dying = terms.filter(({ rate }) => rate > 0).map(({ amount, rate }) => ({ amount: Math.abs(amount), rate }))
  if (dying.length === 0) return 0
  let time = 1 / dying[0]!.rate
  while (left + decayed(dying, time) >= level) time *= 2
  return time
}

/** Zeros with a change of sign between 0 and `end`, in order; terms of distinct rates, slowest first. */
function zeros(terms: readonly Decay[], end: number): readonly number[] {
  if (terms.length < 2) return []
  // Divided by its slowest term, the sum has the same zeros, and a derivative without that term.
  const slowest = terms[0]!.rate
  const relative = terms.map(({ amount, rate }) => ({ amount, rate: rate - slowest }))
  const slope = relative.slice(1).map(({ amount, rate }) => ({ amount: -amount * rate, rate }))
  const value = (time: number): number => decayed(relative, time)
  const places = [0, ...zeros(slope, end), end]
  return places.slice(1).flatMap((high, i) => {
    const low = places[i]!
    return Math.sign(value(low)) * Math.sign(value(high)) < 0 ? [findRoot(value, { low, high })] : []
  })
}
