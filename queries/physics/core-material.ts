import { DomainError, defineMethod, requirePositive } from './method.ts'
import { minus, over, type Phasor, plus, scaled, times } from './phasor.ts'
import { MU0 } from './ring-core.ts'

/** Electron gyromagnetic ratio, CODATA 2018 [rad/(s.T)]. */
const GYROMAGNETIC = 1.76085963023e11

export const CORE_FAMILIES = ['manganese-zinc', 'nickel-zinc', 'nanocrystalline', 'powder'] as const
export type CoreFamily = (typeof CORE_FAMILIES)[number]

export type SnoekInputs = { saturationMagnetisation: number; initialPermeability: number }

/**
 * Snoek's limit of a cubic ferrite: f_r (µ_i − 1) = γ µ₀M_s/(3π). An upper limit by rotation of the magnetisation in
 * its own anisotropy field; real materials fall at lower frequencies. It does not hold for metals or hexagonal ferrites.
 *
 * @param saturationMagnetisation µ₀ M_s [T], > 0: close to the saturation flux density
 * @param initialPermeability     µ_i [1], > 1
 * @returns product (µ_i − 1) f_r [Hz] and the highest frequency f_r to which µ_i can hold [Hz]
 * @throws {DomainError} on a value out of its bounds
 *
 * @example snoekLimit({ saturationMagnetisation: 0.35, initialPermeability: 850 }).resonance // 7.702e6
 */
export function snoekLimit({ saturationMagnetisation, initialPermeability }: SnoekInputs): {
  readonly product: number
  readonly resonance: number
} {
  requirePositive('snoekLimit', 'saturationMagnetisation', saturationMagnetisation)
  if (!(initialPermeability > 1)) throw new DomainError('snoekLimit', 'initialPermeability', initialPermeability, '> 1')
  const product = (GYROMAGNETIC * saturationMagnetisation) / (3 * Math.PI)
  return { product, resonance: product / (initialPermeability - 1) }
}

const SNOEK =
  'J. L. Snoek, "Dispersion and absorption in magnetic ferrites at frequencies above one Mc/s", Physica 14 (1948) ' +
  '207-217 (SI form from memory)'

export const snoekMethod = defineMethod<SnoekInputs, { readonly product: number; readonly resonance: number }>({
  id: 'snoek-limit',
  title: "Snoek's limit of a cubic ferrite",
  takes: {
    saturationMagnetisation: { unit: 'T', about: 'µ₀ M_s, close to the saturation flux density' },
    initialPermeability: { unit: '1', about: 'relative, at low frequency' },
  },
  gives: {
    product: { unit: 'Hz', print: 'GHz', about: '(µ_i − 1) times resonance: an upper limit' },
    resonance: { unit: 'Hz', print: 'MHz', about: 'highest frequency to which this permeability can hold' },
  },
  valid: { saturationMagnetisation: [0.1, 0.65], initialPermeability: [5, 20e3] },
  sources: [SNOEK],
  compute: snoekLimit,
})

/** Ranges and stand-ins by family. Common practice, from memory: what a stand-in replaces should be measured. */
export const CORE_DEFAULTS = {
  ferriteMagnetisation: { 'manganese-zinc': 0.5, 'nickel-zinc': 0.35 },
  tapeThickness: 20e-6,
  tapeResistivity: 1.2e-6,
  particleDiameter: 60e-6,
  particleResistivity: 1e-7,
  particlePermeability: 1000,
} as const

export type PermeabilityInputs = {
  family: CoreFamily
  initialPermeability: number
  frequency: number
  saturationMagnetisation?: number
  relaxationFrequency?: number
  thickness?: number
  resistivity?: number
}

export type ComplexPermeability = {
  readonly real: number
  readonly imaginary: number
  readonly magnitude: number
  /** Frequency near which the model falls [Hz]. */
  readonly corner: number
}

