import { asPath, type Path } from '../quantity/quantity.ts'
import { addFact, type Book, type Place, placeToPath, type Scope } from './book.ts'
import { assumedFrom, type ClaimSetting, type Component, claimOf } from './claims.ts'
import type { Claim } from './record.ts'
import type { Stated, StatedClaim } from './stated.ts'
import { bestOf, type Candidate } from './taken.ts'

const COMPONENTS: Readonly<Record<string, readonly string[]>> = {
  box: ['length', 'width', 'height'],
  place: ['x', 'y', 'z'],
}

/** A property on its way into the book. */
interface Entry {
  readonly book: Book
  readonly path: Path
  readonly stated: Stated
  readonly component: Component
  readonly place: Place | null
  readonly scope: Scope
  readonly setting: ClaimSetting
}

/** Enters one property: one fact, or one for each number of a box or place. */
export function enterFact(book: Book, path: Path, stated: Stated, place: Place | null, scope: Scope): void {
  for (const fault of stated.faults) book.faults.push({ ...fault, at: [...placeToPath(place), ...fault.at], path })
  if (stated.claims.length === 0) return
  readBack(book, path, stated, place, scope)
  const { nature } = stated.stated
  const basis = nature ?? scope.basis ?? 'assumed'
  const setting: ClaimSetting = { field: stated.stated, basis, exact: scope.exact ?? false, book }
  const names = COMPONENTS[stated.stated.form]
  if (!names) {
    enterOne({ book, path, stated, component: 0, place, scope, setting })
    return
  }
  for (const [n, name] of names.entries()) {
    enterOne({ book, path: asPath(`${path}/${name}`), stated, component: n as Component, place, scope, setting })
  }
}

function enterOne(entry: Entry): void {
  const { stated, path, component, setting } = entry
  const only = stated.claims.length === 1 ? stated.claims[0] : undefined
  if (!only || only.of !== undefined) {
    enterSeveral(entry)
    return
  }
  const claim = claimOf(only, { path, n: 1, component }, setting)
  if (claim) keep(entry, [{ claim, stated: only, onDamaged: false }], claim)
}

interface OnPiece {
  readonly path: Path
  readonly damaged: boolean
  readonly stated: StatedClaim
}

/** Several claims, some perhaps made on single pieces: those hold for their piece and are assumed for its sisters. */
function enterSeveral(entry: Entry): void {
  const { stated, path, component, setting } = entry
  const candidates: Candidate[] = []
  const onPieces: OnPiece[] = []
  let asked: Claim | undefined
  for (const [index, one] of stated.claims.entries()) {
    const spot = { path, n: index + 1, component }
    const piece = one.of === undefined ? undefined : pieceOf(entry, one, one.of)
    if (piece && 'what' in piece) continue
    const read = piece ? assumedFrom(one, spot, setting) : claimOf(one, spot, setting)
    if (!read) continue
    const claim = piece ? { ...read, of: piece.path } : read
    candidates.push({ claim, stated: one, onDamaged: piece?.damaged ?? false })
    if (stated.take === index + 1) asked = claim
    if (piece)
      onPieces.push({ path: asPath(piece.path + path.slice(piece.entry.length)), damaged: piece.damaged, stated: one })
  }
  if (candidates.length === 0) return
  const kept = keep(entry, candidates, asked ?? bestOf(candidates))
  enterPieces(
    entry,
    kept.filter((one) => one.claim.of === undefined),
    onPieces,
  )
}

function enterPieces(entry: Entry, whole: readonly Candidate[], onPieces: readonly OnPiece[]): void {
  const byPath = new Map<Path, OnPiece[]>()
  for (const one of onPieces) byPath.set(one.path, [...(byPath.get(one.path) ?? []), one])
  for (const [path, own] of byPath) {
    const made = own.flatMap(({ stated, damaged }, index): readonly Candidate[] => {
      const claim = claimOf(stated, { path, n: index + 1, component: entry.component }, entry.setting)
      return claim ? [{ claim, stated, onDamaged: damaged }] : []
    })
    const candidates = [...made, ...whole]
    if (made.length > 0) keep({ ...entry, path }, candidates, bestOf(candidates))
  }
}

