import { z } from 'zod'
import { identified } from './identified.ts'
import { choice, evidenceShape, id, oneOrMore, section, text } from './piece.ts'
import { idOfList } from './relation-id.ts'

const rival = section({
  reading: text('Another cause that would leave the same traces.'),
  against: text('What speaks against it.').optional(),
  for: text('What speaks for it.').optional(),
})

/** An observation and a reading of why it is so, or an open question. */
export const finding = identified(
  section({
    id: id.optional(),
    about: oneOrMore(text(), 'What it is about, by path.'),
    question: text('What nobody knows yet.').optional(),
    observation: text('What was seen.').optional(),
    reading: text('Why it is so.').optional(),
    rivals: z.array(rival).optional(),
    refute: text('What would show the reading to be wrong.').optional(),
    status: choice(['open', 'held', 'refuted']).optional(),
    ...evidenceShape,
  }),
  ({ about }) => idOfList(about),
)
