import { MAGNETIC_CONSTANT } from './bar-mutual-pair.ts'
import { defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type WireSkinInputs = { radius: number; conductivity: number; frequency: number }
export type WireSkin = {
  readonly resistanceRatio: number
  /** Inside the wire [H/m]. */
  readonly internalInductancePerLength: number
  readonly resistancePerLength: number
}

/**
 * Skin effect of a straight round wire whose return is far away, exact (Kelvin):
 *
 *     Z/R_dc = (z/2) I₀(z)/I₁(z),   z² = jωμσa²
 *
 * by the continued fraction of the Bessel functions' ratio, or their asymptotic series where |z| > 60.
 *
 * @param radius       [m], > 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @throws {DomainError} on a radius or conductivity of zero or less, or a negative frequency
 *
 * @example wireSkinEffect({ radius: 1e-3, conductivity: 58e6, frequency: 1e5 }).resistanceRatio // 2.66163
 */
export function wireSkinEffect({ radius, conductivity, frequency }: WireSkinInputs): WireSkin {
  requirePositive('wireSkinEffect', 'radius', radius)
  requirePositive('wireSkinEffect', 'conductivity', conductivity)
  requireNonNegative('wireSkinEffect', 'frequency', frequency)
  const q = 2 * Math.PI * frequency * MAGNETIC_CONSTANT * conductivity * radius * radius
  const ratio = besselRatio(q)
  const dc = 1 / (conductivity * Math.PI * radius * radius)
  return {
    resistanceRatio: ratio.re,
    internalInductancePerLength:
      q === 0 ? MAGNETIC_CONSTANT / (8 * Math.PI) : (MAGNETIC_CONSTANT * ratio.im) / (Math.PI * q),
    resistancePerLength: dc * ratio.re,
  }
}

/**
 * Resistance of a round wire over its DC value, by x = radius √(ωμσ) = √2 radius/skin depth, the argument of printed
 * tables.
 *
 * @param x [1], ≥ 0
 * @throws {DomainError} on a negative x
 *
 * @example wireResistanceRatio(3) // 1.318095
 */
export function wireResistanceRatio(x: number): number {
  requireNonNegative('wireResistanceRatio', 'x', x)
  return besselRatio(x * x).re
}

/** (z/2) I₀(z)/I₁(z) at z² = jq. */
function besselRatio(q: number): { re: number; im: number } {
  return q > 3600 ? asymptoticRatio(q) : continuedFraction(q)
}

/** (z/2) I₀/I₁ = (2 + w/(4 + w/(6 + …)))/2, w = jq, from the far end inwards. */
function continuedFraction(q: number): { re: number; im: number } {
  let re = 0
  let im = 0
  for (let k = Math.ceil(40 + 2 * Math.sqrt(q)); k >= 1; k--) {
    const [bRe, bIm] = [2 * k + 2 + re, im]
    const size = bRe * bRe + bIm * bIm
    re = (q * bIm) / size
    im = (q * bRe) / size
  }
  return { re: 1 + re / 2, im: im / 2 }
}

/** Hankel's series of I₀ and I₁, up to its smallest term; relative error e^(−2|z|) beyond. */
function asymptoticRatio(q: number): { re: number; im: number } {
  const root = Math.sqrt(q / 2)
  // 1/z with z = √(jq) = (1 + j) root
  const inverse = { re: 1 / (2 * root), im: -1 / (2 * root) }
  const zero = hankelSum(0, inverse)
  const one = hankelSum(4, inverse)
  const size = one.re ** 2 + one.im ** 2
  const ratio = {
    re: (zero.re * one.re + zero.im * one.im) / size,
    im: (zero.im * one.re - zero.re * one.im) / size,
  }
  return { re: ((ratio.re - ratio.im) * root) / 2, im: ((ratio.re + ratio.im) * root) / 2 }
}

/** Σ (−1)ᵏ aₖ/zᵏ, aₖ = aₖ₋₁ (μ − (2k−1)²)/(8k). */
function hankelSum(mu: number, inverse: { re: number; im: number }): { re: number; im: number } {
  let term = { re: 1, im: 0 }
  const sum = { re: 1, im: 0 }
  for (let k = 1; k <= 20; k++) {
    const factor = -(mu - (2 * k - 1) ** 2) / (8 * k)
    term = {
      re: factor * (term.re * inverse.re - term.im * inverse.im),
      im: factor * (term.re * inverse.im + term.im * inverse.re),
    }
    sum.re += term.re
    sum.im += term.im
  }
  return sum
}

export const wireSkin = defineMethod<WireSkinInputs, WireSkin>({
  id: 'wire-skin',
  title: 'Skin effect of a round wire',
  takes: {
    radius: { unit: 'm', about: 'radius of the wire' },
    conductivity: { unit: 'S/m', about: 'conductivity at working temperature; annealed copper 58 MS/m at 20 °C' },
    frequency: { unit: 'Hz', about: 'frequency of a sinusoidal current' },
  },
  gives: {
    resistanceRatio: { unit: '1', print: '1', about: 'resistance over DC resistance' },
    internalInductancePerLength: {
      unit: 'H/m',
      print: 'nH/m',
      about: 'inductance of the field inside the wire, per length',
    },
    resistancePerLength: { unit: 'Ohm/m', print: 'mOhm/m', about: 'resistance per length' },
  },
  valid: { frequency: [0, 1e9], radius: [1e-6, 0.1] },
  sources: ['Bessel functions of a round conductor (W. Thomson, Lord Kelvin; textbook). Return far away, μ_r = 1'],
  compute: wireSkinEffect,
})

export const wireRatio = defineMethod<{ wireArgument: number }, { resistanceRatio: number }>({
  id: 'wire-resistance-ratio',
  title: 'Resistance of a round wire over its DC value, by the argument of printed tables',
  takes: { wireArgument: { unit: '1', about: 'radius times √(ωμσ), which is √2 times radius over skin depth' } },
  gives: { resistanceRatio: { unit: '1', print: '1', about: 'resistance over DC resistance' } },
  valid: { wireArgument: [0, 1e4] },
  sources: ['E. B. Rosa, F. W. Grover, Bull. Bur. Standards 8 (1912), skin-effect table (from memory)'],
  compute: ({ wireArgument }) => ({ resistanceRatio: wireResistanceRatio(wireArgument) }),
})

export const wireSkinMethods = [wireSkin, wireRatio] as const
