import {
  gnielinskiNusselt,
  PLATES_NUSSELT,
  rectangularNusselt,
  TUBE_NUSSELT,
  WALL_CONDITIONS,
  type WallCondition,
} from './convection.ts'
import type { DuctShape, ShapeInputs } from './duct.ts'
import { DUCT_SHAPES, ductSection, frictionFactor, petukhovFriction } from './duct.ts'
import { defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type DuctNusseltInputs = {
  reynolds: number
  prandtl: number
  shape: DuctShape
  aspect?: number
  laminarFrictionRe?: number
  diametersLong?: number
  relativeRoughness?: number
  wall?: WallCondition
}

/**
 * Mean Nusselt number of a duct in any regime, continuous in Reynolds number:
 * - up to Re 2300 laminar, (Nu∞³ + b³ + (c Gz^⅓ − b)³)^⅓ with Gz = Re Pr D_h/L; Nu∞ of the section; c = 1.615 and
 *   b = 0.7 (uniform temperature) or 1.953 and 0.6 (uniform flux), c scaled by the wall shear (f Re/64)^⅓;
 * - from Re 4000 turbulent, Gnielinski with the entrance factor 1 + (D_h/L)^⅔;
 * - between them the straight line in Re that joins both ends (Gnielinski's rule).
 * Without a length the flow is taken as developed. Of the exact developing tube the laminar part is within 1.0 % everywhere.
 *
 * @param diametersLong     L/D_h [1]; developed flow if left out
 * @param laminarFrictionRe f·Re of the section [1]; 64 if left out
 * @param relativeRoughness [1]; 0 if left out. Raises friction by Churchill's law; heat transfer follows by Gnielinski
 * @throws {DomainError} on a Reynolds or Prandtl number or length of zero or less
 *
 * @example ductNusselt({ reynolds: 8000, prandtl: 10.6, shape: 'circular' }) // 75.04
 */
export function ductNusselt(inputs: DuctNusseltInputs): number {
  const { reynolds, prandtl } = inputs
  requirePositive('ductNusselt', 'reynolds', reynolds)
  requirePositive('ductNusselt', 'prandtl', prandtl)
  if (inputs.diametersLong !== undefined) requirePositive('ductNusselt', 'diametersLong', inputs.diametersLong)
  if (reynolds <= LAMINAR_END) return laminarPart(inputs, reynolds)
  if (reynolds >= TURBULENT_START) return turbulentPart(inputs, reynolds)
  const share = (reynolds - LAMINAR_END) / (TURBULENT_START - LAMINAR_END)
  return (1 - share) * laminarPart(inputs, LAMINAR_END) + share * turbulentPart(inputs, TURBULENT_START)
}

const LAMINAR_END = 2300
const TURBULENT_START = 4000

function laminarPart(inputs: DuctNusseltInputs, reynolds: number): number {
  const { prandtl, shape, aspect = 0, laminarFrictionRe = 64, diametersLong, wall = 'uniform-temperature' } = inputs
  const developed = {
    circular: TUBE_NUSSELT[wall],
    'parallel-plates': PLATES_NUSSELT[wall],
    rectangular: rectangularNusselt({ aspect, wall }),
  }[shape]
  if (diametersLong === undefined) return developed
  const [factor, offset] = wall === 'uniform-temperature' ? [1.615, 0.7] : [1.953, 0.6]
  const entry = factor * Math.cbrt((laminarFrictionRe / 64) * ((reynolds * prandtl) / diametersLong)) - offset
  return Math.cbrt(developed ** 3 + offset ** 3 + entry ** 3)
}

function turbulentPart({ prandtl, diametersLong, relativeRoughness = 0 }: DuctNusseltInputs, reynolds: number): number {
  const rough =
    relativeRoughness > 0 ? frictionFactor({ reynolds, relativeRoughness }) / frictionFactor({ reynolds }) : 1
  const nusselt = gnielinskiNusselt({ reynolds, prandtl, darcyFriction: rough * petukhovFriction(reynolds) })
  return diametersLong === undefined ? nusselt : nusselt * (1 + diametersLong ** (-2 / 3))
}

export type DuctFilmInputs = ShapeInputs & {
  length: number
  count?: number
  flow: number
  density: number
  viscosity: number
  specificHeat: number
  thermalConductivity: number
  roughness?: number
  wall?: WallCondition
}

export type DuctFilm = {
  readonly velocity: number
  readonly reynolds: number
  readonly prandtl: number
  readonly nusselt: number
  readonly filmCoefficient: number
  readonly wettedArea: number
  /** 1/(hA), wall to log-mean coolant, all walls wetted and heated evenly. */
  readonly thermalResistance: number
}

/**
 * Film coefficient of equal ducts in parallel, in any regime, by {@link ductNusselt}; and the resistance 1/(hA) of
 * their whole wetted wall.
 *
 * @param length of the ducts [m]
 * @param count  of equal ducts that share the flow evenly, 1 if left out
 * @param flow   through all of them [m³/s], > 0
 * @throws {DomainError} on a size, flow or fluid property of zero or less
 *
 * @example ductFilm({ shape: 'circular', diameter: 8e-3, length: 0.4, flow: 1e-4, density: 1037, viscosity: 1.254e-3,
 *   specificHeat: 3524, thermalConductivity: 0.4168 }).filmCoefficient // 6688
 */
export function ductFilm(inputs: DuctFilmInputs): DuctFilm {
  const {
    shape,
    length,
    count = 1,
    flow,
    density,
    viscosity,
    specificHeat,
    thermalConductivity,
    roughness = 0,
    wall,
  } = inputs
  const positive = { length, count, flow, density, viscosity, specificHeat, thermalConductivity }
  for (const [name, value] of Object.entries(positive)) requirePositive('ductFilm', name, value)
  requireNonNegative('ductFilm', 'roughness', roughness)
  const { area, hydraulicDiameter, aspect, laminarFrictionRe } = ductSection(inputs)
  const velocity = flow / (count * area)
  const reynolds = (density * velocity * hydraulicDiameter) / viscosity
  const prandtl = (specificHeat * viscosity) / thermalConductivity
  const nusselt = ductNusselt({
    reynolds,
    prandtl,
    shape,
    laminarFrictionRe,
    diametersLong: length / hydraulicDiameter,
    relativeRoughness: roughness / hydraulicDiameter,
    ...(aspect === undefined ? {} : { aspect }),
    ...(wall === undefined ? {} : { wall }),
  })
  const filmCoefficient = (nusselt * thermalConductivity) / hydraulicDiameter
  const wettedArea = (count * length * 4 * area) / hydraulicDiameter
  return {
    velocity,
    reynolds,
    prandtl,
    nusselt,
    filmCoefficient,
    wettedArea,
    thermalResistance: 1 / (filmCoefficient * wettedArea),
  }
}

export const ductFilmMethod = defineMethod<DuctFilmInputs, DuctFilm>({
  id: 'duct-film-coefficient',
  title: 'Film coefficient in ducts, laminar to turbulent',
  takes: {
    shape: { words: DUCT_SHAPES, about: 'cross-section' },
    diameter: { unit: 'm', optional: true, about: 'inner diameter of a circular duct' },
    width: { unit: 'm', optional: true, about: 'one side of a rectangular duct' },
    height: { unit: 'm', optional: true, about: 'other side of a rectangular duct, or gap between plates' },
    length: { unit: 'm', about: 'heated length' },
    count: { unit: '1', optional: true, about: 'equal ducts that share the flow; 1 if left out' },
    flow: { unit: 'm3/s', about: 'volume flow through all ducts' },
    density: { unit: 'kg/m3', about: 'density of the fluid' },
    viscosity: { unit: 'Pa.s', about: 'dynamic viscosity of the fluid' },
    specificHeat: { unit: 'J/(kg.K)', about: 'specific heat of the fluid' },
    thermalConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the fluid' },
    roughness: { unit: 'm', optional: true, about: 'sand roughness; 0 if left out' },
    wall: { words: WALL_CONDITIONS, optional: true, about: 'what is uniform at the wall; temperature if left out' },
  },
  gives: {
    velocity: { unit: 'm/s', print: 'm/s', about: 'mean velocity in a duct' },
    reynolds: { unit: '1', print: '1', about: 'Reynolds number on hydraulic diameter' },
    prandtl: { unit: '1', print: '1', about: 'Prandtl number' },
    nusselt: { unit: '1', print: '1', about: 'mean Nusselt number' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'mean film coefficient' },
    wettedArea: { unit: 'm2', print: 'cm2', about: 'whole wetted wall of all ducts' },
    thermalResistance: { unit: 'K/W', print: 'K/W', about: 'wetted wall to log-mean coolant, all walls heated' },
  },
  valid: { reynolds: [1, 5e6], prandtl: [0.5, 2000] },
  caution: 'Hot coolant scalds and is under pressure: let it cool and relieve pressure before opening a circuit.',
  sources: [
    'V. Gnielinski, in VDI Heat Atlas, Springer, 2010, part G1 (laminar entrance, turbulent) (from memory)',
    'V. Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134-140 (between Re 2300 and 4000) (from memory)',
    'R. K. Shah, A. L. London, Laminar Flow Forced Convection in Ducts, Academic Press, 1978 (from memory)',
  ],
  compute: ductFilm,
})

export const ductFilmMethods = [ductFilmMethod] as const
