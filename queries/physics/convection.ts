import { petukhovFriction, rectangularFrictionRe } from './duct.ts'
import { graetzMeanNusselt } from './graetz.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

const SHAH_LONDON =
  'R. K. Shah, A. L. London, Laminar Flow Forced Convection in Ducts, Academic Press, 1978 (from memory)'
const GNIELINSKI = 'V. Gnielinski, Int. Chem. Eng. 16 (1976) 359-368 (from memory)'

/** What is uniform at the wall: its temperature, or the heat flux along the flow (its temperature even around). */
export const WALL_CONDITIONS = ['uniform-temperature', 'uniform-flux'] as const
export type WallCondition = (typeof WALL_CONDITIONS)[number]

export const TUBE_NUSSELT = { 'uniform-temperature': 3.6567935, 'uniform-flux': 48 / 11 } as const
export const PLATES_NUSSELT = { 'uniform-temperature': 7.5407009, 'uniform-flux': 140 / 17 } as const

/**
 * Chebyshev coefficients on 2·aspect − 1 of the exact Nusselt numbers of rectangular ducts: own solutions (uniform flux
 * by double sine series, uniform temperature by a Galerkin eigenvalue), fitted to 2e-5. The fifth-degree polynomials
 * usual for them stray by 0.09 % and, uniform temperature at aspect 0.9, by 0.5 %.
 */
const RECTANGULAR_NUSSELT: Readonly<Record<WallCondition, readonly number[]>> = {
  'uniform-temperature': [
    4.25011816, -1.97175586, 0.93311247, -0.29727252, 0.07556506, -0.01293848, 0.00019359, 0.00057168, 0.00002549,
    -0.00019125, 0.00010229,
  ],
  'uniform-flux': [
    4.98372175, -2.08198292, 0.89857274, -0.227662, 0.03820463, -0.00296493, 0.00068188, -0.0010443, 0.00054036,
    -0.00003415, -0.00010198,
  ],
}

export type RectangularNusseltInputs = { aspect: number; wall: WallCondition }

/**
 * Fully developed laminar Nusselt number (on hydraulic diameter) of a rectangular duct with all four walls heated,
 * within 2e-5 of the exact solutions. A channel with an unheated lid has another, lower value that this does not give.
 *
 * @param aspect short over long side [1], 0 … 1; a value above 1 is taken as its reciprocal
 * @param wall   what is uniform at the wall
 * @throws {DomainError} on a negative aspect
 *
 * @example rectangularNusselt({ aspect: 1, wall: 'uniform-flux' }) // 3.608
 */
export function rectangularNusselt({ aspect, wall }: RectangularNusseltInputs): number {
  requireNonNegative('rectangularNusselt', 'aspect', aspect)
  const x = 2 * (aspect > 1 ? 1 / aspect : aspect) - 1
  const coefficients = RECTANGULAR_NUSSELT[wall]
  let [after, now] = [0, 0]
  for (let i = coefficients.length - 1; i > 0; i--) [after, now] = [now, 2 * x * now - after + coefficients[i]!]
  return x * now - after + coefficients[0]!
}

export const rectangularNusseltMethod = defineMethod<
  { aspect: number },
  { uniformTemperature: number; uniformFlux: number; frictionRe: number }
>({
  id: 'laminar-rectangular-duct',
  title: 'Developed laminar flow in a rectangular duct: Nusselt numbers and friction',
  takes: { aspect: { unit: '1', about: 'short side over long side; 0 for wide plates' } },
  gives: {
    uniformTemperature: { unit: '1', print: '1', about: 'Nusselt number, four walls of one temperature' },
    uniformFlux: { unit: '1', print: '1', about: 'Nusselt number, uniform heat along the flow, walls even around' },
    frictionRe: { unit: '1', print: '1', about: 'Darcy friction factor times Reynolds number, exact series' },
  },
  valid: { aspect: [0, 1] },
  sources: [`own solutions of the energy equation, agreeing with ${SHAH_LONDON}`],
  compute: ({ aspect }) => ({
    uniformTemperature: rectangularNusselt({ aspect, wall: 'uniform-temperature' }),
    uniformFlux: rectangularNusselt({ aspect, wall: 'uniform-flux' }),
    frictionRe: rectangularFrictionRe(aspect),
  }),
})

