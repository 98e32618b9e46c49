import { type Dimension, fieldOf, isDimension } from '../graph/quantity/dimension.ts'
import { fromSI, widthFromSI } from '../graph/quantity/unit.ts'

/** A number in the unit that people print it in. */
export interface Customary {
  readonly value: number
  readonly unit: string
  readonly ucum: string
  readonly uncertainty: number | null
}

/** An SI number of a dimension in its customary unit; without a known dimension the number stays as it is. */
export function customary(value: number, dimension: string, uncertainty: number | null = null): Customary {
  const print = fieldOf(isDimension(dimension) ? dimension : ('one' satisfies Dimension)).print
  return {
    value: fromSI(value, print),
    unit: print.symbol,
    ucum: print.code ?? print.symbol,
    uncertainty: uncertainty === null ? null : widthFromSI(uncertainty, print),
  }
}

/** What a figure changes for one customary unit of an input, from what it changes for one SI unit. */
export function perCustomary(sensitivity: number | null, dimension: string): number | null {
  if (sensitivity === null) return null
  const print = fieldOf(isDimension(dimension) ? dimension : ('one' satisfies Dimension)).print
  return sensitivity / widthFromSI(1, print)
}
