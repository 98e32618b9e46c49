import { BASES, type Nothing } from '../quantity/basis.ts'
import { readNote } from '../quantity/note.ts'
import type { Note } from '../quantity/reading.ts'
import { cursorOf } from '../quantity/text.ts'
import { isBasis } from './note.ts'
import { closest } from './suggest.ts'

/** Words with the note behind them, or one of the four nothings. */
export interface WordReading {
  readonly form: 'word'
  readonly text: string
  readonly word: string
  readonly nothing?: Nothing
  readonly note: Note
  readonly warnings: readonly string[]
}

export const NOTHING_WORDS: Readonly<Record<string, Nothing>> = {
  'not looked for': 'not-looked-for',
  absent: 'absent',
  'not applicable': 'not-applicable',
  unreadable: 'unreadable',
}

const NO_NOTE: Note = { restsOn: [] }

/**
 * Reads words. A bracket at the end is a note only when every part of it says how we know, as in `copper (judged)`;
 * otherwise it belongs to the words, as in `Whinfield Works (invented)`: a marking is kept exactly as seen.
 */
export function readWord(text: string): WordReading {
  const trimmed = text.trim()
  const bracket = trimmed.endsWith(')') ? trimmed.lastIndexOf('(') : -1
  if (bracket > 0) {
    const note = noteIn(trimmed.slice(bracket))
    if (note) return reading(text, trimmed.slice(0, bracket).trimEnd(), note)
    const meant = closest(/[a-z]+/.exec(trimmed.slice(bracket))?.[0] ?? '', BASES)
    if (meant)
      return {
        ...reading(text, trimmed, NO_NOTE),
        warnings: [`"${trimmed.slice(bracket)}" read as part of the words; did you mean "${meant}"?`],
      }
  }
  const comma = trimmed.lastIndexOf(',')
  const behind = comma > 0 ? trimmed.slice(comma + 1).trim() : ''
  if (isBasis(behind)) return reading(text, trimmed.slice(0, comma).trimEnd(), { basis: behind, restsOn: [] })
  return reading(text, trimmed, NO_NOTE)
}

function reading(text: string, word: string, note: Note): WordReading {
  const nothing = Object.hasOwn(NOTHING_WORDS, word) ? NOTHING_WORDS[word] : undefined
  return { form: 'word', text, word, note, warnings: [], ...(nothing && { nothing }) }
}

function noteIn(bracket: string): Note | undefined {
  if (bracket.length > 300) return undefined
  try {
    const { note, complaints } = readNote(cursorOf(bracket))
    const says = Object.keys(note).length > 1 || note.restsOn.length > 0
    return complaints.length === 0 && says && note.k === undefined && note.n === undefined ? note : undefined
  } catch {
    return undefined // an invisible character: nothing a note holds
  }
}
