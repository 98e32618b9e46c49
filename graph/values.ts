import type { Edit } from './edit.ts'
import type { Basis, Nothing } from './quantity/basis.ts'
import {
  asPath,
  type Influence,
  type Path,
  type Quantity,
  type Shape,
  standardUncertainty,
} from './quantity/quantity.ts'
import type { Claim, Fact, TeardownRecord } from './record/record.ts'
import { refutedIn, standing } from './record/refuted.ts'

/** One value as the view reads it: interned, its influences by number. */
export interface Slot {
  readonly index: number
  /** The path that was asked. */
  readonly path: Path
  /** Where the value stands: the entry when a piece has none of its own. */
  readonly home: Path
  readonly quantity?: Quantity
  readonly word?: string
  readonly nothing: Nothing | 'bound-only' | 'no-such-key' | 'refuted' | null
  /** How a value or word is known, and the findings it stands or falls with. */
  readonly basis: Basis | null
  readonly restsOn: readonly Path[]
  readonly terms: readonly SlotTerm[]
  /** Fingerprint of what a reader sees. */
  readonly seen: string
}

export interface SlotTerm {
  readonly influence: number
  readonly scale: boolean
  readonly weight: number
}

/** One cause of doubt as the evaluator perturbs it. */
export interface InfluenceSlot {
  readonly index: number
  readonly id: string
  /** Whether the same cause can stand in another record. */
  readonly scope: Influence['scope']
  readonly shape: Shape
  readonly u: number
  readonly about: string
}

/** Which influences are moved, and by how much. `null` is the record as written. */
export type Draw = {
  /** Influences that may differ from zero; 'all' when every one does. */
  readonly moved: ReadonlySet<number> | 'all'
  readonly deviation: (influence: number) => number
  /** Restricts the perturbation to what stands at one home, to split a shared influence by path. */
  readonly only?: Path
  /** What was solved under this draw, by whoever solved it: shared by all that is evaluated under the same object. */
  solved?: Map<object, unknown>
} | null

/** The values of a record under `set` edits, interned so that a draw is arithmetic on numbers. */
export interface Values {
  slot(path: Path): Slot
  slotAt(index: number): Slot
  influence(index: number): InfluenceSlot
  read(slot: Slot, draw: Draw): number
  /** A cause of doubt outside any record, as a slot whose value is its deviation: 0 at the values written. */
  doubt(path: Path, shape: Shape, about: string): Slot
}

/** @param variesEach says whether the pieces of an entry deviate each on its own. */
export function openValues(
  record: TeardownRecord,
  edits: readonly Edit[],
  variesEach: (entry: Path) => boolean,
): Values {
  const overlay = new Map<Path, Quantity | Nothing>()
  for (const edit of edits) if ('set' in edit) overlay.set(edit.set, edit.to)
  const refuted = refutedIn(record)
  const slots: Slot[] = []
  const byPath = new Map<Path, Slot>()
  const influences: InfluenceSlot[] = []
  const influenceIndex = new Map<string, number>()

  const internInfluence = (id: string, base: Influence): number => {
    const known = influenceIndex.get(id)
    if (known !== undefined) return known
    const index = influences.length
    influences.push({
      index,
      id,
      scope: base.scope,
      shape: base.shape,
      u: standardUncertainty(base.shape),
      about: base.about,
    })
    influenceIndex.set(id, index)
    return index
  }

  const termsOf = (quantity: Quantity, piece: string | null): readonly SlotTerm[] =>
    quantity.terms.map((term) => {
      const base = record.influences.get(term.influence) ?? ownInfluence(term.influence, edits)
      if (!base) throw new Error(`no influence "${term.influence}" behind "${quantity.claim}"`)
      const own = piece !== null && base.scope === 'claim'
      const id = own ? `${base.id}@${piece}` : base.id
      return { influence: internInfluence(id, base), scale: term.mode === 'scale', weight: term.weight }
    })

  const intern = (path: Path): Slot => {
    const found = lookUp(path, overlay, record.facts, refuted)
    const piece = found.home !== path && path.startsWith('parts/') ? varyingPiece(record, path, variesEach) : null
    const quantity = found.quantity
    const terms = quantity ? termsOf(quantity, piece) : []
    const home = piece === null ? found.home : path
    const slot: Slot = {
      index: slots.length,
      path,
      home,
      ...(quantity && { quantity }),
      ...(found.word !== undefined && { word: found.word }),
      nothing: found.nothing,
      basis: found.basis ?? null,
      restsOn: found.restsOn ?? [],
      terms,
      seen: fingerprint(found, terms, influences),
    }
    slots.push(slot)
    byPath.set(path, slot)
    return slot
  }

  const internDoubt = (path: Path, shape: Shape, about: string): Slot => {
    const influence = internInfluence(path, { id: path, scope: 'corpus', shape, about })
    const quantity: Quantity = {
      value: 0,
      terms: [{ influence: path, mode: 'add', weight: 1 }],
      basis: 'published',
      claim: path,
      text: about,
      defaulted: false,
      restsOn: [],
    }
    const terms = [{ influence, scale: false, weight: 1 }]
    const slot: Slot = {
      index: slots.length,
      path,
      home: path,
      quantity,
      nothing: null,
      basis: quantity.basis,
      restsOn: [],
      terms,
      seen: JSON.stringify(shape),
    }
    slots.push(slot)
    byPath.set(path, slot)
    return slot
  }

  return {
    slot: (path) => byPath.get(path) ?? intern(path),
    slotAt: (index) => slots[index]!,
    influence: (index) => influences[index]!,
    doubt: (path, shape, about) => byPath.get(path) ?? internDoubt(path, shape, about),
    read: (slot, draw) => (draw === null ? slot.quantity!.value : perturbed(slot, draw)),
  }
}

