import { barSelfInductance } from './bar-inductance.ts'
import { MAGNETIC_CONSTANT } from './bar-mutual-pair.ts'
import type { Image } from './filament-solve.ts'
import { NO_IMAGE } from './filament-solve.ts'
import type { CheckedImpedance } from './filaments.ts'
import { barsImpedance, farReturnOf } from './filaments.ts'
import { coplanarPairInductance, laminatedPairInductance } from './laminated.ts'
import { meanLog } from './mean-log.ts'
import { defineMethod, requireNonNegative, requirePositive } from './method.ts'

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
}

/** What the last refinement of the mesh left open, relative [1]. */
type MeshErrors = { readonly resistanceError: number; readonly inductanceError: number }

type Impedance = MeshErrors & { readonly resistance: number; readonly inductance: number }

export type PairSkin = MeshErrors & {
  /** Go and return [Ohm/m]. */
  readonly resistancePerLength: number
  /** Go and return [H/m]. */
  readonly inductancePerLength: number
}

/**
 * Resistance and inductance per length of two equal endless bars, there and back, at a frequency: face to face
 * (laminated) or side by side in one plane (coplanar), skin and proximity effect by filaments. Direct current is
 * answered exactly.
 *
 * @param arrangement  laminated: gap from face to face; coplanar: from edge to edge
 * @param width, thickness of each bar [m], > 0
 * @param gap          between the bars [m], ≥ 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @throws {DomainError} on an impossible size, conductivity or frequency
 *
 * @example
 * pairSkinEffect({ arrangement: 'laminated', width: 0.02, thickness: 1e-3, gap: 5e-4, conductivity: 58e6, frequency: 1e5 })
 * // { resistancePerLength: 7.39e-3, inductancePerLength: 41.34e-9, … }
 */
export function pairSkinEffect(inputs: PairSkinInputs): PairSkin {
  const { resistance, inductance, ...errors } = pairImpedance(inputs)
  return { resistancePerLength: resistance, inductancePerLength: inductance, ...errors }
}

export type PairSkinOfLength = Impedance

/**
 * The same for bars of a length, their ends not closed: go-and-return resistance [Ohm] and inductance [H].
 *
 * @param length [m], > 0
 * @see pairSkinEffect
 */
export function pairSkinOfLength({ length, ...pair }: PairSkinInputs & { length: number }): PairSkinOfLength {
  requirePositive('pairSkinOfLength', 'length', length)
  return pairImpedance(pair, length)
}

function pairImpedance(inputs: PairSkinInputs, length?: number): Impedance {
  const { arrangement, width, thickness, gap, conductivity, frequency } = inputs
  for (const [name, value] of Object.entries({ width, thickness, conductivity })) {
    requirePositive('pairSkinEffect', name, value)
  }
  requireNonNegative('pairSkinEffect', 'gap', gap)
  requireNonNegative('pairSkinEffect', 'frequency', frequency)
  if (frequency === 0) return directPair(inputs, length)
  const stacked = arrangement === 'laminated'
  const bar = stacked
    ? { x: 0, y: (gap + thickness) / 2, width, thickness }
    : { x: (gap + width) / 2, y: 0, width, thickness }
  const same = stacked ? FLIP_X : FLIP_Y
  const other = stacked ? FLIP_Y : FLIP_X
  // Voltages of both bars add up, and each carries twice the current of its half: the two factors cancel.
  return single(
    barsImpedance({
      bars: [bar],
      images: [NO_IMAGE, same, opposite(other), opposite(FLIP_BOTH)],
      halfX: stacked,
      halfY: !stacked,
      conductivity,
      frequency,
      ...(length === undefined ? {} : { length }),
    }),
  )
}

function directPair({ arrangement, width, thickness, gap, conductivity }: PairSkinInputs, length?: number): Impedance {
  const pair = arrangement === 'laminated' ? laminatedPairInductance : coplanarPairInductance
  const { loop, loopPerLength } = pair({ width, thickness, gap, length: length ?? 1 })
  const resistance = (2 * (length ?? 1)) / (conductivity * width * thickness)
  return { resistance, inductance: length === undefined ? loopPerLength : loop, ...EXACT }
}

const EXACT: MeshErrors = { resistanceError: 0, inductanceError: 0 }

/** The only coefficient of one bar and its images. */
function single({ resistance, inductance, resistanceError, inductanceError }: CheckedImpedance): Impedance {
  return {
    resistance: resistance[0] as number,
    inductance: inductance[0] as number,
    resistanceError,
    inductanceError,
  }
}

export type BarSkinInputs = { width: number; thickness: number; conductivity: number; frequency: number }

export type BarSkin = MeshErrors & {
  /** [Ohm/m] */
  readonly resistancePerLength: number
  /** Over the DC resistance [1]. */
  readonly resistanceRatio: number
  /** By how much the inductance is below its DC value [H/m]. */
  readonly inductanceDropPerLength: number
}

/**
 * Resistance of one straight endless bar at a frequency, and how far its inductance has fallen below that of direct
 * current, by filaments; return far away. How far it falls does not depend on where the return runs.
 *
 * @param width, thickness [m], > 0
 * @param conductivity [S/m], > 0
 * @param frequency    [Hz], ≥ 0
 * @throws {DomainError} on an impossible size, conductivity or frequency
 *
 * @example barSkinEffect({ width: 0.01, thickness: 1e-3, conductivity: 58e6, frequency: 1e5 }).resistanceRatio // 3.361
 */
export function barSkinEffect(inputs: BarSkinInputs): BarSkin {
  const { resistance, inductance, ...errors } = barImpedance(inputs)
  const direct = directBar(inputs)
  return {
    resistancePerLength: resistance,
    resistanceRatio: resistance / direct.resistance,
    inductanceDropPerLength: direct.inductance - inductance,
    ...errors,
  }
}

