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
 * Double-exponential (tanh-sinh) rule on 0 … 1 with 57 nodes: good to 1 part in 10¹³ for functions that are singular at 0,
 * such as logarithms and roots, whatever lies between. Nodes near 0 keep their relative accuracy.
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

/**
 * Gauss rule with 1 to 5 nodes for the density of the distance between two points, one drawn evenly from each of two
 * intervals of the given lengths with their middles `offset` apart (a trapezium). Weights sum to 1.
 *
 * Nodes are offset ± √τ, where the τ are zeros of the orthogonal polynomial in τ that the even moments give.
 *
 * @param first  length of one interval [m], > 0
 * @param second length of the other [m], > 0
 * @param offset from middle to middle [m]
 * @param count  number of nodes, 1 … 5
 */
export function trapezium(inputs: { first: number; second: number; offset: number; count: number }): Rule {
  const { first, second, offset, count } = inputs
  const scale = (first + second) / 2
  const { tau, share } = evenNodes(evenMoments(first / scale, second / scale), count)
  const nodes: number[] = []
  const weights: number[] = []
  for (const [i, t] of tau.entries()) {
    const root = scale * Math.sqrt(t)
    const weight = share[i] ?? 0
    if (t === 0) {
      nodes.push(offset)
      weights.push(weight)
    } else {
      nodes.push(offset - root, offset + root)
      weights.push(weight / 2, weight / 2)
    }
  }
  return { nodes: Float64Array.from(nodes), weights: Float64Array.from(weights) }
}

type Moments = { readonly m2: number; readonly m4: number; readonly m6: number; readonly m8: number }

/** Moments of the sum of two independent even distances of lengths a and b. */
function evenMoments(a: number, b: number): Moments {
  const [a2, b2] = [a * a, b * b]
  const [a4, b4] = [a2 * a2, b2 * b2]
  return {
    m2: (a2 + b2) / 12,
    m4: (a4 + b4) / 80 + (a2 * b2) / 24,
    m6: (a4 * a2 + b4 * b2) / 448 + (a4 * b2 + a2 * b4) / 64,
    m8: (a4 * a4 + b4 * b4) / 2304 + (a4 * a2 * b2 + a2 * b4 * b2) / 192 + (7 * a4 * b4) / 640,
  }
}

/** Squares τ of the nodes, with the weight of each pair ±√τ. */
function evenNodes({ m2, m4, m6, m8 }: Moments, count: number): { tau: number[]; share: number[] } {
  if (count === 1) return { tau: [0], share: [1] }
  if (count === 2) return { tau: [m2], share: [1] }
  if (count === 3) return { tau: [0, m4 / m2], share: [1 - (m2 * m2) / m4, (m2 * m2) / m4] }
  if (count === 4) {
    const [low, high] = quadraticZeros(1, m2, m4, m6)
    const share = (m2 - low) / (high - low)
    return { tau: [low, high], share: [1 - share, share] }
  }
  // Five nodes: 0 and two pairs; the pairs are a two-node rule for the density times τ.
  const [low, high] = quadraticZeros(m2, m4, m6, m8)
  const shareHigh = (m4 - low * m2) / (high * (high - low))
  const shareLow = (m2 - shareHigh * high) / low
  return { tau: [0, low, high], share: [1 - shareLow - shareHigh, shareLow, shareHigh] }
}

/** Zeros of the quadratic that is orthogonal to 1 and τ under moments c0 … c3. */
function quadraticZeros(c0: number, c1: number, c2: number, c3: number): [number, number] {
  const determinant = c0 * c2 - c1 * c1
  const sum = (c0 * c3 - c1 * c2) / determinant
  const product = (c1 * c3 - c2 * c2) / determinant
  const root = Math.sqrt(Math.max(0, (sum * sum) / 4 - product))
  const high = sum / 2 + root
  return [product / high, high]
}
