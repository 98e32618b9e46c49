import { DomainError, requirePositive } from './method.ts'

export const PIN_ARRANGEMENTS = ['staggered', 'in-line'] as const
export type PinArrangement = (typeof PIN_ARRANGEMENTS)[number]

export type PinBankDropInputs = {
  arrangement: PinArrangement
  diameter: number
  transversePitch: number
  longitudinalPitch: number
  rows: number
  density: number
  viscosity: number
  maximumVelocity: number
}

/**
 * Pressure drop of a bank of long pins by Gaddis and Gnielinski, Δp = ξ N ρ u_max²/2, ξ = ξ_lam + ξ_turb g, continuous in
 * Reynolds number; a and b are transverse and longitudinal pitch over diameter, d the diagonal one where it is narrower:
 *
 *     ξ_lam = 280π ((√b − 0.6)² + 0.75)/((4ab − π) (a or d)^1.6 Re)
 *     staggered: ξ_turb = (2.5 + 1.2/(a − 0.85)^1.08 + 0.4 (b/a − 1)³ − 0.01 (a/b − 1)³)/Re^0.25, g = 1 − e^(−(Re + 200)/1000)
 *     in line:   ξ_turb = ((0.22 + 1.2 (1 − 0.94/b)^0.6/(a − 0.85)^1.3) 10^(0.47 (b/a − 1.5)) + 0.03 (a − 1)(b − 1))/Re^(0.1 b/a),
 *                g = 1 − e^(−(Re + 1000)/2000)
 *
 * @throws {DomainError} on a size, velocity or property of zero or less, or pins that touch
 *
 * @example pinBankDrop({ arrangement: 'staggered', diameter: 2e-3, transversePitch: 4e-3, longitudinalPitch: 4e-3, rows: 10,
 *   density: 1000, viscosity: 1e-3, maximumVelocity: 5 }) // 44500
 */
export function pinBankDrop({ arrangement, ...numbers }: PinBankDropInputs): number {
  for (const [name, value] of Object.entries(numbers)) requirePositive('pinBankDrop', name, value)
  const { diameter, transversePitch, longitudinalPitch, rows, density, viscosity, maximumVelocity } = numbers
  const [a, b] = [transversePitch / diameter, longitudinalPitch / diameter]
  if (!(a > 1) || (arrangement === 'in-line' && !(b > 1))) {
    throw new DomainError(
      'pinBankDrop',
      'transversePitch',
      transversePitch,
      'above the diameter, as the pitch of pins in line',
    )
  }
  const reynolds = (density * maximumVelocity * diameter) / viscosity
  const diagonal = Math.hypot(a / 2, b)
  const narrow = arrangement === 'staggered' && 2 * (diagonal - 1) < a - 1 ? diagonal : a
  const laminar =
    (280 * Math.PI * ((Math.sqrt(b) - 0.6) ** 2 + 0.75)) / ((4 * a * b - Math.PI) * narrow ** 1.6 * reynolds)
  const turbulent = arrangement === 'staggered' ? staggeredDrag(a, b, reynolds) : inLineDrag(a, b, reynolds)
  return ((laminar + turbulent) * rows * density * maximumVelocity ** 2) / 2
}

function staggeredDrag(a: number, b: number, reynolds: number): number {
  const factor = 2.5 + 1.2 / (a - 0.85) ** 1.08 + 0.4 * (b / a - 1) ** 3 - 0.01 * (a / b - 1) ** 3
  return factor * reynolds ** -0.25 * -Math.expm1(-(reynolds + 200) / 1000)
}

function inLineDrag(a: number, b: number, reynolds: number): number {
  const near = (0.22 + (1.2 * (1 - 0.94 / b) ** 0.6) / (a - 0.85) ** 1.3) * 10 ** (0.47 * (b / a - 1.5))
  const factor = near + 0.03 * (a - 1) * (b - 1)
  return factor * reynolds ** ((-0.1 * b) / a) * -Math.expm1(-(reynolds + 1000) / 2000)
}
