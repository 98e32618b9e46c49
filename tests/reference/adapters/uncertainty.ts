import { roundToUncertainty } from '../../../graph/quantity/print.ts'
import type { Shape } from '../../../graph/quantity/quantity.ts'
import { standardUncertainty } from '../../../graph/quantity/quantity.ts'
import { coverageFactor, fromReadings, interval95, welchSatterthwaite } from '../../../graph/quantity/shape.ts'
import { normalQuantile } from '../../../graph/quantity/student.ts'
import type { Draw, InfluenceSlot } from '../../../graph/values.ts'
import { firstOrder, type Problem, signsOf } from '../../../queries/evaluate/propagate.ts'
import { type Sampled, sampleTogether } from '../../../queries/evaluate/sample.ts'
import type { Adapter, Answers, Case } from '../case.ts'

/** A distribution as the case files write it. */
interface Distribution {
  readonly dist: 'normal' | 'rectangular' | 'triangular' | 'exact'
  readonly value?: number
  readonly u?: number
  readonly halfWidth?: number
  readonly low?: number
  readonly high?: number
}

interface Variable {
  readonly name: string
  readonly taken: number
  readonly shape: Shape | null
}

const DRAWS = 200_000

/** Cases that give a formula and a distribution for each of its names. */
export const uncertainty: Adapter = {
  topics: ['uncertainty'],
  answer(input) {
    const { inputs } = input
    if ('model' in inputs && 'x' in inputs && typeof inputs.x === 'object') return propagated(input)
    if ('components_nm' in inputs) return endGauge(inputs.components_nm as readonly { u: number; nu: number }[])
    if ('relativePercent' in inputs) return welch(inputs as never)
    if ('readings' in inputs) return readings(inputs.readings as readonly number[])
    return undefined
  },
}

/** Formula texts are ours to read only here: names, products by a blank, powers by ^. */
function propagated({ inputs }: Case): Answers | undefined {
  const variables = Object.entries(inputs.x as Record<string, Distribution>).flatMap(([names, one]) =>
    names.split(',').map((name) => variable(name.trim(), one)),
  )
  const names = namesIn(String(inputs.model))
  const known = names.every((name) => variables.some((one) => one.name === name))
  if (!known && names.length !== variables.length) return undefined
  const order = known ? names : variables.map(({ name }) => name)
  const compute = formula(String(inputs.model), names)
  const influences = variables.map(
    ({ name, shape }, index): InfluenceSlot => ({
      index,
      id: name,
      scope: 'claim',
      shape: shape ?? { kind: 'normal', u: 0 },
      u: shape ? standardUncertainty(shape) : 0,
      about: name,
    }),
  )
  const at = (draw: Draw, scale = 1): number =>
    compute(
      order.map((name) => {
        const index = variables.findIndex((one) => one.name === name)
        const moved = draw !== null && (draw.moved === 'all' || draw.moved.has(index))
        return variables[index]!.taken + (moved ? scale * draw.deviation(index) : 0)
      }),
    )
  return answersOf(influences, at, variables)
}

function answersOf(
  all: readonly InfluenceSlot[],
  at: (draw: Draw, scale?: number) => number,
  variables: readonly Variable[],
): Answers {
  const influences = all.filter(({ u }) => u > 0)
  const problem = (scale: number): Problem => ({
    atTaken: at(null),
    influences,
    evaluate: (draw) => at(draw, scale),
    single: (influence, sign) => ({ moved: new Set([influence.index]), deviation: () => sign * influence.u }),
    signs: (n, sign) => ({ moved: 'all', deviation: (index) => sign * signsOf(all[index]!.id)[n]! * all[index]!.u }),
    part: (influence, _home, sign) => ({ moved: new Set([influence.index]), deviation: () => sign * influence.u }),
  })
  const linear = firstOrder(problem(1))
  const tiny = 1e-4
  const slope = firstOrder(problem(tiny))
  const sampled = sampleTogether([{ draws: DRAWS, evaluate: (draw) => at(draw) }], (index) => all[index]!)[0]!
  const se = (p: number): number => quantileError(sampled, p)
  const drawn = {
    mean: sampled.u / Math.sqrt(DRAWS),
    sd: sampled.standardError,
    q025: se(0.025),
    median: se(0.5),
    q975: se(0.975),
  }
  return {
    value: at(null),
    atMeans: at(null),
    firstOrderAtPoint: at(null),
    firstOrderU: slope.u / tiny,
    centralDifferenceU: linear.u,
    mean: sampled.mean,
    median: sampled.value,
    u: linear.misleads ? sampled.u : slope.u / tiny,
    U_k2: Number(roundToUncertainty(at(null), (2 * slope.u) / tiny).u), // published figures are rounded to two digits
    low95: linear.misleads ? sampled.low : linear.low,
    high95: linear.misleads ? sampled.high : linear.high,
    sharesPercent: Object.fromEntries(
      variables.map(({ name }, index) => [name, 100 * ((slope.components.get(index) ?? 0) / slope.u) ** 2]),
    ),
    monteCarlo: { mean: sampled.mean, sd: sampled.u, q025: sampled.low, median: sampled.value, q975: sampled.high },
    firstOrderMisleads: linear.misleads,
    standardErrors: {
      mean: drawn.mean,
      median: drawn.median,
      ...(linear.misleads && { u: drawn.sd, low95: drawn.q025, high95: drawn.q975 }),
      monteCarlo: drawn,
    },
  }
}

