import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import {
  MU0,
  ringDimensions,
  ringInductance,
  ringInductanceMethod,
  ringPermeability,
} from '../../../queries/physics/ring-core.ts'
import { gappedCore, ringFlux } from '../../../queries/physics/ring-flux.ts'

// Effective dimensions of common ring sizes as data books of ferrite cores print them (IEC 60205): outer and inner
// diameter, height in mm; l_e mm, A_e mm², V_e mm³. From memory.
const published = [
  { size: [25.3, 14.8, 10], length: 60.07, area: 51.26, volume: 3079 },
  { size: [6.3, 3.8, 2.5], length: 15.21, area: 3.06, volume: 46.5 },
  { size: [10, 6, 4], length: 24.07, area: 7.83, volume: 188 },
  { size: [16, 9.6, 6.3], length: 38.52, area: 19.73, volume: 760 },
] as const

const rings = fc
  .record({
    outerDiameter: fc.double({ min: 5e-3, max: 0.2, noNaN: true }),
    ratio: fc.double({ min: 0.05, max: 0.98, noNaN: true }),
    height: fc.double({ min: 1e-3, max: 0.1, noNaN: true }),
  })
  .map(({ outerDiameter, ratio, height }) => ({ outerDiameter, innerDiameter: ratio * outerDiameter, height }))

describe('effective dimensions of a ring', () => {
  it.each(published)('are those of the data books at $size', ({ size, length, area, volume }) => {
    const [outer, inner, height] = size.map((one) => one / 1000) as [number, number, number]
    const found = ringDimensions({ outerDiameter: outer, innerDiameter: inner, height })
    expect(Math.abs((found.effectiveLength * 1e3) / length - 1)).toBeLessThan(1e-3)
    expect(Math.abs((found.effectiveArea * 1e6) / area - 1)).toBeLessThan(1.5e-3)
    // Half a unit of the last printed place is 0.27 % at 188.
    expect(Math.abs((found.effectiveVolume * 1e9) / volume - 1)).toBeLessThan(2.7e-3)
  })

  it('agree with the sums over thin rings that define them', () => {
    // Second method: thin rings of length l and area dA. 1/C₁ = Σ dA/l (energy, second power of the field);
    // C₂/C₁³ = Σ dA/l² (loss at small fields, third power). Worst found: 1e-7, from the midpoint rule.
    fc.assert(
      fc.property(rings, (ring) => {
        const { c1, c2 } = ringDimensions(ring)
        const sums = thinRings(ring)
        return Math.abs(c1 * sums.first - 1) < 1e-6 && Math.abs(c2 / c1 ** 3 / sums.second - 1) < 1e-6
      }),
    )
  })

  it('are consistent: C₁ = l/A, volume = l A, and near a thin ring the plain area and mean path', () => {
    fc.assert(
      fc.property(rings, (ring) => {
        const { c1, effectiveLength, effectiveArea, effectiveVolume } = ringDimensions(ring)
        return (
          Math.abs((c1 * effectiveArea) / effectiveLength - 1) < 1e-12 &&
          Math.abs(effectiveVolume / (effectiveArea * effectiveLength) - 1) < 1e-12
        )
      }),
    )
    const thin = ringDimensions({ outerDiameter: 0.1002, innerDiameter: 0.0998, height: 0.01 })
    expect(thin.effectiveLength / (Math.PI * 0.1)).toBeCloseTo(1, 5)
    expect(thin.effectiveArea / (0.2e-3 * 0.01)).toBeCloseTo(1, 5)
  })

  it('refuse a hole larger than the ring', () => {
    expect(() => ringDimensions({ outerDiameter: 1e-2, innerDiameter: 1e-2, height: 1e-2 })).toThrow(DomainError)
    expect(() =>
      ringDimensions({ outerDiameter: 2e-2, innerDiameter: 1e-2, height: 1e-2, stackingFactor: 1.1 }),
    ).toThrow(DomainError)
  })
})

