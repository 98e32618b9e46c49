import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION = 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.'
const CHURCHILL = 'S. W. Churchill, Chem. Eng. 84 (1977) 91-92 (from memory)'
const SHAH_LONDON =
  'R. K. Shah, A. L. London, Laminar Flow Forced Convection in Ducts, Academic Press, 1978 (from memory)'

/** Cross-sections of a duct: circular needs `diameter`, rectangular `width` and `height`, plates the gap as `height`. */
export const DUCT_SHAPES = ['circular', 'rectangular', 'parallel-plates'] as const
export type DuctShape = (typeof DUCT_SHAPES)[number]

/**
 * Laminar Darcy friction factor times Reynolds number (on hydraulic diameter) of a rectangular duct, fully developed,
 * from the exact series of the velocity:
 *
 *     f Re = 96 / ( (1 + a)² (1 − (192 a/π⁵) Σ_odd tanh(nπ/2a)/n⁵) )
 *
 * A quarter of it is the Fanning value. 96 for wide plates, 56.908 for a square.
 *
 * @param aspect short side over long side [1], 0 … 1 (0: two wide plates); the reciprocal of a value above 1 is meant
 * @throws {DomainError} on a negative aspect
 *
 * @example rectangularFrictionRe(1) // 56.9083
 */
export function rectangularFrictionRe(aspect: number): number {
  requireNonNegative('rectangularFrictionRe', 'aspect', aspect)
  const a = aspect > 1 ? 1 / aspect : aspect
  if (a === 0) return 96
  const before = remembered.get(a)
  if (before !== undefined) return before
  let sum = 0
  for (let n = 1; n < 200; n += 2) sum += Math.tanh((n * Math.PI) / (2 * a)) / n ** 5
  const product = 96 / ((1 + a) ** 2 * (1 - ((192 * a) / Math.PI ** 5) * sum))
  if (remembered.size >= 256) remembered.clear()
  remembered.set(a, product)
  return product
}

/** A flow split asks for the same few sections thousands of times. */
const remembered = new Map<number, number>()

export type ShapeInputs = { shape: DuctShape; diameter?: number; width?: number; height?: number }

export type DuctSection = {
  /** Area of one duct [m²]; of parallel plates per metre of width. */
  readonly area: number
  readonly hydraulicDiameter: number
  /** Short side over long side; undefined for a circular duct. */
  readonly aspect: number | undefined
  /** Laminar Darcy friction factor times Reynolds number. */
  readonly laminarFrictionRe: number
}

/** Flow area, hydraulic diameter 4A/P and laminar f·Re of a duct. @throws {DomainError} on a size missing or not above zero */
export function ductSection({ shape, diameter, width, height }: ShapeInputs): DuctSection {
  const size = (name: string, value: number | undefined): number => {
    if (value === undefined) throw new DomainError('ductSection', name, value, `given for a ${shape} duct`)
    requirePositive('ductSection', name, value)
    return value
  }
  if (shape === 'circular') {
    const d = size('diameter', diameter)
    return { area: (Math.PI / 4) * d ** 2, hydraulicDiameter: d, aspect: undefined, laminarFrictionRe: 64 }
  }
  const h = size('height', height)
  if (shape === 'parallel-plates') return { area: h, hydraulicDiameter: 2 * h, aspect: 0, laminarFrictionRe: 96 }
  const w = size('width', width)
  const aspect = Math.min(w, h) / Math.max(w, h)
  return {
    area: w * h,
    hydraulicDiameter: (2 * w * h) / (w + h),
    aspect,
    laminarFrictionRe: rectangularFrictionRe(aspect),
  }
}

export type FrictionInputs = { reynolds: number; relativeRoughness?: number; laminarFrictionRe?: number }

