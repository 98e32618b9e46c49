import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import type { Bar } from '../../physics/bar.ts'
import { mutualBlock } from '../../physics/inductance-matrix.ts'
import { type BarBranch, type NetworkFault, solveNetwork } from '../../physics/inductance-network.ts'
import { disjointSets } from '../../physics/network-nodes.ts'
import { place as place3 } from '../paths.ts'
import { type CutMetal, cutMetal, jointsOfNet, metalsOfNet, placeOf } from './network.ts'
import { overlapDepth } from './overlap.ts'
import { FINE } from './plate-grid.ts'
import { jointTaps, type Tap, terminalTap } from './taps.ts'

/** A pair of terminals: of a capacitor between two nets, or of a half bridge (several devices side by side are one). */
export interface RailPort {
  readonly id: Path
  readonly ends: readonly [Path, Path]
  readonly plus: readonly Tap[]
  readonly minus: readonly Tap[]
}

/** The metal of two rails, and of the nets between them, as seen from its ports. */
export interface ReducedRails {
  /** Capacitors whose terminals are joined, so that all nets hang together: one, and one more for each inner net. */
  readonly tree: readonly Path[]
  readonly ports: readonly Path[]
  /** Inductance matrix of the other ports [H]. */
  readonly matrix: readonly (readonly number[])[]
  /** By port, then by joined capacitor: whether the current of the port comes back through it, and which way (±1). */
  readonly through: readonly (readonly number[])[]
}

/** Subject that stands for two rails: `nets/dc-plus+nets/dc-minus`. */
export function railsSubject([plus, minus]: readonly [Path, Path]): Path {
  return asPath(`${plus}+${minus}`)
}

export function railsOfSubject(subject: Path): readonly [Path, Path] {
  const [plus, minus] = subject.split('+')
  return [asPath(plus!), asPath(minus!)]
}

/** Capacitors between the rails: in strings too, where the metal of every inner net is on record. */
export function capacitorsOn(
  view: View,
  nets: readonly [Path, Path],
): { readonly pieces: readonly Path[]; readonly inner: readonly Path[] } {
  const inner = view.find({ ask: 'nets-between', nets }).paths
  const pieces = view.some({ ask: 'capacitors-between', nets }).paths
  const bare = inner.filter((net) => view.find({ ask: 'metal-of', net }).paths.length === 0)
  const direct = view.find({ ask: 'across', nets, class: 'capacitor' }).paths
  if (bare.length === 0) return { pieces, inner }
  if (direct.length === 0)
    view.fail(
      `the capacitors stand in series over ${bare.join(', ')}, of which no metal is on record: add its bars or plates`,
    )
  view.note(`capacitors in series over ${bare.join(', ')} left out: no metal of it is on record`)
  return { pieces: pieces.filter((piece) => direct.includes(piece)), inner: [] }
}

/** Every capacitor and half bridge on the rails whose places are on record. */
export function railPorts(
  view: View,
  subject: Path,
): { readonly capacitors: readonly RailPort[]; readonly bridges: readonly RailPort[] } {
  const rails = railsOfSubject(subject)
  const { pieces, inner } = capacitorsOn(view, rails)
  const nets = [rails[0], ...inner, rails[1]]
  const capacitors = pieces.map((piece) => {
    const on = nets.filter((net) => view.find({ ask: 'terminal-on', piece, net }).paths.length > 0)
    const ends = [on[0]!, on.at(-1)!] as const
    return { id: piece, ends, plus: [terminalTap(view, piece, ends[0])], minus: [terminalTap(view, piece, ends[1])] }
  })
  const loops = view
    .find({ ask: 'loops' })
    .paths.filter((loop) => view.find({ ask: 'loop-rails', loop }).paths.join('+') === subject)
  // A half bridge whose place nobody recorded must not keep the others from their figures.
  const placed = loops.filter((loop) =>
    view.find({ ask: 'loop-bridge', loop }).paths.every((piece) => isPlaced(view, piece)),
  )
  return { capacitors, bridges: placed.map((loop) => bridgePort(view, loop, rails)) }
}

/** The rails and the nets between them. */
function netsOf(view: View, rails: Path): readonly Path[] {
  const pair = railsOfSubject(rails)
  return [...pair, ...capacitorsOn(view, pair).inner]
}

function isPlaced(view: View, piece: Path): boolean {
  return Object.values(place3(asPath(`${piece}/at`))).every((path) => view.may(path) !== undefined)
}

