import { MAGNETIC_CONSTANT } from './bar-mutual-pair.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'

export type SkinDepthInputs = { conductivity: number; frequency: number; relativePermeability?: number }

/**
 * Depth at which current density in a thick conductor has fallen to 1/e: δ = 1/√(π f µ σ).
 *
 * @param conductivity         [S/m], > 0
 * @param frequency            [Hz], > 0
 * @param relativePermeability [1], > 0; 1 if left out
 * @returns [m]
 * @throws {DomainError} on a value of zero or less
 *
 * @example skinDepth({ conductivity: 58e6, frequency: 1e5 }) // 0.20898e-3
 */
export function skinDepth({ conductivity, frequency, relativePermeability = 1 }: SkinDepthInputs): number {
  requirePositive('skinDepth', 'conductivity', conductivity)
  requirePositive('skinDepth', 'frequency', frequency)
  requirePositive('skinDepth', 'relativePermeability', relativePermeability)
  return 1 / Math.sqrt(Math.PI * frequency * MAGNETIC_CONSTANT * relativePermeability * conductivity)
}

export type ResistanceInputs = {
  width: number
  thickness: number
  length: number
  resistivity: number
  temperatureCoefficient?: number
  temperature?: number
  referenceTemperature?: number
}

/** Room temperature to which resistivities of metals are stated [K]. */
const REFERENCE = 293.15

/**
 * DC resistance of a straight bar or printed trace: R = ρ l/(w t) (1 + α (T − T₀)).
 *
 * @param width, thickness, length [m], > 0
 * @param resistivity            at the reference temperature [Ohm.m], > 0
 * @param temperatureCoefficient α [1/K]; 0 if left out; annealed copper 0.00393
 * @param temperature            [K]; the reference if left out
 * @param referenceTemperature   T₀ [K]; 293.15 if left out
 * @returns [Ohm]
 * @throws {DomainError} on a size or resistivity of zero or less, or a temperature at which none would be left
 *
 * @example barResistance({ width: 0.02, thickness: 0.002, length: 0.1, resistivity: 1.7241e-8 }) // 43.1025e-6
 */
export function barResistance(inputs: ResistanceInputs): number {
  const { width, thickness, length, resistivity } = inputs
  for (const [name, value] of Object.entries({ width, thickness, length, resistivity })) {
    requirePositive('barResistance', name, value)
  }
  const { temperatureCoefficient = 0, referenceTemperature = REFERENCE } = inputs
  const { temperature = referenceTemperature } = inputs
  requirePositive('barResistance', 'temperature', temperature)
  const warm = 1 + temperatureCoefficient * (temperature - referenceTemperature)
  if (!(warm > 0)) throw new DomainError('barResistance', 'temperature', temperature, 'one that leaves some resistance')
  return ((resistivity * length) / (width * thickness)) * warm
}

export type WidePairInputs = { width: number; thickness: number; gap: number; conductivity: number; frequency: number }
export type PairImpedance = {
  /** Go and return, per length [Ohm/m]. */
  readonly resistancePerLength: number
  /** Go and return, per length [H/m]. */
  readonly inductancePerLength: number
}

/**
 * Go-and-return pair of plates against frequency, one-dimensional (no fringing), exact:
 *
 *     Z′ = jω µ₀ g/w + 2γ/(σ w) coth(γ t),   γ = (1 + j)/δ
 *
 * @param width, thickness, gap [m]; gap ≥ 0, others > 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @throws {DomainError} on an impossible size, conductivity or frequency
 *
 * @example widePairImpedance({ width: 0.06, thickness: 1e-3, gap: 5e-4, conductivity: 58e6, frequency: 1e5 })
 * // { resistancePerLength: 2.74964e-3, inductancePerLength: 14.8483e-9 }
 */
export function widePairImpedance({ width, thickness, gap, conductivity, frequency }: WidePairInputs): PairImpedance {
  for (const [name, value] of Object.entries({ width, thickness, conductivity })) {
    requirePositive('widePairImpedance', name, value)
  }
  requireNonNegative('widePairImpedance', 'gap', gap)
  requireNonNegative('widePairImpedance', 'frequency', frequency)
  const outside = (MAGNETIC_CONSTANT * gap) / width
  const dc = 2 / (conductivity * width * thickness)
  if (frequency === 0) {
    const inside = (MAGNETIC_CONSTANT * 2 * thickness) / (3 * width)
    return { resistancePerLength: dc, inductancePerLength: outside + inside }
  }
  const depths = thickness / skinDepth({ conductivity, frequency })
  const { re, im } = slabRatio(depths)
  return { resistancePerLength: dc * re, inductancePerLength: outside + (dc * im) / (2 * Math.PI * frequency) }
}

