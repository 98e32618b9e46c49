import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const CAUTION = 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.'

/**
 * Loss factors of fittings on the velocity in the duct, turbulent flow: handbook values, common practice, good to about
 * ±30 %; laminar flow loses more. A measured factor is always the better one.
 */
export const FITTING_LOSS = {
  'sharp-entrance': 0.5,
  'rounded-entrance': 0.05,
  exit: 1,
  'mitre-bend-90': 1.1,
  'smooth-bend-90': 0.3,
  'elbow-90': 0.9,
  'elbow-45': 0.4,
  'return-bend-180': 1.5,
  'tee-through': 0.4,
  'tee-branch': 1.3,
} as const

export type MinorLossInputs = { lossFactors: readonly number[]; diameter: number; flow: number; density: number }

/**
 * Loss of total pressure in fittings, Σ K ρu²/2, all factors on the velocity in one bore.
 *
 * @param lossFactors K of each fitting [1], ≥ 0
 * @param diameter    of the bore [m], > 0
 * @param flow        [m³/s], ≥ 0
 * @param density     [kg/m³], > 0
 * @throws {DomainError} on a negative factor or flow, or a diameter or density of zero or less
 *
 * @example fittingsLoss({ lossFactors: [0.5, 0.9, 0.9, 1], diameter: 8e-3, flow: 10 / 60e3, density: 1037 }).pressureDrop // 18811
 */
export function fittingsLoss({ lossFactors, diameter, flow, density }: MinorLossInputs): FittingsLoss {
  for (const factor of lossFactors) requireNonNegative('fittingsLoss', 'lossFactors', factor)
  requirePositive('fittingsLoss', 'diameter', diameter)
  requireNonNegative('fittingsLoss', 'flow', flow)
  requirePositive('fittingsLoss', 'density', density)
  const velocity = flow / ((Math.PI / 4) * diameter ** 2)
  const lossFactor = lossFactors.reduce((sum, factor) => sum + factor, 0)
  return { velocity, lossFactor, pressureDrop: (lossFactor * density * velocity ** 2) / 2 }
}

export type FittingsLoss = { readonly velocity: number; readonly lossFactor: number; readonly pressureDrop: number }

