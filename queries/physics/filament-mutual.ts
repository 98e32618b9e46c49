/**
 * Two parallel straight filaments as four distances between their ends along the axis, folded by symmetry:
 *
 *     ∫∫ dz₁ dz₂ / √(ρ² + (z₁ − z₂)²) = Σ weight · F(z, ρ),   F = z asinh(z/ρ) − √(z² + ρ²)
 *
 * F is even in z and the weights sum to nothing, so that equal distances merge and a common −ρ may be taken out.
 */
export interface AxialEnds {
  readonly distances: Float64Array
  readonly weights: Float64Array
  /** Largest of the distances [m]. */
  readonly reach: number
  /** The filaments lie one behind the other, touching at most. */
  readonly apart: boolean
}

/** @param start where filament 2 starts, counted from the start of filament 1 [m] */
export function axialEnds(inputs: { firstLength: number; secondLength: number; start: number }): AxialEnds {
  const { firstLength, secondLength, start } = inputs
  const merged = new Map<number, number>()
  const add = (z: number, weight: number): void => {
    const distance = Math.abs(z)
    merged.set(distance, (merged.get(distance) ?? 0) + weight)
  }
  add(start + secondLength, 1)
  add(start - firstLength, 1)
  add(start, -1)
  add(start + secondLength - firstLength, -1)
  const overlap = Math.min(firstLength, start + secondLength) - Math.max(0, start)
  const kept = [...merged].filter(([distance, weight]) => weight !== 0 && distance !== 0)
  return {
    distances: Float64Array.from(kept, ([distance]) => distance),
    weights: Float64Array.from(kept, ([, weight]) => weight),
    reach: Math.max(...kept.map(([distance]) => distance)),
    // Rounding of the places of touching ends is no overlap.
    apart: overlap <= 1e-13 * (firstLength + secondLength),
  }
}

/**
 * The double integral of 1/distance over two parallel filaments at a distance ρ [m].
 *
 * Where they lie one behind the other, ln ρ drops out and the logarithm is counted from the reach instead, so that
 * filaments on one line (ρ = 0) have a value. Overlapping filaments on one line have none (infinite).
 */
export function parallelIntegral({ distances, weights, reach, apart }: AxialEnds, rho: number): number {
  let sum = 0
  if (apart && rho < reach / 2) {
    for (let i = 0; i < distances.length; i++) {
      const z = distances[i] as number
      const r = Math.sqrt(z * z + rho * rho)
      sum += (weights[i] as number) * z * (Math.log((z + r) / reach) - z / (r + rho))
    }
    return sum
  }
  for (let i = 0; i < distances.length; i++) {
    const z = distances[i] as number
    const r = Math.sqrt(z * z + rho * rho)
    sum += (weights[i] as number) * z * (Math.asinh(z / rho) - z / (r + rho))
  }
  return sum
}
