import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type ConeInputs = {
  sourceX: number
  sourceY: number
  thickness: number
  thermalConductivity: number
  coneAngle?: number
}
export type Cone = { readonly resistance: number; readonly exitX: number; readonly exitY: number }

/**
 * Widening-cone rule for one layer under a rectangular source, ∫ dz/(λ (a + 2z tan α)(b + 2z tan α)): exact arithmetic
 * of an inexact model, 32 to 66 % off a three-dimensional solution with convection. A labelled bound, not an estimate.
 *
 * @param sourceX   and sourceY [m], > 0
 * @param thickness of the layer [m], ≥ 0
 * @param coneAngle to the normal [rad], 0 … below π/2; π/4 if left out
 * @throws {DomainError} on values outside of the above
 *
 * @example spreadingCone({ sourceX: 0.01, sourceY: 0.01, thickness: 3e-3, thermalConductivity: 390 }).resistance // 0.048077
 */
export function spreadingCone({
  sourceX,
  sourceY,
  thickness,
  thermalConductivity,
  coneAngle = Math.PI / 4,
}: ConeInputs): Cone {
  requirePositive('spreadingCone', 'sourceX', sourceX)
  requirePositive('spreadingCone', 'sourceY', sourceY)
  requireNonNegative('spreadingCone', 'thickness', thickness)
  requirePositive('spreadingCone', 'thermalConductivity', thermalConductivity)
  if (!(coneAngle >= 0 && coneAngle < Math.PI / 2))
    throw new DomainError('spreadingCone', 'coneAngle', coneAngle, '0 … below π/2')
  const widening = 2 * thickness * Math.tan(coneAngle)
  const [exitX, exitY] = [sourceX + widening, sourceY + widening]
  // ln((1 + w/b)/(1 + w/a))/(a − b) loses all digits for a near-square; through log1p of the small part it does not.
  const difference = sourceX - sourceY
  const part = (widening * difference) / (sourceY * exitX)
  const integral = Math.abs(part) < 1e-300 ? widening / (sourceX * exitY) : Math.log1p(part) / difference
  const resistance = widening === 0 ? thickness / (sourceX * sourceY) : (integral * thickness) / widening
  return { resistance: resistance / thermalConductivity, exitX, exitY }
}

