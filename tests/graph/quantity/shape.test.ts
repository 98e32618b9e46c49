import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Shape, standardUncertainty } from '../../../graph/quantity/quantity.ts'
import {
  bounds,
  coverageFactor,
  fromReadings,
  interval95,
  meanDeviation,
  quantile,
  tFactor95,
  welchSatterthwaite,
} from '../../../graph/quantity/shape.ts'
import { normalQuantile, tQuantile } from '../../../graph/quantity/student.ts'

const probability = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true })
const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true })

// Roots of the incomplete beta at 30 digits with an arbitrary-precision library; the last two from a statistics library.
const REFERENCE_T: readonly (readonly [p: number, dof: number, t: number])[] = [
  [0.975, 3, 3.182446305283708],
  [0.975, 16.7519, 2.112198362415146],
  [0.9, 0.5, 10.27032441023451],
  [1e-8, 3, -479.5250695797383],
  [0.51, 3.7, 0.0268021203895846],
  [1e-12, 30, -11.397217523311411],
  [0.3, 7.25, -0.5482311688374483],
  [0.975, 1000, 1.9623390808264083],
  [0.975, 1e9, 1.959963986912325],
]

describe('tQuantile', () => {
  // JCGM 100:2008 table G.2 (from memory), two decimals.
  it.each([
    [1, 12.71],
    [2, 4.3],
    [3, 3.18],
    [4, 2.78],
    [5, 2.57],
    [10, 2.23],
    [16, 2.12],
    [20, 2.09],
    [50, 2.01],
    [100, 1.984],
    [Number.POSITIVE_INFINITY, 1.96],
  ])('95 %% with %d degrees is %d', (dof, k) => expect(Math.abs(tFactor95(dof) - k)).toBeLessThan(0.0051))

  it('gives the published k of the end gauge: 99 %, 16 degrees, 2.92 (JCGM 100:2008 H.1)', () => {
    expect(coverageFactor(0.99, 16)).toBeCloseTo(2.92, 2)
  })

  it('is exact where there is a closed form', () => {
    expect(tQuantile(0.975, 2)).toBeCloseTo(4.302652729749462, 12)
    expect(tQuantile(0.75, 1)).toBeCloseTo(1, 14)
    // Four degrees: t = 2 √(cos(acos(√α)/3)/√α − 1), α = 4p(1−p) (W. T. Shaw, J. Comput. Finance 9 (2006), from memory).
    fc.assert(
      fc.property(fc.double({ min: 0.5 + 1e-6, max: 1 - 1e-6, noNaN: true }), (p) => {
        const root = Math.sqrt(4 * p * (1 - p))
        const exact = 2 * Math.sqrt(Math.cos(Math.acos(root) / 3) / root - 1)
        return Math.abs(tQuantile(p, 4) - exact) <= 1e-7 * (1 + exact)
      }),
    )
  })

  it.each(REFERENCE_T)('%d, %d degrees', (p, dof, t) => expect(Math.abs(tQuantile(p, dof) / t - 1)).toBeLessThan(1e-11))

  it('runs into the normal, and is odd', () => {
    fc.assert(fc.property(probability, (p) => Math.abs(tQuantile(p, 1e9) - normalQuantile(p)) < 1e-6))
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        (p, dof) => {
          const [low, high] = [tQuantile(p, dof), tQuantile(1 - p, dof)]
          return Math.abs(low + high) <= 1e-8 * (1 + Math.abs(high))
        },
      ),
    )
  })
})

// Handbook values of the standard normal deviate (M. Abramowitz, I. Stegun, table 26.5, from memory).
it.each([
  [0.975, 1.959963984540054],
  [0.5, 0],
  [0.8413447460685429, 1],
  [0.9986501019683699, 3],
  [1e-10, -6.361340902404056],
])('normalQuantile of %d is %d', (p, z) => expect(normalQuantile(p)).toBeCloseTo(z, 11))

