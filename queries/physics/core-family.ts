import { CORE_FAMILIES, type CoreFamily, complexPermeability, snoekLimit } from './core-material.ts'
import { DomainError, defineMethod, requirePositive } from './method.ts'

type Range = readonly [low: number, high: number]

/**
 * What cores of each family are like, wide on purpose: outside of it the family is ruled out. Common practice, from
 * memory. Density is that of the core as a body: a tape-wound one has air between its turns.
 */
export const FAMILY_RANGES: Readonly<
  Record<CoreFamily, { permeability: Range; density: Range; saturation: Range; resistivity: Range }>
> = {
  'manganese-zinc': {
    permeability: [400, 20e3],
    density: [4400, 5100],
    saturation: [0.25, 0.6],
    resistivity: [0.01, 50],
  },
  'nickel-zinc': {
    permeability: [8, 3000],
    density: [4000, 5400],
    saturation: [0.15, 0.48],
    resistivity: [1e3, 1e11],
  },
  nanocrystalline: {
    permeability: [200, 250e3],
    density: [4700, 7400],
    saturation: [1.1, 1.35],
    resistivity: [0.9e-6, 1.4e-6],
  },
  powder: { permeability: [3, 600], density: [4500, 8400], saturation: [0.5, 2], resistivity: [1e-6, 1e11] },
}

/** Thinnest tape and highest resistivity in use: with both, permeability holds longest (common practice, from memory). */
const BEST_TAPE = { thickness: 13e-6, resistivity: 1.35e-6 }

export type CoreFactsInputs = {
  permeability?: number
  density?: number
  saturation?: number
  resistivity?: number
  frequency?: number
  retained?: number
}

export type FamilyVerdict = { readonly family: CoreFamily; readonly against: readonly string[] }

/**
 * Which material families the recorded facts leave possible. A family falls out when a fact lies outside its range, or
 * when permeability held up at a frequency at which physics would not let it: Snoek's limit for ferrites, eddy currents
 * in the thinnest tape in use for nanocrystalline cores. What is not recorded rules nothing out.
 *
 * @param permeability relative, at low frequency [1], > 1
 * @param density      of the bare core as a body [kg/m³], > 0
 * @param saturation   flux density [T], > 0
 * @param resistivity  between two points of the bare surface [Ω m], > 0
 * @param frequency    a higher frequency at which it was measured too [Hz], > 0
 * @param retained     permeability there over that at low frequency [1], > 0
 * @returns each family with what speaks against it: none means possible
 * @throws {DomainError} without any fact, on a value of zero or less, or frequency and retained not both given
 *
 * @example familyVerdicts({ permeability: 60, density: 6100 }).filter((one) => one.against.length === 0).map((one) => one.family) // ['powder']
 */
export function familyVerdicts(facts: CoreFactsInputs): readonly FamilyVerdict[] {
  const given = Object.entries(facts).filter(([, value]) => value !== undefined)
  if (given.length === 0) throw new DomainError('familyVerdicts', 'permeability', undefined, 'given, or another fact')
  for (const [name, value] of given) requirePositive('familyVerdicts', name, value)
  if ((facts.frequency === undefined) !== (facts.retained === undefined))
    throw new DomainError('familyVerdicts', 'retained', facts.retained, 'given together with frequency')
  return CORE_FAMILIES.map((family) => ({ family, against: [...outside(family, facts), ...heldUp(family, facts)] }))
}

function outside(family: CoreFamily, facts: CoreFactsInputs): readonly string[] {
  const ranges = FAMILY_RANGES[family]
  const units = { permeability: '', density: ' kg/m³', saturation: ' T', resistivity: ' Ω m' } as const
  return (Object.keys(units) as (keyof typeof units)[]).flatMap((name) => {
    const value = facts[name]
    const [low, high] = ranges[name]
    if (value === undefined || (value >= low && value <= high)) return []
    return [`${name} ${format(value)}${units[name]} is outside ${format(low)} … ${format(high)}${units[name]}`]
  })
}

const format = (value: number): string => String(Number(value.toPrecision(4)))

function heldUp(family: CoreFamily, facts: CoreFactsInputs): readonly string[] {
  const { permeability, frequency, retained } = facts
  if (permeability === undefined || frequency === undefined || retained === undefined) return []
  const best = bestRetained(family, permeability, frequency)
  // A tenth of slack: the meter, and the low-frequency value taken as the initial one.
  if (retained <= best * 1.1) return []
  return [
    `${format(100 * retained)} % left at ${format(frequency / 1e3)} kHz, at most ${format(100 * best)} % possible`,
  ]
}

/** The most that a family can keep of its permeability; powder has no such limit here. */
function bestRetained(family: CoreFamily, initialPermeability: number, frequency: number): number {
  if (family === 'powder' || initialPermeability <= 1) return Number.POSITIVE_INFINITY
  if (family === 'nanocrystalline')
    return complexPermeability({ family, initialPermeability, frequency, ...BEST_TAPE }).magnitude / initialPermeability
  const saturationMagnetisation = FAMILY_RANGES[family].saturation[1]
  const { product } = snoekLimit({ saturationMagnetisation, initialPermeability })
  return Math.min(1, (1 + product / frequency) / initialPermeability)
}

export const coreFamilyMethod = defineMethod<
  CoreFactsInputs,
  { readonly possible: readonly CoreFamily[]; readonly against: readonly string[] }
>({
  id: 'core-family',
  title: 'Material families that the recorded facts of a core leave possible',
  takes: {
    permeability: { unit: '1', optional: true, about: 'relative, at low frequency' },
    density: { unit: 'kg/m3', optional: true, about: 'of the bare core as a body' },
    saturation: { unit: 'T', optional: true, about: 'flux density' },
    resistivity: { unit: 'Ohm.m', optional: true, about: 'between two points of the bare surface' },
    frequency: { unit: 'Hz', optional: true, about: 'a higher frequency at which it was measured too' },
    retained: { unit: '1', optional: true, about: 'permeability there over that at low frequency' },
  },
  gives: {
    possible: { unit: '1', print: '1', about: 'families that nothing speaks against' },
    against: { unit: '1', print: '1', about: 'what rules the others out' },
  },
  sources: ['ranges by family: common practice, from memory', "Snoek's limit; eddy currents in a tape"],
  compute: (facts) => {
    const verdicts = familyVerdicts(facts)
    return {
      possible: verdicts.filter(({ against }) => against.length === 0).map(({ family }) => family),
      against: verdicts.flatMap(({ family, against }) => against.map((why) => `${family}: ${why}`)),
    }
  },
})

export const coreFamilyMethods = [coreFamilyMethod] as const
