import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  developingTube,
  dittusBoelterNusselt,
  gnielinskiNusselt,
  PLATES_NUSSELT,
  rectangularNusselt,
  TUBE_NUSSELT,
  turbulentFilmMethod,
} from '../../../queries/physics/convection.ts'
import { ductFilm, ductNusselt } from '../../../queries/physics/duct-film.ts'
import { graetzMeanNusselt } from '../../../queries/physics/graetz.ts'
import { DomainError, outOfRange } from '../../../queries/physics/method.ts'

const off = (found: number, expected: number) => Math.abs(found / expected - 1)

/** Exact H1 value by the double sine series of velocity and temperature, sides 1 and `aspect`. */
function exactUniformFlux(aspect: number): number {
  let [flow, heat] = [0, 0]
  for (let m = 1; m < 120; m += 2) {
    for (let n = 1; n < 120; n += 2) {
      const lambda = (m * Math.PI) ** 2 + ((n * Math.PI) / aspect) ** 2
      const one = 8 / (m * n * Math.PI ** 2)
      flow += one ** 2 / lambda
      heat += one ** 2 / lambda ** 3
    }
  }
  const perimeter = 2 * (1 + aspect)
  // Per unit area: mean velocity `flow`, bulk temperature heat/flow for the source w; Nu = (w̄ A/P)(4A/P)/θ_b.
  return (4 * aspect ** 2 * flow * flow) / perimeter ** 2 / heat
}

/** Exact T value: lowest eigenvalue of −∇²θ = λ (w/w̄) θ in a basis of odd sines, inverse iteration. */
function exactUniformTemperature(aspect: number): number {
  const [grid, modes] = [48, 9]
  const odd = Array.from({ length: modes }, (_, i) => 2 * i + 1)
  const basis = odd.flatMap((m) => odd.map((n) => ({ m, n, k: (m * Math.PI) ** 2 + ((n * Math.PI) / aspect) ** 2 })))
  const places = Array.from({ length: grid }, (_, i) => (i + 0.5) / grid)
  const sines = new Map(
    Array.from({ length: 60 }, (_, i) => 2 * i + 1).map((m) => [m, places.map((x) => Math.sin(m * Math.PI * x))]),
  )
  const velocity = places.map((_, i) =>
    places.map((_, j) => {
      let w = 0
      for (const [m, sx] of sines)
        for (const [n, sy] of sines)
          w += (sx[i]! * sy[j]!) / (m * n) / ((m * Math.PI) ** 2 + ((n * Math.PI) / aspect) ** 2)
      return w
    }),
  )
  const mean = velocity.flat().reduce((a, b) => a + b) / grid ** 2
  let vector: number[] = basis.map((_, i) => (i === 0 ? 1 : 0))
  let inverse = 0
  for (let step = 0; step < 60; step++) {
    const field = places.map((_, i) =>
      places.map((_, j) =>
        basis.reduce(
          (sum, { m, n }, b) => sum + (vector[b] ? vector[b]! * sines.get(m)![i]! * sines.get(n)![j]! : 0),
          0,
        ),
      ),
    )
    const weighted = field.map((row, i) => row.map((value, j) => (value * velocity[i]![j]!) / mean))
    const next = basis.map(({ m, n, k }) => {
      let sum = 0
      for (let i = 0; i < grid; i++)
        for (let j = 0; j < grid; j++) sum += weighted[i]![j]! * sines.get(m)![i]! * sines.get(n)![j]!
      return ((4 / grid ** 2) * sum) / k
    })
    const size = Math.abs(next[0]!)
    const settled = Math.abs(size - inverse) < 1e-9 * size
    inverse = size
    vector = next.map((value) => value / size)
    if (settled) break
  }
  const hydraulic = (2 * aspect) / (1 + aspect)
  return hydraulic ** 2 / 4 / inverse
}

