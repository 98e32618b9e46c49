import { area, place, quantity } from './field.ts'
import { identified } from './identified.ts'
import { choice, evidenceShape, factsOf, id, oneOrMore, section, text } from './piece.ts'
import { idOfPair } from './relation-id.ts'

const KINDS = [
  'weld',
  'screw',
  'solder',
  'press',
  'press-fit',
  'rivet',
  'clip',
  'spring',
  'bond',
  'sinter',
  'plug',
] as const

/** Where metal of one net passes into other metal. */
export const joint = identified(
  section({
    id: id.optional(),
    between: oneOrMore(text(), 'Two metal parts.'),
    kind: choice(KINDS).optional(),
    ...factsOf({ at: place(), resistance: quantity('resistance'), area: area(), torque: quantity('torque') }),
    ...evidenceShape,
  }),
  ({ between }) => idOfPair(between),
)
