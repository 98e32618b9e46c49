import { distance } from 'fastest-levenshtein'
import { BASES, type Basis } from './basis.ts'
import { CONFIDENCES, type Note, type Qualifier, type QuantityComplaint } from './reading.ts'
import type { Cursor } from './text.ts'
import { qualifierOf } from './unit-text.ts'

/** What a note says, with what concerns the reading of the number itself. */
export interface NoteReading {
  readonly note: Note
  readonly qualifier?: Qualifier
  /** How a ± is meant: `triangular` when the middle is likelier, `standard` for k = 1. */
  readonly spread?: 'rectangular' | 'triangular' | 'standard'
  /** The same value in another unit, `= 127 µm`, to be checked. */
  readonly gloss?: { readonly text: string; readonly at: number }
  readonly complaints: readonly QuantityComplaint[]
}

type Draft = { -readonly [K in keyof Note]: Note[K] } & { restsOn: string[] }

interface State {
  readonly note: Draft
  qualifier?: Qualifier
  spread?: 'rectangular' | 'triangular' | 'standard'
  gloss?: { readonly text: string; readonly at: number }
  readonly complaints: QuantityComplaint[]
}

interface Segment {
  readonly text: string
  readonly at: number
}

/** Reads all that is left of a text as its note: `, measured; k=2` or `(measured; with caliper)`. */
export function readNote(cursor: Cursor): NoteReading {
  const state: State = { note: { restsOn: [] }, complaints: [] }
  for (const segment of segmentsOf(cursor)) readSegment(segment, state)
  cursor.at = cursor.text.length
  return state
}

/** Parts of the note: between semicolons, and between commas except in what follows `from`. */
function segmentsOf(cursor: Cursor): readonly Segment[] {
  const open = peel(cursor.text.slice(cursor.at), cursor.at)
  const segments: Segment[] = []
  for (const piece of split(open.text, open.at, ';')) {
    if (/^\s*(?:from|by)\s/.test(piece.text)) segments.push(piece)
    else segments.push(...byCommas(piece))
  }
  return segments
    .map(({ text, at }) => ({ text: text.trim(), at: cursor.where(at + text.length - text.trimStart().length) }))
    .filter(({ text }) => text !== '')
}

/** Commas part words, until a `from` or `by` takes the rest; a bracket behind a word, `measured (k=2)`, is a part of its own. */
function byCommas(piece: Segment): readonly Segment[] {
  const parts = split(piece.text, piece.at, ',')
  const taker = parts.findIndex(({ text }) => /^\s*(?:from|by)\s/.test(text))
  const words = (taker < 0 ? parts : parts.slice(0, taker)).flatMap(bracketed)
  const rest = parts[taker]
  return rest ? [...words, { text: piece.text.slice(rest.at - piece.at), at: rest.at }] : words
}

function bracketed({ text, at }: Segment): readonly Segment[] {
  const open = text.indexOf(' (')
  if (open < 0 || !text.trimEnd().endsWith(')') || !isBasis(text.slice(0, open).trim())) return [{ text, at }]
  const inner = text.trimEnd().slice(open + 2, -1)
  return [{ text: text.slice(0, open), at }, ...split(inner, at + open + 2, ';').flatMap(byCommas)]
}

function split(text: string, at: number, mark: string): readonly Segment[] {
  const parts: Segment[] = []
  let from = 0
  for (const part of text.split(mark)) {
    parts.push({ text: part, at: at + from })
    from += part.length + 1
  }
  return parts
}

/** Takes off what opens a note: a comma or semicolon, or a pair of brackets round it. */
function peel(rest: string, at: number): Segment {
  const lead = rest.length - rest.trimStart().length
  const text = rest.trim()
  if (text.startsWith('(') && text.endsWith(')') && closes(text) === text.length - 1)
    return { text: text.slice(1, -1), at: at + lead + 1 }
  if (text.startsWith('(') && closes(text) > 0) {
    // `(rms), measured`: the bracket is a part like any other.
    const end = closes(text)
    return {
      text: ` ${text.slice(1, end)};${text.slice(end + 1).replace(/^\s*[,;]/, (m) => ' '.repeat(m.length))}`,
      at: at + lead,
    }
  }
  if (text.startsWith(',') || text.startsWith(';')) return { text: text.slice(1), at: at + lead + 1 }
  return { text, at: at + lead }
}

function closes(text: string): number {
  let depth = 0
  for (let i = 0; i < text.length; i++) {
    if (text[i] === '(') depth += 1
    if (text[i] === ')') depth -= 1
    if (depth === 0) return i
  }
  return -1
}

const isBasis = (word: string): word is Basis => (BASES as readonly string[]).includes(word)

