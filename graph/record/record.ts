import type { Basis, Nothing } from '../quantity/basis.ts'
import type { Influence, Path, Quantity } from '../quantity/quantity.ts'
import type { PartIndex } from './part-index.ts'
import type { Sheet } from './sheet-schema.ts'

/** A sheet as typed: every scalar is its source text, nothing interpreted. */
export type Tree = string | readonly Tree[] | { readonly [key: string]: Tree }

export type Confidence = 'possible' | 'likely' | 'near-certain'

/** How we know: stands beside every claim and every relation. */
export interface Evidence {
  readonly basis: Basis
  readonly confidence?: Confidence
  /** Findings it stands or falls with, as canonical paths `findings/<id>`. */
  readonly restsOn: readonly Path[]
  readonly with?: string
  readonly by?: string
  readonly on?: string
  readonly photo?: string
  readonly from?: string
  readonly visible?: string
}

/** One statement about one property: exactly one of `quantity`, `word`, `nothing` is set. */
export interface Claim {
  /** `<fact path>#<n>`, n counted in the order of the sheet from 1. */
  readonly id: string
  readonly text: string
  readonly evidence: Evidence
  readonly quantity?: Quantity
  readonly word?: string
  readonly nothing?: Nothing
  /** The piece it was observed on, when it was one of several. */
  readonly of?: Path
  /** What it depends on, by name: paths of facts of their own. */
  readonly at?: Readonly<Record<string, Path>>
}

/**
 * Everything claimed about one property. Conditions of a claim (`at: { junction: 125 °C }`) are facts of their own
 * at `<path>/at/<condition>` for the claim taken, at `<path>#<n>/at/<condition>` for another. Boxes and places are three
 * facts: `<path>/length|width|height`, `<path>/x|y|z`.
 */
export interface Fact {
  readonly path: Path
  /** Dimension by name, e.g. 'capacitance'; 'text' for words. */
  readonly dimension: string
  readonly claims: readonly Claim[]
  readonly taken: Claim
  readonly because?: string
}

/** A validated, immutable record of one specimen. Edits make another one. */
export interface TeardownRecord {
  readonly id: string
  readonly title: string
  /** What was typed, after edits: the one thing that is patched. */
  readonly tree: Tree
  /** The same, checked and typed: structure, relations, words. Values are read through `facts`. */
  readonly sheet: Sheet
  readonly parts: PartIndex
  /** By canonical path: of an entry, or of one piece where it differs from the entry. */
  readonly facts: ReadonlyMap<Path, Fact>
  readonly influences: ReadonlyMap<string, Influence>
}