export type GnielinskiInputs = { reynolds: number; prandtl: number; darcyFriction?: number }

/**
 * Turbulent Nusselt number, Gnielinski: Nu = (f/8)(Re − 1000) Pr / (1 + 12.7 √(f/8) (Pr^⅔ − 1)), properties at the mean
 * temperature. About ±10 %.
 *
 * @param reynolds      on hydraulic diameter [1], > 1000; meant for 3000 … 5·10⁶
 * @param prandtl       [1], > 0; meant for 0.5 … 2000
 * @param darcyFriction [1]; of a smooth tube (Petukhov) if left out
 * @throws {DomainError} on a Reynolds number of 1000 or less, where the formula gives no heat
 *
 * @example gnielinskiNusselt({ reynolds: 8000, prandtl: 10.6 }) // 75.04
 */
export function gnielinskiNusselt({ reynolds, prandtl, darcyFriction }: GnielinskiInputs): number {
  if (!(reynolds > 1000))
    throw new DomainError('gnielinskiNusselt', 'reynolds', reynolds, '> 1000 (meant for 3000 and more)')
  requirePositive('gnielinskiNusselt', 'prandtl', prandtl)
  const eighth = (darcyFriction ?? petukhovFriction(reynolds)) / 8
  return (eighth * (reynolds - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(eighth) * (prandtl ** (2 / 3) - 1))
}

/** Dittus and Boelter, fluid being heated: Nu = 0.023 Re^0.8 Pr^0.4; meant for Re above 10 000, Pr 0.6 … 160. */
export function dittusBoelterNusselt({ reynolds, prandtl }: { reynolds: number; prandtl: number }): number {
  requirePositive('dittusBoelterNusselt', 'reynolds', reynolds)
  requirePositive('dittusBoelterNusselt', 'prandtl', prandtl)
  return 0.023 * reynolds ** 0.8 * prandtl ** 0.4
}

export type TurbulentInputs = {
  reynolds: number
  prandtl: number
  thermalConductivity: number
  hydraulicDiameter: number
}
export type Turbulent = {
  readonly frictionFactor: number
  readonly nusselt: number
  readonly filmCoefficient: number
  readonly dittusBoelter: number
}

/** Turbulent film coefficient of a smooth duct, λ Nu/D_h, by Gnielinski with Petukhov friction; Dittus and Boelter beside it. */
export function turbulentFilm({
  reynolds,
  prandtl,
  thermalConductivity,
  hydraulicDiameter,
}: TurbulentInputs): Turbulent {
  requirePositive('turbulentFilm', 'thermalConductivity', thermalConductivity)
  requirePositive('turbulentFilm', 'hydraulicDiameter', hydraulicDiameter)
  const nusselt = gnielinskiNusselt({ reynolds, prandtl })
  return {
    frictionFactor: petukhovFriction(reynolds),
    nusselt,
    filmCoefficient: (nusselt * thermalConductivity) / hydraulicDiameter,
    dittusBoelter: dittusBoelterNusselt({ reynolds, prandtl }),
  }
}

const FLUID_ARGUMENTS = {
  prandtl: { unit: '1', about: 'Prandtl number of the fluid' },
  thermalConductivity: { unit: 'W/(m.K)', about: 'thermal conductivity of the fluid' },
} as const

export const turbulentFilmMethod = defineMethod<TurbulentInputs, Turbulent>({
  id: 'turbulent-convection',
  title: 'Turbulent film coefficient in a smooth duct',
  takes: {
    reynolds: { unit: '1', about: 'Reynolds number on hydraulic diameter' },
    ...FLUID_ARGUMENTS,
    hydraulicDiameter: { unit: 'm', about: 'four areas over the wetted perimeter' },
  },
  gives: {
    frictionFactor: { unit: '1', print: '1', about: 'Darcy friction factor, Petukhov' },
    nusselt: { unit: '1', print: '1', about: 'Nusselt number, Gnielinski' },
    filmCoefficient: { unit: 'W/(m2.K)', print: 'W/(m2.K)', about: 'film coefficient, Gnielinski' },
    dittusBoelter: { unit: '1', print: '1', about: 'Nusselt number, Dittus and Boelter; meant for Re above 10 000' },
  },
  valid: { reynolds: [3000, 5e6], prandtl: [0.5, 2000] },
  sources: [
    GNIELINSKI,
    'B. S. Petukhov, Adv. Heat Transfer 6 (1970) 503-564 (from memory)',
    'F. W. Dittus, L. M. K. Boelter, Univ. California Publ. Eng. 2 (1930) 443, in its usual form (from memory)',
  ],
  compute: turbulentFilm,
})

export type DevelopingTubeInputs = { reynolds: number; prandtl: number; diameter: number; length: number }
export type DevelopingTube = {
  readonly xStar: number
  readonly exact: number
  readonly hausen: number
  readonly siederTate: number
}

/**
 * Mean Nusselt number of laminar flow in a tube with a wall of one temperature, temperature developing: exact (Graetz),
 * and two published correlations. Hausen, 3.66 + 0.0668 Gz/(1 + 0.04 Gz^⅔), Gz = Re Pr D/L, is within 2 % of the exact
 * one for x* = 1/Gz of 0.01 … 0.1, 4 % above at 0.005 and 11 % above at 0.001; Sieder and Tate, 1.86 Gz^⅓, is meant for
 * velocity developing as well and is 22 % above at 0.0024.
 *
 * @throws {DomainError} on any argument of zero or less
 */
export function developingTube({ reynolds, prandtl, diameter, length }: DevelopingTubeInputs): DevelopingTube {
  for (const [name, value] of Object.entries({ reynolds, prandtl, diameter, length }))
    requirePositive('developingTube', name, value)
  const graetz = (reynolds * prandtl * diameter) / length
  return {
    xStar: 1 / graetz,
    exact: graetzMeanNusselt(1 / graetz),
    hausen: 3.66 + (0.0668 * graetz) / (1 + 0.04 * graetz ** (2 / 3)),
    siederTate: 1.86 * Math.cbrt(graetz),
  }
}

export const developingTubeMethod = defineMethod<DevelopingTubeInputs, DevelopingTube>({
  id: 'developing-laminar-tube',
  title: 'Mean Nusselt number of developing laminar flow in a tube',
  takes: {
    reynolds: { unit: '1', about: 'Reynolds number on diameter' },
    prandtl: FLUID_ARGUMENTS.prandtl,
    diameter: { unit: 'm', about: 'inner diameter' },
    length: { unit: 'm', about: 'heated length' },
  },
  gives: {
    xStar: { unit: '1', print: '1', about: 'dimensionless length L/(D Re Pr)' },
    exact: { unit: '1', print: '1', about: 'velocity developed, exact' },
    hausen: { unit: '1', print: '1', about: 'Hausen 1943; 11 % above the exact one at x* 0.001' },
    siederTate: { unit: '1', print: '1', about: 'Sieder and Tate 1936 at equal viscosities; velocity developing too' },
  },
  valid: { reynolds: [0, 2300], xStar: [1e-7, 1e4] },
  sources: [
    `L. Graetz 1885; eigenvalues: own solution, higher ones asymptotic as in ${SHAH_LONDON}`,
    'H. Hausen, Z. VDI Beih. Verfahrenstechnik 4 (1943) 91 (from memory)',
    'E. N. Sieder, G. E. Tate, Ind. Eng. Chem. 28 (1936) 1429 (from memory)',
  ],
  compute: developingTube,
})

export const convectionMethods = [rectangularNusseltMethod, turbulentFilmMethod, developingTubeMethod] as const
