import { type Dimension, dimensionOf, fieldOf, fits } from './dimension.ts'
import { type NoteReading, readNote } from './note.ts'
import { readNumeral } from './numeral.ts'
import { shaped, shareOf } from './own.ts'
import { type Note, type Own, Refused, refuse, type Unreadable } from './reading.ts'
import { type Cursor, cursorOf, skipBlanks } from './text.ts'
import { isShare, readTolerance, type Tolerance } from './tolerance.ts'
import { type Unit, widthToSI } from './unit.ts'
import { takeUnitText } from './unit-text.ts'
import { readUnit } from './units.ts'

/** A tolerance without a value: what an instrument, a batch or a class of parts is uncertain by. */
export interface ToleranceReading {
  readonly ok: true
  readonly text: string
  readonly own: Own
  /** Unset for a share of the value. */
  readonly unit?: Unit
  readonly dimension?: Dimension
  readonly note: Note
  readonly warnings: readonly string[]
}

/**
 * Reads `± 0.1 %`, `± 0.03 mm`, `-10/+30 %`, `± 0.5 K (k=2)`; the sign may be left out of a symmetric one.
 *
 * @example parseTolerance('± 0.1 %') // own: scale, rectangular −0.001..0.001
 */
export function parseTolerance(text: string, dimension?: Dimension): ToleranceReading | Unreadable {
  try {
    return read(text, dimension)
  } catch (error) {
    if (error instanceof Refused) return { ok: false, text, complaints: [error.complaint] }
    throw error
  }
}

function read(text: string, dimension: Dimension | undefined): ToleranceReading | Unreadable {
  const cursor = cursorOf(text)
  const tolerance = readTolerance(cursor, takeUnitText) ?? bare(cursor)
  skipBlanks(cursor)
  const rest = cursor.text.slice(cursor.at)
  if (rest !== '' && !/^[,;(]/.test(rest))
    refuse(cursor.where(cursor.at), `"${rest}" is left over`, 'write ± 0.1 % or ± 0.03 mm')
  const noted = readNote(cursor)
  if (noted.complaints.length > 0) return { ok: false, text, complaints: noted.complaints }
  return { ok: true, text, ...owned(tolerance, dimension, noted), note: noted.note, warnings: cursor.warnings }
}

function bare(cursor: Cursor): Tolerance {
  skipBlanks(cursor)
  const half = readNumeral(cursor)
  if (half === null)
    return refuse(cursor.where(cursor.at), `"${cursor.text}" is not a tolerance`, 'write ± 0.1 % or ± 0.03 mm')
  return {
    low: -half.value,
    high: half.value,
    symmetric: true,
    unit: takeUnitText(cursor),
    at: half.at,
    text: half.text,
  }
}

function owned(
  tolerance: Tolerance,
  dimension: Dimension | undefined,
  { note, spread }: NoteReading,
): Pick<ToleranceReading, 'own' | 'unit' | 'dimension'> {
  const how = { k: note.k, n: note.n, spread }
  if (isShare(tolerance.unit) && dimension !== 'fraction') {
    return {
      own: {
        mode: 'scale',
        ...shaped(shareOf(tolerance.low, tolerance), shareOf(tolerance.high, tolerance), tolerance, how),
      },
    }
  }
  if (tolerance.unit === '' && dimension !== 'one')
    refuse(tolerance.at, `"${tolerance.text}" has no unit`, 'write ± 0.1 % or ± 0.03 mm')
  const found = readUnit(tolerance.unit === '' ? '1' : tolerance.unit, dimension)
  if (!found.ok) return refuse(tolerance.at, found.what, found.mend, found.suggest)
  const { unit } = found
  if (dimension !== undefined && !fits(unit, dimension)) {
    refuse(
      tolerance.at,
      `"${tolerance.text}" is not a tolerance of a ${fieldOf(dimension).name}`,
      `give it in ${fieldOf(dimension).offer.join(', ')} or %`,
    )
  }
  // A width in °C is one of a difference, whichever field it is written for.
  const named = dimension ?? dimensionOf(unit)
  const own: Own = {
    mode: 'add',
    ...shaped(widthToSI(tolerance.low, unit), widthToSI(tolerance.high, unit), tolerance, how),
  }
  return { own, unit, ...(named && { dimension: named }) }
}
