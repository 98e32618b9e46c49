import type { Edit } from '../graph/edit.ts'
import { DIMENSIONS, type Dimension } from '../graph/quantity/dimension.ts'
import { parseQuantity } from '../graph/quantity/parse.ts'
import type { Path } from '../graph/quantity/quantity.ts'
import { fromSI } from '../graph/quantity/units.ts'
import { conditionNames, editsOf, NUMERIC, parseConditions } from './conditions.ts'
import type { Session } from './evaluate/session.ts'
import { figureById } from './figures/registry.ts'
import { dimensionAt, QuantityInputError, whatIfValue } from './quantity-input.ts'
import { isNamed } from './subject-names.ts'

/** Rows of one table at most. */
export const POINTS_AT_MOST = 10_000

/** One value over a range: which, from where to where, and at how many points. */
export interface Axis {
  /** Path of the value, or the name of a numeric condition. */
  readonly path: string
  readonly unit: string
  /** In `unit`. */
  readonly points: readonly number[]
}

export interface SweepColumn {
  readonly metric: string
  readonly subject: Path
  readonly unit: string
}

export interface SweepRow {
  /** One for each axis, in its unit. */
  readonly at: readonly number[]
  /** One for each column, in its unit; null where there is no result. */
  readonly values: readonly (number | null)[]
  readonly notes: readonly string[]
}

export interface Sweep {
  readonly axes: readonly Axis[]
  readonly columns: readonly SweepColumn[]
  readonly rows: readonly SweepRow[]
}

/**
 * Reads `coolant/flow=4..16 L/min:13`; `:13 log` spaces the points evenly in the logarithm.
 * @throws QuantityInputError when it is no range of one recorded value or numeric condition
 */
export function axisOf(session: Session, text: string): Axis {
  const parts = /^([^=]+)=(.+?)\.\.(.+):\s*(\d+)\s*(log)?$/.exec(text.trim())
  if (!parts)
    throw new QuantityInputError(
      `"${text}" is no range`,
      'write path=from..to:points, e.g. coolant/flow=4..16 L/min:13',
    )
  const [, path = '', start = '', end = '', count = '', log] = parts
  const dimension = dimensionOf(session, path.trim())
  const high = numberIn(end, dimension, path)
  const low = numberIn(/[^\d.,+\-eE\s]/.test(start) ? start : `${start} ${high.symbol}`, dimension, path)
  const steps = Number(count)
  if (steps < 2) throw new QuantityInputError(`${path}: ${steps} point(s)`, 'two points at least')
  if (log && !(low.si > 0 && high.si > 0))
    throw new QuantityInputError(`${path}: a logarithmic range over zero`, 'start above zero, or leave "log" out')
  refuseMore(steps)
  const shown = [low.si, high.si].map((si) => fromSI(si, high.symbol)) as [number, number]
  return { path: path.trim(), unit: high.symbol, points: spaced(shown, steps, log !== undefined) }
}

function spaced([from, to]: readonly [number, number], steps: number, log: boolean): readonly number[] {
  return Array.from({ length: steps }, (_, n) => {
    const part = n / (steps - 1)
    return log ? from * (to / from) ** part : from + part * (to - from)
  })
}

function dimensionOf({ record }: Session, path: string): Dimension {
  const condition = conditionAt(path)
  if (condition) return NUMERIC[condition].dimension
  const found = dimensionAt(record, path)
  if (DIMENSIONS.some((one) => one === found)) return found as Dimension
  throw new QuantityInputError(`"${path}" is a word, not a quantity`, 'sweep a value that is a number')
}

function conditionAt(path: string): keyof typeof NUMERIC | undefined {
  if (path.includes('/') || !conditionNames().includes(path)) return undefined
  const name = path.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())
  return name in NUMERIC ? (name as keyof typeof NUMERIC) : undefined
}

function numberIn(text: string, dimension: Dimension, path: string): { readonly si: number; readonly symbol: string } {
  const reading = parseQuantity(text.trim(), { dimension })
  if (reading.ok && reading.form === 'scalar') return { si: reading.value, symbol: reading.unit.symbol }
  const [first] = reading.ok ? [] : reading.complaints
  throw new QuantityInputError(
    `${path}: "${text.trim()}": ${first?.what ?? 'no single value'}`,
    first?.mend ?? '16 L/min',
  )
}

function refuseMore(points: number): void {
  if (points <= POINTS_AT_MOST) return
  throw new QuantityInputError(
    `${points} points are more than one table holds`,
    `ask for ${POINTS_AT_MOST} at most: fewer points, or one axis at a time`,
  )
}

/**
 * Figures over a range of one or two values, at the values written of everything else; without intervals.
 * @throws QuantityInputError when it asks for too many points, or for an axis that does not fit
 */
export function sweep(
  session: Session,
  { metrics, subjects, axes }: { metrics: readonly string[]; subjects?: readonly string[]; axes: readonly Axis[] },
  keepTime: () => void = () => {},
): Sweep {
  if (axes.length < 1 || axes.length > 2)
    throw new QuantityInputError(`${axes.length} values to sweep`, 'one or two: path=from..to:points')
  refuseMore(axes.reduce((product, { points }) => product * points.length, 1))
  const columns = session
    .requests(metrics)
    .filter(({ subject }) => subjects === undefined || isNamed(subject, subjects))
    .map(({ figure, subject }): SweepColumn => ({ metric: figure.id, subject, unit: figure.unit }))
  const [first, second] = axes as readonly [Axis, Axis?]
  const places = first.points.flatMap((x) => (second ? second.points.map((y) => [x, y]) : [[x]]))
  const rows = places.map((at) => {
    keepTime()
    return rowAt(session, axes, columns, at)
  })
  return { axes, columns, rows }
}

function rowAt(
  session: Session,
  axes: readonly Axis[],
  columns: readonly SweepColumn[],
  at: readonly number[],
): SweepRow {
  const edits = axes.flatMap((axis, n) => editsAt(session, axis, at[n]!))
  const there = session.over(edits)
  const notes = new Set<string>()
  const values = columns.map(({ metric, subject, unit }) => {
    const { value, outside } = there.atTaken(figureById(metric), subject)
    for (const text of outside) notes.add(`${metric}: ${text}`)
    return value === null ? null : fromSI(value, unit)
  })
  return { at, values, notes: [...notes] }
}

function editsAt({ record, structure, settings }: Session, { path, unit }: Axis, value: number): readonly Edit[] {
  const text = `${value} ${unit}`
  const condition = conditionAt(path)
  if (!condition) return [whatIfValue(record, path, text)]
  const circuits = structure.answer({ ask: 'circuits' }, settings).paths
  return editsOf({ settings, numeric: parseConditions([[path, text]]).numeric }, circuits)
}
