import { type Qualifier, refuse } from './reading.ts'
import { type Cursor, sees, skipBlanks } from './text.ts'

/** Where a unit text ends: a tolerance, a note, what parts two numbers. */
const ENDS =
  / ?(?:±|\+|,|;|\.\.|<|>|≤|≥|≈|\/(?= ?[+-]| ?0(?![\d.])))| -(?= ?[\d.])| ?[x×X] ?(?=[+-]?[\d.])| to (?=[+-]?\d)| \/ (?=[+-]?[\d.])/y

/** Steps over the text of a unit, blanks and brackets in it included, and gives it. */
export function takeUnitText(cursor: Cursor): string {
  skipBlanks(cursor)
  const start = cursor.at
  while (cursor.at < cursor.text.length && !sees(cursor, ENDS)) {
    if (cursor.text[cursor.at] !== '(') cursor.at += 1
    else if (!stepOverBracket(cursor, start)) break
  }
  return cursor.text.slice(start, cursor.at).trim()
}

const INSIDE_UNIT = /\(([^()]{1,40})\)/y

/** A bracket is part of the unit after `/` or `·`, before an operator, or when it names a gallon; else it opens the note. */
function stepOverBracket(cursor: Cursor, start: number): boolean {
  const before = cursor.text.slice(start, cursor.at).trimEnd()
  INSIDE_UNIT.lastIndex = cursor.at
  const found = INSIDE_UNIT.exec(cursor.text)
  if (!found) return false
  const next = cursor.text[cursor.at + found[0].length] ?? ''
  const gallon = before.endsWith('gal') && /^(?:US|UK|imperial|imp)$/.test(found[1] ?? '')
  if (!/[/·*.]$/.test(before) && !/[/·*^]/.test(next) && !gallon) return false
  if (before === '' && !/[/·*^]/.test(next)) return false
  cursor.at += found[0].length
  return true
}

const QUALIFIERS: Readonly<Record<string, Qualifier>> = {
  rms: 'rms',
  RMS: 'rms',
  eff: 'rms',
  peak: 'peak',
  pk: 'peak',
  'pk-pk': 'peak-to-peak',
  'p-p': 'peak-to-peak',
  pp: 'peak-to-peak',
  'peak-to-peak': 'peak-to-peak',
  dc: 'dc',
  DC: 'dc',
  ac: 'ac',
  AC: 'ac',
}

const ATTACHED = /^([kmµ]?[AV])_?(rms|RMS|eff|peak|pk|pp|dc|DC|ac|AC)$/

export const qualifierOf = (word: string): Qualifier | undefined =>
  Object.hasOwn(QUALIFIERS, word) ? QUALIFIERS[word] : undefined

/** Parts `A rms` and `Vdc` into unit and qualifier. */
export function splitQualifier(text: string, at: number): { readonly unit: string; readonly qualifier?: Qualifier } {
  if (text.length < 3) return { unit: text }
  const blank = text.lastIndexOf(' ')
  const word = blank < 0 ? undefined : qualifierOf(text.slice(blank + 1))
  if (word) {
    const inner = splitQualifier(text.slice(0, blank).trimEnd(), at)
    if (inner.qualifier && inner.qualifier !== word && inner.qualifier !== 'ac') {
      refuse(at, `"${text}" says both ${inner.qualifier} and ${word}`, 'keep the one that is meant')
    }
    return { unit: inner.unit, qualifier: word === 'ac' && inner.qualifier ? inner.qualifier : word }
  }
  const [, unit, attached] = ATTACHED.exec(text) ?? []
  const qualifier = attached === undefined ? undefined : qualifierOf(attached)
  return unit !== undefined && qualifier ? { unit, qualifier } : { unit: text }
}
