import { assemble } from './assemble.ts'
import { readParts } from './layout.ts'
import { type NoteReading, readNote } from './note.ts'
import { type NothingWord, placeholderOrNothing } from './nothing.ts'
import {
  type ParsedQuantity,
  type QuantityComplaint,
  type QuantityReading,
  Refused,
  refuse,
  type Wanted,
} from './reading.ts'
import { type Cursor, cursorOf, sees, skipBlanks } from './text.ts'

/**
 * Reads a quantity as a person writes it, in sheets, table cells, API inputs and on the command line alike:
 * a relation, a number, a tolerance before or after the unit, and a note. Never a silent guess: what can be read in two
 * ways is refused or read with a warning.
 *
 * @param wanted what the field asks for; without it the text speaks for itself
 *
 * @example parseQuantity('12.4 ± 0.2 mm (measured; with caliper)', { dimension: 'length' })
 */
export function parseQuantity(text: string, wanted: Wanted = {}): ParsedQuantity {
  try {
    return read(text, wanted)
  } catch (error) {
    if (error instanceof Refused) return { ok: false, text, complaints: [error.complaint] }
    throw error
  }
}

function read(text: string, wanted: Wanted): ParsedQuantity {
  const special = placeholderOrNothing(text)
  if (special) return readNothing(text, special)
  const cursor = cursorOf(text)
  const parts = readParts(cursor, wanted)
  requireNoteOrEnd(cursor)
  const noteReading = readNote(cursor)
  const reading = assemble({ text, cursor, parts, noteReading, wanted })
  const complaints = [...noteReading.complaints, ...checkGloss(noteReading, reading)]
  return complaints.length > 0 ? { ok: false, text, complaints } : reading
}

function readNothing(text: string, special: NothingWord): ParsedQuantity {
  const cursor = cursorOf(text)
  cursor.at = special.length
  const { note, complaints } = readNote(cursor)
  if (complaints.length > 0) return { ok: false, text, complaints }
  const readBack = `${special.nothing.replaceAll('-', ' ')}: no value, and not zero`
  return { ok: true, form: 'nothing', nothing: special.nothing, text, note, warnings: [], readBack }
}

/** What follows the unit must be a note; a bracket with digits behind a blank was meant as an uncertainty. */
function requireNoteOrEnd(cursor: Cursor): void {
  skipBlanks(cursor)
  const at = cursor.where(cursor.at)
  const rest = cursor.text.slice(cursor.at)
  if (sees(cursor, /\(\d+(?:\.\d+)?\)/y))
    refuse(at, `"${rest}" stands apart from its number`, 'write an uncertainty directly behind the number: 12.4(2) mm')
  if (rest === '' || /^[,;(]/.test(rest)) return
  refuse(
    at,
    `"${rest.slice(0, 40)}" is left over`,
    'one number, its tolerance, its unit, then a note behind a comma or in brackets',
  )
}

/** `5 mil (= 127 µm)`: the same in another unit, to the digits written. */
function checkGloss({ gloss }: NoteReading, reading: QuantityReading): readonly QuantityComplaint[] {
  if (!gloss) return []
  if (reading.form !== 'scalar')
    return [{ at: gloss.at, what: `"= ${gloss.text}" behind several numbers`, mend: 'leave it out' }]
  const other = parseQuantity(gloss.text, reading.dimension ? { dimension: reading.dimension } : {})
  if (!other.ok) return other.complaints.map((complaint) => ({ ...complaint, at: gloss.at + complaint.at }))
  if (
    other.form === 'scalar' &&
    Math.abs(other.value - reading.value) <= 0.51 * (other.step ?? 0) + 1e-9 * Math.abs(reading.value)
  )
    return []
  return [
    {
      at: gloss.at,
      what: `"${gloss.text}" is not the same as "${reading.text}"`,
      mend: 'correct one of them, or leave it out',
    },
  ]
}