describe('quantile of a shape', () => {
  const shapes: fc.Arbitrary<Shape> = fc.oneof(
    positive.map((u): Shape => ({ kind: 'normal', u })),
    fc.tuple(positive, fc.integer({ min: 3, max: 40 })).map(([u, dof]): Shape => ({ kind: 'student', u, dof })),
    fc
      .tuple(positive, positive, fc.constantFrom('rectangular' as const, 'triangular' as const))
      .map(([low, high, kind]): Shape => ({ kind, low: -low, high })),
  )

  it('rises with p, and stays within the ends of a bounded shape', () => {
    fc.assert(
      fc.property(shapes, probability, probability, (shape, a, b) => {
        const [low, high] = [quantile(shape, Math.min(a, b)), quantile(shape, Math.max(a, b))]
        const ends = bounds(shape) ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
        return low <= high + 1e-12 * Math.abs(high) && low >= ends[0] && high <= ends[1]
      }),
    )
  })

  // Second method: mean and standard deviation of a midpoint sum over the quantiles against the closed forms (GUM 4.3.7 to 4.3.9).
  it('has the mean and standard deviation that the closed forms say', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        if (shape.kind === 'student') return true
        const n = 4000
        let [sum, squares] = [0, 0]
        for (let i = 0; i < n; i++) {
          const z = quantile(shape, (i + 0.5) / n)
          sum += z / n
          squares += (z * z) / n
        }
        const u = standardUncertainty(shape)
        return (
          Math.abs(sum - meanDeviation(shape)) < 1e-3 * u && Math.abs(Math.sqrt(squares - sum * sum) / u - 1) < 2e-3
        )
      }),
      { numRuns: 40 },
    )
  })

  // Quantiles of the rectangular distribution on 8..10; 1.96 u would leave it.
  it('keeps the 95 % interval of limits inside them', () => {
    expect(interval95({ kind: 'rectangular', low: -1, high: 1 }).map((z) => 9 + z)).toEqual([8.05, 9.95])
    expect(interval95({ kind: 'normal', u: 1 })[1]).toBeCloseTo(1.959964, 6)
    expect(interval95({ kind: 'student', u: 1, dof: 2 })[1]).toBeCloseTo(4.30265273, 8)
  })

  // JCGM 100:2008 4.3.7 and 4.3.9 (a = 0.6), and −20/+80 % about 480.
  it('has the standard uncertainties of the guide', () => {
    expect(standardUncertainty({ kind: 'rectangular', low: -0.6, high: 0.6 })).toBeCloseTo(0.34641016, 8)
    expect(standardUncertainty({ kind: 'triangular', low: -0.6, high: 0.6 })).toBeCloseTo(0.24494897, 8)
    expect(standardUncertainty({ kind: 'rectangular', low: -96, high: 384 })).toBeCloseTo(138.56406, 5)
  })
})

describe('degrees of freedom', () => {
  // JCGM 100:2008 G.4.2 (0.25 %, 0.57 %, 0.82 % of 10, 5, 15 readings: 1.03 %, 19.0) and table H.1 (16.75, truncated to 16 there).
  it('agrees with the guide', () => {
    const product = [0.25, 0.57, 0.82].map((u, i) => ({ u, dof: [9, 4, 14][i]! }))
    expect(welchSatterthwaite(product)).toBeCloseTo(18.998742, 5)
    const gauge = [
      [25, 18],
      [5.8, 24],
      [3.9, 5],
      [6.7, 8],
      [2.886751, 50],
      [16.599, 2],
    ].map(([u, dof]) => ({ u: u!, dof: dof! }))
    expect(welchSatterthwaite(gauge)).toBeCloseTo(16.7519, 3)
    expect(welchSatterthwaite([{ u: 1, dof: Number.POSITIVE_INFINITY }])).toBe(Number.POSITIVE_INFINITY)
  })

  // JCGM 100:2008 4.2: s = 0.03, u = s/√3.
  it('makes a mean of three readings', () => {
    const { mean, shape } = fromReadings([12.41, 12.38, 12.44])
    expect(mean).toBeCloseTo(12.41, 12)
    expect(shape).toMatchObject({ kind: 'student', dof: 2 })
    expect(standardUncertainty(shape)).toBeCloseTo(0.017320508, 9)
    expect(() => fromReadings([1])).toThrow(RangeError)
  })
})