/**
 * Resistance [Ohm] and partial inductance [H] of one straight bar of a length at a frequency, by filaments.
 *
 * @param length [m], > 0
 * @see barSkinEffect
 */
export function barSkinOfLength({ length, ...bar }: BarSkinInputs & { length: number }): Impedance {
  requirePositive('barSkinOfLength', 'length', length)
  return barImpedance(bar, length)
}

function barImpedance(inputs: BarSkinInputs, length?: number): Impedance {
  const { width, thickness, conductivity, frequency } = inputs
  for (const [name, value] of Object.entries({ width, thickness, conductivity })) {
    requirePositive('barSkinEffect', name, value)
  }
  requireNonNegative('barSkinEffect', 'frequency', frequency)
  if (frequency === 0) return directBar(inputs, length)
  const quarter = single(
    barsImpedance({
      bars: [{ x: 0, y: 0, width, thickness }],
      images: [NO_IMAGE, FLIP_X, FLIP_Y, FLIP_BOTH],
      halfX: true,
      halfY: true,
      conductivity,
      frequency,
      ...(length === undefined ? {} : { length }),
    }),
  )
  // Four quarters side by side carry the current of the bar.
  return { ...quarter, resistance: quarter.resistance / 4, inductance: quarter.inductance / 4 }
}

function directBar({ width, thickness, conductivity }: BarSkinInputs, length?: number): Impedance {
  const resistance = (length ?? 1) / (conductivity * width * thickness)
  if (length !== undefined) return { resistance, inductance: barSelfInductance({ width, thickness, length }), ...EXACT }
  const span = (size: number) => ({ first: size, second: size, offset: 0 })
  const log =
    Math.log(farReturnOf([{ x: 0, y: 0, width, thickness }])) - meanLog({ x: span(width), y: span(thickness) })
  return { resistance, inductance: (MAGNETIC_CONSTANT / (2 * Math.PI)) * log, ...EXACT }
}

const COMMON = {
  width: { unit: 'm', about: 'width of each bar' },
  thickness: { unit: 'm', about: 'thickness of each bar' },
  conductivity: { unit: 'S/m', about: 'conductivity at working temperature; annealed copper 58 MS/m at 20 °C' },
  frequency: { unit: 'Hz', about: 'frequency of a sinusoidal current; 0 for direct current' },
} as const

const PAIR = {
  arrangement: { words: ARRANGEMENTS, about: 'face to face (laminated) or side by side in one plane (coplanar)' },
  ...COMMON,
  gap: { unit: 'm', about: 'between faces (laminated) or edges (coplanar)' },
} as const

const ERRORS = {
  resistanceError: { unit: '1', print: '%', about: 'relative change of resistance by the last refinement' },
  inductanceError: { unit: '1', print: '%', about: 'relative change of inductance by the last refinement' },
} as const

const SOURCES = ['filaments with self and mutual inductance, quasi-static, μ_r = 1; two meshes, extrapolated']
const VALID = { frequency: [0, 1e7], resistanceError: [0, 0.01], inductanceError: [0, 0.01] } as const

export const pairSkin = defineMethod<PairSkinInputs, PairSkin>({
  id: 'bar-pair-skin',
  title: 'Go-and-return bars against frequency, per length',
  takes: PAIR,
  gives: {
    resistancePerLength: { unit: 'Ohm/m', print: 'mOhm/m', about: 'go and return, per length' },
    inductancePerLength: { unit: 'H/m', print: 'nH/m', about: 'go and return, per length' },
    ...ERRORS,
  },
  valid: VALID,
  sources: SOURCES,
  compute: pairSkinEffect,
})

export const pairSkinLength = defineMethod<PairSkinInputs & { length: number }, PairSkinOfLength>({
  id: 'bar-pair-skin-length',
  title: 'Go-and-return bars of a length against frequency',
  takes: { ...PAIR, length: { unit: 'm', about: 'length of both bars; ends are not closed' } },
  gives: {
    resistance: { unit: 'Ohm', print: 'uOhm', about: 'go and return' },
    inductance: { unit: 'H', print: 'nH', about: 'go and return, without the end connections' },
    ...ERRORS,
  },
  valid: VALID,
  sources: SOURCES,
  compute: pairSkinOfLength,
})

export const barSkin = defineMethod<BarSkinInputs, BarSkin>({
  id: 'bar-skin',
  title: 'Skin effect of one bar, per length',
  takes: COMMON,
  gives: {
    resistancePerLength: { unit: 'Ohm/m', print: 'mOhm/m', about: 'resistance per length' },
    resistanceRatio: { unit: '1', print: '1', about: 'resistance over DC resistance' },
    inductanceDropPerLength: {
      unit: 'H/m',
      print: 'nH/m',
      about: 'DC inductance less that at this frequency, per length',
    },
    ...ERRORS,
  },
  valid: VALID,
  sources: SOURCES,
  compute: barSkinEffect,
})

export const barSkinLength = defineMethod<BarSkinInputs & { length: number }, PairSkinOfLength>({
  id: 'bar-skin-length',
  title: 'Resistance and partial inductance of one bar against frequency',
  takes: { ...COMMON, length: { unit: 'm', about: 'length of the bar' } },
  gives: {
    resistance: { unit: 'Ohm', print: 'uOhm', about: 'resistance' },
    inductance: { unit: 'H', print: 'nH', about: 'partial inductance; one bar is not a loop' },
    ...ERRORS,
  },
  valid: VALID,
  sources: SOURCES,
  compute: barSkinOfLength,
})

export const barSkinMethods = [pairSkin, pairSkinLength, barSkin, barSkinLength] as const
