import { uncertaintyOf } from '../../../graph/quantity/own.ts'
import { parseQuantity } from '../../../graph/quantity/parse.ts'
import type { ScalarReading, Wanted } from '../../../graph/quantity/reading.ts'

/** The scalar reading of a text, or a thrown complaint: for tests that expect one. */
export function scalarOf(text: string, wanted: Wanted = {}): ScalarReading {
  const read = parseQuantity(text, wanted)
  if (!read.ok) throw new Error(`${text}: ${read.complaints.map(({ what, mend }) => `${what}; ${mend}`).join(' / ')}`)
  if (read.form !== 'scalar') throw new Error(`${text}: read as ${read.form}`)
  return read
}

/** All that a refusal says, and where; for texts that must not be read. */
export function refusalOf(
  text: string,
  wanted: Wanted = {},
): { readonly said: string; readonly at: number; readonly suggest?: string | undefined } {
  const read = parseQuantity(text, wanted)
  if (read.ok) throw new Error(`${text}: was read as ${JSON.stringify(read)}`)
  const [first] = read.complaints
  return {
    said: read.complaints.map(({ what, mend }) => `${what} ${mend}`).join(' '),
    at: first?.at ?? -1,
    suggest: first?.suggest,
  }
}

export const uOf = (reading: ScalarReading): number | undefined => uncertaintyOf(reading)
