import type { Nothing } from './basis.ts'
import { refuse } from './reading.ts'

/** A reserved word at the start of a text, and how long it is. */
export interface NothingWord {
  readonly nothing: Nothing
  readonly length: number
}

const WORDS: readonly (readonly [words: string, nothing: Nothing])[] = [
  ['not looked for', 'not-looked-for'],
  ['not applicable', 'not-applicable'],
  ['unreadable', 'unreadable'],
  ['absent', 'absent'],
]

/** Words that say there is no value, but not which of the four nothings is meant. */
const PLACEHOLDERS =
  /^(?:t\.?b\.?[dca]\.?|to be (?:done|determined|confirmed|measured)|to ?do|fixme|xxx+|\?+|-+|–|—|_+|\.{2,}|null|nil|~|unknown|unk\.?|n\.?\/?k\.?|not known|none|missing|pending|open|void|empty|blank)$/i

/** Recognises the four nothings, and refuses what only holds a place; null: the text is something else. */
export function placeholderOrNothing(text: string): NothingWord | null {
  const tidy = text.trim()
  if (tidy === '')
    refuse(
      0,
      'there is nothing here',
      'leave the key out, or write what was looked for and not found: absent, unreadable, not looked for, not applicable',
    )
  if (PLACEHOLDERS.test(tidy)) {
    refuse(
      0,
      `"${tidy}" is a placeholder, not a value`,
      'leave the key out, or record an open question under findings; "not looked for", "absent" and "unreadable" are values',
    )
  }
  if (/^n\.?\/?a\.?$/i.test(tidy))
    refuse(
      0,
      `"${tidy}" can be read in several ways`,
      'write "not applicable", "not looked for" or leave the key out',
      'not applicable',
    )
  if (!/^\s*[nua]/.test(text)) return null
  for (const [words, nothing] of WORDS) {
    const start = text.length - text.trimStart().length
    if (!text.startsWith(words, start) && !text.startsWith(nothing, start)) continue
    const rest = text.slice(start + words.length).trimStart()
    if (rest === '' || /^[,;(]/.test(rest)) return { nothing, length: start + words.length }
  }
  return null
}
