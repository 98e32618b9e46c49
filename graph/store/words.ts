/**
 * What a person typed as a question for the full-text index: every word must occur, each possibly as the beginning of
 * a longer one. Each is quoted, so nothing of the index's own query language gets through. Null when no word is left.
 *
 * @example matchWords('gate NEAR(x* OR "y') // '"gate"* "NEAR"* "x"* "OR"* "y"*'
 */
export function matchWords(text: string): string | null {
  // Parted at the same places as by the index (letters, digits and what is combined with them stay together).
  const words = searchable(text).match(/[\p{L}\p{N}\p{M}\p{Co}]+/gu) ?? []
  const sounding = words.filter((word) => /[\p{L}\p{N}\p{Co}]/u.test(word))
  return sounding.length > 0 ? sounding.map((word) => `"${word}"*`).join(' ') : null
}

/** Text as it goes into the index: both micro signs, both ohm signs and full-width letters are one each. */
export function searchable(text: string): string {
  return text.normalize('NFKC')
}
