import { quantity, volume } from './field.ts'
import { evidenceShape, factsOf, id, oneOrMore, section, text } from './piece.ts'

/** A part of the unit to which a figure may be referred: what is left out, or what is in. */
export const boundary = section({
  id,
  title: text().optional(),
  without: oneOrMore(text(), 'Parts left out.').optional(),
  within: oneOrMore(text(), 'The only parts that count.').optional(),
  ...factsOf({ mass: quantity('mass'), power: quantity('power', 'Rated, of what is inside.') }),
  volume: section(
    factsOf({
      envelope: volume('Smallest box.'),
      hull: volume('Inside the outer skin.'),
      displaced: volume('Water pushed aside.'),
      parts: volume('Sum of the parts.'),
    }),
  ).optional(),
  ...evidenceShape,
})
