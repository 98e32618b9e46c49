import { asPath, type Influence, type Path } from '../quantity/quantity.ts'
import {
  addFact,
  addInfluence,
  at,
  type Book,
  type Mention,
  type OpenReading,
  type PieceFound,
  type Place,
  placeToPath,
  type Scope,
} from './book.ts'
import { enter } from './enter.ts'
import { enterFact } from './enter-fact.ts'
import { childOf, isMapping } from './fault.ts'
import type { Part } from './part.ts'
import { piecesIn } from './part-count.ts'
import { PROPERTY_ALIASES } from './part-fields.ts'
import { type PartEntry, type PartIndex, pathOf } from './part-index.ts'
import { pieceFault, pieceNames } from './pieces.ts'
import type { Claim, Fact, Tree } from './record.ts'
import { didYouMean } from './suggest.ts'

/** Enters the values of every part, in the order of the sheet. */
export function enterParts(
  book: Book,
  index: PartIndex,
  parts: readonly Part[],
  tree: Tree | undefined,
  scope: Scope,
): void {
  enterList({ book, index }, parts, tree, at(null, 'parts'), scope)
}

interface Entering {
  readonly book: Book
  readonly index: PartIndex
}

function enterList(
  entering: Entering,
  parts: readonly Part[],
  tree: Tree | undefined,
  place: Place,
  scope: Scope,
): void {
  for (const [n, part] of parts.entries()) {
    const below = childOf(tree, n)
    const here = at(place, n)
    const inner = { basis: part.basis ?? scope.basis }
    enterPart(entering, part, below, here, inner)
    if (part.parts) enterList(entering, part.parts, childOf(below, 'parts'), at(here, 'parts'), inner)
  }
}

/** What entering a part added, with all that it depended on. */
interface Entered {
  readonly path: Path
  readonly place: string
  readonly basis: Scope['basis']
  readonly instruments: Book['instruments']
  readonly overrides: Book['overrides']
  readonly facts: readonly Fact[]
  readonly influences: readonly Influence[]
  readonly readings: readonly OpenReading[]
  readonly mentions: readonly Mention[]
}

/** An edit changes few parts: the others add what they added before. */
const entered = new WeakMap<Part, Entered>()

function enterPart({ book, index }: Entering, part: Part, tree: Tree | undefined, place: Place, scope: Scope): void {
  const entry = index.byId.get(part.id)
  if (!entry) return
  const where = placeToPath(place).join('/')
  const before = entered.get(part)
  if (
    before &&
    before.path === entry.path &&
    before.place === where &&
    before.basis === scope.basis &&
    before.instruments === book.instruments &&
    before.overrides === book.overrides
  ) {
    for (const fact of before.facts) addFact(book, fact)
    for (const influence of before.influences) addInfluence(book, influence)
    book.readings.push(...before.readings)
    book.mentions.push(...before.mentions)
    return
  }
  const marks = [
    book.newFacts.length,
    book.newInfluences.length,
    book.readings.length,
    book.mentions.length,
    book.faults.length + book.warnings.length,
  ] as const
  let lookedAround = false
  const findPieceOf = (of: string): PieceFound => {
    lookedAround = true
    return findPiece(of, part, entry, index)
  }
  const inner: Scope = { ...scope, findPiece: findPieceOf }
  warnOfAlias(book, part, tree, place)
  enter(book, entry.path, part, tree, place, inner)
  enterCount(book, part, entry, tree, place, inner)
  if (lookedAround || book.faults.length + book.warnings.length > marks[4]) return
  entered.set(part, {
    path: entry.path,
    place: where,
    basis: scope.basis,
    instruments: book.instruments,
    overrides: book.overrides,
    facts: book.newFacts.slice(marks[0]),
    influences: book.newInfluences.slice(marks[1]),
    readings: book.readings.slice(marks[2]),
    mentions: book.mentions.slice(marks[3]),
  })
}

/** Another word for a class or a property is understood, and said. */
function warnOfAlias(book: Book, part: Part, tree: Tree | undefined, place: Place): void {
  if (!isMapping(tree)) return
  const warn = (keys: readonly string[], what: string, mend: string, key = false): void => {
    book.warnings.push({ at: [...placeToPath(place), ...keys], what, mend, ...(key && { key: true as const }) })
  }
  if (tree.class !== part.class)
    warn(['class'], `class "${String(tree.class)}" read as ${part.class}`, `write ${part.class}`)
  for (const key in tree) {
    const meant = key in part || !Object.hasOwn(PROPERTY_ALIASES, key) ? undefined : PROPERTY_ALIASES[key]
    if (meant !== undefined) warn([key], `"${key}" read as ${meant}`, `write ${meant}`, true)
  }
}

