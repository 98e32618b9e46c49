import type { Basis } from '../quantity/basis.ts'
import type { DefaultOverrides } from '../quantity/defaults.ts'
import type { Influence, Path } from '../quantity/quantity.ts'
import type { QuantityReading } from '../quantity/reading.ts'
import type { Fault, Key, TreePath } from './fault.ts'
import type { InstrumentDoubt } from './instruments.ts'
import type { Claim, Fact } from './record.ts'
import type { StatedClaim } from './stated.ts'

/** A text that was read, and the number of its claim. */
export interface OpenReading {
  readonly path: Path
  readonly claim: StatedClaim
  readonly reading: QuantityReading
  readonly n: number
}

/** A place in the tree as a chain, so that walking a record makes no lists. */
export interface Place {
  readonly up: Place | null
  readonly key: Key
}

export function placeToPath(place: Place | null): TreePath {
  const keys: Key[] = []
  for (let here = place; here; here = here.up) keys.push(here.key)
  return keys.reverse()
}

export const at = (up: Place | null, key: Key): Place => ({ up, key })

/** A piece that a claim was made on, or why it is none. */
export type PieceFound =
  | { readonly path: Path; readonly entry: Path; readonly damaged: boolean }
  | { readonly what: string; readonly mend: string }

/** What holds for the values below. */
export interface Scope {
  /** Basis of values that name none. */
  readonly basis: Basis | undefined
  /** Values that define rather than describe: only a tolerance that is written counts. */
  readonly exact?: boolean
  /** The piece that `of:` names. */
  readonly findPiece?: (of: string) => PieceFound
}

/** A claim that names an instrument, a finding or a photo: looked up when all is known. */
export interface Mention {
  readonly path: Path
  readonly claim: Claim
  readonly place: Place | null
  readonly at: TreePath
}

/** Everything that was stated, gathered by path. */
export interface Book {
  readonly facts: Map<Path, Fact>
  readonly influences: Map<string, Influence>
  readonly faults: Fault[]
  readonly warnings: Fault[]
  readonly readings: OpenReading[]
  readonly mentions: Mention[]
  /** Facts and causes of doubt once more, in the order they came in. */
  readonly newFacts: Fact[]
  readonly newInfluences: Influence[]
  readonly instruments: ReadonlyMap<string, InstrumentDoubt>
  readonly overrides: DefaultOverrides
}

export function openBook(instruments: ReadonlyMap<string, InstrumentDoubt>, overrides: DefaultOverrides): Book {
  return {
    facts: new Map(),
    influences: new Map(),
    faults: [],
    warnings: [],
    readings: [],
    mentions: [],
    newFacts: [],
    newInfluences: [],
    instruments,
    overrides,
  }
}

export function addFact(book: Book, fact: Fact): void {
  book.facts.set(fact.path, fact)
  book.newFacts.push(fact)
}

export function addInfluence(book: Book, influence: Influence): void {
  book.influences.set(influence.id, influence)
  book.newInfluences.push(influence)
}
