import { z } from 'zod'
import { parseQuantity } from '../quantity/parse.ts'
import { quantity } from './field.ts'
import { identified } from './identified.ts'
import { lastSlugOf } from './ids.ts'
import { evidenceShape, factsOf, id, oneOrMore, piece, section, text } from './piece.ts'
import { idOfPhoto } from './relation-id.ts'

/** Numbers of picture elements: a point (2) or a box (left, top, width, height). */
const pixels = (numbers: 2 | 4) =>
  piece<readonly number[]>({ hint: 'text', is: numbers === 2 ? 'x y px' : 'left top width height px' }, (tree, say) => {
    const example = numbers === 2 ? '120 1904 px' : '812 430 640 420 px'
    const read = typeof tree === 'string' ? parseQuantity(tree, { kind: 'pixels' }) : undefined
    if (read?.ok && read.form === 'pixels' && read.pixels.length === numbers) return read.pixels
    say(`${numbers} numbers of picture elements are expected here`, `write ${example}`)
    return []
  })

const region = identified(
  section({ id: id.optional(), part: text('Part or face in it.'), box: pixels(4), note: evidenceShape.note }),
  ({ part }) => lastSlugOf(part),
)

/** A picture, what it shows, and what in it is how long. */
export const photo = identified(
  section({
    id: id.optional(),
    file: text('Below the folder of photos.'),
    shows: oneOrMore(text(), 'Parts and faces in it.').optional(),
    regions: z.array(region).optional(),
    scale: section({
      ...factsOf({ length: quantity('length', 'Between the two points.') }),
      from: pixels(2),
      to: pixels(2),
    }).optional(),
    taken: text('Date.').optional(),
    ...evidenceShape,
  }),
  ({ file }) => idOfPhoto(file),
)