/**
 * Complex permeability µ′ − jµ″ against frequency, by a model for each family:
 *
 * - ferrites: relaxation 1 + (µ_i − 1)/(1 + jf/f_r), f_r from measurement, else Snoek's limit, which is a best case:
 *   real ferrites fall earlier, large manganese-zinc cores much earlier (dimensional resonance);
 * - nanocrystalline tape: eddy currents in the tape, µ_i tanh(z)/z with z = (1 + j)d/2δ;
 * - powder: eddy currents in round grains (Lewin's factor) in series with the gaps between them.
 *
 * @param family                  of the material
 * @param initialPermeability     of the core at low frequency [1], > 1
 * @param frequency               [Hz], > 0
 * @param saturationMagnetisation of a ferrite [T]; 0.5 (manganese-zinc) or 0.35 (nickel-zinc) if left out
 * @param relaxationFrequency     of a ferrite, measured [Hz]; Snoek's limit if left out
 * @param thickness               of the tape, or diameter of the grains [m]; 20 µm or 60 µm if left out
 * @param resistivity             of the metal [Ω m]; 1.2 µΩ m (tape) or 0.1 µΩ m (iron grains) if left out
 * @throws {DomainError} on a value out of its bounds
 *
 * @example complexPermeability({ family: 'nanocrystalline', initialPermeability: 30e3, frequency: 1e5 }).real // 20.5e3
 */
export function complexPermeability(inputs: PermeabilityInputs): ComplexPermeability {
  const { family, initialPermeability, frequency } = inputs
  requirePositive('complexPermeability', 'frequency', frequency)
  if (!(initialPermeability > 1 && Number.isFinite(initialPermeability)))
    throw new DomainError('complexPermeability', 'initialPermeability', initialPermeability, '> 1')
  const { value, corner } =
    family === 'nanocrystalline' ? tape(inputs) : family === 'powder' ? powder(inputs) : ferrite(inputs, family)
  return { real: value[0], imaginary: -value[1], magnitude: Math.hypot(...value), corner }
}

type Model = { readonly value: Phasor; readonly corner: number }

function ferrite(inputs: PermeabilityInputs, family: 'manganese-zinc' | 'nickel-zinc'): Model {
  const { initialPermeability, frequency } = inputs
  const magnetisation = inputs.saturationMagnetisation ?? CORE_DEFAULTS.ferriteMagnetisation[family]
  const limit = snoekLimit({ saturationMagnetisation: magnetisation, initialPermeability }).resonance
  const corner = inputs.relaxationFrequency ?? limit
  requirePositive('complexPermeability', 'relaxationFrequency', corner)
  return { value: plus([1, 0], over([initialPermeability - 1, 0], [1, frequency / corner])), corner }
}

/** Skin depth [m] of a metal of relative permeability. */
const depth = (resistivity: number, frequency: number, permeability: number): number =>
  Math.sqrt(resistivity / (Math.PI * frequency * MU0 * permeability))

function tape(inputs: PermeabilityInputs): Model {
  const { initialPermeability, frequency } = inputs
  const { thickness = CORE_DEFAULTS.tapeThickness, resistivity = CORE_DEFAULTS.tapeResistivity } = inputs
  requirePositive('complexPermeability', 'thickness', thickness)
  requirePositive('complexPermeability', 'resistivity', resistivity)
  const value = scaled(
    laminationFactor(thickness / depth(resistivity, frequency, initialPermeability)),
    initialPermeability,
  )
  return { value, corner: (4 * resistivity) / (Math.PI * MU0 * initialPermeability * thickness ** 2) }
}

/** tanh(z)/z, z = (1 + j)u/2, in real form; u is thickness over skin depth. */
function laminationFactor(u: number): Phasor {
  if (u > 40) return [1 / u, -1 / u]
  // Below that the difference of the sines is its series, which does not cancel.
  if (u < 1e-2) return [1 - u ** 4 / 30, -(u ** 2) / 6]
  const below = u * (Math.cosh(u) + Math.cos(u))
  return [(Math.sinh(u) + Math.sin(u)) / below, -(Math.sinh(u) - Math.sin(u)) / below]
}

