import { isMapping } from './fault.ts'
import { quantity } from './field.ts'
import { identified } from './identified.ts'
import { evidenceShape, factsOf, flag, id, kindOf, oneOrMore, piece, section, text } from './piece.ts'
import { idOfStep } from './relation-id.ts'

const undo = piece<Readonly<Record<string, number>>>(
  { hint: 'map', is: 'Fasteners undone, by id, and how many.' },
  (tree, say) => {
    const counts: Record<string, number> = {}
    if (!isMapping(tree)) say(`${kindOf(tree)} where fasteners are expected`, 'write undo: { lid-screw: 22 }')
    else {
      for (const name of Object.keys(tree)) {
        const number = tree[name]
        if (typeof number === 'string' && /^\d{1,5}$/.test(number)) counts[name] = Number(number)
        else say('how many are undone is a whole number', 'write undo: { lid-screw: 22 }', [name])
      }
    }
    return counts
  },
)

const provedDead = section({
  across: oneOrMore(text(), 'The two nets that were measured.'),
  ...factsOf({ reading: quantity('voltage', 'What the instrument showed.') }),
  ...evidenceShape,
})

/** One act of taking apart. */
export const step = identified(
  section({
    id: id.optional(),
    title: text().optional(),
    'proved-dead': provedDead.optional(),
    'takes-off': oneOrMore(text(), 'What comes off.').optional(),
    cuts: oneOrMore(text(), 'What is cut.').optional(),
    after: oneOrMore(text(), 'True blockers; the step before when nothing is said.').optional(),
    undo: undo.optional(),
    destructive: flag('Cannot be undone.').optional(),
    loses: oneOrMore(text(), 'Facts that cannot be had after it.').optional(),
    tools: oneOrMore(text()).optional(),
    ...factsOf({ time: quantity('time', 'It took or will take.') }),
    done: text('Date; not yet done when it is missing.').optional(),
    ...evidenceShape,
  }),
  (one) => idOfStep(one['proved-dead'] !== undefined, one['takes-off'] ?? one.cuts),
)
