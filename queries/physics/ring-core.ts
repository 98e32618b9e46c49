import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

/** Magnetic constant, CODATA 2018 [H/m]. */
export const MU0 = 1.25663706212e-6

export type RingInputs = { outerDiameter: number; innerDiameter: number; height: number; stackingFactor?: number }

export type RingDimensions = {
  readonly c1: number
  readonly c2: number
  readonly effectiveLength: number
  readonly effectiveArea: number
  readonly effectiveVolume: number
}

function requireRing(method: string, { outerDiameter, innerDiameter, height, stackingFactor = 1 }: RingInputs): void {
  for (const [name, value] of Object.entries({ outerDiameter, innerDiameter, height }))
    requirePositive(method, name, value)
  if (innerDiameter >= outerDiameter)
    throw new DomainError(method, 'innerDiameter', innerDiameter, 'below outerDiameter')
  if (!(stackingFactor > 0 && stackingFactor <= 1))
    throw new DomainError(method, 'stackingFactor', stackingFactor, '> 0, at most 1')
}

/**
 * Core factors and effective dimensions of a ring of rectangular section, without an air gap, r₁ inner and r₂ outer
 * radius:
 *
 *     C₁ = 2π/(h ln(r₂/r₁))    C₂ = 2π(1/r₁ − 1/r₂)/(h² ln³(r₂/r₁))    A_e = C₁/C₂    l_e = C₁²/C₂    V_e = l_e A_e
 *
 * The effective area and length are those of an ideal ring with the same behaviour, not width times height and mean
 * circumference. Measure the bare core: a coating adds to outer diameter and height and takes from the inner diameter.
 *
 * @param outerDiameter  [m], > innerDiameter
 * @param innerDiameter  [m], > 0
 * @param height         along the axis [m], > 0
 * @param stackingFactor share of the height that is metal in a tape-wound core [1], > 0 … 1; 1 if left out
 * @returns C₁ [1/m], C₂ [1/m³], length [m], area [m²], volume [m³]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example ringDimensions({ outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3 }).effectiveArea // 1.104517e-4
 */
export function ringDimensions(inputs: RingInputs): RingDimensions {
  requireRing('ringDimensions', inputs)
  const [outer, inner] = [inputs.outerDiameter / 2, inputs.innerDiameter / 2]
  const height = inputs.height * (inputs.stackingFactor ?? 1)
  const log = Math.log1p((outer - inner) / inner)
  const c1 = (2 * Math.PI) / (height * log)
  const c2 = (2 * Math.PI * (outer - inner)) / (inner * outer) / (height ** 2 * log ** 3)
  return { c1, c2, effectiveLength: c1 ** 2 / c2, effectiveArea: c1 / c2, effectiveVolume: c1 ** 3 / c2 ** 2 }
}

const RING_TAKES = {
  outerDiameter: { unit: 'm', about: 'of the bare core' },
  innerDiameter: { unit: 'm', about: 'of the bare core' },
  height: { unit: 'm', about: 'of the bare core, along its axis' },
  stackingFactor: { unit: '1', optional: true, about: 'share of metal in a tape-wound core; 1 if left out' },
} as const

const RING_SOURCE = 'IEC 60205, ring cores of rectangular section (formulas from memory; C₁ confirmed by integration)'

export const ringDimensionsMethod = defineMethod<RingInputs, RingDimensions>({
  id: 'ring-dimensions',
  title: 'Core factors and effective dimensions of a ring core',
  takes: RING_TAKES,
  gives: {
    c1: { unit: '/m', print: '/mm', about: 'core factor: length over area' },
    c2: { unit: '/m3', print: '/mm3', about: 'core factor: length over area squared' },
    effectiveLength: { unit: 'm', print: 'mm', about: 'l_e' },
    effectiveArea: { unit: 'm2', print: 'mm2', about: 'A_e' },
    effectiveVolume: { unit: 'm3', print: 'mm3', about: 'V_e' },
  },
  sources: [RING_SOURCE],
  compute: ringDimensions,
})

export type RingInductanceInputs = RingInputs & { permeability: number; turns?: number }

/**
 * Inductance of a winding on a closed ring, µ₀ µ_r N²/C₁ = µ₀ µ_r N² h ln(r₂/r₁)/2π. A bar that passes through once is
 * one turn. Leakage and the flux in air are not in it: they count where the relative permeability is low.
 *
 * @param permeability relative, at the drive and frequency meant [1], ≥ 1
 * @param turns        whole or not, > 0; 1 if left out
 * @returns [H]
 * @throws {DomainError} as {@link ringDimensions}, or on a permeability below 1 or turns of zero or less
 *
 * @example ringInductance({ outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3, permeability: 5000 }) // 7.050e-6
 */
