import { closedForm } from './bar-mutual-closed.ts'
import { farMutual } from './bar-mutual-far.ts'
import { gradedMutual } from './bar-mutual-graded.ts'
import type { ParallelPair } from './bar-mutual-pair.ts'

/**
 * Estimated rounding that the closed form may have over the error wanted: at most a third of it was ever found (see
 * tests).
 */
const ROUNDING_MARGIN = 3

/**
 * Mutual partial inductance of two parallel bars with parallel edges, uniform current, by the cheapest of three ways
 * that is good enough there: a Gauss rule (far apart), the closed form (rounding small), the graded integral (else).
 *
 * @param pair  sizes and distances from middle to middle along three axes, z along the current [m]
 * @param error wanted, relative [1]; 10⁻¹¹ if left out
 * @returns [H], positive for currents of one direction
 */
export function parallelMutual(pair: ParallelPair, error = 1e-11): number {
  const far = farMutual(pair, error / 100)
  if (far !== undefined) return far
  const exact = closedForm(pair)
  return exact.rounding <= ROUNDING_MARGIN * error ? exact.inductance : gradedMutual(pair, error / 10)
}
