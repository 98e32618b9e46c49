import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coreFamilyMethod, familyVerdicts } from '../../../queries/physics/core-family.ts'
import { commonModeCorner, coreImpedance, familyImpedance } from '../../../queries/physics/core-impedance.ts'
import {
  CORE_FAMILIES,
  type CoreFamily,
  complexPermeability,
  type PermeabilityInputs,
  snoekLimit,
} from '../../../queries/physics/core-material.ts'
import { DomainError } from '../../../queries/physics/method.ts'
import { MU0, ringInductance } from '../../../queries/physics/ring-core.ts'

/** A typical initial permeability by family, common practice. */
const TYPICAL: Readonly<Record<CoreFamily, number>> = {
  'manganese-zinc': 5000,
  'nickel-zinc': 850,
  nanocrystalline: 30_000,
  powder: 60,
}

const at = (family: CoreFamily, frequency: number, rest: Partial<PermeabilityInputs> = {}) =>
  complexPermeability({ family, initialPermeability: TYPICAL[family], frequency, ...rest })

describe("Snoek's limit", () => {
  it('is two thirds of 28 GHz per tesla', () => {
    // J. L. Snoek 1948; γ/2π = 28.025 GHz/T (CODATA).
    const { product } = snoekLimit({ saturationMagnetisation: 1, initialPermeability: 2 })
    expect(product / ((2 / 3) * 28.02495e9)).toBeCloseTo(1, 5)
  })

  it('lies above where common nickel-zinc grades fall, and within a few times of it', () => {
    // Common practice, from memory: µ_i 125 falls near 50 MHz, µ_i 850 near 6 MHz.
    for (const [initialPermeability, falls] of [
      [125, 50e6],
      [850, 6e6],
    ] as const) {
      const { resonance } = snoekLimit({ saturationMagnetisation: 0.35, initialPermeability })
      expect(resonance).toBeGreaterThan(falls)
      expect(resonance).toBeLessThan(4 * falls)
    }
    expect(() => snoekLimit({ saturationMagnetisation: 0.35, initialPermeability: 1 })).toThrow(DomainError)
  })
})

describe('complex permeability against frequency', () => {
  it.each(CORE_FAMILIES)(
    'starts at the initial value and falls, with a losing part that is never negative: %s',
    (family) => {
      expect(at(family, 100).real / TYPICAL[family]).toBeCloseTo(1, 3)
      fc.assert(
        fc.property(fc.double({ min: 2, max: 9, noNaN: true }), (decade) => {
          const [here, higher] = [at(family, 10 ** decade), at(family, 1.1 * 10 ** decade)]
          return higher.magnitude <= here.magnitude * (1 + 1e-9) && here.imaginary >= 0
        }),
      )
    },
  )

  it.each(CORE_FAMILIES)('is causal: the storing part follows from the losing part (Kramers, Kronig): %s', (family) => {
    // Second method: µ′(f) = µ∞ + (2/π) ∫ (f′µ″(f′) − fµ″(f))/(f′² − f²) df′. Worst found 3.6e-6 of µ_i, powder.
    const atInfinity = family.endsWith('zinc') ? 1 : 0
    for (const frequency of [1e4, 1e5, 1e6, 1e7]) {
      const found = atInfinity + storingFromLosing(family, frequency)
      expect(Math.abs(found - at(family, frequency).real) / TYPICAL[family]).toBeLessThan(1e-5)
    }
  })

  it('has the classical eddy-current loss of a thin tape at low frequency', () => {
    // Second method: ω²B²d²/(24ρ) per volume, field even over the thickness (textbook), against ½ω µ₀µ″H².
    const [thickness, resistivity, frequency] = [18e-6, 1.15e-6, 100]
    const { imaginary } = at('nanocrystalline', frequency, { thickness, resistivity })
    const omega = 2 * Math.PI * frequency
    const classical = (omega * MU0 * TYPICAL.nanocrystalline) ** 2 * (thickness ** 2 / (24 * resistivity))
    expect((omega * MU0 * imaginary) / 2 / classical).toBeCloseTo(1, 5)
  })

  it('has the classical eddy-current loss of round grains at low frequency', () => {
    // Second method: ω²B²r²/(20ρ) per volume of a ball in an even field (textbook).
    const [thickness, resistivity, frequency] = [50e-6, 1e-7, 100]
    const { imaginary } = at('powder', frequency, { thickness, resistivity })
    const omega = 2 * Math.PI * frequency
    const classical = (omega * MU0 * TYPICAL.powder) ** 2 * ((thickness / 2) ** 2 / (20 * resistivity))
    expect((omega * MU0 * imaginary) / 2 / classical).toBeCloseTo(1, 5)
  })

  it('agrees with the tape factor computed with complex exponentials', () => {
    // Second method: tanh(z)/z from e^±z. Worst found 2e-7, where the series takes over.
    fc.assert(
      fc.property(fc.double({ min: 3, max: 8, noNaN: true }), (decade) => {
        const frequency = 10 ** decade
        const u = 20e-6 / Math.sqrt(1.2e-6 / (Math.PI * frequency * MU0 * TYPICAL.nanocrystalline))
        const { real, imaginary } = at('nanocrystalline', frequency)
        const [re, im] = tanhOver(u / 2)
        const off = Math.hypot(real / TYPICAL.nanocrystalline - re, -imaginary / TYPICAL.nanocrystalline - im)
        return off / Math.hypot(re, im) < 1e-6
      }),
    )
  })

  it('falls as one over the root of frequency far up in tape, in step real and imaginary', () => {
    const [here, higher] = [at('nanocrystalline', 1e8), at('nanocrystalline', 4e8)]
    expect(here.magnitude / higher.magnitude).toBeCloseTo(2, 3)
    expect(here.imaginary / here.real).toBeCloseTo(1, 3)
  })

  it('takes a measured relaxation frequency in place of the limit', () => {
    const { real, imaginary } = at('manganese-zinc', 4e5, { relaxationFrequency: 4e5 })
    expect(real).toBeCloseTo(1 + 4999 / 2, 6)
    expect(imaginary).toBeCloseTo(4999 / 2, 6)
  })
})