function bridgePort(view: View, loop: Path, [plus, minus]: readonly [Path, Path]): RailPort {
  const pieces = view.some({ ask: 'loop-bridge', loop }).paths
  const on = (net: Path): readonly Tap[] =>
    pieces
      .filter((piece) => view.find({ ask: 'terminal-on', piece, net }).paths.length > 0)
      .map((piece) => terminalTap(view, piece, net))
  return { id: loop, ends: [plus, minus], plus: on(plus), minus: on(minus) }
}

/** Taps of a net: terminals of the ports, and the ends of the joints of its metal. */
function tapsOf(view: View, net: Path, ports: readonly RailPort[]): readonly Tap[] {
  const terminals = ports.flatMap(({ plus, minus }) => [...plus, ...minus]).filter((tap) => tap.net === net)
  return [...terminals, ...jointsOfNet(view, net).flatMap((joint) => jointTaps(view, joint, net))]
}

/** One metal of the rails, cut at its taps. Subject: `<rails>|<part>`. */
const cutPart: Model<CutMetal> = {
  id: 'cut metal',
  compute(view, subject) {
    const [rails, part, cells] = splitSubject(subject)
    const { capacitors, bridges } = railPorts(view, rails)
    const taps = netsOf(view, rails).flatMap((net) => tapsOf(view, net, [...capacitors, ...bridges]))
    return cutMetal(
      view,
      part,
      taps.filter((tap) => placeOf(view, tap).part === part),
      cells,
    )
  },
}

function splitSubject(subject: Path): readonly [rails: Path, part: Path, cells: number] {
  const [rails, part, cells] = subject.split('|')
  return [asPath(rails!), asPath(part!), Number(cells)]
}

/** Enough for plates close together, where a few per cent survive of the difference of two nearly equal inductances. */
const PAIR_ERROR = 1e-8

/**
 * Mutual inductances between two metals. A model of its own, so that under a draw only the blocks of the metal that
 * moved are computed again. Subject: `<cut metal>&<cut metal>`.
 */
const block: Model<Float64Array> = {
  id: 'mutual block',
  compute(view, subject) {
    const [a, b] = subject.split('&').map((one) => barsOf(view.model(cutPart, asPath(one))))
    return mutualBlock(a!, b!, PAIR_ERROR)
  },
}

const barsOf = ({ branches }: CutMetal): readonly Bar[] => branches.map(({ bar }) => bar)

/** Inductance matrix of the ports of two rails, metal only. Subject: the rails, or `<rails>|<cells>` on another grid. */
export const reducedRails: Model<ReducedRails> = {
  id: 'rails',
  compute(view, subject) {
    const [rails, cells] = [asPath(subject.split('|')[0]!), Number(subject.split('|')[1] ?? FINE)]
    const { capacitors, bridges } = railPorts(view, rails)
    const nets = netsOf(view, rails)
    const parts = view.each(nets, (net) => view.model(metalsOfNet, net).map(({ part }) => part)).flat()
    apartOrFail(view, nets)
    const cutPath = (part: Path): Path => asPath(`${rails}|${part}|${cells}`)
    const cuts = view.each(parts, (part) => view.model(cutPart, cutPath(part)))
    const partial = assembled(view, parts.map(cutPath), cuts)
    const node = nodeFinder(cuts)
    const tree = joinedCapacitors(capacitors)
    const rest = [...capacitors, ...bridges].filter((port) => !tree.includes(port))
    const joints = nets.flatMap((net) => jointsOfNet(view, net).map((joint) => jointTaps(view, joint, net).map(node)))
    const shorts = [...capacitors, ...bridges].flatMap(({ plus, minus }) => [plus.map(node), minus.map(node)])
    const answer = solveNetwork({
      branches: cuts.flatMap(({ branches }) => branches),
      partial,
      ports: rest.map(({ id, plus, minus }) => ({ id, from: node(plus[0]!), to: node(minus[0]!) })),
      joined: [
        ...cuts.flatMap((cut) => cut.joined),
        ...joints,
        ...shorts,
        ...tree.map(({ plus, minus }) => [node(plus[0]!), node(minus[0]!)]),
      ],
    })
    if (!answer.ok) return fail(view, answer.fault)
    return {
      tree: tree.map(({ id }) => id),
      ports: rest.map(({ id }) => id),
      matrix: answer.ports,
      through: rest.map(({ ends }) => wayThrough(tree, ends)),
    }
  },
}

