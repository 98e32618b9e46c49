import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { FIELD_SOURCE, LINE_GIVES, type MicrostripInputs, microstrip, requireTrace, TRACE_TAKES } from './microstrip.ts'
import { fieldLine, type Line } from './strip-field.ts'
import { mirrored, openSlab } from './strip-kernel.ts'
import { halfPlanePieces, type Piece, stripPieces } from './strip-mesh.ts'

/** How far the plane reaches, in the largest length near the trace; more changes the result by less than 1e-5. */
const REACH = 300

type Opening = MicrostripInputs & {
  /** Right half of the plane's copper, lines first, from the edge of the opening under the trace outwards. */
  readonly lines: readonly (readonly [left: number, right: number])[]
  readonly edge: number
}

/** Trace over the middle of an opening in a plane without thickness, air below. */
function overOpening({ traceWidth, heightAbovePlane, permittivity, traceThickness = 0, lines, edge }: Opening): Line {
  const fill = {
    filled: mirrored(openSlab({ height: heightAbovePlane, permittivity }), 1),
    air: mirrored(openSlab({ height: heightAbovePlane, permittivity: 1 }), 1),
  }
  const trace = { left: -traceWidth / 2, right: traceWidth / 2, bottom: heightAbovePlane, thickness: traceThickness }
  const scale = Math.min(heightAbovePlane, lines[0] ? lines[0][1] - lines[0][0] : heightAbovePlane)
  const reach = REACH * Math.max(heightAbovePlane, traceWidth, edge / 4)
  const pieces = (count: number): readonly Piece[] => [
    ...stripPieces({ ...trace, conductor: 0 }, count).filter(({ x }) => x > 0),
    ...lines.flatMap(([left, right]) =>
      stripPieces({ left, right, bottom: 0, thickness: 0, conductor: 1 }, Math.max(4, count / 2)),
    ),
    ...halfPlanePieces({ edge, reach, scale, bottom: 0, conductor: 1 }, 3 * count),
  ]
  return fieldLine((count) => ({ pieces: pieces(count), fill, potentials: [1, 0], neutral: true }), 0.5)
}

export type SlottedPlaneInputs = MicrostripInputs & { slotWidth: number }

/**
 * Trace over a plane with a slot under it, along the whole trace and centred on it; plane without thickness, wide, air
 * below. Both halves of the plane are joined. By field solution.
 *
 * @param inputs    as microstrip
 * @param slotWidth [m], ≥ 0; 0 is the solid plane
 * @throws {DomainError} on a value out of its bounds
 *
 * @example slottedPlane({ traceWidth: 0.1e-3, heightAbovePlane: 50e-6, permittivity: 3.4, traceThickness: 18e-6,
 *   slotWidth: 0.1e-3 }).impedance // 61.667
 */
export function slottedPlane({ slotWidth, ...inputs }: SlottedPlaneInputs): Line {
  const { traceWidth, heightAbovePlane, permittivity, traceThickness = 0 } = inputs
  requireTrace('slottedPlane', { traceWidth, heightAbovePlane, traceThickness }, permittivity)
  requireNonNegative('slottedPlane', 'slotWidth', slotWidth)
  return slotWidth === 0 ? microstrip(inputs) : overOpening({ ...inputs, lines: [], edge: slotWidth / 2 })
}

const TAKES = { ...TRACE_TAKES, heightAbovePlane: { unit: 'm', about: 'underside of the trace to the plane' } } as const

export const slottedPlaneMethod = defineMethod<SlottedPlaneInputs, Line & { readonly opening: number }>({
  id: 'slotted-plane',
  title: 'Trace over a plane with a slot running under it',
  takes: { ...TAKES, slotWidth: { unit: 'm', about: 'of the slot, centred under the trace' } },
  gives: { ...LINE_GIVES, opening: { unit: '1', print: '1', about: 'slot width over height' } },
  valid: { permittivity: [1, 20], opening: [0, 20] },
  sources: [FIELD_SOURCE],
  compute: (inputs) => ({ ...slottedPlane(inputs), opening: inputs.slotWidth / inputs.heightAbovePlane }),
})

export type MeshedPlaneInputs = MicrostripInputs & { pitch: number; lineWidth: number; angle?: number }

export type MeshedPlane = {
  readonly low: number
  readonly high: number
  readonly solid: number
  readonly copperShare: number
  readonly lowInductance: number
  readonly highInductance: number
  readonly grounds: string
}

