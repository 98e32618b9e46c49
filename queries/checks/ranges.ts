import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineCheck, type Finding } from './check.ts'
import { PLAIN_RANGES, RANGES, type Range } from './range-table.ts'

interface Held {
  readonly path: string
  readonly value: number
  readonly range: Range
  readonly of: string
}

/** Every recorded value that the table knows a range for; sisters with the same value once. */
function held(view: View): readonly Held[] {
  const plain = Object.entries(PLAIN_RANGES).flatMap(([path, range]): readonly Held[] => {
    const value = view.may(asPath(path))
    return value === undefined ? [] : [{ path, value, range, of: 'such a unit' }]
  })
  const parts = Object.entries(RANGES).flatMap(([name, properties]) =>
    view
      .find({ ask: 'parts', class: name })
      .paths.flatMap((entry) =>
        Object.entries(properties).flatMap(([property, range]) =>
          valuesOf(view, entry, property).map(({ path, value }) => ({ path, value, range, of: `a ${name}` })),
        ),
      ),
  )
  return [...plain, ...parts]
}

function valuesOf(view: View, entry: Path, property: string): readonly { path: string; value: number }[] {
  const own = view.may(asPath(`${entry}/${property}`))
  if (own !== undefined) return [{ path: `${entry}/${property}`, value: own }]
  const pieces = view.find({ ask: 'pieces', of: entry }).paths.flatMap((piece) => {
    const value = view.may(asPath(`${piece}/${property}`))
    return value === undefined ? [] : [{ path: `${piece}/${property}`, value }]
  })
  if (pieces.length > 0) return pieces
  const material = property === 'conductivity' ? view.mayWord(asPath(`${entry}/material`)) : undefined
  const path = `materials/${material}/${property}`
  const value = material === undefined ? undefined : view.may(asPath(path))
  return value === undefined ? [] : [{ path, value }]
}

const within = (value: number, [low, high]: readonly [number, number]): boolean => value >= low && value <= high
const shown = (value: number): string => String(Number(value.toPrecision(3)))
const words = ([low, high]: readonly [number, number]): string => `${shown(low)} … ${shown(high)} (SI)`

/** Slips of a unit of measure that are common at the bench: an inch for a millimetre, milli for micro. */
const SLIPS = [
  { factor: 25.4, what: 'typed in millimetres, meant in inches' },
  { factor: 1 / 25.4, what: 'typed in inches, meant in millimetres' },
  { factor: 1000, what: 'a prefix of a thousand too small' },
  { factor: 1 / 1000, what: 'a prefix of a thousand too large' },
] as const

/** The slip that would bring a value into its usual range; an inch only where a length is meant. */
function slipOf({ path, value, range }: Held): (typeof SLIPS)[number] | undefined {
  const length = /(length|width|height|thickness|gap|diameter)$/.test(path)
  return SLIPS.find(
    ({ factor }) => within(value * factor, range.usual) && (length || Number.isInteger(Math.log10(factor))),
  )
}

const settle = (one: Held): string => {
  const slip = slipOf(one)
  return slip === undefined
    ? 'read or measure it again; if it is right, say why in a finding'
    : `${slip.what}? ${shown(one.value * slip.factor)} (SI) would be usual`
}

const impossible = defineCheck({
  id: 'value-impossible',
  title: 'A value that cannot be',
  severity: 'error',
  run: (view) =>
    held(view)
      .filter(({ value, range }) => !within(value, range.possible))
      .map(
        (one): Finding => ({
          path: one.path,
          what: `is ${shown(one.value)} (SI), which ${one.of} cannot have: ${words(one.range.possible)}`,
          mend: settle(one),
        }),
      ),
})

const unusual = defineCheck({
  id: 'value-unusual',
  title: 'A value outside what it usually is',
  severity: 'question',
  run: (view) =>
    held(view)
      .filter(({ value, range }) => within(value, range.possible) && !within(value, range.usual))
      .filter((one) => slipOf(one) === undefined)
      .map(
        (one): Finding => ({
          path: one.path,
          what: `is ${shown(one.value)} (SI); ${one.of} usually has ${words(one.range.usual)} (common practice)`,
          mend: settle(one),
        }),
      ),
})

const slipped = defineCheck({
  id: 'unit-slip',
  title: 'A value that looks like a slip of the unit of measure',
  severity: 'warning',
  run: (view) =>
    held(view)
      .filter(({ value, range }) => within(value, range.possible) && !within(value, range.usual))
      .filter((one) => slipOf(one) !== undefined)
      .map(
        (one): Finding => ({
          path: one.path,
          what: `is ${shown(one.value)} (SI); ${one.of} usually has ${words(one.range.usual)} (common practice)`,
          mend: settle(one),
        }),
      ),
})

export const rangeChecks = [impossible, unusual, slipped] as const
