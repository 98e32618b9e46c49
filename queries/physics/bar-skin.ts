import { barSelfInductance } from './bar-inductance.ts'
import { MAGNETIC_CONSTANT } from './bar-mutual-pair.ts'
import type { Image } from './filament-solve.ts'
import { NO_IMAGE } from './filament-solve.ts'
import { barsImpedance, farReturnOf } from './filaments.ts'
import { coplanarPairInductance, laminatedPairInductance } from './laminated.ts'
import { meanLog } from './mean-log.ts'
import { defineMethod, requireNonNegative, requirePositive } from './method.ts'
import type { Rectangle } from './perfect-conductor.ts'

const FLIP_X: Image = { flipX: true, flipY: false, sign: 1 }
const FLIP_Y: Image = { flipX: false, flipY: true, sign: 1 }
const FLIP_BOTH: Image = { flipX: true, flipY: true, sign: 1 }
const opposite = (image: Image): Image => ({ ...image, sign: -1 })

export const ARRANGEMENTS = ['laminated', 'coplanar'] as const
export type Arrangement = (typeof ARRANGEMENTS)[number]

export type PairSkinInputs = {
  arrangement: Arrangement
  width: number
  thickness: number
  gap: number
  conductivity: number
  frequency: number
  length?: number
}

export type PairSkin = {
  /** Go and return [Ohm/m], or [Ohm] where a length is given. */
  readonly resistance: number
  /** Go and return [H/m], or [H] where a length is given. */
  readonly inductance: number
  readonly resistanceError: number
  readonly inductanceError: number
}

/**
 * Resistance and inductance of two equal bars, there and back, at a frequency: face to face (laminated) or side by side
 * in one plane (coplanar), skin and proximity effect by filaments. Direct current is answered exactly.
 *
 * @param arrangement  laminated: gap from face to face; coplanar: from edge to edge
 * @param width, thickness of each bar [m], > 0
 * @param gap          between the bars [m], ≥ 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @param length       of the pair, ends not closed [m]; per length without ends if left out
 * @returns with the change by the last refinement of the mesh, relative [1]
 * @throws {DomainError} on an impossible size, conductivity or frequency
 *
 * @example
 * pairSkinEffect({ arrangement: 'laminated', width: 0.02, thickness: 1e-3, gap: 5e-4, conductivity: 58e6, frequency: 1e5 })
 * // { resistance: 7.39e-3, inductance: 41.34e-9, … }
 */
export function pairSkinEffect(inputs: PairSkinInputs): PairSkin {
  const { arrangement, width, thickness, gap, conductivity, frequency, length } = inputs
  for (const [name, value] of Object.entries({ width, thickness, conductivity })) {
    requirePositive('pairSkinEffect', name, value)
  }
  requireNonNegative('pairSkinEffect', 'gap', gap)
  requireNonNegative('pairSkinEffect', 'frequency', frequency)
  if (frequency === 0) return directPair(inputs)
  const stacked = arrangement === 'laminated'
  const bar = stacked
    ? { x: 0, y: (gap + thickness) / 2, width, thickness }
    : { x: (gap + width) / 2, y: 0, width, thickness }
  const same = stacked ? FLIP_X : FLIP_Y
  const other = stacked ? FLIP_Y : FLIP_X
  const found = barsImpedance({
    bars: [bar],
    images: [NO_IMAGE, same, opposite(other), opposite(FLIP_BOTH)],
    halfX: stacked,
    halfY: !stacked,
    conductivity,
    frequency,
    ...(length === undefined ? {} : { length }),
  })
  // Voltages of both bars add up; each carries twice the current of its half.
  return {
    resistance: found.resistance[0] as number,
    inductance: found.inductance[0] as number,
    resistanceError: found.resistanceError,
    inductanceError: found.inductanceError,
  }
}

function directPair(inputs: PairSkinInputs): PairSkin {
  const { arrangement, width, thickness, gap, conductivity, length } = inputs
  const pair = arrangement === 'laminated' ? laminatedPairInductance : coplanarPairInductance
  const { loop, loopPerLength } = pair({ width, thickness, gap, length: length ?? 1 })
  return {
    resistance: (2 * (length ?? 1)) / (conductivity * width * thickness),
    inductance: length === undefined ? loopPerLength : loop,
    resistanceError: 0,
    inductanceError: 0,
  }
}

export type BarSkinInputs = {
  width: number
  thickness: number
  conductivity: number
  frequency: number
  length?: number
}

export type BarSkin = {
  /** [Ohm/m], or [Ohm] where a length is given */
  readonly resistance: number
  /** Over the DC resistance [1]. */
  readonly resistanceRatio: number
  /** By how much the inductance is below its DC value [H/m], or [H] where a length is given. */
  readonly inductanceDrop: number
  /** Partial inductance [H]; only where a length is given, as an endless bar has none. */
  readonly inductance?: number
  readonly resistanceError: number
  readonly inductanceError: number
}

