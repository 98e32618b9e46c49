import type { Branch } from '../../physics/inductance-network.ts'
import type { Metal } from './geometry.ts'
import type { Entered } from './network.ts'

/** A plate as a grid of bars, so that current finds its own way across it. */
export function plateBranches(
  _: Extract<Metal, { shape: 'plate' }>,
  _taps: readonly Entered[],
  _nodes: Map<string, string>,
): readonly Branch[] {
  throw new Error('plates come with the plate grid')
}
