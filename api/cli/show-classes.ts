import { fieldOf, isDimension } from '../../graph/quantity/dimension.ts'
import type { PartClass, TerminalNames } from '../../graph/record/classes/class.ts'
import type { Field } from '../../graph/record/field.ts'
import { allClassNames, PART_CLASSES, partClassOf } from '../../graph/record/part-class.ts'
import { COMMON_FIELDS, LOSS } from '../../graph/record/part-fields.ts'
import { didYouMean } from '../../graph/record/suggest.ts'
import { Fault } from '../errors.ts'
import type { Call } from './command.ts'
import { faint, strong } from './emphasis.ts'
import { table, wrap } from './table.ts'
import type { Terminal } from './terminal.ts'

/** Every part class under its group, or one with all that may be written of it. */
export async function showClasses({ args: [name], terminal }: Call): Promise<number> {
  if (name === undefined) return listClasses(terminal)
  const found = partClassOf(name)
  if (!found) throw new Fault('NOT_FOUND', `no part class "${name}"`, didYouMean(name, allClassNames()))
  return showClass(found, terminal)
}

function listClasses(terminal: Terminal): number {
  const columns = [
    { head: 'group', cell: (one: PartClass) => (one.class === one.group ? one.group : '') },
    { head: 'class', cell: (one: PartClass) => one.class },
    { head: 'what it is', cell: (one: PartClass) => one.is, wraps: true },
    {
      head: 'properties of its own',
      cell: ({ properties }: PartClass) => Object.keys(properties).join(', '),
      wraps: true,
    },
  ]
  terminal.print(table(columns, PART_CLASSES, terminal.width))
  const common = [...Object.keys(COMMON_FIELDS), 'loss'].join(', ')
  for (const line of wrap(`\nEvery part may have besides: ${common}.`, terminal.width)) terminal.print(faint(line))
  terminal.print(faint('lidoff classes NAME tells what each of them measures.'))
  terminal.document({ classes: PART_CLASSES.map(classDocument), common: propertiesOf(EVERY_PART) })
  return 0
}

const EVERY_PART: Readonly<Record<string, Field>> = { ...COMMON_FIELDS, loss: LOSS }

/** One property as it is told: a class may say of a common one what it means there. */
interface Property {
  readonly name: string
  readonly dimension: string
  /** What is written: a number with this unit, another form, or a word. */
  readonly value: string
  readonly is: string
  readonly basis: string | null
}

function showClass(one: PartClass, terminal: Terminal): number {
  const own = propertiesOf(one.properties)
  const besides = propertiesOf(EVERY_PART).filter(({ name }) => !(name in one.properties))
  terminal.print(`${strong(one.class)}  ${one.title}, group ${one.group}`)
  terminal.print(one.is)
  if (one.aliases.length > 0) terminal.print(faint(`also read: ${one.aliases.join(', ')}`))
  terminal.print(faint(`terminals: ${terminalsText(one.terminals)}`))
  if (one.structures.length > 0) terminal.print(faint(`may have besides: ${one.structures.join(', ')}`))
  if (own.length > 0) terminal.print(`\n${table(COLUMNS, own, terminal.width)}`)
  terminal.print(`\n${strong('as every part')}`)
  terminal.print(table(COLUMNS, besides, terminal.width))
  terminal.document({ ...classDocument(one), common: besides })
  return 0
}

const COLUMNS = [
  { head: 'property', cell: (one: Property) => one.name },
  { head: 'dimension', cell: (one: Property) => one.dimension },
  { head: 'written', cell: (one: Property) => one.value, wraps: true },
  { head: 'what it is', cell: ({ is, basis }: Property) => (basis ? `${is} Taken as ${basis}.` : is), wraps: true },
]

function classDocument({ class: name, properties, terminals, ...rest }: PartClass) {
  return {
    name,
    ...rest,
    terminals: { names: terminals.names, pins: terminals.pins === true, others: terminals.pattern !== undefined },
    properties: propertiesOf(properties),
  }
}

function propertiesOf(fields: Readonly<Record<string, Field>>): readonly Property[] {
  return Object.entries(fields).map(([name, field]) => ({
    name,
    dimension: dimensionText(field),
    value: valueText(field),
    is: field.is ?? '',
    basis: field.nature ?? null,
  }))
}

const dimensionText = ({ dimension }: Field): string => (isDimension(dimension) ? fieldOf(dimension).name : dimension)

/** What a value of it looks like in a sheet. */
function valueText(field: Field): string {
  if (field.fields) return `{ ${Object.keys(field.fields).join(', ')} }`
  const words = field.words?.join(' | ')
  const once = field.form === 'word' ? (words ?? 'a word') : [numberText(field), words].filter(Boolean).join(' | ')
  if (field.by === undefined) return once
  return `${once}; or one for each of ${field.by === 'any' ? 'any names' : field.by.join(', ')}`
}

function numberText({ form, dimension }: Field): string {
  const [unit = '1', ...others] = isDimension(dimension) ? fieldOf(dimension).offer : []
  const number = unit === '1' ? 'a number' : `a number in ${[unit, ...others].join(', ')}`
  switch (form) {
    case 'count':
      return 'a whole number'
    case 'box':
      return `a x b x c ${unit}`
    case 'place':
      return `x / y / z ${unit}`
    case 'area':
      return `${number}, or a x b mm`
    case 'volume':
      return `${number}, or a x b x c mm`
    case 'width':
      return `± ${number}`
    case 'any':
      return 'a number with its unit'
    default:
      return number
  }
}

function terminalsText({ names, pins, pattern }: TerminalNames): string {
  const all = [...names, ...(pins ? ['numbered pins'] : []), ...(pattern ? ['any name'] : [])]
  return all.length > 0 ? all.join(', ') : 'none'
}
