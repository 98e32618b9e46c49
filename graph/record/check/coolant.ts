import type { Circuit, Sequence } from '../coolant.ts'
import type { TreePath } from '../fault.ts'
import { type PartEntry, type PartReference, splitPiece } from '../part-index.ts'
import { PASSAGE_FORM_NAMES } from '../passage.ts'
import { circuitPlace, type Known, partRef, passageRef } from './known.ts'
import { repeatedIds } from './repeated.ts'

type Passage = NonNullable<Circuit['passages']>[number]

/** Passages, the faces they cool, and the order of the coolant. */
export function checkCoolant(known: Known): void {
  for (const [n, circuit] of (known.record.sheet.coolant ?? []).entries()) {
    const at = circuitPlace(known, n)
    for (const [m, passage] of (circuit.passages ?? []).entries()) checkPassage(known, passage, [...at, 'passages', m])
    if (circuit.sequence) checkSequence(known, circuit, [...at, 'sequence'])
    if (circuit['glycol-by-volume'] && circuit['glycol-by-mass'])
      known.say([...at, 'glycol-by-mass'], 'the share of glycol by volume and by mass', 'keep the one that was read')
    for (const [m, { flow }] of (circuit.doubts ?? []).entries()) checkFlow(known, flow, [...at, 'doubts', m, 'flow'])
    repeatedIds(known, circuit.doubts ?? [], [...at, 'doubts'])
  }
}

function checkPassage(known: Known, passage: Passage, at: TreePath): void {
  const own = Object.values(passage.each ?? {})
  const forms = PASSAGE_FORM_NAMES.filter((form) => passage[form] !== undefined)
  const ofPieces = PASSAGE_FORM_NAMES.filter((form) => own.some((one) => one[form] !== undefined))
  const all = new Set([...forms, ...ofPieces])
  if (all.size !== 1) {
    const what = all.size === 0 ? 'a passage without a form' : `a passage with ${[...all].join(' and ')}`
    known.say(at, what, `exactly one of ${PASSAGE_FORM_NAMES.join(', ')}`)
  }
  repeatedIds(known, passage['minor-losses'] ?? [], [...at, 'minor-losses'])
  repeatedIds(known, passage.cools ?? [], [...at, 'cools'])
  for (const [n, { face }] of (passage.cools ?? []).entries())
    checkFace(known, face, Object.keys(passage.each ?? {}), [...at, 'cools', n, 'face'])
  for (const [name, piece] of Object.entries(passage.each ?? {})) {
    for (const [n, { face }] of (piece.cools ?? []).entries())
      checkFace(known, face, [name], [...at, 'each', name, 'cools', n, 'face'])
  }
}

function checkFace(known: Known, text: string, pieces: readonly string[], at: TreePath): void {
  const found = partRef(known, text, at)
  if (!found) return
  if (!found.face)
    known.say(
      at,
      `"${text}" is a part: a passage cools a face`,
      `write ${text}/${found.entry.faces[0]?.name ?? 'face'}`,
    )
  const declared = found.entry.faces.find((face) => face.name === found.face?.name)?.pieces ?? []
  const open = unnamed(found, declared)
  if (open)
    known.say(
      at,
      `"${text}" does not say which piece of "${open}"`,
      pieces.length > 0 ? `write ${open}.* for the piece of the same name` : 'list the face of each piece on its own',
    )
  const stars = [...found.picks].filter(([, pick]) => pick === '*').map(([id]) => known.record.parts.byId.get(id))
  const ends = [...stars.map((entry) => entry?.pieces ?? []), ...(found.face?.piece === '*' ? [declared] : [])]
  if (ends.length === 0) return
  if (pieces.length === 0)
    known.say(
      at,
      `the star of "${text}" has nothing to stand for: the passage comes once`,
      'name the piece, or list each face',
    )
  for (const there of ends) {
    const missing = pieces.filter((name) => !there.includes(name))
    if (missing.length > 0)
      known.say(
        at,
        `"${text}" has no piece ${missing.join(', ')}`,
        there.length > 0 ? `pieces there: ${there.join(', ')}` : 'it comes once: write it without the star',
      )
  }
}

/** What comes in several pieces of which none is named. */
function unnamed({ entry, picks, face }: PartReference, declared: readonly string[]): string | undefined {
  if (face && face.piece === undefined && declared.length > 0) return face.name
  for (let up: PartEntry | null = entry; up; up = up.parent) if (up.pieces.length > 0 && !picks.has(up.id)) return up.id
  return undefined
}

const ENDS = ['inlet', 'outlet']

function checkSequence(known: Known, { sequence = [] }: Circuit, at: TreePath): void {
  const seen = new Set<string>()
  if (sequence[0] !== 'inlet') known.say(at, 'the order of passages does not start at the inlet', 'write inlet first')
  if (sequence.at(-1) !== 'outlet')
    known.say(at, 'the order of passages does not end at the outlet', 'write outlet last')
  const visit = (items: readonly Sequence[], here: TreePath): void => {
    if (items.length === 0) known.say(here, 'an empty list in the order of passages', 'leave it out')
    for (const [n, item] of items.entries()) {
      const where = [...here, n]
      if (typeof item !== 'string') visit(item, where)
      else if (ENDS.includes(item)) {
        const right = here.length === at.length && n === (item === 'inlet' ? 0 : sequence.length - 1)
        if (!right)
          known.say(where, `"${item}" inside the order of passages`, 'inlet stands first, outlet last, each once')
      } else if (seen.has(item))
        known.say(
          where,
          `the coolant visits "${item}" twice`,
          'each passage stands once; name the pieces of a passage that comes several times',
        )
      else {
        seen.add(item)
        passageRef(known, item, where)
      }
    }
  }
  visit(sequence, at)
}

function checkFlow(known: Known, flow: string, at: TreePath): void {
  const ends = flow.trim().split(/\s+to\s+/)
  if (ends.length !== 2) known.say(at, `"${flow}" does not name a flow`, 'write flow: wall to lower.u')
  else for (const end of ends) if (!ENDS.includes(splitPiece(end).name)) passageRef(known, end, at)
}
