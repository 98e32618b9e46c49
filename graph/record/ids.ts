/** An id: `[a-z][a-z0-9]*(-[a-z0-9]+)*`; piece names may also be numbers. */
const ID = /^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/
const PIECE = /^[a-z0-9]+(?:-[a-z0-9]+)*$/

/** Names that mean something to the language this is written in, and must never become the key of anything. */
export const FORBIDDEN_NAMES: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

export function isId(text: string): boolean {
  return ID.test(text) && !FORBIDDEN_NAMES.has(text)
}

export function isPieceName(text: string): boolean {
  return PIECE.test(text) && !FORBIDDEN_NAMES.has(text)
}

/** An id that was probably meant: small letters, hyphens. */
export function asId(text: string): string {
  const plain = text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
  return /^[a-z]/.test(plain) ? plain : `x-${plain}`.replace(/-$/, '')
}

/** One path segment for a reference: `cooler-lower/seat.*` → `cooler-lower-seat`, `module.v/lower` → `module-v-lower`. */
export function slugOf(reference: string): string {
  return reference
    .toLowerCase()
    .replaceAll(/\.?\*/g, '')
    .replaceAll(/[^a-z0-9~]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
}

/** Slug of the last segment of a reference: `module/switch/igbt` → `igbt`. */
export function lastSlugOf(reference: string): string {
  const segments = reference.split('/')
  return slugOf(segments[segments.length - 1] ?? reference)
}

/** Id of a relation between two things, the same whichever is named first. */
export function pairSlug(a: string, b: string): string {
  return [slugOf(a), slugOf(b)].toSorted().join('~')
}

/** Slug of a place as typed: `140 / -31 / 2.5 mm` → `140_-31_2p5`. Holds no dot: a dot in a path parts off a piece. */
export function placeSlug(text: string): string {
  return (text.match(/[-−]?\d+(?:[.,]\d+)?/g) ?? [])
    .map((number) => number.replace('−', '-').replace(/[.,]/, 'p'))
    .join('_')
}