describe('impedance of a core', () => {
  const ring = { outerDiameter: 40e-3, innerDiameter: 25e-3, height: 15e-3 }

  it('is ωL of the plain inductance at low frequency', () => {
    const found = familyImpedance({ ...ring, family: 'manganese-zinc', initialPermeability: 5000, frequency: 1e3 })
    const plain = 2 * Math.PI * 1e3 * ringInductance({ ...ring, permeability: 5000 })
    expect(found.reactance / plain).toBeCloseTo(1, 4)
    expect(found.resistance).toBeLessThan(0.01 * found.reactance)
  })

  it('is of equal parts at the relaxation frequency, and 1/√2 of the undamped size', () => {
    const { resonance } = snoekLimit({ saturationMagnetisation: 0.5, initialPermeability: 5000 })
    const found = familyImpedance({
      ...ring,
      family: 'manganese-zinc',
      initialPermeability: 5000,
      frequency: resonance,
    })
    expect(found.resistance / found.reactance).toBeCloseTo(1, 3)
    expect(
      coreImpedance({ ...ring, frequency: 1e6, realPermeability: 3, imaginaryPermeability: 4 }).impedance,
    ).toBeCloseTo(5 * coreImpedance({ ...ring, frequency: 1e6, realPermeability: 1 }).impedance, 9)
  })

  it('resonates with the Y capacitors of both rails in parallel', () => {
    const inductance = 7.05e-6
    const frequency = commonModeCorner({ inductance, capacitance: [100e-9, 100e-9] })
    // Second method: at the corner the reactances are equal.
    expect(2 * Math.PI * frequency * inductance).toBeCloseTo(1 / (2 * Math.PI * frequency * 200e-9), 9)
    expect(() => commonModeCorner({ inductance, capacitance: [] })).toThrow(DomainError)
  })
})

describe('families that recorded facts leave possible', () => {
  const possible = (facts: Parameters<typeof familyVerdicts>[0]) => coreFamilyMethod.compute(facts).possible

  it('knows typical cores of each family', () => {
    // Common practice, from memory: usual values of each.
    expect(possible({ permeability: 5000, density: 4850 })).toEqual(['manganese-zinc', 'nanocrystalline'])
    expect(possible({ permeability: 5000, density: 4850, resistivity: 0.2 })).toEqual(['manganese-zinc'])
    expect(possible({ permeability: 60_000, saturation: 1.2 })).toEqual(['nanocrystalline'])
    expect(possible({ permeability: 850, resistivity: 1e6, saturation: 0.3 })).toEqual(['nickel-zinc'])
    expect(possible({ permeability: 60, density: 6100 })).toEqual(['powder'])
  })

  it('rules a ferrite out that held up beyond its limit, and says by how much', () => {
    const { possible: left, against } = coreFamilyMethod.compute({
      permeability: 10_000,
      frequency: 3e6,
      retained: 0.9,
    })
    expect(left).toEqual([])
    expect(against.filter((one) => one.startsWith('manganese-zinc'))).toEqual([
      expect.stringMatching(/90 % left at 3000 kHz, at most 37/),
    ])
  })

  it('never rules out the family whose own model made the facts', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CORE_FAMILIES), fc.double({ min: 3, max: 8, noNaN: true }), (family, decade) => {
        const frequency = 10 ** decade
        const retained = at(family, frequency).magnitude / TYPICAL[family]
        return possible({ permeability: TYPICAL[family], frequency, retained }).includes(family)
      }),
    )
  })

  it('rules nothing out by what is not recorded, and refuses to answer from nothing', () => {
    expect(possible({ permeability: 500 })).toEqual(['manganese-zinc', 'nickel-zinc', 'nanocrystalline', 'powder'])
    expect(() => familyVerdicts({})).toThrow(DomainError)
    expect(() => familyVerdicts({ permeability: 500, frequency: 1e6 })).toThrow(DomainError)
  })
})

/** Kramers-Kronig integral on a logarithmic grid, the pole taken out. */
function storingFromLosing(family: CoreFamily, frequency: number): number {
  const steps = 8000
  const [low, high] = [Math.log(1e-3), Math.log(1e18)]
  const width = (high - low) / steps
  const here = frequency * at(family, frequency).imaginary
  let sum = 0
  for (let i = 0; i < steps; i++) {
    const f = Math.exp(low + (i + 0.5) * width)
    sum += (((f * at(family, f).imaginary - here) / (f ** 2 - frequency ** 2)) * f * width * 2) / Math.PI
  }
  return sum
}

function tanhOver(half: number): readonly [number, number] {
  const decay = Math.exp(-2 * half)
  const [re, im] = [decay * Math.cos(2 * half), -decay * Math.sin(2 * half)]
  const divide = (a: readonly [number, number], b: readonly [number, number]): readonly [number, number] => {
    const square = b[0] ** 2 + b[1] ** 2
    return [(a[0] * b[0] + a[1] * b[1]) / square, (a[1] * b[0] - a[0] * b[1]) / square]
  }
  return divide(divide([1 - re, -im], [1 + re, im]), [half, half])
}
