import { evidenceShape, oneOrMore, section, text } from './piece.ts'

/** What the lender allows, and when the unit goes back. */
export const loan = section({
  back: text('Date.').optional(),
  lender: text().optional(),
  may: oneOrMore(text(), 'What may be done.').optional(),
  'may-not': oneOrMore(text(), 'What may not be done.').optional(),
  visible: text('Who may see the record.').optional(),
  note: evidenceShape.note,
})
