import { barSelfInductance } from './bar-inductance.ts'
import type { Fold } from './bar-mutual-graded.ts'
import { fold, gradedIntegral } from './bar-mutual-graded.ts'
import { MAGNETIC_CONSTANT, NEUMANN_FACTOR } from './bar-mutual-pair.ts'
import { defineMethod, requireNonNegative, requirePositive } from './method.ts'

/** Two equal bars, current there in one and back in the other. */
export type PairInputs = { width: number; thickness: number; gap: number; length: number }

export type PairInductance = {
  /** Of each bar by itself, partial [H]. */
  readonly self: number
  /** Between them, partial [H]. */
  readonly mutual: number
  /** Go and return, without the end connections [H]. */
  readonly loop: number
  /** Of the same pair without ends, per length [H/m]. */
  readonly loopPerLength: number
}

/**
 * Go-and-return inductance of two equal bars face to face (laminated), evenly spread current (low frequency):
 *
 *     L = 2 (L_self − M) = µ₀/π ∫∫ p(x) V(y) y S/ρ² dx dy,   S = 2 l²/(√(l²+ρ²) + ρ)
 *
 * V is how much more of the distances between points of one bar lie below y than of those between the bars. Nothing is
 * subtracted, so nothing is lost where the bars are so close that hardly any inductance is left. Ends are not closed.
 *
 * @param width     of each bar [m], > 0
 * @param thickness of each bar [m], > 0
 * @param gap       between the faces [m], ≥ 0
 * @param length    of the pair [m], > 0
 * @returns all in [H], [H/m]
 * @throws {DomainError} on a length of zero or less, or a negative gap
 *
 * @example laminatedPairInductance({ width: 0.02, thickness: 0.001, gap: 0.5e-3, length: 0.1 }).loop // 6.3337e-9
 */
export function laminatedPairInductance(inputs: PairInputs): PairInductance {
  const { width, thickness, gap, length } = inputs
  return pairInductance('laminatedPairInductance', { ...inputs, facing: thickness, along: width, gap, length })
}

/** The same for two bars side by side in one plane, `gap` from edge to edge. @see laminatedPairInductance */
export function coplanarPairInductance(inputs: PairInputs): PairInductance {
  const { width, thickness, gap, length } = inputs
  return pairInductance('coplanarPairInductance', { ...inputs, facing: width, along: thickness, gap, length })
}

type Across = {
  width: number
  thickness: number
  gap: number
  length: number
  /** Side of the section on the line from bar to bar, and the other side. */
  facing: number
  along: number
}

function pairInductance(method: string, { width, thickness, gap, length, facing, along }: Across): PairInductance {
  for (const [name, value] of Object.entries({ width, thickness, length })) requirePositive(method, name, value)
  requireNonNegative(method, 'gap', gap)
  const self = barSelfInductance({ width, thickness, length })
  const section = { facing, along, spacing: facing + gap }
  const difference = selfLessMutual(section, (rho) => (2 * length * length) / (Math.hypot(length, rho) + rho))
  const perLength = selfLessMutual(section, () => 2)
  return { self, mutual: self - difference, loop: 2 * difference, loopPerLength: 2 * perLength }
}

/** L_self − M of two equal bars; `ends` is S(ρ) of the two-filament kernel, G′ = −S/ρ. */
function selfLessMutual(
  { facing, along, spacing }: { facing: number; along: number; spacing: number },
  ends: (rho: number) => number,
): number {
  return (
    2 *
    NEUMANN_FACTOR *
    gradedIntegral({
      x: fold({ first: along, second: along, offset: 0 }),
      y: surplus(facing, spacing),
      kernel: (rho, _x, y) => (y * ends(rho)) / (rho * rho),
    })
  )
}

/** V(y): share of distances below y within one bar, less that between the two bars. */
function surplus(facing: number, spacing: number): Fold {
  const below = (u: number): number => {
    const s = Math.max(-1, Math.min(1, u / facing))
    return s < 0 ? (1 + s) ** 2 / 2 : 1 - (1 - s) ** 2 / 2
  }
  const kinks = [0, facing, spacing - facing, spacing, spacing + facing].sort((a, b) => a - b)
  return {
    density: (y) => below(y) - (below(y - spacing) + below(y + spacing)) / 2,
    kinks: kinks.filter((one, i) => i === 0 || one - (kinks[i - 1] as number) > 1e-14 * spacing),
  }
}

