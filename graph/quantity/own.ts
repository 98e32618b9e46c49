import type { Numeral } from './numeral.ts'
import { type Shape, standardUncertainty } from './quantity.ts'
import { type Own, refuse } from './reading.ts'
import { sharePlaces, type Tolerance } from './tolerance.ts'
import { movePoint, toSI, type Unit, widthToSI } from './unit.ts'

/** What the note says about how a ± is meant. */
export interface Spread {
  readonly k?: number | undefined
  readonly n?: number | undefined
  readonly spread?: 'rectangular' | 'triangular' | 'standard' | undefined
}

/** The deviation that a number states for itself: a tolerance, or digits in brackets. Undefined: it states none. */
export function ownOf(
  numeral: Numeral,
  tolerance: Tolerance | null,
  unit: Unit,
  toleranceUnit: Unit | null,
  spread: Spread,
): Own | undefined {
  if (numeral.concise !== null) {
    if (tolerance) refuse(tolerance.at, `two uncertainties: "${numeral.text}" and "${tolerance.text}"`, 'keep one')
    return conciseOwn(widthToSI(numeral.concise, unit), spread)
  }
  if (!tolerance) return undefined
  if (toleranceUnit === null) return relativeOwn(numeral, tolerance, unit, spread)
  const low = widthToSI(tolerance.low, toleranceUnit)
  const high = widthToSI(tolerance.high, toleranceUnit)
  if (unit.gauge && toleranceUnit.gauge)
    refuse(tolerance.at, `"${tolerance.text}" on a gauge number`, 'give the tolerance as a length')
  return { mode: 'add', ...shaped(low, high, tolerance, spread) }
}

function relativeOwn(numeral: Numeral, tolerance: Tolerance, unit: Unit, spread: Spread): Own {
  const { text, at } = tolerance
  if (unit.offset !== 0) {
    refuse(
      at,
      `"${text}": a % of a temperature in ${unit.symbol} has no meaning, its zero is arbitrary`,
      `write the tolerance in ${unit.symbol} or K: 65 ± 2 °C`,
    )
  }
  if (numeral.value === 0) refuse(at, `"${text}" of zero is zero`, 'give the tolerance in the unit of the value')
  return {
    mode: 'scale',
    ...shaped(shareOf(tolerance.low, tolerance), shareOf(tolerance.high, tolerance), tolerance, spread),
  }
}

function conciseOwn(u: number, { n }: Spread): Own {
  if (n !== undefined && n > 1) return { mode: 'add', shape: { kind: 'student', u, dof: n - 1 }, why: 'standard' }
  return { mode: 'add', shape: { kind: 'normal', u }, why: 'standard' }
}

/** A number in %, ‰ or ppm as a share of one. */
export function shareOf(value: number, { unit }: Tolerance): number {
  return movePoint(value, sharePlaces(unit))
}

/** The shape of what follows the sign: limits unless a coverage factor, a number of readings or a word says otherwise. */
export function shaped(
  low: number,
  high: number,
  tolerance: Tolerance,
  { k, n, spread }: Spread,
): Pick<Own, 'shape' | 'why'> {
  const factor = k ?? (spread === 'standard' || (n !== undefined && n > 1 && spread === undefined) ? 1 : undefined)
  if (factor === undefined)
    return { shape: { kind: spread === 'triangular' ? 'triangular' : 'rectangular', low, high }, why: 'limits' }
  if (!tolerance.symmetric) {
    refuse(
      tolerance.at,
      `"${tolerance.text}" is not symmetric and so has no coverage factor`,
      'leave k= and n= out to have limits read, or write one ±',
    )
  }
  const u = high / factor
  const why = k === undefined ? 'standard' : 'expanded'
  const shape: Shape = n !== undefined && n > 1 ? { kind: 'student', u, dof: n - 1 } : { kind: 'normal', u }
  return { shape, why }
}

/** Lowest and highest value that limits state [SI]; undefined when they are none. */
export function intervalOf(value: number, own: Own | undefined): readonly [number, number] | undefined {
  if (own?.shape.kind !== 'rectangular' && own?.shape.kind !== 'triangular') return undefined
  const { low, high } = own.shape
  const ends =
    own.mode === 'add'
      ? ([tidy(value + low), tidy(value + high)] as const)
      : ([tidy(value * (1 + low)), tidy(value * (1 + high))] as const)
  return ends[0] <= ends[1] ? ends : [ends[1], ends[0]]
}

/** Takes off the last bit that adding two decimals leaves behind: 0.0124 − 0.0002 is 0.0122. */
const tidy = (value: number) => Number(value.toPrecision(15))

/** Standard uncertainty that a number states for itself [SI]; undefined when it states none. */
export function uncertaintyOf({ value, own }: { readonly value: number; readonly own?: Own }): number | undefined {
  if (!own) return undefined
  return standardUncertainty(own.shape) * (own.mode === 'scale' ? Math.abs(value) : 1)
}

/** A range: its middle, and limits on both sides. */
export function rangeOwn(
  low: Numeral,
  high: Numeral,
  lowUnit: Unit,
  highUnit: Unit,
): { readonly value: number; readonly own: Own } {
  const [from, to] = [toSI(low.value, lowUnit), toSI(high.value, highUnit)]
  const half = (to - from) / 2
  return {
    value: (from + to) / 2,
    own: { mode: 'add', shape: { kind: 'rectangular', low: -half, high: half }, why: 'range' },
  }
}
