import type { ParallelPair, Span } from './bar-mutual-pair.ts'
import { boxDistance, endsOf, NEUMANN_FACTOR, nodesFor } from './bar-mutual-pair.ts'
import { parallelIntegral } from './filament-mutual.ts'
import type { Rule } from './quadrature.ts'
import { emptyRule, TRAPEZIUM_MOST, trapezium } from './quadrature.ts'

// Overwritten by each call: plates ask for tens of thousands of pairs.
const ruleX = emptyRule()
const ruleY = emptyRule()
const ruleZ = emptyRule()

/**
 * Mutual partial inductance of two parallel bars that are far apart against their sections: a Gauss rule of up to 5 × 5
 * filament pairs for the distance between their sections. Where they are far apart against their lengths too, the rule
 * runs over the third axis as well, since end distances would then cancel.
 *
 * @param error wanted, relative [1]
 * @returns undefined where five nodes an axis would not do
 */
export function farMutual(pair: ParallelPair, error: number): number | undefined {
  const distance = boxDistance(pair)
  const needed = ({ first, second }: Span): number => nodesFor({ distance, half: (first + second) / 2, error })
  const nx = needed(pair.x)
  const ny = needed(pair.y)
  if (nx > TRAPEZIUM_MOST || ny > TRAPEZIUM_MOST) return undefined
  place(pair.x, nx, ruleX)
  place(pair.y, ny, ruleY)
  const nz = needed(pair.z)
  if (nz <= TRAPEZIUM_MOST) {
    place(pair.z, nz, ruleZ)
    return NEUMANN_FACTOR * pair.z.first * pair.z.second * overSections(nx, ny, (rho) => inverseMean(rho, nz))
  }
  const ends = endsOf(pair.z)
  return NEUMANN_FACTOR * overSections(nx, ny, (rho) => parallelIntegral(ends, rho))
}

function place({ first, second, offset }: Span, count: number, rule: Rule): void {
  trapezium({ first, second, offset, count }, rule)
}

function overSections(nx: number, ny: number, kernel: (rho: number) => number): number {
  let sum = 0
  for (let i = 0; i < nx; i++) {
    const dx = ruleX.nodes[i] as number
    for (let j = 0; j < ny; j++) {
      const dy = ruleY.nodes[j] as number
      sum += (ruleX.weights[i] as number) * (ruleY.weights[j] as number) * kernel(Math.sqrt(dx * dx + dy * dy))
    }
  }
  return sum
}

/** Mean of 1/distance over the axis along the bars. */
function inverseMean(rho: number, nz: number): number {
  let sum = 0
  for (let k = 0; k < nz; k++) {
    const z = ruleZ.nodes[k] as number
    sum += (ruleZ.weights[k] as number) / Math.sqrt(rho * rho + z * z)
  }
  return sum
}
