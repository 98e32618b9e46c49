import { z } from 'zod'
import { CONDITIONS, conditionField } from './condition.ts'
import { isMapping } from './fault.ts'
import { type Field, quantity, word } from './field.ts'
import { identified } from './identified.ts'
import { evidenceShape, fact, id, kindOf, piece, section, text } from './piece.ts'
import { idOfMetric } from './relation-id.ts'
import { readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'

const VALUE: Field = {
  form: 'any',
  dimension: 'any',
  signed: true,
  is: 'As measured or published; its unit says of what.',
}

/** Conditions of a figure, spelt as on the command line. */
const FIGURE_CONDITIONS: Readonly<Record<string, Field>> = {
  frame: quantity('temperature', 'Of the frame the unit sits on.'),
  'modulation-index': quantity('one'),
  'power-factor': { ...quantity('one'), signed: true },
  'conductor-temperature': quantity('temperature', 'Of the metal.'),
  load: { form: 'any', dimension: 'any', is: 'Power, current or share.' },
  point: word('Which operating point.', ['peak', 'continuous']),
  volume: word('Which volume.', ['envelope', 'hull', 'displaced', 'parts']),
  counts: word('As built or as found.', ['built', 'found']),
  boundary: word('Which boundary.'),
}

const conditions = piece<Readonly<Record<string, Stated>>>({ hint: 'map' }, (tree, say) => {
  const read: Record<string, Stated> = {}
  if (!isMapping(tree)) {
    say(`${kindOf(tree)} where conditions are expected`, 'write conditions: { coolant-flow: 9.8 L/min }')
    return read
  }
  for (const name of Object.keys(tree)) {
    const field = Object.hasOwn(FIGURE_CONDITIONS, name) ? FIGURE_CONDITIONS[name] : conditionField(name)
    if (field) read[name] = readStated(tree[name], field)
    else
      say(
        `unknown condition "${name}"`,
        didYouMean(name, [...Object.keys(FIGURE_CONDITIONS), ...Object.keys(CONDITIONS)]),
        [name],
        { key: true },
      )
  }
  return read
})

/** A measured or published value of something that is computed: shown beside, checked, never mixed in. */
export const observation = identified(
  section({
    id: id.optional(),
    metric: text('Id of the figure: PRESSURE_DROP.'),
    subject: text('What it is about: specimen, a part, a passage.'),
    value: fact(VALUE),
    conditions: conditions.optional(),
    ...evidenceShape,
  }),
  ({ metric, subject }) => idOfMetric(metric, subject),
)

export const observed = z.array(observation)