function readSegment(found: Segment, state: State): void {
  const segment = bare(found)
  const { text } = segment
  const { note } = state
  const qualifier = qualifierOf(text)
  if (isBasis(text)) once(segment, state, 'basis', text)
  else if (isConfidence(text)) once(segment, state, 'confidence', text)
  else if (qualifier) state.qualifier = qualifier
  else if (text === 'triangular' || text === 'rectangular' || text === 'standard') state.spread = text
  else if (text === 'limits') state.spread = 'rectangular'
  else if (text.startsWith('=')) state.gloss = { text: text.slice(1).trim(), at: segment.at + 1 }
  else if (/^[kn] ?=/.test(text)) readNumber(segment, state)
  else if (/^rests[ -]on[: ]/.test(text)) note.restsOn.push(...text.slice(8).split(/[ ,]+/).filter(Boolean))
  else if (!readKeyword(segment, state)) state.complaints.push(unknownWord(segment))
}

/** A pair of brackets round one part says nothing more. */
function bare({ text, at }: Segment): Segment {
  return text.startsWith('(') && closes(text) === text.length - 1
    ? { text: text.slice(1, -1).trim(), at: at + 1 }
    : { text, at }
}

const isConfidence = (word: string): word is (typeof CONFIDENCES)[number] =>
  (CONFIDENCES as readonly string[]).includes(word)

function once<K extends 'basis' | 'confidence' | 'k' | 'n' | 'with' | 'by' | 'on' | 'photo' | 'from' | 'visible'>(
  { at, text }: Segment,
  { note, complaints }: State,
  key: K,
  value: NonNullable<Note[K]>,
): void {
  const before = note[key]
  if (before !== undefined && before !== value) {
    complaints.push({
      at,
      what: `the note gives two: "${String(before)}" and "${text}"`,
      mend: 'keep one, or write two claims',
    })
  } else note[key] = value as Draft[K]
}

function readNumber(segment: Segment, state: State): void {
  const key = segment.text.startsWith('k') ? 'k' : 'n'
  const written = segment.text
    .slice(segment.text.indexOf('=') + 1)
    .trim()
    .replace(',', '.')
  const value = Number(written)
  const good = key === 'k' ? value > 0 && value < 100 : Number.isInteger(value) && value >= 1 && value < 1e6
  if (written !== '' && good) {
    once(segment, state, key, value)
    return
  }
  const mend = key === 'k' ? 'a coverage factor is a number such as k=2' : 'a number of readings is whole: n=5'
  state.complaints.push({ at: segment.at, what: `"${segment.text}" in the note is not understood`, mend })
}

const KEYWORDS = ['with', 'by', 'on', 'photo', 'from', 'visible'] as const

function readKeyword(segment: Segment, state: State): boolean {
  const key = KEYWORDS.find((word) => segment.text.startsWith(`${word} `) || segment.text.startsWith(`${word}: `))
  if (!key) return false
  const value = segment.text.slice(key.length + 1).trim()
  const wrong =
    value === '' ? `"${key}" stands alone` : key === 'on' && !isDate(value) ? `"${value}" is not a date` : null
  if (wrong === null) once(segment, state, key, value)
  else
    state.complaints.push({
      at: segment.at,
      what: wrong,
      mend: key === 'on' ? 'write year-month-day: on 2026-11-16' : `say ${key} what`,
    })
  return true
}

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const date = new Date(`${text}T00:00:00Z`)
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text)
}

/** Words that are understood but say it in another way. */
const MEANT: Readonly<Record<string, string>> = {
  estimated: 'judged',
  estimate: 'judged',
  guess: 'assumed',
  guessed: 'assumed',
  approx: 'judged',
  approximate: 'judged',
  datasheet: 'published',
  'data sheet': 'published',
  spec: 'published',
  nameplate: 'marked',
  label: 'marked',
  read: 'marked',
  calculated: 'computed',
  calc: 'computed',
  certain: 'near-certain',
  sure: 'near-certain',
  probable: 'likely',
  maybe: 'possible',
}

function unknownWord({ text, at }: Segment): QuantityComplaint {
  const what = `"${text}" in the note is not understood`
  if (text.startsWith('(') || text.endsWith(')'))
    return { at, what: `a bracket of the note is not closed: "${text}"`, mend: 'write (measured; k=2)' }
  if (/^[<>≈±]? ?[\d.]/.test(text)) return { at, what, mend: 'several values are several claims: a list [ …, … ]' }
  if (/^at\s/.test(text))
    return { at, what, mend: 'a condition stands in the long form: { value: …, basis: …, at: { … } }' }
  const suggest = Object.hasOwn(MEANT, text.toLowerCase()) ? MEANT[text.toLowerCase()] : nearWord(text)
  const known = `known: ${[...BASES, ...CONFIDENCES].join(', ')}, k=, n=, with, by, on, rests on, photo, from`
  return { at, what, mend: suggest ? `did you mean "${suggest}"? ${known}` : known, ...(suggest && { suggest }) }
}

function nearWord(text: string): string | undefined {
  if (text.length < 4 || text.length > 20) return undefined
  const words = [...BASES, ...CONFIDENCES, 'triangular', 'rectangular', 'standard']
  const [best] = words.map((word) => ({ word, far: distance(text.toLowerCase(), word) })).sort((a, b) => a.far - b.far)
  return best && best.far <= 2 ? best.word : undefined
}
