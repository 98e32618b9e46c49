import { DomainError, defineMethod, requirePositive } from './method.ts'
import type { Plate } from './plate.ts'
import { solvePlates } from './plate-network.ts'

export type PlatePairInputs = {
  width: number
  thickness: number
  gap: number
  length: number
  entryWidth: number
  exitWidth: number
  entryMiddle?: number
  exitMiddle?: number
}

export type PlatePair = {
  /** Extrapolated over two grids [H]. */
  readonly loop: number
  /** Relative difference between the extrapolated value and that of the finer grid [1]. */
  readonly gridChange: number
}

/**
 * Go-and-return inductance of two equal plates one over the other, fed at contacts on one edge and joined at contacts
 * on the opposite edge, when current finds its own way between them (capacitors on one edge, modules on the other).
 * Fast current in the plane; through the thickness it is taken as even, so that the metal counts with its full
 * thickness.
 *
 * @param width, thickness of each plate [m], > 0
 * @param gap    between the faces [m], > 0
 * @param length from edge to edge, along the current [m], > 0
 * @param entryWidth, exitWidth of the contacts, along their edges [m], > 0
 * @param entryMiddle, exitMiddle of the contacts, from one corner along the edge [m]; the middle of the edge if left
 *   out
 * @throws {DomainError} on a size of zero or less, or a contact that reaches beyond its edge
 *
 * @example
 * platePairInductance({ width: 0.06, thickness: 1e-3, gap: 5e-4, length: 0.1, entryWidth: 0.01, exitWidth: 0.01 })
 */
export function platePairInductance(inputs: PlatePairInputs): PlatePair {
  const { width, thickness, gap, length, entryWidth, exitWidth } = inputs
  const { entryMiddle = width / 2, exitMiddle = width / 2 } = inputs
  for (const [name, value] of Object.entries({ width, thickness, gap, length, entryWidth, exitWidth })) {
    requirePositive('platePairInductance', name, value)
  }
  requireOnEdge('entryMiddle', entryMiddle, entryWidth, width)
  requireOnEdge('exitMiddle', exitMiddle, exitWidth, width)
  const plate = (id: string, height: number): Plate => ({
    id,
    thin: 2,
    corner: [0, 0, height],
    size: [length, width, thickness],
    contacts: [
      { node: `${id} entry`, corner: [0, entryMiddle - entryWidth / 2, height], size: [0, entryWidth, thickness] },
      { node: 'exit', corner: [length, exitMiddle - exitWidth / 2, height], size: [0, exitWidth, thickness] },
    ],
  })
  const answer = solvePlates({
    plates: [plate('lower', 0), plate('upper', gap + thickness)],
    branches: [],
    across: 6,
    ports: [{ id: 'loop', from: 'lower entry', to: 'upper entry' }],
  })
  if (!answer.ok) throw new DomainError('platePairInductance', 'gap', gap, 'such that the plates stay apart')
  return { loop: answer.extrapolated[0]?.[0] ?? Number.NaN, gridChange: answer.change }
}

function requireOnEdge(name: string, middle: number, contact: number, edge: number): void {
  const slack = 1e-9 * edge
  if (!(middle - contact / 2 >= -slack && middle + contact / 2 <= edge + slack)) {
    throw new DomainError('platePairInductance', name, middle, 'such that the contact lies on its edge')
  }
}

export const platePair = defineMethod<PlatePairInputs, PlatePair>({
  id: 'plate-pair-loop',
  title: 'Go-and-return inductance of two plates with contacts on opposite edges',
  takes: {
    width: { unit: 'm', about: 'of each plate, along the edges with the contacts' },
    thickness: { unit: 'm', about: 'of each plate' },
    gap: { unit: 'm', about: 'from face to face' },
    length: { unit: 'm', about: 'from edge to edge' },
    entryWidth: { unit: 'm', about: 'of the contacts that feed both plates' },
    exitWidth: { unit: 'm', about: 'of the contacts that join both plates' },
    entryMiddle: { unit: 'm', optional: true, about: 'from a corner; the middle of the edge if left out' },
    exitMiddle: { unit: 'm', optional: true, about: 'from the corner on the same side; the middle if left out' },
  },
  gives: {
    loop: { unit: 'H', print: 'nH', about: 'go and return, extrapolated over two grids' },
    gridChange: { unit: '1', print: '%', about: 'relative difference between that and the finer grid' },
  },
  valid: { gridChange: [0, 0.05] },
  sources: ['grid of partial inductances, current of least magnetic energy; even through the thickness'],
  compute: platePairInductance,
})

export const platePairMethods = [platePair] as const
