import { type Dimension, fieldOf, sameExponents } from './dimension.ts'
import type { Own } from './reading.ts'
import type { Unit } from './unit.ts'
import { readUnit } from './units.ts'

/** Density of copper that turns a foil weight into a thickness [kg/m³]. Source: handbook value, common practice. */
const COPPER_DENSITY = 8960

/** Thickness of a copper foil of this mass per area [kg/m²] in [m]. @example copperThickness(0.6103) // 68.1e-6 */
export function copperThickness(arealMass: number): number {
  return arealMass / COPPER_DENSITY
}

/** A foil weight says its thickness to ±10 % (what foil standards allow; common practice), unless it was measured. */
const TOLERANCE: Own = { mode: 'scale', shape: { kind: 'rectangular', low: -0.1, high: 0.1 }, why: 'copper-weight' }

const NAMED_COPPER = /^oz(?:\/(?:ft2|ft²|sq ?ft))? (?:copper|Cu|cu)$/

/** A copper weight where a length is asked for, or one that says copper; as a unit of thickness. Undefined: it is none. */
export function copperLength(
  written: string,
  dimension: Dimension | undefined,
): { unit: Unit; fallback: Own; warning: string } | undefined {
  const named = NAMED_COPPER.test(written) && (dimension === undefined || dimension === 'length')
  if (!named && dimension !== 'length') return undefined
  if (!named && !/^(?:oz|g\/m2|g\/m²|oz\/.{2,6})$/.test(written)) return undefined
  const weight = readUnit(named || written === 'oz' ? 'oz/ft²' : written)
  const metre = readUnit('m')
  if (!weight.ok || !metre.ok || !sameExponents(weight.unit, fieldOf('areal-mass').si)) return undefined
  const { factor, symbol, code } = weight.unit
  const unit: Unit = { ...metre.unit, symbol, code, ten: null, factor: copperThickness(factor) }
  const each = (unit.factor * 1e6).toPrecision(4)
  return {
    unit,
    fallback: TOLERANCE,
    warning: `"${written}" read as copper weight: 1 ${symbol} is ${each} µm at ${COPPER_DENSITY} kg/m³, ± 10 % unless measured`,
  }
}