function perturbed(slot: Slot, draw: NonNullable<Draw>): number {
  const value = slot.quantity!.value
  if (draw.only !== undefined && slot.home !== draw.only) return value
  let moved = value
  for (const term of slot.terms) {
    if (draw.moved !== 'all' && !draw.moved.has(term.influence)) continue
    const deviation = term.weight * draw.deviation(term.influence)
    moved += term.scale ? value * deviation : deviation
  }
  return moved
}

interface Looked {
  readonly home: Path
  readonly quantity?: Quantity
  readonly word?: string
  readonly nothing: Slot['nothing']
  readonly basis?: Basis
  readonly restsOn?: readonly Path[]
}

/** The most specific statement wins: this piece, then this piece whatever it is inside of, then the entry. */
function lookUp(
  path: Path,
  overlay: ReadonlyMap<Path, Quantity | Nothing>,
  facts: ReadonlyMap<Path, Fact>,
  refuted: ReadonlySet<Path>,
): Looked {
  let fallen = false
  for (const home of generalisations(path)) {
    const set = overlay.get(home)
    if (set !== undefined) return typeof set === 'string' ? { home, nothing: set } : fromQuantity(home, set)
    const fact = facts.get(home)
    const claim = fact && standing(fact, refuted)
    if (claim) return fromClaim(home, claim)
    fallen ||= fact !== undefined
  }
  return { home: path, nothing: fallen ? 'refuted' : 'no-such-key' }
}

function fromClaim(home: Path, claim: Claim): Looked {
  if (claim.nothing) return { home, nothing: claim.nothing }
  if (claim.quantity) return fromQuantity(home, claim.quantity)
  const { basis, restsOn } = claim.evidence
  return { home, nothing: null, word: claim.word ?? '', basis, restsOn }
}

function fromQuantity(home: Path, quantity: Quantity): Looked {
  const { basis, restsOn } = quantity
  return { home, quantity, nothing: quantity.bound ? 'bound-only' : null, basis, restsOn }
}

/**
 * Where a value may stand, from the narrowest: `parts/module.v/switch.high/igbt.2/size/length` itself, without pieces of
 * what is around it, without any. Of a face in several pieces on one of several parts: also that part's, whichever face.
 */
export function generalisations(path: Path): readonly Path[] {
  if (!path.includes('.')) return [path]
  const segments = path.split('/')
  const picked = segments.flatMap((segment, at) => (segment.includes('.') ? [at] : []))
  const keeping = (...kept: readonly number[]): Path =>
    asPath(segments.map((segment, at) => (kept.includes(at) ? segment : segment.split('.')[0]!)).join('/'))
  const [before, last] = [picked.at(-2), picked.at(-1)!]
  if (before === undefined) return [path, keeping()]
  return [...new Set([path, keeping(before, last), keeping(last), keeping(before), keeping()])]
}

/** The piece that a property is of, where pieces deviate each on its own: `parts/can.2/mass` → `parts/can.2`. */
function varyingPiece({ parts }: TeardownRecord, path: Path, variesEach: (entry: Path) => boolean): Path | null {
  const reference = parts.refer(path)
  if (!('entry' in reference) || reference.picks.size === 0 || !variesEach(reference.entry.path)) return null
  const { entry, picks } = reference
  return parts.pathOf({ entry, picks, rest: [] })
}

/** Of several edits that name a cause alike the last one counts, as it does for the value. */
function ownInfluence(id: string, edits: readonly Edit[]): Influence | undefined {
  return edits.flatMap((edit) => ('set' in edit ? (edit.influences ?? []) : [])).findLast((one) => one.id === id)
}

function fingerprint(found: Looked, terms: readonly SlotTerm[], influences: readonly InfluenceSlot[]): string {
  if (found.nothing) return `!${found.nothing}`
  if (!found.quantity) return [`"${found.word}`, found.basis, ...(found.restsOn ?? [])].join('|')
  const doubt = terms.map((term) => {
    const influence = influences[term.influence]!
    return `${influence.id}${term.scale ? '*' : '+'}${term.weight}~${JSON.stringify(influence.shape)}`
  })
  return hash([found.quantity.value, found.quantity.basis, ...doubt, ...found.quantity.restsOn].join('|'))
}

/** 53-bit FNV-like hash as base 36: short, stable, and only ever compared with itself. */
export function hash(text: string): string {
  let high = 0x811c9dc5
  let low = 0x1000193
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at)
    high = Math.imul(high ^ code, 0x01000193)
    low = Math.imul(low ^ code, 0x85ebca6b) ^ (high >>> 13)
  }
  return ((high >>> 0) * 0x200000 + ((low >>> 0) & 0x1fffff)).toString(36)
}
