import { quantity } from './field.ts'
import { identified } from './identified.ts'
import { evidenceShape, factsOf, id, oneOrMore, section, text } from './piece.ts'
import { idOfPair } from './relation-id.ts'

/** Stated voltages between two nets: these go before the derived ones. */
export const voltage = identified(
  section({
    id: id.optional(),
    between: oneOrMore(text(), 'Two nets.'),
    ...factsOf({
      working: quantity('voltage', 'Highest rms or direct voltage in service.'),
      peak: quantity('voltage', 'Recurring.'),
      impulse: quantity('voltage', 'Surge to be withstood.'),
    }),
    because: text().optional(),
    ...evidenceShape,
  }),
  ({ between }) => idOfPair(between),
)
