import { dimensionOf } from '../graph/quantity/dimension.ts'
import { fromSI } from '../graph/quantity/unit.ts'
import { parseUcum, symbolOf } from '../graph/quantity/units.ts'
import { type Argument, outOfRange } from '../queries/physics/method.ts'
import { Fault } from './errors.ts'
import { siOf } from './quantity-text.ts'

export interface CalcOutput {
  readonly name: string
  readonly about: string
  readonly value: number | null
  readonly values: readonly number[] | null
  readonly word: string | null
  readonly unit: string
  readonly ucum: string
  readonly outOfRange: boolean
}

/** What a bench calculator gives, in customary units. */
export interface CalcAnswer {
  readonly id: string
  readonly title: string
  readonly outputs: readonly CalcOutput[]
  readonly outOfRange: string[]
  readonly caution: string | null
  readonly sources: string[]
}

/** Any bench calculator, whatever it takes and gives. */
export interface Calculator {
  readonly id: string
  readonly title: string
  readonly takes: Readonly<Record<string, Argument>>
  readonly gives: Readonly<Record<string, { readonly unit: string; readonly print: string; readonly about: string }>>
  readonly valid?: Readonly<Record<string, readonly [number, number]>>
  readonly caution?: string
  readonly sources: readonly string[]
  readonly compute: (inputs: never) => Readonly<Record<string, unknown>>
}

/** `link-ripple` in lists and on the command line, `linkRipple` in the API. */
export function fieldName(id: string): string {
  return id.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase())
}

/** Runs a calculator on quantities in text. Outside its validated range the answer is marked, never silent. */
export function calculate(method: Calculator, given: Readonly<Record<string, unknown>>): CalcAnswer {
  const inputs: Record<string, unknown> = {}
  for (const [name, argument] of Object.entries(method.takes)) {
    const text = given[name]
    if (text !== undefined && text !== null) inputs[name] = read(name, argument, text)
    else if (!argument.optional) throw new Fault('USAGE', `${method.id} needs ${name}`, `${name}: ${argument.about}`)
  }
  const outputs = method.compute(inputs as never)
  const outside = outOfRange(method.valid, { ...inputs, ...outputs })
  return {
    id: method.id,
    title: method.title,
    outputs: Object.entries(outputs).flatMap(([name, value]) => shown(method, name, value, outside)),
    outOfRange: [...outside],
    caution: method.caution ?? null,
    sources: [...method.sources],
  }
}

function read(name: string, argument: Argument, text: unknown): unknown {
  if (argument.list) return (Array.isArray(text) ? text : [text]).map((one) => readOne(name, argument, String(one)))
  return readOne(name, argument, String(Array.isArray(text) ? text.at(-1) : text))
}

function readOne(name: string, { unit, words }: Argument, text: string): unknown {
  if (words) {
    if (words.includes(text)) return text
    throw new Fault('USAGE', `${name} cannot be "${text}"`, `one of: ${words.join(', ')}`)
  }
  if (unit === undefined) {
    if (text === 'yes' || text === 'true') return true
    if (text === 'no' || text === 'false') return false
    throw new Fault('USAGE', `${name} cannot be "${text}"`, 'yes or no')
  }
  return siOf(text, dimensionOf(parseUcum(unit)), name)
}

function shown(method: Calculator, name: string, value: unknown, outside: readonly string[]): readonly CalcOutput[] {
  const given = method.gives[name]
  if (!given || value === undefined) return []
  const print = parseUcum(given.print)
  const inUnit = (si: unknown): number => fromSI(Number(si), print)
  return [
    {
      name,
      about: given.about,
      value: typeof value === 'number' ? inUnit(value) : null,
      values: Array.isArray(value) ? value.map(inUnit) : null,
      word: typeof value === 'string' || typeof value === 'boolean' ? String(value) : null,
      unit: symbolOf(given.print),
      ucum: given.print,
      outOfRange: outside.includes(name),
    },
  ]
}