/** Metals of two nets that stand in each other, as written: a doubt about a place makes no short circuit. */
export function shorted(
  view: View,
  nets: readonly Path[],
): readonly { readonly parts: readonly [Path, Path]; readonly depth: number }[] {
  const metals = nets.map((net) => view.model(metalsOfNet, net))
  return metals.flatMap((own, i) =>
    metals.slice(0, i).flatMap((others) =>
      own.flatMap((a) =>
        others.flatMap((b) => {
          const depth = overlapDepth(a, b)
          return depth > TOUCHING ? [{ parts: [b.part, a.part] as const, depth }] : []
        }),
      ),
    ),
  )
}

/** Places are recorded no better than this [m]. */
const TOUCHING = 5e-5

function apartOrFail(view: View, nets: readonly Path[]): void {
  const [worst] = view.choice(`metal apart on ${nets.join(' ')}`, () => shorted(view, nets))
  if (worst === undefined) return
  const { parts, depth } = worst
  view.fail(
    `${parts.join(' and ')} are of two nets and stand ${(1e3 * depth).toFixed(2)} mm in each other: check their coordinates, sizes and gap`,
    'refused',
    parts[1],
  )
}

/** The first capacitors that join all nets into one, and close no circle among themselves. */
function joinedCapacitors(capacitors: readonly RailPort[]): readonly RailPort[] {
  const nets = disjointSets()
  return capacitors.filter(({ ends: [a, b] }) => {
    if (nets.find(a) === nets.find(b)) return false
    nets.unite(a, b)
    return true
  })
}

/** The joined capacitors passed on the way from one net to another: +1 from its first end to its second, −1 back. */
function wayThrough(tree: readonly RailPort[], [from, to]: readonly [Path, Path]): readonly number[] {
  const search = (net: Path, passed: readonly number[]): readonly number[] | undefined => {
    if (net === to) return passed
    for (const [t, { ends }] of tree.entries()) {
      const side = ends.indexOf(net)
      if (side < 0 || passed[t] !== 0) continue
      const found = search(ends[1 - side]!, passed.with(t, side === 0 ? 1 : -1))
      if (found) return found
    }
    return undefined
  }
  return (
    search(
      from,
      tree.map(() => 0),
    ) ?? tree.map(() => 0)
  )
}

function nodeFinder(cuts: readonly CutMetal[]): (tap: Tap) => string {
  const nodes = new Map(cuts.flatMap((cut) => [...cut.nodes]))
  return (tap) => nodes.get(tap.id)!
}

function assembled(view: View, paths: readonly Path[], cuts: readonly CutMetal[]): Float64Array {
  const offsets = cuts.map((_, at) => cuts.slice(0, at).reduce((sum, one) => sum + one.branches.length, 0))
  const n = cuts.reduce((sum, one) => sum + one.branches.length, 0)
  const matrix = new Float64Array(n * n)
  cuts.forEach((a, i) => {
    cuts.slice(0, i + 1).forEach((b, j) => {
      const values = view.model(block, asPath(`${paths[i]}&${paths[j]}`))
      place(matrix, n, values, { row: offsets[i]!, column: offsets[j]!, rows: a.branches, columns: b.branches })
    })
  })
  return matrix
}

interface BlockPlace {
  readonly row: number
  readonly column: number
  readonly rows: readonly BarBranch[]
  readonly columns: readonly BarBranch[]
}

function place(
  matrix: Float64Array,
  n: number,
  values: Float64Array,
  { row, column, rows, columns }: BlockPlace,
): void {
  for (let r = 0; r < rows.length; r++) {
    for (let c = 0; c < columns.length; c++) {
      const value = values[r * columns.length + c]!
      matrix[(row + r) * n + column + c] = value
      matrix[(column + c) * n + row + r] = value
    }
  }
}

function fail(view: View, fault: NetworkFault): never {
  if (fault.kind === 'not-positive') {
    return view.fail(`two pieces of metal lie in the same place (${fault.branch}): check their coordinates and gaps`)
  }
  const [here, there] = fault.pieces.map((piece) => piece[0]?.split('@')[0])
  return view.fail(
    `the metal is open: no joint leads from ${here} to ${there} for ${fault.port}; record the joints between them`,
  )
}