describe('rectangularNusselt', () => {
  // R. K. Shah, A. L. London 1978, tables for four heated walls (from memory); their own solution for
  // uniform temperature is 0.06 % above ours at 1/8.
  it.each([
    [1, 2.976, 3.608],
    [0.5, 3.391, 4.123],
    [0.25, 4.439, 5.331],
    [0.125, 5.597, 6.49],
  ])('gives the published values at aspect %d', (aspect, uniformT, uniformH) => {
    expect(off(rectangularNusselt({ aspect, wall: 'uniform-temperature' }), uniformT)).toBeLessThan(0.0007)
    expect(off(rectangularNusselt({ aspect, wall: 'uniform-flux' }), uniformH)).toBeLessThan(0.0002)
  })

  // Second method: exact double series. Worst found: 1.4e-4 at 0.05, where the series in the test
  // itself is short.
  it('agrees with the exact series for uniform flux', () => {
    for (let aspect = 0.05; aspect <= 1; aspect += 0.05) {
      expect(off(rectangularNusselt({ aspect, wall: 'uniform-flux' }), exactUniformFlux(aspect))).toBeLessThan(2e-4)
    }
  })

  // Second method: Galerkin eigenvalue on a coarser grid than the data's own. Worst found: 7e-5. The
  // fifth-degree polynomial in common use is 0.5 % off at 0.9.
  it('agrees with the eigenvalue for uniform temperature', () => {
    for (const aspect of [0.3, 0.6, 0.9, 1]) {
      expect(
        off(rectangularNusselt({ aspect, wall: 'uniform-temperature' }), exactUniformTemperature(aspect)),
      ).toBeLessThan(0.0025)
    }
  })

  it('becomes two wide plates', () => {
    // 140/17 exact; 7.5407 from memory.
    expect(off(rectangularNusselt({ aspect: 0, wall: 'uniform-flux' }), PLATES_NUSSELT['uniform-flux'])).toBeLessThan(
      1e-4,
    )
    expect(
      off(rectangularNusselt({ aspect: 0, wall: 'uniform-temperature' }), PLATES_NUSSELT['uniform-temperature']),
    ).toBeLessThan(1e-4)
  })
})

describe('graetzMeanNusselt', () => {
  // Own high-precision sums of the confluent hypergeometric solution (25 digits).
  it('gives the exact values', () => {
    expect(off(graetzMeanNusselt(1e-3), 15.384190483037)).toBeLessThan(3e-7)
    expect(off(graetzMeanNusselt(0.00244392181), 11.355485)).toBeLessThan(1e-7)
  })

  // Second method: implicit marching of the energy equation on 400 rings. Its own error is about 0.1 %.
  it('agrees with marching down the tube', () => {
    const rings = 400
    const radius = (i: number) => i / rings
    const bulk = Array.from({ length: rings }, (_, i) => {
      const [a, b] = [radius(i), radius(i + 1)]
      return (b ** 2 - a ** 2) / 2 - (b ** 4 - a ** 4) / 4
    })
    let theta = bulk.map(() => 1)
    let x = 0
    const wanted = [0.003, 0.01, 0.1, 0.5]
    for (const target of wanted) {
      const steps = 600
      const dx = (target - x) / steps
      for (let s = 0; s < steps; s++) theta = march(theta, bulk, dx)
      x = target
      const mean = theta.reduce((sum, value, i) => sum + value * bulk[i]!, 0) / bulk.reduce((a, b) => a + b)
      expect(off(-Math.log(mean) / (4 * x), graetzMeanNusselt(x))).toBeLessThan(0.004)
    }
  })

  it('falls along the tube to the developed value and joins its short-tube limit', () => {
    let before = Number.POSITIVE_INFINITY
    for (let x = 1e-7; x < 100; x *= 1.1) {
      const here = graetzMeanNusselt(x)
      expect(here).toBeLessThan(before)
      before = here
    }
    expect(off(graetzMeanNusselt(1e6), TUBE_NUSSELT['uniform-temperature'])).toBeLessThan(1e-6)
    expect(off(graetzMeanNusselt(0.99999e-4), graetzMeanNusselt(1.00001e-4))).toBeLessThan(4e-5)
  })

  it('shows by how much the published entrance correlation is off at short lengths', () => {
    // Hausen: 11 % above at x* 0.001, within 2 % from 0.01 to 0.1.
    const at = (xStar: number) => developingTube({ reynolds: 1000, prandtl: 1, diameter: 1, length: 1000 * xStar })
    expect(at(0.001).hausen / at(0.001).exact - 1).toBeCloseTo(0.106, 2)
    for (const xStar of [0.01, 0.03, 0.1]) expect(off(at(xStar).hausen, at(xStar).exact)).toBeLessThan(0.02)
  })
})