function pieceOf({ book, place, scope }: Entry, claim: StatedClaim, of: string) {
  const found = scope.findPiece?.(of) ?? { what: '"of" where there are no pieces', mend: 'leave it out' }
  if ('what' in found) book.faults.push({ at: [...placeToPath(place), ...claim.at.slice(0, -1), 'of'], ...found })
  return found
}

/** Puts a fact into the book, its conditions as facts of their own. */
function keep(entry: Entry, candidates: readonly Candidate[], taken: Claim): readonly Candidate[] {
  const { book, path, stated, place } = entry
  if (book.facts.has(path)) {
    const mend = 'write both as claims of one property'
    book.faults.push({ at: placeToPath(place), what: `"${path}" is stated twice`, mend, path })
    return candidates
  }
  const all = candidates.map((one) => withConditions(entry, one, one.claim === taken))
  const claims = all.map(({ claim }) => claim)
  const chosen = all[candidates.findIndex(({ claim }) => claim === taken)]?.claim ?? taken
  const because = stated.take === undefined ? undefined : stated.because
  addFact(book, {
    path,
    dimension: dimensionOf(stated, chosen, candidates),
    claims,
    taken: chosen,
    ...(because !== undefined && { because }),
  })
  for (const { claim, stated: one } of all) {
    const { with: instrument, photo, restsOn } = claim.evidence
    if (instrument !== undefined || photo !== undefined || restsOn.length > 0 || one.run !== undefined)
      book.mentions.push({ path, claim, place, at: one.at })
  }
  return all
}

function dimensionOf({ stated: field }: Stated, taken: Claim, candidates: readonly Candidate[]): string {
  if (field.dimension !== 'any') return field.dimension
  const reading = candidates.find(({ claim }) => claim.id === taken.id)?.stated.reading
  return (reading && 'dimension' in reading && reading.dimension) || 'any'
}

function withConditions(entry: Entry, candidate: Candidate, taken: boolean): Candidate {
  const { conditions } = candidate.stated
  if (!conditions || candidate.claim.at) return candidate
  const { book, path, place, scope } = entry
  const base = taken ? path : candidate.claim.id
  const at: Record<string, Path> = {}
  for (const [name, stated] of Object.entries(conditions)) {
    const where = asPath(`${base}/at/${name}`)
    at[name] = where
    enterFact(book, where, stated, place, { ...scope, basis: candidate.claim.evidence.basis, exact: true })
  }
  return { ...candidate, claim: { ...candidate.claim, at } }
}

/**
 * Says how each text was read, and warns of those that leave their basis open. Of several claims one is taken by its
 * basis: there an open one is an error.
 */
function readBack(book: Book, path: Path, { stated: field, claims }: Stated, place: Place | null, scope: Scope): void {
  const settled = scope.basis !== undefined || field.nature !== undefined || NO_BASIS.has(field.form)
  for (const [index, claim] of claims.entries()) {
    const { reading, text, note, at } = claim
    if (reading.form !== 'word') book.readings.push({ path, claim, reading, n: index + 1 })
    const bare = !settled && note.basis === undefined && reading.form !== 'nothing'
    if (reading.warnings.length === 0 && !bare) continue
    const where = [...placeToPath(place), ...at]
    for (const what of reading.warnings) {
      book.warnings.push({ at: where, what, mend: 'write it that way if it is meant', path })
    }
    if (!bare) continue
    const mend = `write how it is known, "${text} (measured)", or a basis for the whole sheet`
    if (claims.length > 1) {
      const what = `no basis behind "${text}", and the claims of one property are ranked by it`
      book.faults.push({ at: where, what, mend, path })
      continue
    }
    book.warnings.push({ at: where, what: `no basis behind "${text}": read as assumed`, mend, path })
  }
}

/** Words, widths of instruments and values beside computed ones carry no figure: their basis may stay open. */
const NO_BASIS: ReadonlySet<string> = new Set(['word', 'width', 'any'])