function powder(inputs: PermeabilityInputs): Model {
  const { initialPermeability, frequency } = inputs
  const { thickness = CORE_DEFAULTS.particleDiameter, resistivity = CORE_DEFAULTS.particleResistivity } = inputs
  requirePositive('complexPermeability', 'thickness', thickness)
  requirePositive('complexPermeability', 'resistivity', resistivity)
  const grain = Math.max(CORE_DEFAULTS.particlePermeability, 2 * initialPermeability)
  const radius = thickness / 2
  const ratio = radius / depth(resistivity, frequency, grain)
  const metal = over([1, 0], scaled(grainFactor([ratio, -ratio]), grain))
  const gaps: Phasor = [1 / initialPermeability - 1 / grain, 0]
  // Where the skin depth of the grain has shrunk so far that its share equals that of the gaps.
  const corner = (resistivity / (Math.PI * MU0 * grain * radius ** 2)) * (grain / initialPermeability) ** 2
  return { value: over([1, 0], plus(metal, gaps)), corner }
}

/** Lewin's factor of a round grain, 2(1 − θ cot θ)/(θ² − 1 + θ cot θ), θ = (1 − j)a/δ. */
function grainFactor(theta: Phasor): Phasor {
  const square = times(theta, theta)
  const g = oneLessThetaCot(theta, square)
  return over(scaled(g, 2), minus(square, g))
}

function oneLessThetaCot(theta: Phasor, square: Phasor): Phasor {
  if (Math.hypot(...theta) < 0.5) {
    const series = [1 / 3, 1 / 45, 2 / 945, 1 / 4725, 2 / 93555]
    return times(
      square,
      series.reduceRight<Phasor>((sum, term) => plus(times(sum, square), [term, 0]), [0, 0]),
    )
  }
  // cot θ = j(1 + w)/(1 − w), w = exp(−2jθ), which vanishes deep in the metal instead of overflowing.
  const decay = Math.exp(2 * theta[1])
  const w: Phasor = [decay * Math.cos(2 * theta[0]), -decay * Math.sin(2 * theta[0])]
  return minus([1, 0], times(theta, times([0, 1], over(plus([1, 0], w), minus([1, 0], w)))))
}

export const complexPermeabilityMethod = defineMethod<PermeabilityInputs, ComplexPermeability>({
  id: 'complex-permeability',
  title: 'Complex permeability against frequency by material family',
  takes: {
    family: { words: CORE_FAMILIES, about: 'of the core material' },
    initialPermeability: { unit: '1', about: 'of the core at low frequency' },
    frequency: { unit: 'Hz', about: 'at which it is asked' },
    saturationMagnetisation: { unit: 'T', optional: true, about: 'ferrite; 0.5 or 0.35 T stand in' },
    relaxationFrequency: { unit: 'Hz', optional: true, about: "ferrite, measured; Snoek's limit stands in" },
    thickness: { unit: 'm', optional: true, about: 'of the tape or diameter of the grains; 20 or 60 µm stand in' },
    resistivity: { unit: 'Ohm.m', optional: true, about: 'of the metal; 1.2 or 0.1 µΩ m stand in' },
  },
  gives: {
    real: { unit: '1', print: '1', about: "µ', the storing part" },
    imaginary: { unit: '1', print: '1', about: "µ'', the losing part, positive" },
    magnitude: { unit: '1', print: '1', about: 'size of both' },
    corner: { unit: 'Hz', print: 'kHz', about: 'near which the model falls' },
  },
  valid: { initialPermeability: [5, 2e5], frequency: [100, 1e9] },
  sources: [
    SNOEK,
    'eddy currents in a lamination: plane diffusion of the field (textbook)',
    'eddy currents in round grains: L. Lewin, J. IEE 94 III (1947) 65-68 (from memory)',
    'stand-in values: common practice, from memory; a model of the family, not of a grade',
  ],
  compute: complexPermeability,
})

export const coreMaterialMethods = [snoekMethod, complexPermeabilityMethod] as const