/** Standard error of a quantile of normal-like draws: √(p(1−p)/M) over the density there. */
function quantileError({ u, draws }: Sampled, p: number): number {
  const z = normalQuantile(p)
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / u
  return Math.sqrt((p * (1 - p)) / draws) / density
}

function variable(name: string, one: Distribution): Variable {
  if (one.dist === 'exact') return { name, taken: one.value!, shape: null }
  if (one.dist === 'normal') return { name, taken: one.value!, shape: { kind: 'normal', u: one.u! } }
  const low = one.low ?? one.value! - one.halfWidth!
  const high = one.high ?? one.value! + one.halfWidth!
  const taken = one.value ?? (low + high) / 2
  return { name, taken, shape: { kind: one.dist, low: low - taken, high: high - taken } }
}

const WORDS = ['pi', 'sqrt', 'max', 'min', 'ln', 'exp', 'cos', 'sin']

/** Names of a formula in the order in which they first stand there. */
function namesIn(model: string): readonly string[] {
  const found = model.replaceAll('di/dt', 's').match(/[A-Za-z_][A-Za-z0-9_]*/g) ?? []
  return [...new Set(found)].filter((name) => !WORDS.includes(name))
}

function formula(model: string, names: readonly string[]): (values: readonly number[]) => number {
  const text = model
    .replaceAll('di/dt', 's')
    .replaceAll('^', '**')
    .replace(/([A-Za-z0-9_)])\s+(?=[A-Za-z(])/g, '$1*')
    .replace(/(\d)(?=pi\b)/g, '$1*')
    .replace(/\bpi\b/g, 'Math.PI')
    .replace(/\b(sqrt|max|min|exp|cos|sin)\b\s*\*?\(/g, 'Math.$1(')
  const compute = new Function(...names, `return ${text}`) as (...values: number[]) => number
  return (values) => compute(...values)
}

function endGauge(components: readonly { u: number; nu: number }[]): Answers {
  const u = Math.sqrt(components.reduce((sum, one) => sum + one.u ** 2, 0))
  return { value_nm: 50000838, u_nm: u, nuEff: welchSatterthwaite(components.map(({ u, nu }) => ({ u, dof: nu }))) }
}

function welch({ relativePercent, n }: { relativePercent: readonly number[]; n: readonly number[] }): Answers {
  const parts = relativePercent.map((u, at) => ({ u, dof: n[at]! - 1 }))
  return {
    ucPercent: Math.sqrt(parts.reduce((sum, { u }) => sum + u ** 2, 0)),
    nuEff: welchSatterthwaite(parts),
  }
}

function readings(values: readonly number[]): Answers {
  const { mean, shape } = fromReadings(values)
  const dof = shape.kind === 'student' ? shape.dof : Number.POSITIVE_INFINITY
  const [low95, high95] = interval95(shape).map((deviation) => mean + deviation)
  return {
    mean,
    u: standardUncertainty(shape),
    nu: dof,
    k95: coverageFactor(0.95, dof),
    low95: low95!,
    high95: high95!,
  }
}
