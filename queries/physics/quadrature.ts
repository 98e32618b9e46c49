/** Nodes and weights of a quadrature rule. */
export interface Rule {
  readonly nodes: Float64Array
  readonly weights: Float64Array
}

const legendreRules: (Rule | undefined)[] = []

/**
 * Gauss-Legendre rule on 0 … 1, exact for polynomials to degree 2·count − 1. Kept once computed.
 *
 * @param count number of nodes, ≥ 1
 */
export function legendre(count: number): Rule {
  const known = legendreRules[count]
  if (known) return known
  const nodes = new Float64Array(count)
  const weights = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5))
    let slope = 1
    for (let step = 0; step < 6; step++) {
      const p = legendrePair(count, x)
      slope = (count * (x * p.value - p.before)) / (x * x - 1)
      x -= p.value / slope
    }
    const p = legendrePair(count, x)
    slope = (count * (x * p.value - p.before)) / (x * x - 1)
    nodes[i] = (1 - x) / 2
    weights[i] = 1 / ((1 - x * x) * slope * slope)
  }
  const rule = { nodes, weights }
  legendreRules[count] = rule
  return rule
}

function legendrePair(count: number, x: number): { value: number; before: number } {
  let before = 1
  let value = x
  for (let k = 2; k <= count; k++) [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k]
  return { value, before }
}

let endRule: Rule | undefined

/**
 * Double-exponential (tanh-sinh) rule on 0 … 1 with 57 nodes: good to 1 part in 10¹³ for functions that are singular at
 * 0 like a logarithm. Nodes near 0 keep their relative accuracy.
 */
export function doubleExponential(): Rule {
  if (endRule) return endRule
  const step = 1 / 8
  const reach = 28
  const nodes = new Float64Array(2 * reach + 1)
  const weights = new Float64Array(2 * reach + 1)
  for (let k = -reach; k <= reach; k++) {
    const t = k * step
    const u = Math.PI * Math.sinh(t)
    nodes[k + reach] = 1 / (1 + Math.exp(-u))
    weights[k + reach] = (step * Math.PI * Math.cosh(t)) / ((1 + Math.exp(-u)) * (1 + Math.exp(u)))
  }
  endRule = { nodes, weights }
  return endRule
}

export const TRAPEZIUM_MOST = 5

export type TrapeziumInputs = { first: number; second: number; offset: number; count: number }

/**
 * Gauss rule with 1 to 5 nodes for the density of the distance between two points, one drawn evenly from each of two
 * intervals of the given lengths with their middles `offset` apart (a trapezium). Weights sum to 1.
 *
 * Nodes are offset ± √τ, where the τ are zeros of the orthogonal polynomial in τ that the even moments give.
 *
 * @param first, second lengths of the intervals [m], > 0
 * @param offset        from middle to middle [m]
 * @param count         number of nodes, 1 … 5
 * @param rule          overwritten with the nodes and weights; room for five
 */
export function trapezium({ first, second, offset, count }: TrapeziumInputs, { nodes, weights }: Rule): void {
  const scale = (first + second) / 2
  const a2 = (first / scale) ** 2
  const b2 = (second / scale) ** 2
  const m2 = (a2 + b2) / 12
  let at = 0
  if (count % 2 === 1) {
    nodes[0] = offset
    weights[0] = 1
    at = 1
  }
  if (count === 1) return
  if (count === 2) return void pair(nodes, weights, { at, offset, root: scale * Math.sqrt(m2), weight: 1 })
  const [a4, b4] = [a2 * a2, b2 * b2]
  const m4 = (a4 + b4) / 80 + (a2 * b2) / 24
  if (count === 3) {
    const share = (m2 * m2) / m4
    weights[0] = 1 - share
    return void pair(nodes, weights, { at, offset, root: scale * Math.sqrt(m4 / m2), weight: share })
  }
  const m6 = (a4 * a2 + b4 * b2) / 448 + (a4 * b2 + a2 * b4) / 64
  // Five nodes are the middle and a two-pair rule for the density times τ: moments one further.
  const m8 = (a4 * a4 + b4 * b4) / 2304 + (a4 * a2 * b2 + a2 * b4 * b2) / 192 + (7 * a4 * b4) / 640
  const [c0, c1, c2, c3] = count === 4 ? [1, m2, m4, m6] : [m2, m4, m6, m8]
  const determinant = c0 * c2 - c1 * c1
  const half = (c0 * c3 - c1 * c2) / (2 * determinant)
  const high = half + Math.sqrt(Math.max(0, half * half - (c1 * c3 - c2 * c2) / determinant))
  const low = (c1 * c3 - c2 * c2) / determinant / high
  const shareHigh = (c1 - low * c0) / (high - low)
  const shareLow = c0 - shareHigh
  const [weightHigh, weightLow] = count === 4 ? [shareHigh, shareLow] : [shareHigh / high, shareLow / low]
  if (count === 5) weights[0] = 1 - weightHigh - weightLow
  pair(nodes, weights, { at, offset, root: scale * Math.sqrt(high), weight: weightHigh })
  pair(nodes, weights, { at: at + 2, offset, root: scale * Math.sqrt(low), weight: weightLow })
}

/** Room for a trapezium rule. */
export function emptyRule(): Rule {
  return { nodes: new Float64Array(TRAPEZIUM_MOST), weights: new Float64Array(TRAPEZIUM_MOST) }
}

function pair(
  nodes: Float64Array,
  weights: Float64Array,
  { at, offset, root, weight }: { at: number; offset: number; root: number; weight: number },
): void {
  nodes[at] = offset - root
  nodes[at + 1] = offset + root
  weights[at] = weight / 2
  weights[at + 1] = weight / 2
}
