import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { plateHole } from '../../../queries/physics/plate-hole.ts'

type Complex = readonly [re: number, im: number]
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c]

/**
 * Second method: the complex potential z + Σ c_k D^2k coth(πz/w) has straight edges as streamlines by symmetry, whatever
 * its coefficients; those that make the rim of the hole one as well are found by least squares on points of the rim.
 * Far away the potential has moved by 2 c_0, which is the added length.
 */
function byMultipoles(share: number, terms = 7, points = 60): number {
  const rim = Array.from({ length: points }, (_, i) => ((i + 0.5) / points) * (Math.PI / 2))
  const rows = rim.map((angle) => {
    const z: Complex = [(share / 2) * Math.cos(angle), (share / 2) * Math.sin(angle)]
    return { shape: derivatives(z, terms).map(([, im], k) => im / scale(k, share)), flow: -z[1] }
  })
  const normal = Array.from({ length: terms }, (_, i) =>
    Array.from({ length: terms }, (__, j) => rows.reduce((sum, { shape }) => sum + shape[i]! * shape[j]!, 0)),
  )
  const right = Array.from({ length: terms }, (_, i) =>
    rows.reduce((sum, { shape, flow }) => sum + shape[i]! * flow, 0),
  )
  return (2 * solve(normal, right)[0]!) / scale(0, share)
}

/** Brings the terms to one size on the rim. */
const scale = (k: number, share: number): number => factorial(2 * k) / Math.PI / (share / 2) ** (2 * k + 1)
const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1))

/** coth(πz) and its even derivatives: polynomials in u = coth(πz), with du/dz = π (1 − u²). */
function derivatives(z: Complex, terms: number): readonly Complex[] {
  const [e, s] = [Math.exp(2 * Math.PI * z[0]), 2 * Math.PI * z[1]]
  const q: Complex = [e * Math.cos(s), e * Math.sin(s)]
  const below = (q[0] - 1) ** 2 + q[1] ** 2
  const u: Complex = times([q[0] + 1, q[1]], [(q[0] - 1) / below, -q[1] / below])
  let polynomial: readonly number[] = [0, 1]
  const found: Complex[] = []
  for (let order = 0; order < 2 * terms; order++) {
    if (order % 2 === 0)
      found.push(
        polynomial.reduceRight<Complex>(
          (sum, one) => {
            const [re, im] = times(sum, u)
            return [re + one, im]
          },
          [0, 0],
        ),
      )
    polynomial = differentiated(polynomial)
  }
  return found
}

function differentiated(polynomial: readonly number[]): readonly number[] {
  const slope = polynomial.slice(1).map((one, i) => Math.PI * one * (i + 1))
  return Array.from({ length: slope.length + 2 }, (_, i) => (slope[i] ?? 0) - (slope[i - 2] ?? 0))
}

function solve(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!])
  rows.forEach((pivot, k) => {
    rows.forEach((row, i) => {
      if (i === k) return
      const factor = row[k]! / pivot[k]!
      row.forEach((_, j) => {
        row[j] = row[j]! - factor * pivot[j]!
      })
    })
  })
  return rows.map((row, i) => row.at(-1)! / row[i]!)
}

describe('a round hole in a strip', () => {
  it('adds twice its area over the width where it is small: the sheet with a few round holes, σ (1 − 2 f)', () => {
    // Maxwell’s mixture in two dimensions (textbook): a share f of holes takes 2 f of the conductivity.
    const { addedLength } = plateHole({ width: 1, diameter: 1e-3 })
    expect(addedLength / (2 * (Math.PI / 4) * 1e-6)).toBeCloseTo(1, 5)
  })

  it('agrees with the multipoles of a row of holes', () => {
    // Found: 6e-10 at a tenth of the width, 4e-5 at four tenths, 1.4e-3 at six, 5.7e-3 at seven tenths, the limit stated.
    const error = (share: number) =>
      Math.abs(plateHole({ width: 1, diameter: share }).addedLength / byMultipoles(share) - 1)
    expect(Math.max(...[0.05, 0.1, 0.2, 0.3, 0.4].map(error))).toBeLessThan(1e-4)
    expect(Math.max(...[0.5, 0.6].map(error))).toBeLessThan(2e-3)
    expect(error(0.7)).toBeLessThan(6e-3)
  })

  it('lies above slices that are each one potential, and grows with the hole', () => {
    // Cutting the field into slices of one potential can only lower a resistance (Rayleigh).
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.6, noNaN: true }), (share) => {
        const n = 2000
        const slices = Array.from({ length: n }, (_, i) => {
          const x = ((i + 0.5) / n - 0.5) * share
          const chord = 2 * Math.sqrt((share / 2) ** 2 - x ** 2)
          return (share / n) * (1 / (1 - chord) - 1)
        }).reduce((sum, one) => sum + one, 0)
        const at = (d: number) => plateHole({ width: 1, diameter: d }).addedLength
        return at(share) > slices && at(share * 1.01) > at(share)
      }),
    )
  })

  it('refuses a hole as wide as the strip', () => {
    expect(() => plateHole({ width: 0.02, diameter: 0.02 })).toThrow(DomainError)
    expect(() => plateHole({ width: 0.02, diameter: 0 })).toThrow(DomainError)
  })
})
