import type { Path } from '../../graph/quantity/quantity.ts'
import type { Draw, InfluenceSlot } from '../../graph/values.ts'
import { linearInterval } from './linear-interval.ts'
import { generator } from './random.ts'

/** A value as a function of its influences. `evaluate` gives undefined where the computation is impossible. */
export interface Problem {
  readonly atTaken: number
  readonly influences: readonly InfluenceSlot[]
  readonly evaluate: (draw: Draw) => number | undefined
  /** The same draw object for the same influence and sign, so that models solved under it are shared. */
  readonly single: (influence: InfluenceSlot, sign: 1 | -1) => NonNullable<Draw>
  /** Every influence moved by its uncertainty, up or down by chance: the n-th such draw and its opposite, the same for all. */
  readonly signs: (n: number, sign: 1 | -1) => NonNullable<Draw>
  /** One influence moved in what stands at one home only, to part a shared cause by path. */
  readonly part: (influence: InfluenceSlot, home: Path, sign: 1 | -1) => NonNullable<Draw>
}

/** First-order propagation with its own doubt about itself. All numbers in the unit of the value. */
export interface FirstOrder {
  /** Signed half difference over ± one standard uncertainty, by influence number. */
  readonly components: ReadonlyMap<number, number>
  /** Second differences over ± one standard uncertainty, halved, by influence number. */
  readonly bends: ReadonlyMap<number, number>
  readonly u: number
  readonly low: number
  readonly high: number
  /** Root of the summed squares of the second differences and corner terms: what a straight line leaves out. */
  readonly curvature: number
  /** Whether a straight line misleads here, so that the value must be sampled. */
  readonly misleads: boolean
  readonly notes: readonly string[]
}

/** Share of u that curvature may reach before first order is not trusted; tried on the published cases of the tests. */
const TRUSTED_CURVATURE = 0.15
const PAIRS_UP_TO = 5
const SIGN_VECTORS = 8

/**
 * Standard uncertainty by perturbing each influence by ± its standard uncertainty (JCGM 100:2008 5.1.3 note 2),
 * and a check of the straight line it assumes: second differences, and corner terms of every pair. Above a few
 * influences the corner terms are estimated from random sign vectors, whose mean square is their sum of squares.
 */
export function firstOrder(problem: Problem, sisters?: Sisters): FirstOrder {
  const signed = problem.influences.length > PAIRS_UP_TO ? signedPairs(problem) : []
  const key = sisters && signed.length > 0 ? sisters.keyOf(problem, signed) : undefined
  const known = key === undefined ? undefined : sisters?.known.get(key)
  if (known) return known
  const found = differences(problem, signed)
  if (key !== undefined) sisters?.known.set(key, found)
  return found
}

/**
 * First orders found before. Sister pieces have the same figure: two functions of the same causes that agree at the
 * values taken and under every cause moved at once, up and down by chance, sixteen times over, are one function.
 */
export interface Sisters {
  readonly known: Map<string, FirstOrder>
  readonly keyOf: (problem: Problem, signed: readonly Signed[]) => string
}

export function sistersOf(known: Map<string, FirstOrder>, name: string): Sisters {
  return {
    known,
    keyOf: ({ atTaken, influences }, signed) =>
      [
        name,
        ...[atTaken, ...signed.flat()].map((value) => value?.toPrecision(DIGITS)),
        ...influences.map(({ index }) => index),
      ].join(' '),
  }
}

/** Sums in another order differ in the digits behind these. */
const DIGITS = 12

/** A value with every influence moved, and with every one moved the other way. */
type Signed = readonly [up: number | undefined, down: number | undefined]

function signedPairs({ signs, evaluate }: Problem): readonly Signed[] {
  return Array.from({ length: SIGN_VECTORS }, (_, n) => [evaluate(signs(n, 1)), evaluate(signs(n, -1))] as const)
}

function differences(problem: Problem, signed: readonly Signed[]): FirstOrder {
  const { atTaken, influences } = problem
  const components = new Map<number, number>()
  const bends = new Map<number, number>()
  let second = 0
  let squares = 0
  let impossible = 0
  let sumOfSeconds = 0
  const floor = 1e-13 * Math.abs(atTaken)
  for (const influence of influences) {
    const up = problem.evaluate(problem.single(influence, 1))
    const down = problem.evaluate(problem.single(influence, -1))
    if (up === undefined || down === undefined) {
      impossible++
      continue
    }
    const slope = (up - down) / 2
    const bend = (up + down - 2 * atTaken) / 2
    if (Math.abs(slope) > floor) components.set(influence.index, slope)
    if (Math.abs(bend) > floor) {
      bends.set(influence.index, bend)
      second += bend * bend
    }
    squares += Math.abs(slope) > floor ? slope * slope : 0
    sumOfSeconds += bend
  }
  const corners =
    signed.length > 0
      ? estimatedCorners(problem, signed, sumOfSeconds, floor)
      : influences.length > 1
        ? exactCorners(problem, floor)
        : 0
  const u = Math.sqrt(squares)
  const curvature = Math.sqrt(second + corners)
  return {
    components,
    bends,
    u,
    curvature,
    ...linearInterval(atTaken, influences, components, bends),
    misleads: impossible > 0 || curvature > TRUSTED_CURVATURE * u,
    notes: impossible > 0 ? [`${impossible} input(s) reach values for which there is no result`] : [],
  }
}

/** Sum of squared corner terms (f(++) − f(+−) − f(−+) + f(−−))/4 over all pairs of influences. */
function exactCorners({ influences, evaluate }: Problem, floor: number): number {
  let sum = 0
  for (let i = 0; i < influences.length; i++) {
    for (let j = i + 1; j < influences.length; j++) {
      const at = (a: number, b: number) => evaluate(shifted([influences[i]!, influences[j]!], [a, b]))
      const corners = [at(1, 1), at(1, -1), at(-1, 1), at(-1, -1)]
      if (corners.some((corner) => corner === undefined)) continue
      const term = (corners[0]! - corners[1]! - corners[2]! + corners[3]!) / 4
      if (Math.abs(term) > floor) sum += term * term
    }
  }
  return sum
}

/** The same by chance: what all moved at once leave beside the second differences has the corner terms for a mean square. */
function estimatedCorners(
  { atTaken }: Problem,
  signed: readonly Signed[],
  sumOfSeconds: number,
  floor: number,
): number {
  let sum = 0
  let used = 0
  for (const [up, down] of signed) {
    if (up === undefined || down === undefined) continue
    const rest = (up + down - 2 * atTaken) / 2 - sumOfSeconds
    if (Math.abs(rest) > floor) sum += rest * rest
    used++
  }
  return used === 0 ? 0 : sum / used
}

/** Up or down by chance in each draw, by the id of the influence: the same whichever figure asks, so that models are shared. */
export function signsOf(id: string): readonly (1 | -1)[] {
  const next = generator(`corner terms ${id}`)
  return Array.from({ length: SIGN_VECTORS }, () => (next() < 0.5 ? -1 : 1))
}

function shifted(influences: readonly InfluenceSlot[], signs: readonly number[]): NonNullable<Draw> {
  const by = new Map(influences.map((influence, at) => [influence.index, signs[at]! * influence.u]))
  return { moved: new Set(by.keys()), deviation: (index) => by.get(index) ?? 0 }
}
