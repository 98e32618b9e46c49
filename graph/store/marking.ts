/**
 * A marking as it is matched: one case, compatibility forms unified, nothing but letters and digits.
 *
 * @example normalMarking('WX-28 / 2.2') // 'WX2822'
 */
export function normalMarking(marking: string): string {
  return marking
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, '')
}

/** A name as it is sorted and compared: one case, without accents, blanks run together. */
export function folded(name: string): string {
  return name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/gu, ' ').trim()
}
