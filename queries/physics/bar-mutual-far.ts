import type { ParallelPair, Span } from './bar-mutual-pair.ts'
import { boxDistance, endsOf, NEUMANN_FACTOR, nodesFor } from './bar-mutual-pair.ts'
import { parallelIntegral } from './filament-mutual.ts'
import type { Rule } from './quadrature.ts'
import { trapezium } from './quadrature.ts'

const AIM = 1e-13
const MOST_NODES = 5

/**
 * Mutual partial inductance of two parallel bars that are far apart against their sections: a Gauss rule of up to 5 × 5
 * filament pairs for the distance between their sections. Where they are far apart against their lengths too, the rule
 * runs over the third axis as well, since end distances would then cancel.
 *
 * @returns undefined where five nodes an axis would not do
 */
export function farMutual(pair: ParallelPair): number | undefined {
  const distance = boxDistance(pair)
  const needed = (span: Span): number => nodesFor({ distance, half: (span.first + span.second) / 2, error: AIM })
  const [nx, ny, nz] = [needed(pair.x), needed(pair.y), needed(pair.z)]
  if (nx > MOST_NODES || ny > MOST_NODES) return undefined
  const across = { x: trapezium({ ...pair.x, count: nx }), y: trapezium({ ...pair.y, count: ny }) }
  if (nz <= MOST_NODES) return pointPairs(pair, { ...across, z: trapezium({ ...pair.z, count: nz }) })
  const ends = endsOf(pair.z)
  return NEUMANN_FACTOR * overSections(across, (rho) => parallelIntegral(ends, rho))
}

type Across = { readonly x: Rule; readonly y: Rule }

function overSections({ x, y }: Across, kernel: (rho: number) => number): number {
  let sum = 0
  for (let i = 0; i < x.nodes.length; i++) {
    for (let j = 0; j < y.nodes.length; j++) {
      const [dx, dy] = [x.nodes[i] as number, y.nodes[j] as number]
      sum += (x.weights[i] as number) * (y.weights[j] as number) * kernel(Math.sqrt(dx * dx + dy * dy))
    }
  }
  return sum
}

function pointPairs(pair: ParallelPair, rules: Across & { readonly z: Rule }): number {
  const { nodes, weights } = rules.z
  const inverse = (rho: number): number =>
    nodes.reduce((sum, z, k) => sum + (weights[k] as number) / Math.sqrt(rho * rho + z * z), 0)
  return NEUMANN_FACTOR * pair.z.first * pair.z.second * overSections(rules, inverse)
}
