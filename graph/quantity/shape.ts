import type { Shape } from './quantity.ts'
import { normalQuantile, tQuantile } from './student.ts'

/**
 * Deviation below which a share p of a shape lies. With p a uniform number in (0, 1) this is a draw.
 * A Student shape is u·t: what is known after a few readings (JCGM 101:2008 6.4.9), wider than its u says.
 *
 * @param p share [1], 0 < p < 1
 */
export function quantile(shape: Shape, p: number): number {
  switch (shape.kind) {
    case 'normal':
      return shape.u * normalQuantile(p)
    case 'student':
      return shape.u * tQuantile(p, shape.dof)
    case 'rectangular':
      return shape.low + p * (shape.high - shape.low)
    case 'triangular':
      return triangularQuantile(shape.low, shape.high, p)
  }
}

/** Triangle with its peak at the taken value (deviation 0), or at the nearer end when 0 lies outside. */
function triangularQuantile(low: number, high: number, p: number): number {
  const width = high - low
  if (width === 0) return low
  const peak = Math.min(Math.max(0, low), high)
  const below = (peak - low) / width
  return p < below ? low + Math.sqrt(p * width * (peak - low)) : high - Math.sqrt((1 - p) * width * (high - peak))
}

/** The interval that holds 95 % of a shape, with equal tails. */
export function interval95(shape: Shape): readonly [low: number, high: number] {
  return [quantile(shape, 0.025), quantile(shape, 0.975)]
}

/** What a shape can never leave; null when it has no end. */
export function bounds(shape: Shape): readonly [low: number, high: number] | null {
  return shape.kind === 'rectangular' || shape.kind === 'triangular' ? [shape.low, shape.high] : null
}

/** The middle of mass of a shape: not 0 for an asymmetric one. */
export function meanDeviation(shape: Shape): number {
  if (shape.kind === 'normal' || shape.kind === 'student') return 0
  if (shape.kind === 'rectangular') return (shape.low + shape.high) / 2
  return (shape.low + Math.min(Math.max(0, shape.low), shape.high) + shape.high) / 3
}

/** Coverage factor for 95 % with these degrees of freedom (not truncated): JCGM 100:2008 G.3. @example tFactor95(2) // 4.30265273 */
export function tFactor95(dof: number): number {
  return coverageFactor(0.95, dof)
}

/** Coverage factor for a two-sided share. @example coverageFactor(0.99, 16) // 2.92 */
export function coverageFactor(share: number, dof: number): number {
  return tQuantile((1 + share) / 2, dof)
}

/**
 * Effective degrees of freedom of a combined uncertainty: u_c⁴ / Σ u_i⁴/ν_i (Welch-Satterthwaite, JCGM 100:2008 G.4.1, formula G.2b),
 * not truncated. A component known for certain has infinite degrees.
 *
 * @param components standard uncertainties [any one unit, or relative], and their degrees of freedom [1]
 */
export function welchSatterthwaite(components: readonly { readonly u: number; readonly dof: number }[]): number {
  const variance = components.reduce((sum, { u }) => sum + u * u, 0)
  const spread = components.reduce((sum, { u, dof }) => sum + u ** 4 / dof, 0)
  return spread === 0 ? Number.POSITIVE_INFINITY : variance ** 2 / spread
}

/** Mean, standard uncertainty of the mean and its shape from repeated readings: u = s/√n with n−1 degrees (JCGM 100:2008 4.2). */
export function fromReadings(readings: readonly number[]): { readonly mean: number; readonly shape: Shape } {
  const n = readings.length
  if (n < 2) throw new RangeError('fromReadings: two readings at least')
  const mean = readings.reduce((sum, one) => sum + one, 0) / n
  const s = Math.sqrt(readings.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (n - 1))
  return { mean, shape: { kind: 'student', u: s / Math.sqrt(n), dof: n - 1 } }
}
