import { significant } from './number-text.ts'
import { standardUncertainty } from './quantity.ts'
import type { Numbered, Own, QuantityReading } from './reading.ts'
import { fromSI, type Unit, widthFromSI } from './unit.ts'

type Measured = Extract<QuantityReading, { readonly unit: Unit }>

/** Units people misread, and the one that is printed beside them. */
const BESIDE: Readonly<Record<string, { readonly symbol: string; readonly perSI: number }>> = {
  '[mil_i]': { symbol: 'µm', perSI: 1e6 },
  '[oz_av]/[ft_i]2': { symbol: 'µm', perSI: 1e6 },
  '[in_i]': { symbol: 'mm', perSI: 1e3 },
  '[ft_i]': { symbol: 'mm', perSI: 1e3 },
}

/** One sentence on how a text was read: what the tolerance was taken for, and the standard uncertainty that follows. */
export function readBackOf(reading: Measured, tolerance: string): string {
  const sentences = [bodyOf(reading, tolerance), besideOf(reading), rmsOf(reading)].filter((text) => text !== '')
  return sentences.join('; ')
}

function bodyOf(reading: Measured, tolerance: string): string {
  if (reading.form !== 'scalar') return severalOf(reading, tolerance)
  if (reading.bound)
    return `read as ${reading.bound === '<' ? 'an upper' : 'a lower'} bound: no figure uses it as a value`
  const lead = reading.approx ? 'approximate; ' : ''
  return (
    lead +
    (reading.own
      ? ownOf(reading, reading.own, reading.unit, tolerance)
      : 'no tolerance written: the default width of its basis applies')
  )
}

function severalOf(reading: Exclude<Measured, { readonly form: 'scalar' }>, tolerance: string): string {
  const numbers = reading.form === 'place' ? reading.coordinates : reading.sides
  const first = numbers[0]
  const what = {
    box: `size of ${numbers.length} sides`,
    place: 'place',
    area: 'two sides of an area',
    volume: 'three sides of a volume',
  }[reading.form]
  if (!first?.own) return `read as ${what}; no tolerance written: the default width of its basis applies`
  return `read as ${what}; each ${ownOf(first, first.own, reading.unit, tolerance)}`
}

function ownOf(number: Numbered, own: Own, unit: Unit, tolerance: string): string {
  const u = standardUncertainty(own.shape)
  const size = own.mode === 'scale' ? ` ${significant(100 * u, 2)} %` : ` ${widthText(u, unit)}`
  const asymmetric = 'low' in own.shape && Math.abs(own.shape.low + own.shape.high) > 1e-9 * own.shape.high
  const middle = asymmetric ? ', the value is the one written, not the middle' : ''
  switch (own.why) {
    case 'limits':
      return `${tolerance} read as limits${own.shape.kind === 'triangular' ? ' with the middle likelier' : ''}; standard uncertainty${size}${middle}`
    case 'expanded':
      return `${tolerance} read as expanded uncertainty; standard uncertainty${size}${dofText(own)}`
    case 'standard':
      return `${tolerance || 'digits in brackets'} read as standard uncertainty${size}${dofText(own)}`
    case 'readings':
      return `mean ${valueText(number.value, unit)} of the readings; standard uncertainty${size}${dofText(own)}`
    case 'range':
      return `read as limits about the middle ${valueText(number.value, unit)}; standard uncertainty${size}`
    case 'copper-weight':
      return `copper weight, ± 10 % read as limits; standard uncertainty${size}`
  }
}

const dofText = ({ shape }: Own) => (shape.kind === 'student' ? `, ${shape.dof} degrees of freedom` : '')

const printable = (unit: Unit) =>
  unit.gauge
    ? { symbol: 'mm', of: (si: number) => si * 1e3 }
    : { symbol: unit.symbol, of: (si: number) => widthFromSI(si, unit) }

function widthText(width: number, unit: Unit): string {
  const { symbol, of } = printable(unit)
  const kelvin = unit.offset !== 0 && unit.code === 'Cel' ? 'K' : symbol
  return `${significant(of(width), 2)}${kelvin === '1' ? '' : ` ${kelvin}`}`
}

function valueText(value: number, unit: Unit): string {
  return `${Number(fromSI(value, unit).toPrecision(6))}${unit.symbol === '1' ? '' : ` ${unit.symbol}`}`
}

function besideOf(reading: Measured): string {
  if (reading.form !== 'scalar') return ''
  if (reading.unit.gauge) return `wire gauge read as a diameter of ${significant(reading.value * 1e3, 4)} mm`
  const beside = BESIDE[reading.unit.code ?? '']
  return beside && reading.dimension === 'length'
    ? `= ${significant(reading.value * beside.perSI, 4)} ${beside.symbol}`
    : ''
}

function rmsOf(reading: Measured): string {
  if (reading.form !== 'scalar' || reading.dimension !== 'current') return ''
  if (reading.qualifier !== 'peak' && reading.qualifier !== 'peak-to-peak') return ''
  return `${reading.qualifier} read as ${significant(reading.value, 4)} A rms (sine)`
}
