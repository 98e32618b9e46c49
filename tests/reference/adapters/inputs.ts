import type { Case, CaseValue } from '../case.ts'

/** Factor to SI of each atom that the case files use; a prefix may stand before those marked. Temperatures: see toSi. */
const ATOMS: Readonly<Record<string, readonly [factor: number, prefixable: boolean]>> = {
  m: [1, true],
  g: [1e-3, true],
  s: [1, true],
  min: [60, false],
  h: [3600, false],
  K: [1, true],
  A: [1, true],
  V: [1, true],
  W: [1, true],
  J: [1, true],
  N: [1, true],
  Pa: [1, true],
  Hz: [1, true],
  F: [1, true],
  H: [1, true],
  C: [1, true],
  T: [1, true],
  S: [1, true],
  Wb: [1, true],
  Ohm: [1, true],
  VA: [1, true],
  L: [1e-3, true],
  l: [1e-3, true],
  bar: [1e5, true],
  rad: [1, true],
  deg: [Math.PI / 180, false],
  '%': [0.01, false],
  in: [0.0254, false],
  mil: [25.4e-6, false],
  ppm: [1e-6, false],
  Oe: [1000 / (4 * Math.PI), false],
  boolean: [1, false],
}

const PREFIXES: Readonly<Record<string, number>> = {
  G: 1e9,
  M: 1e6,
  k: 1e3,
  d: 0.1,
  c: 1e-2,
  m: 1e-3,
  u: 1e-6,
  µ: 1e-6,
  μ: 1e-6,
  n: 1e-9,
  p: 1e-12,
}

/** A value of the case in SI; a temperature in degrees Celsius becomes kelvin, a difference must be written in K. */
export function toSi(value: number, unit: string): number {
  if (unit === 'Cel' || unit === '°C') return value + 273.15
  return value * unitFactor(unit)
}

/** Factor from a UCUM-like code such as `W/(m2.K)` or `Pa/(m3/s)2` to SI. */
export function unitFactor(unit: string): number {
  const tokens = unit.trim().match(/[A-Za-zµμΩ°%]+|\d+|[-+]\d+|[./()·*^]/g) ?? []
  let at = 0
  const exponent = (): number => {
    if (tokens[at] === '^') at++
    return /^[-+]?\d+$/.test(tokens[at] ?? '') ? Number(tokens[at++]) : 1
  }
  const one = (): number => {
    const token = tokens[at++]
    if (token === '(') {
      const inner = product()
      if (tokens[at++] !== ')') throw new Error(`unit "${unit}": bracket not closed`)
      return inner ** exponent()
    }
    if (token === '1') return 1
    return atomFactor(token ?? '', unit) ** exponent()
  }
  const product = (): number => {
    let result = tokens[at] === '/' ? 1 : one()
    while (at < tokens.length && tokens[at] !== ')') {
      const operator = tokens[at++]
      if (operator === '/') result /= one()
      else if (operator !== undefined && './·*'.includes(operator)) result *= one()
      else throw new Error(`unit "${unit}": cannot read at "${operator}"`)
    }
    return result
  }
  const result = product()
  if (at < tokens.length) throw new Error(`unit "${unit}": cannot read at "${tokens[at]}"`)
  return result
}

function atomFactor(symbol: string, unit: string): number {
  const atom = ATOMS[symbol.replace('Ω', 'Ohm').replace('Cel', 'K').replace('°C', 'K')]
  if (atom) return atom[0]
  const prefix = PREFIXES[symbol[0] ?? '']
  const rest = ATOMS[symbol.slice(1).replace('Ω', 'Ohm')]
  if (prefix !== undefined && rest?.[1]) return prefix * rest[0]
  throw new Error(`unit "${unit}": unknown symbol "${symbol}"`)
}

function isValueWithUnit(found: unknown): found is { readonly value: number; readonly unit: string } {
  return typeof found === 'object' && found !== null && 'value' in found && 'unit' in found
}

/** `{value, unit}`, a bare number (unit from elsewhere or already SI) or a text such as "250 V" → SI. */
export function siOf(found: CaseValue, unit = '1'): number {
  if (isValueWithUnit(found)) return toSi(found.value, found.unit)
  if (typeof found === 'number') return toSi(found, unit)
  const text = /^\s*([-+]?[\d.]+(?:[eE][-+]?\d+)?)\s*(\S.*)?$/.exec(found)
  if (!text) throw new Error(`not a number with a unit: "${found}"`)
  return toSi(Number(text[1]), text[2]?.trim() ?? unit)
}

/** The input of that name in SI, or undefined when the case does not state it. */
export function maybeQuantity(input: Case, name: string): number | undefined {
  const found = input.inputs[name]
  if (typeof found !== 'number' && typeof found !== 'string' && !isValueWithUnit(found)) return undefined
  return siOf(found, unitBeside(input, name))
}

/** The input of that name (the first of several spellings that is there) in SI. */
export function quantity(input: Case, ...names: readonly string[]): number {
  for (const name of names) {
    const found = maybeQuantity(input, name)
    if (found !== undefined) return found
  }
  throw new Error(`case ${input.id} has no input ${names.join(' or ')}`)
}

/** A list of inputs in SI; each item may carry its unit, else it stands in `<name>Unit`, its singular or `unit`. */
export function quantities(input: Case, ...names: readonly string[]): readonly number[] {
  const name = names.find((one) => Array.isArray(input.inputs[one]))
  if (name === undefined) throw new Error(`case ${input.id} has no list ${names.join(' or ')}`)
  const unit = unitBeside(input, name)
  return (input.inputs[name] as readonly CaseValue[]).map((one) => siOf(one, unit))
}

function unitBeside(input: Case, name: string): string {
  const singular = name.endsWith('ies') ? `${name.slice(0, -3)}y` : name.replace(/s$/, '')
  const found = [`${name}Unit`, `${singular}Unit`, `${singular}Units`, 'unit'].map((key) => input.inputs[key])
  return found.find((one): one is string => typeof one === 'string') ?? '1'
}
