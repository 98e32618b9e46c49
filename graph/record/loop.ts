import { evidenceShape, oneOrMore, section, text } from './piece.ts'

/** Exceptions from the commutation loop that is derived, with a reason. */
export const loop = section({
  'leave-out': oneOrMore(text(), 'Capacitors or metal that take no part.').optional(),
  include: oneOrMore(text(), 'Parts that take part although the nets do not say so.').optional(),
  because: text(),
  ...evidenceShape,
})