/**
 * Resistance of one straight bar at a frequency, and how far its inductance has fallen below that of direct current, by
 * filaments; return far away. What the fall is does not depend on where the return runs.
 *
 * @param width, thickness [m], > 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @param length       [m]; per length without ends if left out
 * @throws {DomainError} on an impossible size, conductivity or frequency
 *
 * @example barSkinEffect({ width: 0.01, thickness: 1e-3, conductivity: 58e6, frequency: 1e5 }).resistanceRatio // 3.361
 */
export function barSkinEffect({ width, thickness, conductivity, frequency, length }: BarSkinInputs): BarSkin {
  for (const [name, value] of Object.entries({ width, thickness, conductivity })) {
    requirePositive('barSkinEffect', name, value)
  }
  requireNonNegative('barSkinEffect', 'frequency', frequency)
  const bar = { x: 0, y: 0, width, thickness }
  const direct = directBar(bar, conductivity, length)
  if (frequency === 0) return answer(direct, direct, length, { resistanceError: 0, inductanceError: 0 })
  const found = barsImpedance({
    bars: [bar],
    images: [NO_IMAGE, FLIP_X, FLIP_Y, FLIP_BOTH],
    halfX: true,
    halfY: true,
    conductivity,
    frequency,
    ...(length === undefined ? {} : { length }),
  })
  // Four quarters side by side carry the current of the bar.
  const quarter = { resistance: found.resistance[0] as number, inductance: found.inductance[0] as number }
  return answer(direct, { resistance: quarter.resistance / 4, inductance: quarter.inductance / 4 }, length, found)
}

type Impedance = { readonly resistance: number; readonly inductance: number }
type Errors = { readonly resistanceError: number; readonly inductanceError: number }

function answer(direct: Impedance, found: Impedance, length: number | undefined, errors: Errors): BarSkin {
  return {
    resistance: found.resistance,
    resistanceRatio: found.resistance / direct.resistance,
    inductanceDrop: direct.inductance - found.inductance,
    ...(length === undefined ? {} : { inductance: found.inductance }),
    resistanceError: errors.resistanceError,
    inductanceError: errors.inductanceError,
  }
}

function directBar(bar: Rectangle, conductivity: number, length?: number): Impedance {
  const { width, thickness } = bar
  const resistance = (length ?? 1) / (conductivity * width * thickness)
  if (length !== undefined) return { resistance, inductance: barSelfInductance({ width, thickness, length }) }
  const span = (size: number) => ({ first: size, second: size, offset: 0 })
  const log = meanLog({ x: span(width), y: span(thickness) })
  return { resistance, inductance: (MAGNETIC_CONSTANT / (2 * Math.PI)) * (Math.log(farReturnOf([bar])) - log) }
}

const COMMON = {
  width: { unit: 'm', about: 'width of each bar' },
  thickness: { unit: 'm', about: 'thickness of each bar' },
  conductivity: { unit: 'S/m', about: 'conductivity at working temperature; annealed copper 58 MS/m at 20 °C' },
  frequency: { unit: 'Hz', about: 'frequency of a sinusoidal current; 0 for direct current' },
} as const

const ERRORS = {
  resistanceError: { unit: '1', print: '%', about: 'relative change of resistance by the last refinement' },
  inductanceError: { unit: '1', print: '%', about: 'relative change of inductance by the last refinement' },
} as const

const SOURCES = ['filaments with self and mutual inductance, quasi-static, μ_r = 1; two meshes, extrapolated']

export const pairSkin = defineMethod<Omit<PairSkinInputs, 'length'>, PairSkin>({
  id: 'bar-pair-skin',
  title: 'Go-and-return bars against frequency, per length',
  takes: {
    arrangement: { words: ARRANGEMENTS, about: 'face to face (laminated) or side by side in one plane (coplanar)' },
    ...COMMON,
    gap: { unit: 'm', about: 'between faces (laminated) or edges (coplanar)' },
  },
  gives: {
    resistance: { unit: 'Ohm/m', print: 'mOhm/m', about: 'go and return, per length' },
    inductance: { unit: 'H/m', print: 'nH/m', about: 'go and return, per length' },
    ...ERRORS,
  },
  valid: { frequency: [0, 1e7], resistanceError: [0, 0.01], inductanceError: [0, 0.01] },
  sources: SOURCES,
  compute: pairSkinEffect,
})

export const barSkin = defineMethod<Omit<BarSkinInputs, 'length'>, Omit<BarSkin, 'inductance'>>({
  id: 'bar-skin',
  title: 'Skin effect of one bar, per length',
  takes: COMMON,
  gives: {
    resistance: { unit: 'Ohm/m', print: 'mOhm/m', about: 'resistance per length' },
    resistanceRatio: { unit: '1', print: '1', about: 'resistance over DC resistance' },
    inductanceDrop: {
      unit: 'H/m',
      print: 'nH/m',
      about: 'DC inductance less inductance at this frequency, per length',
    },
    ...ERRORS,
  },
  valid: { frequency: [0, 1e7], resistanceError: [0, 0.01], inductanceError: [0, 0.01] },
  sources: SOURCES,
  compute: barSkinEffect,
})

export const barSkinMethods = [pairSkin, barSkin] as const
