import { fieldOf, isDimension } from '../quantity/dimension.ts'
import { type Path, standardUncertainty } from '../quantity/quantity.ts'
import { widthFromSI } from '../quantity/unit.ts'
import type { Book, OpenReading } from './book.ts'
import type { Claim } from './record.ts'
import type { StatedClaim } from './stated.ts'

/** What the text alone says of a value that has no tolerance; what holds for it is known only with its claim. */
const OPEN = 'no tolerance written: the default width of its basis applies'

/** How a quantity text was read, to be read back to whoever typed it. */
export interface ReadBack {
  readonly path: Path
  readonly text: string
  readonly read: string
}

/** Every text with how it was read. Sentences are made here, when somebody reads them: most readings are for figures. */
export function readBacks(book: Book): readonly ReadBack[] {
  return book.readings.map((one) => ({ path: one.path, text: one.claim.text, read: sentenceFor(book, one) }))
}

function sentenceFor(book: Book, { path, claim, reading, n }: OpenReading): string {
  const made = claimAt(book, path, n)
  if (claim.readings) return readingsSentence(book, made, claim)
  return reading.readBack.replace(OPEN, () => openSentence(book, made))
}

function claimAt(book: Book, path: Path, n: number): Claim | undefined {
  for (const below of ['', '/length', '/x']) {
    const found = book.facts.get(`${path}${below}` as Path)?.claims.find(({ id }) => id === `${path}${below}#${n}`)
    if (found) return found
  }
  return undefined
}

/** What stands in for the tolerance: nothing, the instrument, or the default. */
function openSentence(book: Book, claim: Claim | undefined): string {
  const terms = claim?.quantity?.terms ?? []
  if (terms.length === 0) return 'taken as it stands, without doubt'
  return `no tolerance written: ${[...new Set(terms.map(({ influence }) => book.influences.get(influence)?.about))].join(' and ')}`
}

function readingsSentence(
  { facts, influences }: Book,
  claim: Claim | undefined,
  { readings = [], run }: StatedClaim,
): string {
  const count = readings.length
  const quantity = claim?.quantity
  const dimension = claim && facts.get(claim.id.replace(/#\d+$/, '') as Path)?.dimension
  if (!quantity || dimension === undefined || !isDimension(dimension)) return `mean of ${count} readings`
  const { print } = fieldOf(dimension)
  const shape = influences.get(quantity.terms[0]?.influence ?? '')?.shape
  // The causes of a run have unit width: its readings stand in the weights.
  const own = quantity.terms.filter(({ influence }) => influence.startsWith('run:'))
  const weight = run === undefined ? 1 : Math.hypot(...own.map((term) => term.weight))
  const u = shape?.kind === 'student' ? widthFromSI(weight * standardUncertainty(shape), print) : undefined
  const scatter = u === undefined ? '' : `; standard uncertainty of the mean ${+u.toPrecision(2)} ${print.symbol}`
  return `mean of ${count} readings${scatter}, ${count - 1} degrees of freedom${run === undefined ? '' : `, taken together with those of run ${run}`}`
}