/** The piece that `of: link-cap.3` names, which has to be one of the part in hand. */
function findPiece(of: string, part: Part, entry: PartEntry, index: PartIndex): PieceFound {
  const found = index.refer(of.includes('.') || of.includes('/') || index.byId.has(of) ? of : `${entry.id}.${of}`)
  if ('what' in found) return { what: found.what, mend: didYouMean(found.word, found.known) }
  const pick = found.picks.get(entry.id)
  if (found.entry !== entry || pick === undefined || pick === '*' || found.face) {
    const example = `${entry.id}.${entry.pieces[0] ?? '1'}`
    return { what: `"${of}" is no piece of ${entry.id}`, mend: `name one of its pieces, e.g. of: ${example}` }
  }
  const state = (part.each?.[pick]?.state ?? part.state)?.is
  return { path: pathOf(entry, found.picks), entry: entry.path, damaged: state === 'damaged' || state === 'cut' }
}

/** Counts as built and as found; what is not stated follows from the pieces and their states. */
function enterCount(
  book: Book,
  part: Part,
  entry: PartEntry,
  tree: Tree | undefined,
  place: Place,
  scope: Scope,
): void {
  const { count } = part
  const wrong = pieceFault(part)
  if (wrong)
    book.faults.push({
      at: [...placeToPath(place), 'each'],
      what: wrong,
      mend: 'name every piece, or none; a missing one is a piece with state: missing',
      path: entry.path,
    })
  if (!count && !part.each) return
  const where = at(place, count ? 'count' : 'each')
  const path = (which: string): Path => asPath(`${entry.path}/count/${which}`)
  const inner = (which: 'built' | 'found'): Place =>
    childOf(childOf(tree, 'count'), which) === undefined ? where : at(where, which)
  if (count?.built) enterFact(book, path('built'), count.built, inner('built'), scope)
  if (count?.found) enterFact(book, path('found'), count.found, inner('found'), scope)
  const missing = missingOf(part)
  const built = piecesIn(count?.built)
  if (!book.facts.has(path('built'))) derive(book, path('built'), pieceNames(part).length || 1, path('found'), scope)
  if (!book.facts.has(path('found')))
    derive(book, path('found'), (built ?? Math.max(1, pieceNames(part).length)) - missing, path('built'), scope)
  warnCount(book, part, place, entry, missing)
}

function warnCount(book: Book, part: Part, place: Place, entry: PartEntry, missing: number): void {
  const built = piecesIn(part.count?.built)
  const found = piecesIn(part.count?.found)
  const where = [...placeToPath(place), 'count']
  if (part.count?.built && built === undefined && part.count.built.faults.length === 0) {
    book.warnings.push({
      at: where,
      what: 'how many were built is not known: taken as one',
      mend: 'count them, or write a number (judged)',
      path: entry.path,
    })
  }
  if (built === undefined || found === undefined) return
  if (found > built)
    book.faults.push({
      at: where,
      what: `${found} found of ${built} built`,
      mend: 'what was found was built: correct one of them',
      path: entry.path,
    })
  else if (part.each && missing > 0 && built - missing !== found) {
    book.warnings.push({
      at: where,
      what: `${found} found, but ${missing} of ${built} have state: missing`,
      mend: 'let the two agree',
      path: entry.path,
    })
  }
}

function missingOf(part: Part): number {
  const each = Object.values(part.each ?? {})
  if (part.state?.is === 'missing')
    return pieceNames(part).length - each.filter((one) => one.state && one.state.is !== 'missing').length
  return each.filter((one) => one.state?.is === 'missing').length
}

/** A count that follows from the list of pieces has the evidence of the count beside it, or of the list. */
function derive(book: Book, path: Path, value: number, beside: Path, scope: Scope): void {
  const evidence = book.facts.get(beside)?.taken.evidence ?? { basis: scope.basis ?? 'judged', restsOn: [] }
  const claim: Claim = {
    id: `${path}#1`,
    text: String(value),
    evidence,
    quantity: {
      value,
      terms: [],
      basis: evidence.basis,
      claim: `${path}#1`,
      text: String(value),
      defaulted: false,
      restsOn: evidence.restsOn,
    },
  }
  addFact(book, { path, dimension: 'count', claims: [claim], taken: claim })
}
