import type { TreePath } from '../fault.ts'
import { netsOfPart } from '../nets-used.ts'
import type { Part, PiecePart } from '../part.ts'
import { isOfClass } from '../part-class.ts'
import { pieceFault } from '../pieces.ts'
import { cycleIn } from './cycle.ts'
import { itemPlace, type Known, netRef, partRef, passageRef } from './known.ts'

/** References of parts: nets of terminals and metal, what they lie beside, go round, join and seal. */
export function checkParts(known: Known): void {
  for (const [id, part] of known.parts) {
    const at = known.partPlaces.get(id) ?? ['parts']
    checkNets(known, part, at)
    checkReferences(known, part, at)
    checkFaces(known, part, at)
    checkStack(known, part, at)
    for (const [n, [name, piece]] of Object.entries(part.each ?? {}).entries()) {
      const each = itemPlace(known, [...at, 'each'], n)
      checkReferences(known, piece, each.at(-1) === 'each' ? [...each, name] : each)
    }
  }
  checkGeometry(known)
}

function checkNets(known: Known, part: Part, at: TreePath): void {
  for (const [net, terminal] of netsOfPart(part, known.record.parts)) {
    if (known.nets.has(net)) continue
    netRef(known, net, terminal === '' ? [...at, 'net'] : terminalPlace(part, terminal, net, at))
  }
}

function terminalPlace(part: Part, name: string, net: string, at: TreePath): TreePath {
  const own = Object.entries(part.each ?? {}).findIndex(([, piece]) => piece.terminals?.[name]?.net === net)
  const typed = part.terminals?.[name]?.typed ?? name
  if (own < 0) return [...at, 'terminals', typed]
  const key = Object.keys(part.each ?? {})[own] ?? ''
  return [...at, 'each', key, 'terminals', part.each?.[key]?.terminals?.[name]?.typed ?? name]
}

function checkReferences(known: Known, part: PiecePart, at: TreePath): void {
  for (const key of ['round', 'joins'] as const) {
    for (const [n, other] of (part[key] ?? []).entries()) partRef(known, other, itemPlace(known, [...at, key], n))
  }
  const { seals, beside, run, plate } = part
  for (const [n, passage] of (seals?.passages ?? []).entries())
    passageRef(known, passage, itemPlace(known, [...at, 'seals', 'passages'], n), true)
  for (const [n, other] of (seals?.['leaks-towards'] ?? []).entries()) {
    if (other !== 'outside' && other !== 'ambient')
      partRef(known, other, itemPlace(known, [...at, 'seals', 'leaks-towards'], n))
  }
  if (beside) partRef(known, beside.part, [...at, 'beside', 'part'])
  if (run?.along !== undefined) {
    if (run.from || run.to || run.via)
      known.say(
        [...at, 'run', 'along'],
        '"along" repeats the run of another bar, and "from", "via", "to" give one',
        'keep one of the two',
      )
    const found = partRef(known, run.along, [...at, 'run', 'along'])
    const other = found && known.parts.get(found.entry.id)
    if (other && !other.run && !Object.values(other.each ?? {}).some((one) => one.run))
      known.say([...at, 'run', 'along'], `"${run.along}" has no run to go along`, 'name a bar with a run')
  } else if (run && !(run.from && run.to))
    known.say([...at, 'run'], 'a run without both its ends', 'give from: and to:, or along: another bar')
  if (run && plate)
    known.say([...at, 'plate'], 'a bar with a run and a plate at once', 'write two parts and a joint between them')
}

function checkFaces(known: Known, part: Part, at: TreePath): void {
  for (const [key, face] of Object.entries(part.faces ?? {})) {
    const wrong = pieceFault(face)
    if (wrong) known.say([...at, 'faces', key], wrong, 'name every piece of the face, or none')
    if (key.includes('.') && face.each)
      known.say([...at, 'faces', key], `"${key}" is one piece of a face and names pieces itself`, 'use one of the two')
  }
  if (part.vary === 'each' && !part.each && !part.count)
    known.warn([...at, 'vary'], '"vary: each" on a part that comes once', 'leave it out')
}

function checkStack(known: Known, part: Part, at: TreePath): void {
  const layers = new Set<string>()
  for (const [n, layer] of (part.stack ?? []).entries()) {
    const here = [...at, 'stack', n]
    if (layers.has(layer.id)) known.say(here, `two layers are called "${layer.id}"`, 'give each an id')
    layers.add(layer.id)
    if ((layer.copper === undefined) === (layer.film === undefined))
      known.say(here, 'a layer of a stack is either copper or film', 'write copper: 18 µm, or film: 50 µm')
    if (layer.net !== undefined) netRef(known, layer.net, [...here, 'net'])
  }
  const traces = new Set<string>()
  for (const [n, trace] of (part.traces ?? []).entries()) {
    const here = [...at, 'traces', n]
    if (traces.has(trace.id)) known.say(here, `two traces are called "${trace.id}"`, 'give each an id')
    traces.add(trace.id)
    netRef(known, trace.net, [...here, 'net'])
    for (const [key, names] of [
      ['layer', trace.layer === undefined ? [] : [trace.layer]],
      ['reference', trace.reference ?? []],
    ] as const) {
      for (const [m, name] of names.entries())
        if (!layers.has(name))
          known.say(
            itemPlace(known, [...here, key], m),
            `the stack has no layer "${name}"`,
            `known here: ${[...layers].join(', ')}`,
          )
    }
  }
}

/** A bar that lies beside or along another that lies beside it has no place. */
function checkGeometry(known: Known): void {
  const next = new Map<string, readonly string[]>()
  for (const [id, part] of known.parts) {
    const others = [part.beside?.part, part.run?.along].filter((one) => one !== undefined)
    next.set(
      id,
      others.flatMap((one) => entryId(known, one)),
    )
    if (part.run && !isOfClass(part.class, 'power-conductor') && part.class !== 'power-board')
      known.warn(
        [...(known.partPlaces.get(id) ?? []), 'run'],
        `a ${part.class} with a run`,
        'a conductor is of group power-conductor',
      )
  }
  const cycle = cycleIn(next)
  if (cycle)
    known.say(
      known.partPlaces.get(cycle[0] ?? '') ?? ['parts'],
      `the places of ${cycle.join(' → ')} depend on each other`,
      'give one of them its place by from/to or corner',
    )
}

function entryId(known: Known, text: string): readonly string[] {
  const found = known.record.parts.refer(text)
  return 'entry' in found ? [found.entry.id] : []
}
