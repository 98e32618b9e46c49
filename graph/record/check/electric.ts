import type { TreePath } from '../fault.ts'
import type { PartEntry, PartReference } from '../part-index.ts'
import { cycleIn } from './cycle.ts'
import { itemPlace, type Known, netRef, partRef } from './known.ts'
import { repeatedIds } from './repeated.ts'

/** Nets, joints, voltages, spacings, ports and loops: what they name is there, and no net rides on itself. */
export function checkElectric(known: Known): void {
  const { sheet } = known.record
  for (const [id, port] of Object.entries(sheet.specimen.ports ?? {}))
    nets(known, port.nets ?? [], ['specimen', 'ports', id, 'nets'])
  for (const [id, net] of Object.entries(sheet.nets ?? {})) {
    for (const key of ['rides-on', 'tied-to'] as const) if (net[key]) netRef(known, net[key].is, ['nets', id, key])
    if (net.offset && !net['rides-on'])
      known.warn(['nets', id, 'offset'], 'an offset without a net it is measured against', 'add rides-on')
  }
  const cycle = cycleIn(
    new Map(Object.entries(sheet.nets ?? {}).map(([id, net]) => [id, net['rides-on'] ? [net['rides-on'].is] : []])),
  )
  if (cycle)
    known.say(
      ['nets', cycle[0] ?? ''],
      `nets that ride on each other: ${cycle.join(' → ')}`,
      'one of them has a potential of its own',
    )
  checkJoints(known)
  for (const section of ['voltages', 'spacings'] as const) {
    repeatedIds(known, sheet[section] ?? [], [section])
    for (const [n, { between }] of (sheet[section] ?? []).entries()) pair(known, between, [section, n, 'between'])
  }
  for (const [n, { on }] of (sheet.spacings ?? []).entries())
    if (on !== undefined) partRef(known, on, ['spacings', n, 'on'])
  checkLoops(known)
}

function nets(known: Known, names: readonly string[], at: TreePath): void {
  for (const [n, net] of names.entries()) netRef(known, net, itemPlace(known, at, n))
}

function pair(known: Known, names: readonly string[], at: TreePath): void {
  if (names.length !== 2 || names[0] === names[1])
    known.say(at, 'two different nets are expected here', 'write between: [dc-plus, chassis]')
  nets(known, names, at)
}

function checkJoints(known: Known): void {
  const joints = known.record.sheet.joints ?? []
  repeatedIds(known, joints, ['joints'])
  for (const [n, { between }] of joints.entries()) {
    const at: TreePath = ['joints', n, 'between']
    if (between.length !== 2 || between[0] === between[1])
      known.say(at, 'a joint is between two parts', 'write between: [bar-plus, plate-plus]')
    const parts = between.flatMap((text, m) => partRef(known, text, itemPlace(known, at, m)) ?? [])
    checkPieces(known, parts, between, at)
    const [first, second] = parts.map(({ entry }) => known.parts.get(entry.id)?.net)
    if (
      first !== undefined &&
      second !== undefined &&
      !first.includes('*') &&
      !second.includes('*') &&
      first !== second
    ) {
      known.warn(at, `a joint between metal of two nets, ${first} and ${second}`, 'correct the net of one of them')
    }
  }
}

/** A part that comes in several pieces is joined piece by piece; where both ends do, a star says which to which. */
function checkPieces(known: Known, parts: readonly PartReference[], typed: readonly string[], at: TreePath): void {
  const open = parts.map(({ entry, picks }) =>
    chainOf(entry).find((one) => one.pieces.length > 0 && (picks.get(one.id) ?? '*') === '*'),
  )
  const [first, second] = open
  if (!first || !second) return
  if (!typed.every((text) => text.includes('*')))
    known.say(
      at,
      `"${typed.join('" and "')}" come in several pieces: which is joined to which?`,
      `write ${first.id}.* and ${second.id}.* for those of the same name`,
    )
  const missing = first.pieces.filter((name) => !second.pieces.includes(name))
  if (missing.length > 0)
    known.say(
      at,
      `"${second.id}" has no piece ${missing.join(', ')} to join`,
      `pieces there: ${second.pieces.join(', ')}`,
    )
}

function chainOf(entry: PartEntry): readonly PartEntry[] {
  return entry.parent ? [...chainOf(entry.parent), entry] : [entry]
}

function checkLoops(known: Known): void {
  for (const [key, loop] of Object.entries(known.record.sheet.loops ?? {})) {
    if (!known.nets.has(key)) partRef(known, key, ['loops', key])
    if (loop.include)
      known.warn(
        ['loops', key, 'include'],
        'a loop is computed from the nets alone: what is included beside them is kept and shown',
        'put the terminals of the part on the nets that it is on',
      )
    for (const list of ['leave-out', 'include'] as const) {
      for (const [n, part] of (loop[list] ?? []).entries())
        partRef(known, part, itemPlace(known, ['loops', key, list], n))
    }
  }
}