/**
 * Bounds of the impedance of a trace over a plane that is etched as a square grid. No formula is sound here, so it is
 * bounded:
 *
 * - from below by the solid plane: copper added at the plane's potential raises capacitance and lowers inductance;
 * - from above by the most open section of the mesh through the middle of its openings, carried on along the whole trace
 *   (lines that run along the trace only, cross lines taken away), with the trace over the middle of an opening. At
 *   angle 0 that is copper taken away, so a true bound; at other angles the section is wider by 1/max(|cos|, |sin|) and
 *   the bound is an estimate on the safe side.
 *
 * Quasi-static: pitch small beside the wavelength. Lines without thickness, air below.
 *
 * @param inputs    as microstrip
 * @param pitch     of the grid, line to line [m], > 0
 * @param lineWidth of its copper [m], > 0 … pitch; equal to the pitch it is solid
 * @param angle     between trace and grid lines [rad]; 0 if left out
 * @returns bounds and the value over a solid plane [Ω], copper share [1], bounds of inductance [H/m], and the grounds
 * @throws {DomainError} on a value out of its bounds
 *
 * @example meshedPlane({ traceWidth: 0.15e-3, heightAbovePlane: 0.1e-3, permittivity: 3.4, pitch: 0.5e-3,
 *   lineWidth: 0.15e-3 }).low // 64.454
 */
export function meshedPlane({ pitch, lineWidth, angle = 0, ...inputs }: MeshedPlaneInputs): MeshedPlane {
  requirePositive('meshedPlane', 'pitch', pitch)
  requirePositive('meshedPlane', 'lineWidth', lineWidth)
  if (lineWidth > pitch) throw new DomainError('meshedPlane', 'lineWidth', lineWidth, 'no wider than the pitch')
  if (!Number.isFinite(angle)) throw new DomainError('meshedPlane', 'angle', angle, 'a finite number')
  const solid = microstrip(inputs)
  const open =
    lineWidth === pitch ? solid : overOpening({ ...inputs, ...section({ ...inputs, pitch, lineWidth, angle }) })
  return {
    low: solid.impedance,
    // Close to solid the two solves may pass each other by their noise of some 3 parts in 10,000.
    high: Math.max(open.impedance, solid.impedance),
    solid: solid.impedance,
    copperShare: 1 - (1 - lineWidth / pitch) ** 2,
    lowInductance: solid.inductancePerLength,
    highInductance: Math.max(open.inductancePerLength, solid.inductancePerLength),
    grounds:
      'below: the solid plane; above: lines along the trace only, trace over the middle of an opening' +
      (angle === 0 ? '' : ', openings as wide as their widest chord across the trace'),
  }
}

/** Lines of the most open section, right half; solid again far outside, where it no longer matters. */
function section({ traceWidth, heightAbovePlane, pitch, lineWidth, angle }: MeshedPlaneInputs & { angle: number }) {
  const wider = 1 / Math.max(Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle)))
  const [p, line] = [pitch * wider, lineWidth * wider]
  const count = Math.min(20, 2 + Math.ceil((8 * Math.max(heightAbovePlane, traceWidth)) / p))
  const first = (p - line) / 2
  return {
    lines: Array.from({ length: count }, (_, i) => [first + i * p, first + i * p + line] as const),
    edge: first + count * p,
  }
}

export const meshedPlaneMethod = defineMethod<MeshedPlaneInputs, MeshedPlane>({
  id: 'meshed-plane',
  title: 'Bounds of the impedance of a trace over a meshed plane',
  takes: {
    ...TAKES,
    pitch: { unit: 'm', about: 'of the grid, line to line' },
    lineWidth: { unit: 'm', about: 'of the copper of the grid' },
    angle: { unit: 'rad', optional: true, about: 'between trace and grid lines; 0 if left out' },
  },
  gives: {
    low: { unit: 'Ohm', print: 'Ohm', about: 'lower bound: the solid plane' },
    high: { unit: 'Ohm', print: 'Ohm', about: 'upper bound: most open section along the whole trace' },
    solid: { unit: 'Ohm', print: 'Ohm', about: 'what it would be over a solid plane' },
    copperShare: { unit: '1', print: '%', about: 'area of copper over area of the plane' },
    lowInductance: { unit: 'H/m', print: 'nH/m', about: 'lower bound' },
    highInductance: { unit: 'H/m', print: 'nH/m', about: 'upper bound' },
    grounds: { unit: '1', print: '1', about: 'what the bounds rest on' },
  },
  valid: { permittivity: [1, 20] },
  sources: [FIELD_SOURCE, 'bounds: copper added at the potential of the plane raises C and lowers L (textbook)'],
  compute: meshedPlane,
})

export const openReferenceMethods = [slottedPlaneMethod, meshedPlaneMethod] as const