/**
 * Darcy friction factor in all regimes, one curve without a step through transition:
 *
 *     f = 8 ( (F/8Re)¹² + (A + B)^−1.5 )^(1/12),  A = (−2.457 ln((7/Re)^0.9 + 0.27 ε/D))¹⁶,  B = (37530/Re)¹⁶
 *
 * with F = 64 for a tube (Churchill's own form); another F = f·Re carries the laminar law of other sections. A switch
 * of laws at one Reynolds number would jump by 1.64 times and make a flow split hunt.
 *
 * @param reynolds          on hydraulic diameter [1], > 0
 * @param relativeRoughness sand roughness over hydraulic diameter [1], 0 if left out
 * @param laminarFrictionRe f·Re of the section [1], 64 if left out
 * @throws {DomainError} on a Reynolds number of zero or less or a negative roughness
 *
 * @example frictionFactor({ reynolds: 50000, relativeRoughness: 0.001 }) // 0.024187
 */
export function frictionFactor({ reynolds, relativeRoughness = 0, laminarFrictionRe = 64 }: FrictionInputs): number {
  requirePositive('frictionFactor', 'reynolds', reynolds)
  requireNonNegative('frictionFactor', 'relativeRoughness', relativeRoughness)
  requirePositive('frictionFactor', 'laminarFrictionRe', laminarFrictionRe)
  const laminar = laminarFrictionRe / (8 * reynolds)
  const a = (-2.457 * Math.log((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness)) ** 16
  const b = (37530 / reynolds) ** 16
  // The twelfth power of the laminar term overflows in creeping flow; there the other term is nothing beside it.
  if (laminar > 1e20) return 8 * laminar
  return 8 * (laminar ** 12 + (a + b) ** -1.5) ** (1 / 12)
}

/**
 * Turbulent Darcy friction factor of Colebrook and White, 1/√f = −2 log₁₀(ε/3.7D + 2.51/(Re √f)), solved by Newton to
 * machine precision. It states nothing about laminar or transitional flow.
 *
 * @example colebrookFriction({ reynolds: 50000, relativeRoughness: 0.001 }) // 0.0240208
 */
export function colebrookFriction({ reynolds, relativeRoughness = 0 }: FrictionInputs): number {
  requirePositive('colebrookFriction', 'reynolds', reynolds)
  requireNonNegative('colebrookFriction', 'relativeRoughness', relativeRoughness)
  let x = 7 // 1/√f
  for (let i = 0; i < 50; i++) {
    const inside = relativeRoughness / 3.7 + (2.51 * x) / reynolds
    const error = x + 2 * Math.log10(inside)
    const step = error / (1 + (2 / Math.LN10) * (2.51 / reynolds / inside))
    x = Math.max(x - step, 0.1)
    if (Math.abs(step) < 1e-14 * x) break
  }
  return x ** -2
}

/** Blasius 1913, smooth tube: f = 0.3164 Re^−1/4. Good from Re 4000 to 100 000. @example blasiusFriction(20000) // 0.026606 */
export function blasiusFriction(reynolds: number): number {
  requirePositive('blasiusFriction', 'reynolds', reynolds)
  return 0.3164 * reynolds ** -0.25
}

/** Petukhov 1970, smooth tube: f = (0.790 ln Re − 1.64)^−2. Good from Re 3000 to 5·10⁶. @example petukhovFriction(20000) // 0.026151 */
export function petukhovFriction(reynolds: number): number {
  if (!(reynolds > 100))
    throw new DomainError('petukhovFriction', 'reynolds', reynolds, '> 100 (meant for 3000 and more)')
  return (0.79 * Math.log(reynolds) - 1.64) ** -2
}

type TubeFriction = { reynolds: number; relativeRoughness?: number }

export const frictionFactorMethod = defineMethod<
  TubeFriction,
  { allRegimes: number; colebrook: number; blasius: number; petukhov: number }
>({
  id: 'friction-factor',
  title: 'Darcy friction factor of a circular tube',
  takes: {
    reynolds: { unit: '1', about: 'Reynolds number on diameter' },
    relativeRoughness: { unit: '1', optional: true, about: 'sand roughness over diameter; 0 if left out' },
  },
  gives: {
    allRegimes: { unit: '1', print: '1', about: 'Churchill, laminar to turbulent in one curve' },
    colebrook: { unit: '1', print: '1', about: 'Colebrook and White; turbulent flow only' },
    blasius: { unit: '1', print: '1', about: 'Blasius; smooth tube, Re 4000 to 100 000' },
    petukhov: { unit: '1', print: '1', about: 'Petukhov; smooth tube, Re 3000 to 5 million' },
  },
  valid: { reynolds: [3000, 1e8], relativeRoughness: [0, 0.05] },
  sources: [
    CHURCHILL,
    'C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156 (from memory)',
    'B. S. Petukhov, Adv. Heat Transfer 6 (1970) 503-564 (from memory)',
  ],
  compute: ({ reynolds, relativeRoughness = 0 }) => ({
    allRegimes: frictionFactor({ reynolds, relativeRoughness }),
    colebrook: colebrookFriction({ reynolds, relativeRoughness }),
    blasius: blasiusFriction(reynolds),
    petukhov: petukhovFriction(reynolds),
  }),
})

export type DuctDropInputs = ShapeInputs & {
  length: number
  count?: number
  flow: number
  density: number
  viscosity: number
  roughness?: number
  minorLoss?: number
  entrance?: 'developed' | 'developing'
  frictionLaw?: FrictionLaw
}

/** Laws of friction a duct may be held to; one curve through all regimes unless told otherwise. */
export const FRICTION_LAWS = ['all-regimes', 'laminar', 'blasius', 'colebrook'] as const
export type FrictionLaw = (typeof FRICTION_LAWS)[number]

function frictionBy(law: FrictionLaw, inputs: Required<FrictionInputs>): number {
  if (law === 'laminar') return inputs.laminarFrictionRe / inputs.reynolds
  if (law === 'blasius') return blasiusFriction(inputs.reynolds)
  return law === 'colebrook' ? colebrookFriction(inputs) : frictionFactor(inputs)
}

export type DuctDrop = {
  readonly hydraulicDiameter: number
  readonly velocity: number
  readonly reynolds: number
  /** Absent without flow. */
  readonly frictionFactor?: number
  readonly pressureDrop: number
}

/**
 * Pressure drop of equal ducts in parallel, in any regime: Δp = (f L/D_h + K) ρu²/2, f by {@link frictionFactor}.
 * With `entrance: 'developing'` and laminar flow the friction is the apparent one of hydraulically developing flow,
 * f_app Re = √((13.76/√x⁺)² + (f Re)²), x⁺ = L/(D_h Re); otherwise it is developed throughout.
 *
 * @param length    of the ducts [m], > 0
 * @param count     of equal ducts that share the flow evenly, 1 if left out
 * @param flow      through all of them [m³/s], ≥ 0
 * @param density   [kg/m³] and viscosity [Pa.s], > 0
 * @param roughness sand roughness [m], 0 if left out
 * @param frictionLaw   one curve for all regimes unless a single law is asked for
 * @param minorLoss sum of loss factors on the velocity in the duct [1], 0 if left out
 * @throws {DomainError} on a size, density or viscosity of zero or less, or a negative flow
 *
 * @example ductPressureDrop({ shape: 'rectangular', width: 1e-3, height: 4e-3, length: 0.08, count: 24,
 *   flow: 8 / 60e3, density: 1037.06, viscosity: 1.2539e-3 }).pressureDrop // 1985
 */
export function ductPressureDrop(inputs: DuctDropInputs): DuctDrop {
  const { length, count = 1, flow, density, viscosity, roughness = 0, minorLoss = 0, entrance = 'developed' } = inputs
  requireNonNegative('ductPressureDrop', 'flow', flow)
  for (const [name, value] of Object.entries({ length, count, density, viscosity })) {
    requirePositive('ductPressureDrop', name, value)
  }
  requireNonNegative('ductPressureDrop', 'minorLoss', minorLoss)
  const section = ductSection(inputs)
  const { hydraulicDiameter, area } = section
  const velocity = flow / (count * area)
  const reynolds = (density * velocity * hydraulicDiameter) / viscosity
  if (flow === 0) return { hydraulicDiameter, velocity, reynolds, pressureDrop: 0 }
  const developed = section.laminarFrictionRe
  const entry = entrance === 'developing' ? 13.76 / Math.sqrt(length / (hydraulicDiameter * reynolds)) : 0
  const friction = frictionBy(inputs.frictionLaw ?? 'all-regimes', {
    reynolds,
    relativeRoughness: roughness / hydraulicDiameter,
    laminarFrictionRe: Math.hypot(entry, developed),
  })
  const pressureDrop = ((friction * length) / hydraulicDiameter + minorLoss) * (density / 2) * velocity ** 2
  return { hydraulicDiameter, velocity, reynolds, frictionFactor: friction, pressureDrop }
}

/** The same as a function of flow alone, for those who ask thousands of times: nothing is checked but when it is made. */
export function ductDropLaw(duct: Omit<DuctDropInputs, 'flow' | 'frictionLaw'>): (flow: number) => number {
  const { length, count = 1, density, viscosity, roughness = 0, minorLoss = 0, entrance = 'developed' } = duct
  ductPressureDrop({ ...duct, flow: 0 })
  const { hydraulicDiameter, area, laminarFrictionRe: developed } = ductSection(duct)
  const relativeRoughness = roughness / hydraulicDiameter
  return (flow) => {
    if (!(flow > 0)) return 0
    const velocity = flow / (count * area)
    const reynolds = (density * velocity * hydraulicDiameter) / viscosity
    const entry = entrance === 'developing' ? 13.76 / Math.sqrt(length / (hydraulicDiameter * reynolds)) : 0
    const laminarFrictionRe = entry === 0 ? developed : Math.hypot(entry, developed)
    const friction = frictionFactor({ reynolds, relativeRoughness, laminarFrictionRe })
    return ((friction * length) / hydraulicDiameter + minorLoss) * (density / 2) * velocity ** 2
  }
}

export const ductDrop = defineMethod<DuctDropInputs, DuctDrop>({
  id: 'duct-pressure-drop',
  title: 'Pressure drop of ducts, laminar to turbulent',
  takes: {
    shape: { words: DUCT_SHAPES, about: 'cross-section' },
    diameter: { unit: 'm', optional: true, about: 'inner diameter of a circular duct' },
    width: { unit: 'm', optional: true, about: 'one side of a rectangular duct' },
    height: { unit: 'm', optional: true, about: 'other side of a rectangular duct, or gap between plates' },
    length: { unit: 'm', about: 'length of the ducts' },
    count: { unit: '1', optional: true, about: 'equal ducts that share the flow; 1 if left out' },
    flow: { unit: 'm3/s', about: 'volume flow through all ducts (parallel plates: per metre of width)' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
    roughness: { unit: 'm', optional: true, about: 'sand roughness; 0 if left out' },
    minorLoss: { unit: '1', optional: true, about: 'sum of loss factors on the velocity in the duct; 0 if left out' },
    entrance: { words: ['developed', 'developing'], optional: true, about: 'velocity profile; developed if left out' },
    frictionLaw: { words: FRICTION_LAWS, optional: true, about: 'law of friction; all-regimes if left out' },
  },
  gives: {
    hydraulicDiameter: { unit: 'm', print: 'mm', about: 'four areas over the wetted perimeter' },
    velocity: { unit: 'm/s', print: 'm/s', about: 'mean velocity in a duct' },
    reynolds: { unit: '1', print: '1', about: 'Reynolds number on hydraulic diameter' },
    frictionFactor: { unit: '1', print: '1', about: 'Darcy friction factor; absent without flow' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'drop of total pressure' },
  },
  valid: { reynolds: [0, 1e8] },
  caution: CAUTION,
  sources: [
    CHURCHILL,
    SHAH_LONDON,
    'apparent friction: Y. S. Muzychka, M. M. Yovanovich, J. Fluids Eng. 131 (2009) 111201 (from memory)',
  ],
  compute: ductPressureDrop,
})

export const ductMethods = [frictionFactorMethod, ductDrop] as const