export const spreadingConeMethod = defineMethod<ConeInputs, Cone>({
  id: 'spreading-cone',
  title: 'Widening-cone rule for one layer (a rule of thumb, not an estimate)',
  takes: {
    sourceX: { unit: 'm', about: 'one side of the source' },
    sourceY: { unit: 'm', about: 'other side of the source' },
    thickness: { unit: 'm', about: 'of the layer' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the layer' },
    coneAngle: { unit: 'rad', optional: true, about: 'to the normal; 45 degrees if left out' },
  },
  gives: {
    resistance: { unit: 'K/W', print: 'K/W', about: 'of the frustum; 32 to 66 % off three-dimensional solutions' },
    exitX: { unit: 'm', print: 'mm', about: 'one side where the cone leaves the layer' },
    exitY: { unit: 'm', print: 'mm', about: 'other side' },
  },
  sources: ['common practice'],
  compute: spreadingCone,
})

export type HalfSpaceInputs = { sourceX: number; sourceY: number; thermalConductivity: number }
export type HalfSpace = { readonly meanResistance: number; readonly centreResistance: number }

/**
 * Rectangle of even flux on a half-space, the limit of a thick and wide plate: mean and centre rise per watt.
 *
 *     centre = (a asinh(b/a) + b asinh(a/b))/(π λ a b)
 *     mean   = (a² b asinh(b/a) + a b² asinh(a/b) + (a³ + b³ − (a² + b²)^1.5)/3)/(π λ a² b²)
 *
 * @throws {DomainError} on any argument of zero or less
 *
 * @example halfSpaceSource({ sourceX: 0.01, sourceY: 0.01, thermalConductivity: 390 }).meanResistance // 0.12133
 */
export function halfSpaceSource({ sourceX: a, sourceY: b, thermalConductivity }: HalfSpaceInputs): HalfSpace {
  requirePositive('halfSpaceSource', 'sourceX', a)
  requirePositive('halfSpaceSource', 'sourceY', b)
  requirePositive('halfSpaceSource', 'thermalConductivity', thermalConductivity)
  const [overA, overB] = [Math.asinh(b / a), Math.asinh(a / b)]
  const flux = 1 / (Math.PI * thermalConductivity * a * b)
  const corner = (a ** 3 + b ** 3 - (a ** 2 + b ** 2) ** 1.5) / 3
  return {
    meanResistance: (flux * (a ** 2 * b * overA + a * b ** 2 * overB + corner)) / (a * b),
    centreResistance: flux * (a * overA + b * overB),
  }
}

export const halfSpaceMethod = defineMethod<HalfSpaceInputs, HalfSpace>({
  id: 'source-on-half-space',
  title: 'Rectangular source on a half-space',
  takes: {
    sourceX: { unit: 'm', about: 'one side of the source' },
    sourceY: { unit: 'm', about: 'other side of the source' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the half-space' },
  },
  gives: {
    meanResistance: { unit: 'K/W', print: 'K/W', about: 'mean over the source' },
    centreResistance: { unit: 'K/W', print: 'K/W', about: 'centre of the source' },
  },
  sources: [
    'H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., Oxford, 1959 (from memory; integrals re-done)',
  ],
  compute: halfSpaceSource,
})

export type DiscInputs = {
  sourceArea: number
  plateArea: number
  thickness: number
  thermalConductivity: number
  filmCoefficient: number
}

/**
 * Closed approximation for a source and plate taken as discs of equal area (Lee, Song, Au, Moran), with even flow
 * included. For a square source on a square plate it was found 1.6 % low (mean) and 0.2 % low (hottest).
 *
 *     ε = a/b, τ = t/b, Bi = h b/λ, Λ = π + 1/(√π ε), φ = (tanh Λτ + Λ/Bi)/(1 + (Λ/Bi) tanh Λτ)
 *     ψ_mean = ε τ/√π + (1 − ε)^1.5 φ/2, ψ_max = ε τ/√π + (1 − ε) φ/√π, R = ψ/(λ a √π) + 1/(h A)
 *
 * @throws {DomainError} on any argument of zero or less, or a source larger than the plate
 *
 * @example discSpreading({ sourceArea: 1e-4, plateArea: 9e-4, thickness: 3e-3, thermalConductivity: 390, filmCoefficient: 5000 }).meanResistance // 0.32808
 */
export function discSpreading(inputs: DiscInputs): HalfSpace {
  for (const [name, value] of Object.entries(inputs)) requirePositive('discSpreading', name, value)
  const { sourceArea, plateArea, thickness, thermalConductivity, filmCoefficient } = inputs
  if (sourceArea > plateArea)
    throw new DomainError('discSpreading', 'sourceArea', sourceArea, `at most the plate's ${plateArea}`)
  const [a, b] = [Math.sqrt(sourceArea / Math.PI), Math.sqrt(plateArea / Math.PI)]
  const epsilon = a / b
  const big = Math.PI + 1 / (Math.sqrt(Math.PI) * epsilon)
  const t = Math.tanh((big * thickness) / b)
  const overBiot = big / ((filmCoefficient * b) / thermalConductivity)
  const phi = (t + overBiot) / (1 + overBiot * t)
  const unit = 1 / (thermalConductivity * a * Math.sqrt(Math.PI))
  const even = thickness / (thermalConductivity * plateArea) + 1 / (filmCoefficient * plateArea)
  return {
    meanResistance: even + (unit * (1 - epsilon) ** 1.5 * phi) / 2,
    centreResistance: even + (unit * (1 - epsilon) * phi) / Math.sqrt(Math.PI),
  }
}

export const discSpreadingMethod = defineMethod<DiscInputs, HalfSpace>({
  id: 'disc-spreading',
  title: 'Spreading resistance by discs of equal area, closed approximation',
  takes: {
    sourceArea: { unit: 'm2', about: 'of the source' },
    plateArea: { unit: 'm2', about: 'of the plate' },
    thickness: { unit: 'm', about: 'of the plate' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'of the plate' },
    filmCoefficient: { unit: 'W/(m2.K)', about: 'on the far face' },
  },
  gives: {
    meanResistance: { unit: 'K/W', print: 'K/W', about: 'mean over the source to coolant' },
    centreResistance: { unit: 'K/W', print: 'K/W', about: 'hottest place of the source to coolant' },
  },
  sources: ['S. Lee, S. Song, V. Au, K. P. Moran, ASME/JSME Thermal Engineering Conf. 4 (1995) 199-206 (from memory)'],
  compute: discSpreading,
})

export const closedSpreadingMethods = [spreadingConeMethod, halfSpaceMethod, discSpreadingMethod] as const