/** γt coth(γt) at γt = (1 + j)·depths. */
function slabRatio(depths: number): { re: number; im: number } {
  if (depths < 0.02) {
    // Power series 1 + u²/3 − u⁴/45, u² = 2j depths²: the closed form would subtract equal numbers here.
    const square = 2 * depths * depths
    return { re: 1 + (square * square) / 45, im: square / 3 }
  }
  const twice = 2 * depths
  const decay = Math.exp(-2 * twice)
  // (sinh 2d ∓ sin 2d)/(cosh 2d − cos 2d), top and bottom times 2e^(−2d)
  const bottom = 1 + decay - 2 * Math.exp(-twice) * Math.cos(twice)
  const sine = 2 * Math.exp(-twice) * Math.sin(twice)
  return { re: (depths * (1 - decay + sine)) / bottom, im: (depths * (1 - decay - sine)) / bottom }
}

const CONDUCTIVITY = {
  unit: 'S/m',
  about: 'conductivity at working temperature; annealed copper 58 MS/m at 20 °C',
} as const

export const skinDepthMethod = defineMethod<SkinDepthInputs, { skinDepth: number }>({
  id: 'skin-depth',
  title: 'Skin depth',
  takes: {
    conductivity: CONDUCTIVITY,
    frequency: { unit: 'Hz', about: 'frequency of a sinusoidal current' },
    relativePermeability: { unit: '1', optional: true, about: '1 if left out' },
  },
  gives: { skinDepth: { unit: 'm', print: 'mm', about: 'depth at which current density has fallen to 1/e' } },
  valid: { frequency: [1, 1e9] },
  sources: ['one-dimensional diffusion of a sinusoidal field into metal (textbook)'],
  compute: (inputs) => ({ skinDepth: skinDepth(inputs) }),
})

export const barResistanceMethod = defineMethod<ResistanceInputs, { resistance: number }>({
  id: 'bar-resistance',
  title: 'DC resistance of a bar or trace',
  takes: {
    width: { unit: 'm', about: 'width of the section' },
    thickness: { unit: 'm', about: 'thickness of the section' },
    length: { unit: 'm', about: 'length along the current' },
    resistivity: { unit: 'Ohm.m', about: 'at the reference temperature; annealed copper 17.241 nOhm.m at 20 °C' },
    temperatureCoefficient: { unit: '1/K', optional: true, about: 'annealed copper 0.00393 1/K; 0 if left out' },
    temperature: { unit: 'K', optional: true, about: 'of the metal; the reference temperature if left out' },
    referenceTemperature: { unit: 'K', optional: true, about: 'of the resistivity; 20 °C if left out' },
  },
  gives: { resistance: { unit: 'Ohm', print: 'uOhm', about: 'DC resistance' } },
  valid: { temperature: [223.15, 473.15] },
  sources: ['R = ρ l/A, linear in temperature; copper values IEC 60028 (from memory)'],
  compute: (inputs) => ({ resistance: barResistance(inputs) }),
})

export const widePlateSkin = defineMethod<WidePairInputs, PairImpedance>({
  id: 'wide-plate-skin',
  title: 'Wide plate pair against frequency, without fringing',
  takes: {
    width: { unit: 'm', about: 'width of each plate' },
    thickness: { unit: 'm', about: 'thickness of each plate' },
    gap: { unit: 'm', about: 'gap between the faces' },
    conductivity: CONDUCTIVITY,
    frequency: { unit: 'Hz', about: 'frequency of a sinusoidal current' },
  },
  gives: {
    resistancePerLength: { unit: 'Ohm/m', print: 'mOhm/m', about: 'go and return, per length' },
    inductancePerLength: {
      unit: 'H/m',
      print: 'nH/m',
      about: 'go and return, per length; an upper estimate for a real pair',
    },
  },
  valid: { frequency: [0, 1e9] },
  sources: ['one-dimensional diffusion between and into two plates (textbook), exact where they are infinitely wide'],
  compute: widePairImpedance,
})

export const skinEffectMethods = [skinDepthMethod, barResistanceMethod, widePlateSkin] as const