export type WidePlateInputs = { width: number; thickness: number; gap: number; length: number }
export type WidePlateInductance = {
  readonly highFrequency: number
  readonly lowFrequency: number
}

/**
 * Limits of a go-and-return pair of plates that are far wider than their gap, no fringing:
 *
 *     fast current, on the facing faces only:  L = µ₀ g l/w
 *     slow current, all through the metal:     L = µ₀ (g + 2t/3) l/w
 *
 * A real pair has less: by 5 % at w = 40 (g + t), slow current.
 *
 * @throws {DomainError} on a width or length of zero or less, or a negative gap or thickness
 *
 * @example widePlateInductance({ width: 0.06, thickness: 0, gap: 0.5e-3, length: 0.2 }).highFrequency // 2.0944e-9
 */
export function widePlateInductance({ width, thickness, gap, length }: WidePlateInputs): WidePlateInductance {
  requirePositive('widePlateInductance', 'width', width)
  requirePositive('widePlateInductance', 'length', length)
  requireNonNegative('widePlateInductance', 'gap', gap)
  requireNonNegative('widePlateInductance', 'thickness', thickness)
  const each = (MAGNETIC_CONSTANT * length) / width
  return { highFrequency: each * gap, lowFrequency: each * (gap + (2 * thickness) / 3) }
}

const SECTION = {
  width: { unit: 'm', about: 'width of each bar' },
  thickness: { unit: 'm', about: 'thickness of each bar' },
} as const
const LENGTH = { length: { unit: 'm', about: 'length of the pair; end connections are not included' } } as const
const PAIR_GIVES = {
  self: { unit: 'H', print: 'nH', about: 'partial inductance of each bar' },
  mutual: { unit: 'H', print: 'nH', about: 'partial inductance between them' },
  loop: { unit: 'H', print: 'nH', about: 'go and return, slow current' },
  loopPerLength: { unit: 'H/m', print: 'nH/m', about: 'go and return without ends, slow current' },
} as const
const PAIR_SOURCES = [
  'volume integral of the two-filament formula, exact for evenly spread current; compare C. Hoer, C. Love, ' +
    'J. Res. NBS 69C (1965) 127-137 (from memory)',
]

export const laminatedPair = defineMethod<PairInputs, PairInductance>({
  id: 'laminated-pair',
  title: 'Go-and-return inductance of a laminated pair of bars, slow current',
  takes: { ...SECTION, ...LENGTH, gap: { unit: 'm', about: 'from face to face' } },
  gives: PAIR_GIVES,
  sources: PAIR_SOURCES,
  compute: laminatedPairInductance,
})

export const coplanarPair = defineMethod<PairInputs, PairInductance>({
  id: 'coplanar-bars',
  title: 'Go-and-return inductance of two bars side by side in one plane, slow current',
  takes: { ...SECTION, ...LENGTH, gap: { unit: 'm', about: 'from edge to edge' } },
  gives: PAIR_GIVES,
  sources: PAIR_SOURCES,
  compute: coplanarPairInductance,
})

export const widePlates = defineMethod<WidePlateInputs, WidePlateInductance & { gapToWidth: number }>({
  id: 'wide-plates',
  title: 'Wide-plate limits of a go-and-return pair, no fringing',
  takes: { ...SECTION, ...LENGTH, gap: { unit: 'm', about: 'from face to face' } },
  gives: {
    highFrequency: { unit: 'H', print: 'nH', about: 'current on the facing faces only' },
    lowFrequency: { unit: 'H', print: 'nH', about: 'current all through the plates' },
    gapToWidth: { unit: '1', print: '1', about: 'gap and one thickness over the width' },
  },
  valid: { gapToWidth: [0, 0.025] },
  sources: ['field between infinitely wide plates (textbook); 5 % above a real pair at a ratio of 1/40, slow current'],
  compute: (inputs) => ({
    ...widePlateInductance(inputs),
    gapToWidth: (inputs.gap + inputs.thickness) / inputs.width,
  }),
})

export const laminatedMethods = [laminatedPair, coplanarPair, widePlates] as const
