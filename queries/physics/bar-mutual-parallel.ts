import { closedForm } from './bar-mutual-closed.ts'
import { farMutual } from './bar-mutual-far.ts'
import { gradedMutual } from './bar-mutual-graded.ts'
import type { ParallelPair } from './bar-mutual-pair.ts'

/** Estimated rounding up to which the closed form is taken [1]; found at most a third of that in a sweep (see the tests). */
const CLOSED_FORM_ROUNDING = 3e-11

/**
 * Mutual partial inductance of two parallel bars with parallel edges, uniform current, by the cheapest of three ways
 * that is good enough there: a Gauss rule (far apart), the closed form (rounding small), the graded integral (else).
 *
 * @param pair sizes and distances from middle to middle along three axes, z along the current [m]
 * @returns [H], positive for currents of one direction
 */
export function parallelMutual(pair: ParallelPair): number {
  const far = farMutual(pair)
  if (far !== undefined) return far
  const exact = closedForm(pair)
  return exact.rounding <= CLOSED_FORM_ROUNDING ? exact.inductance : gradedMutual(pair)
}