/** One implicit step of (1 − r²) ∂θ/∂x⁺ = (1/r) ∂/∂r (r ∂θ/∂r), x⁺ = 2 x*·… in the scaling of x*, cold wall. */
function march(theta: readonly number[], bulk: readonly number[], dx: number): number[] {
  const n = theta.length
  const edge = (i: number) => 2 * dx * (i / n) * n // conductance of ring face i: r/Δr, times the step
  const [lower, diagonal, right] = [new Array<number>(n), new Array<number>(n), [] as number[]]
  for (let i = 0; i < n; i++) {
    const [inner, outer] = [i === 0 ? 0 : edge(i), i === n - 1 ? 2 * edge(n) : edge(i + 1)]
    lower[i] = -inner
    diagonal[i] = bulk[i]! + inner + outer
    right[i] = bulk[i]! * theta[i]!
  }
  for (let i = 1; i < n; i++) {
    const factor = lower[i]! / diagonal[i - 1]!
    diagonal[i]! -= factor * lower[i]!
    right[i]! -= factor * right[i - 1]!
  }
  const next = new Array<number>(n)
  for (let i = n - 1; i >= 0; i--) next[i] = (right[i]! - (i + 1 < n ? lower[i + 1]! * next[i + 1]! : 0)) / diagonal[i]!
  return next
}

describe('turbulent convection', () => {
  // Second method: Dittus and Boelter. Worst found between Re 1e4 and 1e5 for Pr 0.7 … 10: 16 %.
  it('has two correlations that agree within their own spread', () => {
    for (let reynolds = 1e4; reynolds <= 1e5; reynolds *= 1.2) {
      for (const prandtl of [0.7, 1, 3, 10]) {
        expect(off(dittusBoelterNusselt({ reynolds, prandtl }), gnielinskiNusselt({ reynolds, prandtl }))).toBeLessThan(
          0.17,
        )
      }
    }
  })

  it('refuses laminar flow and marks transition', () => {
    expect(() => gnielinskiNusselt({ reynolds: 900, prandtl: 5 })).toThrow(DomainError)
    expect(outOfRange(turbulentFilmMethod.valid, { reynolds: 2500, prandtl: 5 })).toEqual(['reynolds'])
  })
})

describe('ductNusselt', () => {
  // Second method for the laminar part: the exact developing tube. Worst found: 1.0 % at x* 0.0004.
  it('follows the exact developing tube everywhere', () => {
    for (let x = 1e-5; x < 100; x *= 1.3) {
      const found = ductNusselt({ reynolds: 1000, prandtl: 5, shape: 'circular', diametersLong: 5000 * x })
      expect(off(found, graetzMeanNusselt(x))).toBeLessThan(0.0101)
    }
  })

  it('is continuous through transition and rises with flow', () => {
    for (const diametersLong of [20, 200, undefined]) {
      let before = 0
      for (let reynolds = 500; reynolds < 20_000; reynolds *= 1.01) {
        const here = ductNusselt({
          reynolds,
          prandtl: 10,
          shape: 'circular',
          ...(diametersLong === undefined ? {} : { diametersLong }),
        })
        expect(here).toBeGreaterThanOrEqual(before * (1 - 1e-12))
        if (before > 0) expect(here / before).toBeLessThan(1.12)
        before = here
      }
    }
  })

  it('never cools less with more flow, less length or a rougher wall', () => {
    const base = {
      shape: 'rectangular',
      width: 1.2e-3,
      height: 7e-3,
      length: 0.066,
      count: 20,
      density: 1037,
      viscosity: 1.25e-3,
      specificHeat: 3524,
      thermalConductivity: 0.417,
    } as const
    fc.assert(
      fc.property(fc.double({ min: -6, max: -3, noNaN: true }), (decade) => {
        const at = (flow: number, more = {}) => ductFilm({ ...base, flow, ...more }).filmCoefficient
        const flow = 10 ** decade
        return (
          at(1.05 * flow) >= at(flow) &&
          at(flow, { length: 0.05 }) >= at(flow) &&
          at(flow, { roughness: 2e-5 }) >= at(flow)
        )
      }),
    )
  })
})
