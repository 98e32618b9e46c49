import { BASES, type Basis } from '../quantity/basis.ts'
import { asPath } from '../quantity/quantity.ts'
import { CONFIDENCES, type Note } from '../quantity/reading.ts'
import type { Confidence, Evidence } from './record.ts'
import { didYouMean } from './suggest.ts'

/** The keys of the long form, and of every relation, that say how we know. */
export const NOTE_KEYS = ['basis', 'confidence', 'rests-on', 'with', 'by', 'on', 'photo', 'from', 'visible'] as const
export type NoteKey = (typeof NOTE_KEYS)[number]

export interface NoteFault {
  readonly key: NoteKey
  readonly what: string
  readonly mend: string
}

/** Reads the note keys of a mapping: `{ value: …, basis: measured, with: caliper }`. */
export function noteOf(tree: Readonly<Record<string, unknown>>): { note: Note; faults: readonly NoteFault[] } {
  const note: { -readonly [K in keyof Note]: Note[K] } = { restsOn: [] }
  const faults: NoteFault[] = []
  for (const key of NOTE_KEYS) {
    const value = tree[key]
    if (value === undefined) continue
    if (key === 'rests-on') note.restsOn = listOf(value)
    else if (typeof value !== 'string')
      faults.push({ key, what: `"${key}" is not a word`, mend: `write one word or line behind "${key}:"` })
    else if (key === 'basis') {
      if (isBasis(value)) note.basis = value
      else faults.push({ key, what: `unknown basis "${value}"`, mend: didYouMean(value, BASES) })
    } else if (key === 'confidence') {
      if (isConfidence(value)) note.confidence = value
      else faults.push({ key, what: `unknown confidence "${value}"`, mend: didYouMean(value, CONFIDENCES) })
    } else note[key] = value
  }
  return { note, faults }
}

function listOf(value: unknown): readonly string[] {
  const all = Array.isArray(value) ? value : [value]
  return all.filter((one) => typeof one === 'string')
}

export function isBasis(text: string): text is Basis {
  return (BASES as readonly string[]).includes(text)
}

export function isConfidence(text: string): text is Confidence {
  return (CONFIDENCES as readonly string[]).includes(text)
}

/** What a note says, with the basis that holds where it says none. */
export function evidenceFrom(note: Note, otherwise: Basis): Evidence {
  const { restsOn, k: _k, n: _n, ...rest } = note
  const findings = restsOn.map((id) => asPath(id.startsWith('findings/') ? id : `findings/${id}`))
  return { ...rest, basis: note.basis ?? otherwise, restsOn: findings }
}
