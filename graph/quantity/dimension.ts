import { readUcum } from './ucum.ts'
import type { Unit } from './unit.ts'

/** What a number can be a measure of, by the names people use; the SI unit and the customary one for printing. */
interface Entry {
  readonly name: string
  /** UCUM code of the SI unit that numbers are held in. */
  readonly si: string
  /** UCUM code of the unit that is printed. */
  readonly print: string
  /** Further units to offer in a message, as symbols. */
  readonly offer?: readonly string[]
}

const entry = (name: string, si: string, print: string = si, ...offer: string[]): Entry => ({ name, si, print, offer })

/** In order: where several share an SI unit the first is the name given when nothing else is known. */
const TABLE = {
  one: entry('a pure number', '1'),
  fraction: entry('a share', '1', '%'),
  count: entry('a count', '1'),
  length: entry('length', 'm', 'mm', 'µm', 'cm', 'm'),
  area: entry('area', 'm2', 'mm2', 'cm²'),
  volume: entry('volume', 'm3', 'L', 'cm³', 'mL'),
  mass: entry('mass', 'kg', 'g', 'kg'),
  time: entry('time', 's', 's', 'min', 'ms', 'ns'),
  current: entry('electric current', 'A', 'A', 'mA'),
  voltage: entry('voltage', 'V', 'V', 'kV', 'mV'),
  resistance: entry('electric resistance', 'Ohm', 'mOhm', 'Ω', 'kΩ'),
  conductance: entry('electric conductance', 'S'),
  capacitance: entry('capacitance', 'F', 'uF', 'nF', 'pF'),
  inductance: entry('inductance', 'H', 'nH', 'µH', 'mH'),
  power: entry('power', 'W', 'W', 'kW', 'mW'),
  'apparent-power': entry('apparent power', 'V.A', 'kV.A', 'VA'),
  'reactive-power': entry('reactive power', 'V.A{reactive}', 'kV.A{reactive}', 'var'),
  energy: entry('energy', 'J', 'J', 'mJ', 'Wh'),
  torque: entry('torque', 'N.m'),
  charge: entry('electric charge', 'C', 'nC', 'Ah', 'C'),
  frequency: entry('frequency', 'Hz', 'kHz', 'Hz', 'MHz'),
  'rotational-speed': entry('rotational speed', '1/s', '{rev}/min'),
  speed: entry('speed', 'm/s'),
  acceleration: entry('acceleration', 'm/s2'),
  force: entry('force', 'N'),
  pressure: entry('pressure', 'Pa', 'kPa', 'bar', 'Pa'),
  flow: entry('volume flow', 'm3/s', 'L/min', 'm³/h'),
  'mass-flow': entry('mass flow', 'kg/s', 'g/s'),
  temperature: entry('temperature', 'K', 'Cel', 'K'),
  'temperature-difference': entry('temperature difference', 'K', 'K', '°C'),
  'thermal-resistance': entry('thermal resistance', 'K/W'),
  'thermal-conductance': entry('thermal conductance', 'W/K'),
  'specific-thermal-resistance': entry('specific thermal resistance', 'm2.K/W', 'mm2.K/W'),
  'thermal-conductivity': entry('thermal conductivity', 'W/(m.K)'),
  'film-coefficient': entry('film coefficient', 'W/(m2.K)'),
  'heat-flux': entry('heat flux', 'W/m2', 'W/cm2'),
  'heat-capacity': entry('heat capacity', 'J/K'),
  'specific-heat': entry('specific heat', 'J/(kg.K)'),
  'temperature-coefficient': entry('temperature coefficient', '1/K', '[ppm]/K', '%/K'),
  'temperature-rate': entry('temperature rate', 'K/s'),
  density: entry('density', 'kg/m3', 'g/cm3'),
  'areal-mass': entry('mass per area', 'kg/m2', 'g/m2', 'oz/ft²'),
  viscosity: entry('viscosity', 'Pa.s', 'mPa.s'),
  'kinematic-viscosity': entry('kinematic viscosity', 'm2/s', 'mm2/s'),
  stiffness: entry('stiffness', 'N/m', 'N/mm'),
  'electric-conductivity': entry('electric conductivity', 'S/m', 'MS/m'),
  resistivity: entry('resistivity', 'Ohm.m', 'uOhm.cm'),
  'current-density': entry('current density', 'A/m2', 'A/mm2', 'A/cm²'),
  'current-slope': entry('current slope', 'A/s', 'kA/us', 'A/µs'),
  'voltage-slope': entry('voltage slope', 'V/s', 'V/ns', 'kV/µs'),
  'field-strength': entry('electric field strength', 'V/m', 'kV/mm'),
  'magnetic-field': entry('magnetic field strength', 'A/m', 'kA/m'),
  'flux-density': entry('flux density', 'T', 'T', 'mT'),
  'magnetic-flux': entry('magnetic flux', 'Wb', 'mWb'),
  'core-factor': entry('core factor', '1/m', '1/mm'),
  'power-density': entry('power per volume', 'W/m3', 'kW/L', 'kW/m³'),
  'core-loss-density': entry('core loss density', 'W/m3', 'kW/m3'),
  'specific-power': entry('power per mass', 'W/kg', 'kW/kg'),
  'specific-energy': entry('energy per mass', 'J/kg', 'W.h/kg'),
  'energy-density': entry('energy per volume', 'J/m3', 'J/L'),
  'capacitance-per-power': entry('capacitance per power', 'F/W', 'uF/kW'),
  'area-per-power': entry('area per power', 'm2/W', 'mm2/kW'),
  'mass-per-power': entry('mass per power', 'kg/W', 'kg/kW'),
  'melting-integral': entry('melting integral', 'A2.s'),
  'resistance-per-voltage': entry('isolation resistance per voltage', 'Ohm/V'),
  'resistance-per-length': entry('resistance per length', 'Ohm/m', 'mOhm/m'),
  'inductance-per-length': entry('inductance per length', 'H/m', 'nH/mm'),
  'capacitance-per-length': entry('capacitance per length', 'F/m', 'pF/m'),
  'capacitance-per-area': entry('capacitance per area', 'F/m2', 'pF/cm2'),
  'mass-per-length': entry('mass per length', 'kg/m', 'g/m'),
  'charge-per-area': entry('charge per area', 'C/m2'),
  permeability: entry('permeability', 'H/m', 'uH/m'),
  'hydraulic-resistance': entry('hydraulic resistance', 'Pa.s/m3', 'kPa.min/L'),
  'pressure-gradient': entry('pressure per length', 'Pa/m', 'kPa/m'),
  amount: entry('amount of substance', 'mol'),
  'luminous-intensity': entry('luminous intensity', 'cd'),
  angle: entry('angle', 'rad', 'deg', '°'),
  level: entry('level', 'B', 'dB'),
  pixels: entry('picture elements', '{px}'),
} as const satisfies Readonly<Record<string, Entry>>

