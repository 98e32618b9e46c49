import { calculators } from '../../queries/calculators.ts'
import type { Argument } from '../../queries/physics/method.ts'
import { type CalcAnswer, type Calculator, calculate, fieldName } from '../calculate.ts'
import { builder } from './builder.ts'

const CalcOutput = builder.objectRef<CalcAnswer['outputs'][number]>('CalcOutput')
const CalcResult = builder.objectRef<CalcAnswer>('CalcResult')

CalcOutput.implement({
  description: 'One number that a calculation gives, or a list of them.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Name.' }),
    about: t.exposeString('about', { description: 'What it is.' }),
    value: t.exposeFloat('value', { nullable: true, description: 'In `unit`; null when it is a list or a word.' }),
    values: t.exposeFloatList('values', { nullable: true, description: 'In `unit`, when it is a list.' }),
    word: t.exposeString('word', { nullable: true, description: 'When it is a word.' }),
    unit: t.exposeString('unit', { description: 'Customary symbol of the unit of measure.' }),
    ucum: t.exposeString('ucum', { description: 'UCUM code of it.' }),
    outOfRange: t.exposeBoolean('outOfRange', {
      description: 'Whether it lies outside the validated range of the method.',
    }),
  }),
})

CalcResult.implement({
  description: 'What a bench calculator gives.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'Id of the calculator.' }),
    title: t.exposeString('title', { description: 'In words.' }),
    outputs: t.field({ type: [CalcOutput], description: 'The numbers.', resolve: ({ outputs }) => outputs }),
    outOfRange: t.exposeStringList('outOfRange', {
      description:
        'Arguments and outputs outside the validated range of the method: then the numbers are not to be relied on.',
    }),
    caution: t.exposeString('caution', { nullable: true, description: 'What can hurt where this number is used.' }),
    sources: t.exposeStringList('sources', { description: 'Where the method comes from.' }),
  }),
})

/** Bench calculators: one field each, arguments as quantities in text. */
export const Calc = builder.objectRef<object>('Calc').implement({
  description:
    'Bench calculators: SI inside, quantities as text on the way in ("12.4 mm"), customary units on the way out.',
  fields: (t) =>
    Object.fromEntries(
      calculators.map((method: Calculator) => [
        fieldName(method.id),
        t.field({
          type: CalcResult,
          description: [method.title, method.caution].filter(Boolean).join('. '),
          args: Object.fromEntries(
            Object.entries(method.takes).map(([name, argument]) => [name, argumentOf(t, argument)]),
          ),
          extensions: { cost: 20 },
          resolve: (_parent, args) => calculate(method, args as Readonly<Record<string, unknown>>),
        }),
      ]),
    ),
})

type FieldBuilder = PothosSchemaTypes.ObjectFieldBuilder<typeof builder.$inferSchemaTypes, object>

function argumentOf(t: FieldBuilder, { about, unit, words, list, optional }: Argument) {
  const description = [about, unit && `[${unit}]`, words && `one of: ${words.join(', ')}`].filter(Boolean).join(' ')
  const required = !optional
  return list ? t.arg.stringList({ required, description }) : t.arg.string({ required, description })
}
