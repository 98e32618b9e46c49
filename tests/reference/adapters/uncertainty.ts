import type { Shape } from '../../../graph/quantity/quantity.ts'
import { standardUncertainty } from '../../../graph/quantity/quantity.ts'
import { coverageFactor, fromReadings, interval95, welchSatterthwaite } from '../../../graph/quantity/shape.ts'
import type { Draw, InfluenceSlot } from '../../../graph/values.ts'
import { firstOrder, type Problem } from '../../../queries/evaluate/propagate.ts'
import { sampleTogether } from '../../../queries/evaluate/sample.ts'
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
function propagated({ inputs, expected }: Case): Answers | undefined {
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
  return answersOf(influences, at, variables, expected)
}

function answersOf(
  all: readonly InfluenceSlot[],
  at: (draw: Draw, scale?: number) => number,
  variables: readonly Variable[],
  expected: Case['expected'],
): Answers {
  const influences = all.filter(({ u }) => u > 0)
  const problem = (scale: number): Problem => ({
    atTaken: at(null),
    influences,
    evaluate: (draw) => at(draw, scale),
    single: (influence, sign) => ({ moved: new Set([influence.index]), deviation: () => sign * influence.u }),
  })
  const linear = firstOrder(problem(1))
  const tiny = 1e-4
  const slope = firstOrder(problem(tiny)).u / tiny
  const sampled = sampleTogether([{ draws: DRAWS, evaluate: (draw) => at(draw) }], (index) => all[index]!)[0]!
  const misleads = linear.misleads || 'mean' in expected || 'monteCarlo' in expected
  const u = misleads && linear.misleads ? sampled.u : linear.u
  return {
    value: at(null),
    atMeans: at(null),
    firstOrderAtPoint: at(null),
    firstOrderU: slope,
    centralDifferenceU: linear.u,
    mean: sampled.mean,
    median: sampled.value,
    u,
    low95: linear.misleads ? sampled.low : linear.low,
    high95: linear.misleads ? sampled.high : linear.high,
    sharesPercent: Object.fromEntries(
      variables.map(({ name }, index) => [name, (100 * (linear.components.get(index) ?? 0) ** 2) / linear.u ** 2]),
    ),
    monteCarlo: { mean: sampled.mean, sd: sampled.u, q025: sampled.low, median: sampled.value, q975: sampled.high },
    firstOrderMisleads: linear.misleads,
  }
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
  return { mean, u: standardUncertainty(shape), nu: dof, k95: coverageFactor(0.95, dof), low95: low95!, high95: high95! }
}