export type Dimension = keyof typeof TABLE

export const DIMENSIONS = Object.keys(TABLE) as readonly Dimension[]

export const isDimension = (text: string): text is Dimension => Object.hasOwn(TABLE, text)

/** A field of a record: what it measures, the unit its numbers are held in, and the one they are printed in. */
export interface Field {
  readonly dimension: Dimension
  readonly name: string
  readonly si: Unit
  readonly print: Unit
  /** Units to name in a message, as symbols. */
  readonly offer: readonly string[]
}

const fields = new Map<Dimension, Field>()

export function fieldOf(dimension: Dimension): Field {
  const known = fields.get(dimension)
  if (known) return known
  const { name, si, print, offer = [] } = TABLE[dimension] as Entry
  const printed = tableUnit(print)
  const field = { dimension, name, si: tableUnit(si), print: printed, offer: [...new Set([printed.symbol, ...offer])] }
  fields.set(dimension, field)
  return field
}

function tableUnit(code: string): Unit {
  const read = readUcum(code)
  if (!read.ok) throw new Error(`dimension table: ${read.what}`)
  return read.unit
}

/** Units are looked up once and handed out again, so what they measure is remembered with them. */
const taken = new WeakMap<Unit, readonly Dimension[]>()

const byExponents = new Map<string, Dimension[]>()

/** Every dimension that a unit could be a measure of, the likeliest first. */
function dimensionsOf(unit: Unit): readonly Dimension[] {
  const known = taken.get(unit)
  if (known) return known
  const found = findDimensions(unit)
  taken.set(unit, found)
  return found
}

function findDimensions(unit: Unit): readonly Dimension[] {
  if (byExponents.size === 0) {
    for (const dimension of DIMENSIONS) {
      const key = fieldOf(dimension).si.exponents.join()
      byExponents.set(key, [...(byExponents.get(key) ?? []), dimension])
    }
  }
  const all = byExponents.get(unit.exponents.join()) ?? []
  const fit = all.filter((dimension) => fits(unit, dimension))
  return preferred(unit, fit)
}

/** A unit that is printed for a dimension, or is its SI unit, names it; °C is a temperature, and K a difference of two. */
function preferred(unit: Unit, fit: readonly Dimension[]): readonly Dimension[] {
  if (unit.offset !== 0) return fit
  if (fit.includes('temperature')) return ['temperature-difference', 'temperature']
  const own = fit.filter(
    (dimension) => fieldOf(dimension).print.code === unit.code || fieldOf(dimension).si.code === unit.code,
  )
  return [...own, ...fit.filter((dimension) => !own.includes(dimension))]
}

/** The dimension a unit is taken for when no field says. Undefined: none of ours. */
export function dimensionOf(unit: Unit): Dimension | undefined {
  return dimensionsOf(unit)[0]
}

/** Whether a unit measures a dimension: same exponents, and not another quantity of the same ones (kVA is not kW). */
export function fits(unit: Unit, dimension: Dimension): boolean {
  const { si } = fieldOf(dimension)
  if (!sameExponents(unit, si)) return false
  if (dimension === 'count') return unit.factor === 1
  return si.kind === unit.kind
}

export function sameExponents(a: Unit, b: Unit): boolean {
  if (a.exponents === b.exponents) return true
  for (let axis = 0; axis < a.exponents.length; axis++) if (a.exponents[axis] !== b.exponents[axis]) return false
  return true
}

/** Names in a message: "length", or the base units of a dimension that has no name here. */
export function nameOf(unit: Unit): string {
  const dimension = dimensionOf(unit)
  return dimension ? fieldOf(dimension).name : `the dimension of ${unit.symbol}`
}