describe('inductance through a ring', () => {
  it('is the exact integral of flux, grows with turns squared and with the share of metal', () => {
    fc.assert(
      fc.property(rings, fc.double({ min: 1, max: 1e5, noNaN: true }), (ring, permeability) => {
        const exact =
          (MU0 * permeability * ring.height * Math.log(ring.outerDiameter / ring.innerDiameter)) / (2 * Math.PI)
        const one = ringInductance({ ...ring, permeability })
        const three = ringInductance({ ...ring, permeability, turns: 3 })
        const filled = ringInductance({ ...ring, permeability, stackingFactor: 0.8 })
        return (
          Math.abs(one / exact - 1) < 1e-9 && Math.abs(three / one - 9) < 1e-9 && Math.abs(filled / one - 0.8) < 1e-9
        )
      }),
    )
  })

  it('never takes the factor per 100 turns for the one per turn: 1e4 apart', () => {
    const ring = { outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3, permeability: 5000, turns: 2 }
    const { inductance, perTurnSquared, per100Turns } = ringInductanceMethod.compute(ring)
    expect(inductance / perTurnSquared).toBeCloseTo(4, 12)
    expect(per100Turns / perTurnSquared).toBeCloseTo(1e4, 9)
    expect(per100Turns / ringInductance({ ...ring, turns: 100 })).toBeCloseTo(1, 12)
  })

  it('is turned back into permeability, the fixture taken off', () => {
    fc.assert(
      fc.property(rings, fc.double({ min: 10, max: 1e5, noNaN: true }), (ring, permeability) => {
        const fixtureInductance = 120e-9
        const measuredInductance = ringInductance({ ...ring, permeability }) + fixtureInductance
        const found = ringPermeability({ ...ring, measuredInductance, fixtureInductance })
        return Math.abs(found / permeability - 1) < 1e-6
      }),
    )
    const ring = { outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3 }
    expect(() => ringPermeability({ ...ring, measuredInductance: 1e-7, fixtureInductance: 1e-7 })).toThrow(DomainError)
  })
})

describe('flux in a ring', () => {
  it('links what the inductance says: ∫ B dA = L I/N', () => {
    // Second method: flux density falls as one over the radius from the inner rim.
    fc.assert(
      fc.property(rings, fc.double({ min: 0.1, max: 50, noNaN: true }), (ring, current) => {
        const { innerFluxDensity } = ringFlux({
          ...ring,
          permeability: 2000,
          current,
          saturationFluxDensity: 0.4,
          turns: 3,
        })
        const log = Math.log(ring.outerDiameter / ring.innerDiameter)
        const flux = (innerFluxDensity * ring.innerDiameter * ring.height * log) / 2
        return Math.abs((3 * flux) / (ringInductance({ ...ring, permeability: 2000, turns: 3 }) * current) - 1) < 1e-9
      }),
    )
  })

  it('saturates from the inside outwards, and the effective path lies between', () => {
    fc.assert(
      fc.property(rings, (ring) => {
        const inputs = { ...ring, permeability: 5000, current: 1, saturationFluxDensity: 0.4 }
        const { onsetCurrent, saturationCurrent, fullCurrent } = ringFlux(inputs)
        const again = ringFlux({ ...inputs, current: onsetCurrent })
        return (
          onsetCurrent < saturationCurrent &&
          saturationCurrent < fullCurrent &&
          Math.abs(again.innerFluxDensity / 0.4 - 1) < 1e-9
        )
      }),
    )
  })
})

describe('gapped core', () => {
  const core = { area: 120e-6, pathLength: 0.1, permeability: 2300 }

  it('tends to the closed core without gap and to the gap alone with perfect iron', () => {
    const closed = gappedCore({ ...core, gap: 0 })
    expect(closed.inductance / ((MU0 * 2300 * 120e-6) / 0.1)).toBeCloseTo(1, 12)
    expect(closed.effectivePermeability).toBeCloseTo(2300, 9)
    const perfect = gappedCore({ ...core, gap: 2e-3, permeability: 1e12, current: 500 })
    expect(perfect.fluxDensity / ((MU0 * 500) / 2e-3)).toBeCloseTo(1, 6)
  })

  it('counts the gap in the path, and links L I = N B A', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.05, noNaN: true }), (gap) => {
        const found = gappedCore({ ...core, gap, turns: 5, current: 10 })
        return Math.abs((found.inductance * 10) / (5 * found.fluxDensity * core.area) - 1) < 1e-12
      }),
    )
    expect(() => gappedCore({ ...core, gap: 0.1 })).toThrow(DomainError)
  })
})

function thinRings({
  outerDiameter,
  innerDiameter,
  height,
}: {
  outerDiameter: number
  innerDiameter: number
  height: number
}) {
  const steps = 2000
  const ratio = Math.log(outerDiameter / innerDiameter) / steps
  let [first, second] = [0, 0]
  for (let i = 0; i < steps; i++) {
    const radius = (innerDiameter / 2) * Math.exp((i + 0.5) * ratio)
    const area = height * radius * ratio
    first += area / (2 * Math.PI * radius)
    second += area / (2 * Math.PI * radius) ** 2
  }
  return { first, second }
}
