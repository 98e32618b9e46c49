import type { TreePath } from '../fault.ts'
import { LAYER_FIELDS } from '../heat.ts'
import type { PartEntry, PartReference } from '../part-index.ts'
import type { Sheet } from '../sheet-schema.ts'
import { cycleIn } from './cycle.ts'
import { type Known, partRef, passageRef } from './known.ts'
import { repeatedIds } from './repeated.ts'

type HeatPath = NonNullable<Sheet['heat']>[number]
const SINKS = ['ambient', 'frame']

/** Heat paths: both ends and every layer are there, and one star means the same piece at both ends. */
export function checkHeat(known: Known): void {
  const paths = known.record.sheet.heat ?? []
  repeatedIds(known, paths, ['heat'])
  for (const [n, path] of paths.entries()) {
    const at: TreePath = ['heat', n]
    const from = partRef(known, path.from, [...at, 'from'])
    checkEnd(known, path, from, at)
    checkLayers(known, path, from, at)
  }
  checkLoop(known, paths)
}

/** Heat that comes back to where it started; a star and no piece named mean the same piece at both ends. */
function checkLoop(known: Known, paths: readonly HeatPath[]): void {
  const node = (text: string): string | undefined => {
    const reference = known.record.parts.refer(text)
    if (!('entry' in reference)) return undefined
    const named = [...reference.picks].filter(([, pick]) => pick !== '*').map(([id, pick]) => `${id}.${pick}`)
    const face = reference.face && `${reference.face.name}.${reference.face.piece ?? '*'}`
    return [reference.entry.path, ...named, face ?? ''].join(' ')
  }
  const next = new Map<string, string[]>()
  for (const { from, to } of paths) {
    const [start, end] = [node(from), SINKS.includes(to) ? undefined : node(to)]
    if (start !== undefined && end !== undefined) next.set(start, [...(next.get(start) ?? []), end])
  }
  const cycle = cycleIn(next)
  if (!cycle) return
  const n = paths.findIndex(({ from, to }) => node(from) === cycle[0] && node(to) === cycle[1])
  known.say(
    ['heat', Math.max(0, n), 'to'],
    `heat comes back to where it started: ${paths[Math.max(0, n)]!.from} → ${paths[Math.max(0, n)]!.to}`,
    'turn one of the paths round, or end it at coolant, ambient or frame',
  )
}

