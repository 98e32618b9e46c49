import type { Tree } from '../../../graph/record/record.ts'

/**
 * A random unit, written down twice: as the sections of a sheet, and as plain lists of what is physically there, made
 * without anything of the program. What the program answers from the sheet is held against walks over these lists.
 */
export interface RandomUnit {
  readonly sections: Readonly<Record<string, Tree>>
  readonly pieces: readonly PhysicalPiece[]
  /** `from` → `to`, pieces, faces, passages and sinks by their paths. */
  readonly conducts: readonly (readonly [from: string, to: string])[]
  readonly cools: readonly (readonly [passage: string, face: string])[]
  readonly order: Order
  readonly passages: readonly string[]
}

export interface PhysicalPiece {
  readonly path: string
  readonly entry: string
  readonly holder: string | null
  readonly faces: readonly string[]
  /** Net by terminal. */
  readonly terminals: Readonly<Record<string, string>>
}

/** Passages in a row (`row`) or side by side. */
export type Order = string | { readonly row: boolean; readonly of: readonly Order[] }

interface Entry {
  readonly id: string
  readonly parent: Entry | null
  readonly root: number
  readonly names: readonly string[]
  readonly faces: readonly string[]
  readonly nets: readonly string[]
}

const NETS = ['n-a', 'n-b', 'n-c', 'n-*']
const NAMES = [[], [], ['u', 'v'], ['u', 'v', 'w'], ['1', '2']]

/** @param entropy numbers from which every choice is made, in order, and over again */
export function randomUnit(entropy: readonly number[]): RandomUnit {
  let at = 0
  const pick = (n: number): number => (entropy[at++ % entropy.length]! + Math.floor(at / entropy.length)) % n
  const one = <T>(list: readonly T[]): T => list[pick(list.length)]!

  const entries: Entry[] = []
  for (let n = 0, roots = 0; n < 4 + pick(5); n++) {
    const parent = n > 0 && pick(2) === 0 ? one(entries) : null
    const root = parent ? parent.root : roots++
    const names = parent && chainOf(parent).length > 2 ? [] : one(NAMES)
    const faces = [['top'], ['top', 'low'], []][pick(3)]!
    entries.push({ id: `x${n}`, parent, root, names, faces, nets: [one(NETS), one(NETS)] })
  }
  const starless = (entry: Entry): boolean => chainOf(entry).every(({ names }) => names.length === 0)
  const netsOf = (entry: Entry): readonly string[] =>
    entry.nets.map((net) => (net.includes('*') && starless(entry) ? 'n-a' : net))

  const pieces = entries.flatMap((entry) =>
    picksOf(entry).map((picks): PhysicalPiece => {
      const path = pathUnder(entry, picks)
      const star = starOf(entry, picks)
      return {
        path,
        entry: pathUnder(entry, {}),
        holder: entry.parent ? pathUnder(entry.parent, picks) : null,
        faces: entry.faces.map((face) => `${path}/${face}`),
        terminals: Object.fromEntries(netsOf(entry).map((net, n) => [String(n + 1), `nets/${net.replace('*', star)}`])),
      }
    }),
  )

  const passages: string[] = []
  const coolant: Tree[] = []
  const cools: [string, string][] = []
  const single = entries.filter((entry) => starless(entry) && entry.faces.length > 0)
  for (let n = 0; n < 1 + pick(5); n++) {
    const id = `w${n}`
    passages.push(`coolant/${id}`)
    const cooled = single.length > 0 && pick(3) > 0 ? one(single) : undefined
    const face = cooled && one(cooled.faces)
    if (cooled) cools.push([`coolant/${id}`, `${pathUnder(cooled, {})}/${face}`])
    coolant.push({ id, pipe: {}, ...(cooled && { cools: [{ face: `${cooled.id}/${face}` }] }) })
  }
  const order = randomOrder(passages, true, pick)

  const heat: Tree[] = []
  const conducts: [string, string][] = []
  for (let n = 0; n < 2 + pick(7); n++) {
    const from = one(entries)
    const face = from.faces.length > 0 && pick(2) === 0 ? one(from.faces) : undefined
    const end = endFor(from, { entries, cools, pick })
    if (!end) continue
    const layers = Array.from({ length: pick(3) }, (_, k) => ({ id: `l${k}`, kind: 'paste', thickness: '1 mm' }))
    const resistance = layers.length === 0 ? { resistance: '1 K/W' } : { layers }
    heat.push({ id: `h${n}`, from: face ? `${from.id}/${face}` : from.id, to: end.text, ...resistance })
    for (const picks of picksOf(from)) {
      const start = pathUnder(from, picks)
      conducts.push([face ? `${start}/${face}` : start, end.path(picks)])
    }
  }
  const nested = (parent: Entry | null): Tree[] =>
    entries
      .filter((entry) => entry.parent === parent)
      .map((entry) => ({
        id: entry.id,
        class: 'board-part',
        ...(entry.names.length > 0 && { each: Object.fromEntries(entry.names.map((name) => [name, {}])) }),
        faces: Object.fromEntries(entry.faces.map((name) => [name, {}])),
        terminals: Object.fromEntries(netsOf(entry).map((net, n) => [String(n + 1), net])),
        parts: nested(entry),
      }))
  return {
    sections: {
      parts: nested(null),
      nets: { 'n-a': {}, 'n-b': {}, 'n-c': {}, 'n-*': {} },
      heat,
      coolant: { fluid: 'water', passages: coolant, sequence: ['inlet', ...(treeOf(order) as Tree[]), 'outlet'] },
    },
    pieces,
    conducts,
    cools,
    order,
    passages,
  }
}

