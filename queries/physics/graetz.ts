import { requirePositive } from './method.ts'

/** Lowest eigenvalues λ_n and G_n of the Graetz problem of a tube with a wall of one temperature (own solution, 12 digits). */
const LOWEST = [
  [2.7043644198825, 0.74877455508408],
  [6.6790314493466, 0.5438279562123],
  [10.673379538054, 0.46286106015471],
  [14.671078462736, 0.41541845352547],
  [18.669871864451, 0.38291918807173],
] as const

/** The higher ones by their asymptotic series: λ to 7e-8 and G to 2e-6, better the higher. */
function eigenpair(n: number): readonly [lambda: number, g: number] {
  const low = LOWEST[n]
  if (low) return low
  const l = 4 * n + 8 / 3
  const lambda =
    l +
    0.159152288 * l ** (-4 / 3) +
    0.0114856354 * l ** (-8 / 3) -
    0.22473144 * l ** (-10 / 3) -
    0.033772601 * l ** (-11 / 3)
  const tail =
    1 +
    0.14433516 * lambda ** (-4 / 3) +
    0.115555556 * lambda ** -2 -
    0.21220305 * lambda ** (-7 / 3) -
    0.187130142 * lambda ** (-10 / 3) +
    0.0918850832 * lambda ** (-11 / 3)
  return [lambda, 1.012787288 * lambda ** (-1 / 3) * tail]
}

/**
 * Mean Nusselt number (log-mean temperature difference) of laminar flow in a tube with a wall of one temperature,
 * velocity developed and temperature developing, exact:
 *
 *     Nu = −ln( 8 Σ (G_n/λ_n²) exp(−2 λ_n² x*) ) / 4x*,   x* = (L/D)/(Re Pr)
 *
 * Below x* = 1e-4, where the sum would cancel, the boundary-layer expansion of the same problem answers,
 * 1 − θ = 4x* (1.6151 x*^(−1/3) − 1.2 − 0.2969 x*^(1/3)), Nu = −ln θ/4x*; the two meet within 2e-5.
 *
 * @param xStar dimensionless length [1], > 0
 * @throws {DomainError} on a length of zero or less
 *
 * @example graetzMeanNusselt(0.00244392181) // 11.3555
 */
export function graetzMeanNusselt(xStar: number): number {
  requirePositive('graetzMeanNusselt', 'xStar', xStar)
  if (xStar < 1e-4) {
    const third = Math.cbrt(xStar)
    return -Math.log1p(-4 * xStar * (1.6151 / third - 1.2 - 0.2969 * third)) / (4 * xStar)
  }
  const [first, g0] = eigenpair(0)
  // The slowest mode is taken out of the logarithm, so that long ducts do not underflow.
  let ratio = 0
  for (let n = 1; n < 200; n++) {
    const [lambda, g] = eigenpair(n)
    const decay = 2 * (lambda ** 2 - first ** 2) * xStar
    if (decay > 45) break
    ratio += ((g * first ** 2) / (g0 * lambda ** 2)) * Math.exp(-decay)
  }
  return first ** 2 / 2 - (Math.log((8 * g0) / first ** 2) + Math.log1p(ratio)) / (4 * xStar)
}