export function ringInductance({ permeability, turns = 1, ...ring }: RingInductanceInputs): number {
  if (!(permeability >= 1 && Number.isFinite(permeability)))
    throw new DomainError('ringInductance', 'permeability', permeability, '≥ 1')
  requirePositive('ringInductance', 'turns', turns)
  return (MU0 * permeability * turns ** 2) / ringDimensions(ring).c1
}

export type InductanceFactor = {
  readonly inductance: number
  /** Inductance by turns squared [H]. */
  readonly perTurnSquared: number
  /** The older way of some data books: inductance of a winding of 100 turns [H]: 10⁴ times the other. */
  readonly per100Turns: number
}

export const ringInductanceMethod = defineMethod<RingInductanceInputs, InductanceFactor>({
  id: 'ring-inductance',
  title: 'Inductance of a winding or bar through a ring core',
  takes: {
    ...RING_TAKES,
    permeability: { unit: '1', about: 'relative, at the drive and frequency meant' },
    turns: { unit: '1', optional: true, about: '1 for a bar that passes through once, and if left out' },
  },
  gives: {
    inductance: { unit: 'H', print: 'uH', about: 'of the winding' },
    perTurnSquared: { unit: 'H', print: 'nH', about: 'A_L: of one turn; grows with turns squared' },
    per100Turns: { unit: 'H', print: 'mH', about: 'of 100 turns: 10 000 times that of one' },
  },
  sources: [RING_SOURCE],
  compute: (inputs) => {
    const perTurnSquared = ringInductance({ ...inputs, turns: 1 })
    return { inductance: ringInductance(inputs), perTurnSquared, per100Turns: 1e4 * perTurnSquared }
  },
})

export type RingPermeabilityInputs = RingInputs & {
  measuredInductance: number
  fixtureInductance?: number
  turns?: number
}

/**
 * Relative permeability from a measured inductance, (L − L_fixture) C₁/(µ₀ N²). One turn measures only a few
 * microhenries: the inductance of the leads, taken with the core away, is part of the reading.
 *
 * @param measuredInductance [H], > fixtureInductance
 * @param fixtureInductance  of the same leads without the core [H], ≥ 0; 0 if left out
 * @param turns              > 0; 1 if left out
 * @returns [1]
 * @throws {DomainError} as {@link ringDimensions}, or on an inductance that is all fixture
 *
 * @example ringPermeability({ outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3, measuredInductance: 7.15e-6,
 *   fixtureInductance: 0.1e-6 }) // 4999.96
 */
export function ringPermeability(inputs: RingPermeabilityInputs): number {
  const { measuredInductance, fixtureInductance = 0, turns = 1, ...ring } = inputs
  requireNonNegative('ringPermeability', 'fixtureInductance', fixtureInductance)
  requirePositive('ringPermeability', 'turns', turns)
  if (!(measuredInductance > fixtureInductance))
    throw new DomainError('ringPermeability', 'measuredInductance', measuredInductance, 'above fixtureInductance')
  return ((measuredInductance - fixtureInductance) * ringDimensions(ring).c1) / (MU0 * turns ** 2)
}

export const ringPermeabilityMethod = defineMethod<RingPermeabilityInputs, { readonly permeability: number }>({
  id: 'ring-permeability',
  title: 'Relative permeability of a ring core from a measured inductance',
  takes: {
    ...RING_TAKES,
    measuredInductance: { unit: 'H', about: 'as read, leads included' },
    fixtureInductance: { unit: 'H', optional: true, about: 'of the same leads without the core; 0 if left out' },
    turns: { unit: '1', optional: true, about: 'of the measuring winding; 1 if left out' },
  },
  gives: { permeability: { unit: '1', print: '1', about: 'relative, at the frequency and drive of the meter' } },
  // Below about ten the flux in air is no longer small beside that in the core.
  valid: { permeability: [10, 1e6] },
  sources: [RING_SOURCE, 'fixture correction: IEC 62044-2, from memory'],
  compute: (inputs) => ({ permeability: ringPermeability(inputs) }),
})

export const ringCoreMethods = [ringDimensionsMethod, ringInductanceMethod, ringPermeabilityMethod] as const
