import { identified } from './identified.ts'
import { evidenceShape, id, oneOrMore, piece, section, text } from './piece.ts'
import { idOfCensus } from './relation-id.ts'

const found = piece<number>({ hint: 'count', is: 'How many were found: a number, or none.' }, (tree, say) => {
  if (tree === 'none') return 0
  if (typeof tree === 'string' && /^\d{1,6}$/.test(tree)) return Number(tree)
  say(
    `"${typeof tree === 'string' ? tree : '…'}" is no number of things found`,
    'write found: none, or found: 6; how it is known goes to basis:',
  )
  return 0
})

/** "We looked": without it an empty search means that nobody looked. */
export const census = identified(
  section({
    id: id.optional(),
    of: text('Part class or group that was looked for.'),
    across: oneOrMore(text(), 'Two nets.').optional(),
    in: text('Only inside this part.').optional(),
    found,
    looked: text('Where and how.').optional(),
    ...evidenceShape,
  }),
  ({ of, across }) => idOfCensus(of, across),
)