export const fittingsLossMethod = defineMethod<MinorLossInputs, FittingsLoss>({
  id: 'fittings-loss',
  title: 'Pressure loss of fittings in one bore',
  takes: {
    lossFactors: { unit: '1', list: true, about: 'loss factor of each fitting' },
    diameter: { unit: 'm', about: 'bore whose velocity the factors refer to' },
    flow: { unit: 'm3/s', about: 'volume flow' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
  },
  gives: {
    velocity: { unit: 'm/s', print: 'm/s', about: 'mean velocity in the bore' },
    lossFactor: { unit: '1', print: '1', about: 'sum of the loss factors' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'loss of total pressure' },
  },
  caution: CAUTION,
  sources: ['definition of the loss factor; factors of fittings: handbook values, common practice'],
  compute: fittingsLoss,
})

export type StepInputs = { upstreamArea: number; downstreamArea: number; flow: number; density: number }

export type StepLoss = {
  readonly lossFactor: number
  readonly pressureDrop: number
  readonly staticRise: number
}

/**
 * Sudden change of section. Widening (Borda and Carnot): K = (1 − A₁/A₂)²; narrowing, sharp-edged: K ≈ 0.5 (1 − A₂/A₁)
 * by common practice. K is on the velocity in the smaller section. Static pressure rises by the dynamic pressure given
 * up less the loss, so a gauge shows a rise across a widening although total pressure falls.
 *
 * @param upstreamArea and downstreamArea [m²], > 0
 * @param flow         [m³/s], ≥ 0
 * @param density      [kg/m³], > 0
 * @throws {DomainError} on an area or density of zero or less, or a negative flow
 *
 * @example stepLoss({ upstreamArea: 50.27e-6, downstreamArea: 153.9e-6, flow: 10 / 60e3, density: 1037 }).pressureDrop // 2584
 */
export function stepLoss({ upstreamArea, downstreamArea, flow, density }: StepInputs): StepLoss {
  requirePositive('stepLoss', 'upstreamArea', upstreamArea)
  requirePositive('stepLoss', 'downstreamArea', downstreamArea)
  requireNonNegative('stepLoss', 'flow', flow)
  requirePositive('stepLoss', 'density', density)
  const widens = downstreamArea > upstreamArea
  const ratio = widens ? upstreamArea / downstreamArea : downstreamArea / upstreamArea
  const lossFactor = widens ? (1 - ratio) ** 2 : 0.5 * (1 - ratio)
  const dynamic = (area: number) => (density / 2) * (flow / area) ** 2
  const pressureDrop = lossFactor * dynamic(Math.min(upstreamArea, downstreamArea))
  return { lossFactor, pressureDrop, staticRise: dynamic(upstreamArea) - dynamic(downstreamArea) - pressureDrop }
}

export const stepLossMethod = defineMethod<StepInputs, StepLoss>({
  id: 'section-step-loss',
  title: 'Loss and static pressure change at a sudden widening or narrowing',
  takes: {
    upstreamArea: { unit: 'm2', about: 'section before the step' },
    downstreamArea: { unit: 'm2', about: 'section after the step' },
    flow: { unit: 'm3/s', about: 'volume flow' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
  },
  gives: {
    lossFactor: { unit: '1', print: '1', about: 'on the velocity in the smaller section' },
    pressureDrop: { unit: 'Pa', print: 'kPa', about: 'loss of total pressure' },
    staticRise: { unit: 'Pa', print: 'kPa', about: 'change of static pressure; positive across most widenings' },
  },
  caution: CAUTION,
  sources: [
    'momentum balance of Borda and Carnot (widening), closed form',
    'sharp-edged narrowing: 0.5 (1 − area ratio), handbook value, common practice',
  ],
  compute: stepLoss,
})

export type PumpInputs = { pressureDrop: number; flow: number; pumpEfficiency?: number }

/**
 * Power to drive a flow: Δp Q hydraulic, over the efficiency of pump and drive electrical.
 *
 * @param pressureDrop   [Pa], ≥ 0
 * @param flow           [m³/s], ≥ 0
 * @param pumpEfficiency of pump and drive [1], above 0 … 1; 1 if left out
 * @throws {DomainError} on a negative drop or flow, or an efficiency beyond 0 … 1
 *
 * @example pumpPower({ pressureDrop: 20e3, flow: 10 / 60e3, pumpEfficiency: 0.35 }).electricPower // 9.52
 */
export function pumpPower({ pressureDrop, flow, pumpEfficiency = 1 }: PumpInputs): PumpPower {
  requireNonNegative('pumpPower', 'pressureDrop', pressureDrop)
  requireNonNegative('pumpPower', 'flow', flow)
  if (!(pumpEfficiency > 0 && pumpEfficiency <= 1)) {
    throw new DomainError('pumpPower', 'pumpEfficiency', pumpEfficiency, 'above 0, at most 1')
  }
  const hydraulicPower = pressureDrop * flow
  return { hydraulicPower, electricPower: hydraulicPower / pumpEfficiency }
}

export type PumpPower = { readonly hydraulicPower: number; readonly electricPower: number }

export const pumpPowerMethod = defineMethod<PumpInputs, PumpPower>({
  id: 'pump-power',
  title: 'Power to drive a coolant flow',
  takes: {
    pressureDrop: { unit: 'Pa', about: 'total pressure drop' },
    flow: { unit: 'm3/s', about: 'volume flow' },
    pumpEfficiency: { unit: '1', optional: true, about: 'of pump and drive; 1 if left out' },
  },
  gives: {
    hydraulicPower: { unit: 'W', print: 'W', about: 'pressure drop times flow' },
    electricPower: { unit: 'W', print: 'W', about: 'at the supply of the pump' },
  },
  caution: CAUTION,
  sources: ['definition'],
  compute: pumpPower,
})

export const minorLossMethods = [fittingsLossMethod, stepLossMethod, pumpPowerMethod] as const
