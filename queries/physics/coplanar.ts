import { defineMethod } from './method.ts'
import { FIELD_SOURCE, LINE_GIVES, type MicrostripInputs, requireTrace, TRACE_TAKES } from './microstrip.ts'
import { fieldLine, type Line } from './strip-field.ts'
import { groundedSlab, mirrored, openSlab } from './strip-kernel.ts'
import { halfPlanePieces, stripPieces } from './strip-mesh.ts'

/** How far the ground areas reach, in the width of trace and slot. */
const REACH = 300

export type CoplanarInputs = MicrostripInputs & { slotWidth: number; backed: 'yes' | 'no' }

/**
 * Trace between two wide ground areas on the same face of a board, with a solid plane on the other face or without. By
 * field solution; the ground areas are without thickness.
 *
 * @param inputs    as microstrip; heightAbovePlane is the thickness of the board
 * @param slotWidth between trace and each ground area [m], > 0
 * @param backed    yes: a plane on the other face, joined to the ground areas
 * @throws {DomainError} on a value out of its bounds
 *
 * @example coplanar({ traceWidth: 0.3e-3, slotWidth: 0.2e-3, heightAbovePlane: 1e-3, permittivity: 4.3, backed: 'no' }).impedance // 80.88
 */
export function coplanar({ slotWidth, backed, ...inputs }: CoplanarInputs): Line {
  const { traceWidth, heightAbovePlane: height, permittivity, traceThickness = 0 } = inputs
  requireTrace('coplanar', { traceWidth, slotWidth, heightAbovePlane: height, traceThickness }, permittivity)
  const slab = backed === 'yes' ? groundedSlab : openSlab
  const fill = {
    filled: mirrored(slab({ height, permittivity }), 1),
    air: mirrored(slab({ height, permittivity: 1 }), 1),
  }
  const trace = {
    left: -traceWidth / 2,
    right: traceWidth / 2,
    bottom: height,
    thickness: traceThickness,
    conductor: 0,
  }
  const ground = {
    edge: traceWidth / 2 + slotWidth,
    reach: REACH * (traceWidth + slotWidth),
    scale: Math.min(slotWidth, height) / 2,
    bottom: height,
    conductor: 1,
  }
  const pieces = (count: number) => [
    ...stripPieces(trace, count).filter(({ x }) => x > 0),
    ...halfPlanePieces(ground, 3 * count),
  ]
  const neutral = backed === 'no'
  return fieldLine((count) => ({ pieces: pieces(count), fill, potentials: [1, 0], neutral }), 0.5)
}

export const coplanarMethod = defineMethod<CoplanarInputs, Line>({
  id: 'coplanar',
  title: 'Trace between two ground areas on the same face',
  takes: {
    ...TRACE_TAKES,
    heightAbovePlane: { unit: 'm', about: 'thickness of the board' },
    slotWidth: { unit: 'm', about: 'between trace and each ground area' },
    backed: { words: ['yes', 'no'], about: 'whether there is a solid plane on the other face' },
  },
  gives: LINE_GIVES,
  valid: { permittivity: [1, 20] },
  sources: [FIELD_SOURCE],
  compute: coplanar,
})

export const coplanarMethods = [coplanarMethod] as const