function checkEnd(known: Known, { to }: HeatPath, from: PartReference | undefined, at: TreePath): void {
  const where = [...at, 'to']
  if (SINKS.includes(to)) return
  const name = to.replace(/^coolant\//, '')
  if (
    to.startsWith('coolant/') ||
    (known.passages.has(name.split('.')[0] ?? '') && !known.record.parts.byId.has(name.split('.')[0] ?? ''))
  ) {
    passageRef(known, name, where)
    checkOneFace(known, name, where)
    return
  }
  const end = partRef(known, to, where)
  if (end && from) checkPieces(known, from, end, to, where)
  if (end && !end.face && !goesOn(known, end.entry))
    known.warn(
      where,
      `"${to}" is a part from which no heat path goes on: the heat ends in it`,
      end.entry.faces[0] ? `end it on a face: ${to}/${end.entry.faces[0].name}` : `add a path from ${to}`,
    )
}

/** Whether a path starts at a part itself: those of its faces start at the faces. */
function goesOn({ record }: Known, part: PartEntry): boolean {
  return (record.sheet.heat ?? []).some(({ from }) => {
    const reference = record.parts.refer(from)
    return 'entry' in reference && reference.entry === part && !reference.face
  })
}

/** A passage may stand for its face only when it cools exactly one. */
function checkOneFace(known: Known, text: string, at: TreePath): void {
  const [name = '', piece] = text.split('.')
  const passage = (known.record.sheet.coolant ?? [])
    .flatMap((circuit) => circuit.passages ?? [])
    .find(({ id }) => id === name)
  if (!passage) return
  const cools = (piece === undefined ? undefined : passage.each?.[piece]?.cools) ?? passage.cools ?? []
  if (cools.length !== 1)
    known.say(at, `passage "${name}" cools ${cools.length} faces: the heat must end on one of them`, 'name the face')
}

/** Every piece at the far end is named, follows from the start, or is said by the star. */
function checkPieces(known: Known, from: PartReference, to: PartReference, text: string, at: TreePath): void {
  const starts = starNames(from)
  for (const entry of chain(to.entry)) {
    if (entry.pieces.length === 0) continue
    const pick = to.picks.get(entry.id)
    if (pick === undefined && !chain(from.entry).includes(entry))
      known.say(at, `"${text}" does not say which piece of "${entry.id}"`, oneOf(entry.id, entry.pieces))
    if (pick === '*') sameNames(known, starts, entry.pieces, `${entry.id}.*`, at)
  }
  if (!to.face) return
  const declared = to.entry.faces.find((face) => face.name === to.face?.name)?.pieces ?? []
  if (declared.length === 0) return
  if (to.face.piece === undefined)
    known.say(at, `"${text}" does not say which piece of face "${to.face.name}"`, oneOf(to.face.name, declared))
  if (to.face.piece === '*') sameNames(known, starts, declared, `${to.face.name}.*`, at)
}

function sameNames(known: Known, starts: readonly string[], ends: readonly string[], text: string, at: TreePath): void {
  const missing = starts.filter((name) => !ends.includes(name))
  if (starts.length === 0)
    known.say(at, `the star of "${text}" has nothing to stand for: what it starts from comes once`, 'name the piece')
  else if (missing.length > 0)
    known.say(
      at,
      `"${text}" has no piece ${missing.map((one) => `"${one}"`).join(', ')} to match`,
      `pieces here: ${ends.join(', ')}`,
    )
}

/** Names that a star at the far end runs through. */
export function starNames({ entry, picks, face }: PartReference): readonly string[] {
  if (face) {
    const declared = entry.faces.find((one) => one.name === face.name)?.pieces ?? []
    if (declared.length > 0) return face.piece === undefined || face.piece === '*' ? declared : [face.piece]
  }
  const starred = chain(entry).find((one) => picks.get(one.id) === '*')
  if (starred) return starred.pieces
  for (const one of chain(entry).toReversed()) {
    if (one.pieces.length === 0) continue
    const pick = picks.get(one.id)
    return pick === undefined || pick === '*' ? one.pieces : [pick]
  }
  return []
}

function chain(entry: PartEntry): readonly PartEntry[] {
  return entry.parent ? [...chain(entry.parent), entry] : [entry]
}

function oneOf(name: string, pieces: readonly string[]): string {
  return `write one of ${pieces
    .slice(0, 6)
    .map((one) => `${name}.${one}`)
    .join(', ')}, or ${name}.* for the piece of the same name`
}

function checkLayers(
  known: Known,
  { layers, resistance }: HeatPath,
  from: PartReference | undefined,
  at: TreePath,
): void {
  if (!layers && !resistance)
    known.warn(
      at,
      'a heat path with neither layers nor resistance: how it resists is not known',
      'add layers, a resistance, or resistance: not looked for',
    )
  if (layers && layers.length > 0 && resistance)
    known.warn(
      [...at, 'resistance'],
      'a resistance and layers: the stated resistance is what counts',
      'keep one of the two',
    )
  const seen = new Set<string>()
  for (const [n, layer] of (layers ?? []).entries()) {
    const here = [...at, 'layers', n]
    if (seen.has(layer.id)) known.say(here, `two layers of this path are called "${layer.id}"`, 'give each an id')
    seen.add(layer.id)
    if ((layer.part === undefined) === (layer.kind === undefined))
      known.say(
        here,
        'a layer is a recorded part or of a kind, one of the two',
        'write part: film.*, or kind: die-attach',
      )
    if (layer.part === undefined) continue
    const found = partRef(known, layer.part, [...here, 'part'])
    if (found && from) checkStar(known, found, from, layer.part, [...here, 'part'])
    for (const key of Object.keys(LAYER_FIELDS) as (keyof typeof LAYER_FIELDS)[]) {
      if (layer[key])
        known.say(
          [...here, key],
          `the ${key} of "${layer.part}" is stated at the part`,
          'leave it out here: one home for every value',
        )
    }
  }
}

function checkStar(known: Known, found: PartReference, from: PartReference, text: string, at: TreePath): void {
  for (const [id, pick] of found.picks)
    if (pick === '*') sameNames(known, starNames(from), known.record.parts.byId.get(id)?.pieces ?? [], text, at)
}
