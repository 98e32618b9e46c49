import { isMapping } from './fault.ts'
import { count, type Field } from './field.ts'
import { kindOf, piece } from './piece.ts'
import { isStated, readStated, type Stated } from './stated.ts'
import { didYouMean } from './suggest.ts'

/** Most pieces one entry may have. */
const MOST = 10_000

/** How many pieces: as built, as found, and why they differ. */
export interface PartCount {
  readonly built?: Stated
  readonly found?: Stated
  readonly because?: string
}

const COUNT: Field = count('Pieces.')
const KEYS = ['built', 'found', 'because'] as const

/** `count: 4`, or `count: { built: 4 (judged), found: 3 (measured), because: … }`. */
export const countOf = piece<PartCount>({ hint: 'count' }, (tree, say) => {
  if (!isMapping(tree) || 'value' in tree || 'claims' in tree) {
    const stated = readStated(tree, COUNT)
    sayTooMany(stated, say)
    return { built: stated }
  }
  const read: { -readonly [K in keyof PartCount]: PartCount[K] } = {}
  for (const key of Object.keys(tree)) {
    const value = tree[key]
    if (key === 'because') {
      if (typeof value === 'string') read.because = value
      else say(`${kindOf(value)} where words are expected`, 'write one line of text', [key])
    } else if (key === 'built' || key === 'found') {
      read[key] = readStated(value, COUNT)
      sayTooMany(read[key], (what, mend) => say(what, mend, [key]))
    } else say(`unknown key "${key}"`, didYouMean(key, KEYS), [key], { key: true })
  }
  return read
})

function sayTooMany(stated: Stated, say: (what: string, mend: string) => void): void {
  const pieces = piecesIn(stated)
  if (pieces !== undefined && pieces > MOST)
    say(`${pieces} pieces`, `an entry holds up to ${MOST} pieces: split it, or check the number`)
  if (stated.claims.some(({ reading }) => reading.form === 'scalar' && reading.range))
    say('a range of pieces', 'write the likeliest whole number and how it is known: 9 (judged)')
}

/** The number taken of a count; undefined when it is none (a nothing, a bound). */
export function piecesIn(stated: unknown): number | undefined {
  if (!isStated(stated)) return undefined
  const claim = stated.claims[(stated.take ?? 1) - 1]
  return claim?.reading.form === 'scalar' && claim.reading.bound === undefined ? claim.reading.value : undefined
}
