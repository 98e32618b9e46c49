import { symbolOf } from '../../graph/quantity/units.ts'
import { closest } from '../../graph/record/suggest.ts'
import { calculators } from '../../queries/calculators.ts'
import type { Argument } from '../../queries/physics/method.ts'
import { type CalcOutput, type Calculator, calculate, fieldName } from '../calculate.ts'
import { Fault } from '../errors.ts'
import { type Call, listOf } from './command.ts'
import { bad, doubtful, faint, strong } from './emphasis.ts'
import { pairOf } from './metrics.ts'
import { numberText } from './numbers.ts'
import { table, wrap } from './table.ts'
import type { Terminal } from './terminal.ts'

export async function runCalculator({ args, options, terminal }: Call): Promise<number> {
  const [name] = args
  if (name === undefined) return listCalculators(terminal)
  const method = calculatorNamed(name)
  const answer = calculate(method, argumentsOf(method, listOf(options, 'arg')))
  const columns = [
    { head: 'output', cell: (one: CalcOutput) => one.name },
    { head: 'value', cell: valueText, align: 'point' as const },
    { head: 'unit', cell: (one: CalcOutput) => one.unit },
    { head: '', cell: (one: CalcOutput) => one.about, wraps: true },
  ]
  terminal.print(strong(method.title))
  terminal.print(table(columns, answer.outputs, terminal.width))
  if (answer.outOfRange.length > 0) terminal.print(bad(`outside the validated range: ${answer.outOfRange.join(', ')}`))
  if (answer.caution)
    for (const line of wrap(`Caution: ${answer.caution}`, terminal.width)) terminal.print(doubtful(line))
  terminal.print(faint(`sources: ${answer.sources.join('; ')}`))
  terminal.document(answer)
  return 0
}

function listCalculators(terminal: Terminal): number {
  for (const { id, title, takes } of calculators as readonly Calculator[]) {
    terminal.print(`${strong(id)}  ${title}`)
    for (const line of wrap(Object.entries(takes).map(argumentText).join(' '), terminal.width - 4))
      terminal.print(`    ${line}`)
  }
  terminal.print(faint('\n? may be left out, … may be given several times. lidoff calc NAME --arg name=quantity'))
  terminal.document({ calculators: calculators.map(calculatorDocument) })
  return 0
}

function calculatorDocument({ id, title, takes, gives, valid, caution, sources }: Calculator) {
  return { id, field: fieldName(id), title, takes, gives, valid: valid ?? {}, caution: caution ?? null, sources }
}

function argumentText([name, { unit, words, list, optional }]: readonly [string, Argument]): string {
  const what = words ? words.join('|') : unit === undefined ? 'yes|no' : symbolOf(unit)
  return `${name}[${what}]${optional ? '?' : ''}${list ? '…' : ''}`
}

function calculatorNamed(name: string): Calculator {
  const found = calculators.find(({ id }) => id === name || fieldName(id) === name)
  if (found) return found
  const near = closest(
    name,
    calculators.map(({ id }) => id),
  )
  throw new Fault('USAGE', `no calculator "${name}"`, near ? `did you mean ${near}?` : 'lidoff calc lists them')
}

/** Arguments by their own names; kebab-case is taken as well. A name given twice makes a list. */
function argumentsOf({ id, takes }: Calculator, given: readonly string[]): Readonly<Record<string, unknown>> {
  const found: Record<string, string | string[]> = {}
  const known = Object.keys(takes)
  for (const text of given) {
    const [typed, value] = pairOf(text, '--arg phaseCurrent="330 A"')
    const name = fieldName(typed)
    if (!known.includes(name)) {
      const near = closest(name, known)
      throw new Fault(
        'USAGE',
        `${id} has no argument "${typed}"`,
        `${near ? `did you mean ${near}? ` : ''}it takes ${known.join(', ')}`,
      )
    }
    const before = found[name]
    found[name] = before === undefined ? value : [...[before].flat(), value]
  }
  return found
}

function valueText({ value, values, word }: CalcOutput): string {
  if (values) return values.map((one) => numberText(one)).join(' ')
  return word ?? numberText(value)
}