interface Around {
  readonly entries: readonly Entry[]
  readonly cools: readonly (readonly [string, string])[]
  readonly pick: (n: number) => number
}

/** Somewhere further on: a sink, a passage of one face, a face of what it is inside of, or of a later part. */
function endFor(from: Entry, { entries, cools, pick }: Around) {
  const ups = chainOf(from)
    .slice(0, -1)
    .filter(({ faces }) => faces.length > 0)
  const later = entries.filter((one) => one.parent === null && one.root > from.root && one.faces.length > 0)
  const alike = (one: Entry): boolean => one.names.length === 0 || from.names.join() === one.names.join()
  switch (pick(4)) {
    case 0:
      return pick(2) === 0
        ? { text: 'ambient', path: () => 'ambient/air' }
        : { text: 'frame', path: () => 'ambient/frame' }
    case 1: {
      const [passage, face] = cools[pick(Math.max(1, cools.length))] ?? []
      // A passage stands for its face, and the heat of a face must not come back to its part.
      const cooled = entries.find((one) => face?.startsWith(`parts/${one.id}/`))
      return passage && cooled && cooled.root >= from.root ? { text: passage, path: () => passage } : undefined
    }
    case 2: {
      const up = ups[pick(Math.max(1, ups.length))]
      const face = up?.faces[pick(up.faces.length)]
      return up && { text: `${up.id}/${face}`, path: (picks: Picks) => `${pathUnder(up, picks)}/${face}` }
    }
    default: {
      const next = later.filter(alike)[pick(Math.max(1, later.filter(alike).length))]
      const face = next?.faces[pick(next.faces.length)]
      if (!next) return undefined
      const star = next.names.length > 0 ? '.*' : ''
      const path = (picks: Picks) => `${pathUnder(next, star ? { [next.id]: picks[from.id]! } : {})}/${face}`
      return { text: `${next.id}${star}/${face}`, path }
    }
  }
}

type Picks = Readonly<Record<string, string>>

/** From the outermost in. */
function chainOf(entry: Entry): readonly Entry[] {
  return entry.parent ? [...chainOf(entry.parent), entry] : [entry]
}

function picksOf(entry: Entry): readonly Picks[] {
  const above = entry.parent ? picksOf(entry.parent) : [{}]
  return entry.names.length === 0
    ? above
    : above.flatMap((picks) => entry.names.map((name): Picks => ({ ...picks, [entry.id]: name })))
}

/** Only those ancestors that come in several pieces stand in a path. */
function pathUnder(entry: Entry, picks: Picks): string {
  const chain = chainOf(entry).filter((one) => one === entry || one.names.length > 0)
  return ['parts', ...chain.map(({ id }) => (picks[id] ? `${id}.${picks[id]}` : id))].join('/')
}

/** Name of the piece, or of the nearest thing around it that comes in pieces. */
function starOf(entry: Entry, picks: Picks): string {
  return (
    chainOf(entry)
      .toReversed()
      .flatMap(({ id }) => picks[id] ?? [])[0] ?? '*'
  )
}

function randomOrder(passages: readonly string[], row: boolean, pick: (n: number) => number): Order {
  const of: Order[] = []
  for (let at = 0; at < passages.length; ) {
    const size = 1 + pick(passages.length - at)
    const some = passages.slice(at, at + Math.max(1, size === passages.length ? size - 1 : size))
    of.push(some.length === 1 ? some[0]! : randomOrder(some, !row, pick))
    at += some.length
  }
  return { row, of }
}

function treeOf(order: Order): Tree {
  return typeof order === 'string' ? order.replace('coolant/', '') : order.of.map(treeOf)
}
