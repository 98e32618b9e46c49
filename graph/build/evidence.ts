import { evidenceFrom, noteOf } from '../record/note.ts'
import type { Evidence } from '../record/record.ts'

/** How we know a relation; by eye unless its entry says otherwise. */
export function relationEvidence(entry: Readonly<Record<string, unknown>> | undefined): Evidence {
  return evidenceFrom(noteOf(entry ?? {}).note, 'judged')
}
