import { DomainError } from './method.ts'

export type BracketInputs = { low: number; high: number; relativeTolerance?: number }

/**
 * Root of a continuous function between two places of opposite sign: weighted secant steps (Anderson and Björck) inside
 * the bracket, with a bisection whenever three steps have not halved it, so that it never hunts, whatever the shape.
 *
 * @throws {DomainError} when both ends have the same sign or a value is not a number
 *
 * @example findRoot((x) => x * x - 2, { low: 0, high: 2 }) // 1.41421356…
 */
export function findRoot(f: (x: number) => number, { low, high, relativeTolerance = 1e-14 }: BracketInputs): number {
  let [a, b, fa, fb] = [low, high, f(low), f(high)]
  if (fa === 0) return a
  if (fb === 0) return b
  if (!(Math.sign(fa) * Math.sign(fb) < 0)) {
    throw new DomainError('findRoot', 'bracket', `${fa} … ${fb}`, 'of opposite signs at its ends')
  }
  // b is always the newest point, a the other side; [wa] is the weighted value at a that keeps the secant from sticking.
  let [wa, widthThen] = [fa, Number.POSITIVE_INFINITY]
  for (let i = 0; i < 300; i++) {
    const width = Math.abs(b - a)
    if (width <= relativeTolerance * Math.max(Math.abs(a), Math.abs(b))) break
    const slow = i % 3 === 0 && width > widthThen / 2
    if (i % 3 === 0) widthThen = width
    const secant = b - (fb * (b - a)) / (fb - wa)
    const x = slow || !between(secant, a, b) ? a + (b - a) / 2 : secant
    if (x === a || x === b) break
    const fx = f(x)
    if (fx === 0) return x
    if (Math.sign(fx) !== Math.sign(fb)) {
      ;[a, fa, wa] = [b, fb, fb]
    } else {
      const weight = 1 - fx / fb
      wa *= weight > 0 ? weight : 0.5
    }
    ;[b, fb] = [x, fx]
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b
}

function between(x: number, a: number, b: number): boolean {
  return x > Math.min(a, b) && x < Math.max(a, b)
}
