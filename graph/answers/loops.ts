import { asPath, type Path } from '../quantity/quantity.ts'
import type { Found } from '../query.ts'
import { generalisations } from '../values.ts'
import { counted } from './census.ts'
import { answerOf, type Context, edges, nodeOf, out } from './context.ts'
import { across, evidenceOf, nets, onNet } from './nets.ts'
import { classOf, entryOf, holder, isOfClass } from './parts.ts'
import { settledPotential } from './potentials.ts'

export function loops({ graph }: Context): Found {
  return answerOf(graph.filterNodes((_, node) => node.kind === 'loop').map(asPath))
}

export function loopBridge({ graph }: Context, loop: Path): Found {
  return answerOf(nodeOf(graph, loop, 'loop')?.bridge ?? [])
}

/**
 * Capacitors from one DC net of the half bridge to the other: X in, Y out (those go to the chassis). One that is left out
 * takes along the rest of its string, through which no current closes without it.
 */
export function loopCapacitors(context: Context, loop: Path): Found {
  const node = nodeOf(context.graph, loop, 'loop')
  if (!node) return answerOf([])
  const found = capacitorsBetween(context, node.rails)
  const left = new Set<Path>(node.leftOut)
  const isLeft = (piece: Path | undefined): boolean =>
    piece !== undefined && (left.has(piece) || isLeft(holder(context, piece)))
  const strings = stringsBetween(context, node.rails, isLeft).map(({ piece }) => piece)
  const closing = new Set([...across(context, node.rails, 'capacitor').paths, ...strings])
  return { ...found, paths: found.paths.filter((piece) => closing.has(piece) && !isLeft(piece)) }
}

/** Capacitors between two nets: those across both first, then those in strings over inner nets of the link. */
export function capacitorsBetween(context: Context, nets: readonly [Path, Path]): Found {
  const direct = across(context, nets, 'capacitor')
  const strings = stringsBetween(context, nets).filter(({ piece }) => !direct.paths.includes(piece))
  const all = [...direct.paths, ...strings.map(({ piece }) => piece)]
  const paths = eachOnce(context, all, 'capacitance').filter(
    (piece) => !isOfClass(context, entryOf(context, piece), 'y-capacitor'),
  )
  if (strings.length === 0) return { ...direct, paths }
  const classes = paths.map((piece) => classOf(context, piece))
  return answerOf(
    paths,
    paths.flatMap((piece) => edges(context.graph, piece, 'terminal', 'out').flatMap(evidenceOf)),
    counted(context, 'capacitor', { across: nets }, classes),
  )
}

/** The inner nets of those strings. */
export function netsBetween(context: Context, nets: readonly [Path, Path]): Found {
  const all = stringsBetween(context, nets).flatMap(({ ends }) => ends)
  return answerOf(all.filter((net) => !nets.includes(net)))
}

interface Strung {
  readonly piece: Path
  readonly ends: readonly Path[]
}

/** Capacitors of the strings: what hangs off one inner net only (a snubber, a filter) is taken away until none does. */
function stringsBetween(
  context: Context,
  nets: readonly [Path, Path],
  isLeft: (piece: Path) => boolean = () => false,
): readonly Strung[] {
  const { graph } = context
  const inner = graph.filterNodes((net, node) => node.kind === 'net' && isInner(context, net)).map(asPath)
  if (inner.length === 0) return []
  const pieces = [...nets, ...inner].flatMap((net) => onNet(context, net, 'capacitor').paths)
  let left = [...new Set(pieces)]
    .filter((piece) => !isLeft(piece))
    .map((piece): Strung => ({ piece, ends: out(graph, piece, 'terminal') }))
    .filter(({ ends }) => ends.length === 2 && ends.every((net) => nets.includes(net) || inner.includes(net)))
  for (;;) {
    const neighbours = new Map<Path, Set<Path>>()
    for (const { ends } of left)
      for (const net of ends)
        neighbours.set(net, (neighbours.get(net) ?? new Set()).add(ends.find((one) => one !== net)!))
    const kept = left.filter(({ ends }) => ends.every((net) => nets.includes(net) || neighbours.get(net)!.size > 1))
    if (kept.length === left.length) return kept.some(({ ends }) => ends.some((net) => !nets.includes(net))) ? kept : []
    left = kept
  }
}

/** A net of the link that no half bridge switches: the middle of a string, not a phase with its snubbers. */
function isInner({ graph }: Context, net: string): boolean {
  const potential = nodeOf(graph, net, 'net')?.potential ?? null
  return potential === 'hv-middle' || potential === 'floating'
}

/** What speaks for a pair of nets to be the rails, the weightiest first. */
interface Vote {
  readonly pair: readonly Path[]
  readonly loops: number
  readonly outer: number
  readonly other: number
}

/**
 * The two DC rails of the unit: where most of its half bridges are, else where most of its link capacitors stand from
 * the positive to the negative; else (all of them in series over a middle, or none) the one pair of nets of these
 * potentials; else where most capacitors stand.
 */
export function rails(context: Context): Found {
  const best = votesFor(context).toSorted((a, b) => b.loops - a.loops || b.outer - a.outer || b.other - a.other)[0]
  if (best && (best.loops > 0 || best.outer > 0)) return answerOf(best.pair)
  const ends = ['hv-positive', 'hv-negative'].map((potential) => nets(context, potential).paths)
  const one = ends.every(({ length }) => length === 1) ? ends.flat() : []
  return answerOf(one.length > 0 ? one : (best?.pair ?? []), [], best !== undefined)
}

function votesFor(context: Context): readonly Vote[] {
  const { graph } = context
  const votes = new Map<string, Vote>()
  const vote = (pair: readonly Path[], kind: 'loops' | 'outer' | 'other'): void => {
    const key = pair.toSorted().join(' ')
    const before = votes.get(key) ?? { pair, loops: 0, outer: 0, other: 0 }
    votes.set(key, { ...before, [kind]: before[kind] + 1 })
  }
  graph.forEachNode((_, node) => {
    if (node.kind === 'loop') vote(node.rails, 'loops')
  })
  for (const name of ['dc-link-film-capacitor', 'electrolytic-capacitor']) {
    for (const pair of pairsOf(context, name)) vote(pair, outer(graph, pair) ? 'outer' : 'other')
    if (votes.size > 0) break
  }
  return [...votes.values()]
}

function pairsOf(context: Context, name: string): readonly (readonly Path[])[] {
  const { graph, record } = context
  return record.parts.entries
    .filter((entry) => isOfClass(context, entry.path, name))
    .flatMap((entry) => record.parts.piecesOf(entry))
    .map((piece) => plusFirst(graph, piece.path))
    .filter((pair) => pair.length === 2 && pair.some((net) => hazardous(graph, net)))
}

/** Nets of a capacitor, the positive one first: by their potentials, else by the names of its terminals. */
function plusFirst(graph: Context['graph'], piece: Path): readonly Path[] {
  const wires = edges(graph, piece, 'terminal', 'out')
  const rank = ({ to, attributes }: (typeof wires)[number]): number => {
    const potential = nodeOf(graph, to, 'net')?.potential
    const named = attributes.kind === 'terminal' && attributes.name === 'minus' ? 0.5 : 0
    return (potential === 'hv-positive' ? -1 : potential === 'hv-negative' ? 1 : 0) + named
  }
  return wires.toSorted((a, b) => rank(a) - rank(b)).map(({ to }) => to)
}

/** Between the outer rails, rather than from one of them to a middle. */
function outer(graph: Context['graph'], pair: readonly string[]): boolean {
  const at = new Set(pair.map((net) => nodeOf(graph, net, 'net')?.potential))
  return at.has('hv-positive') && at.has('hv-negative')
}

function hazardous(graph: Context['graph'], net: string): boolean {
  return nodeOf(graph, net, 'net')?.potential?.startsWith('hv-') ?? false
}

/**
 * Capacitors (or resistors, by class) between the rails and other nets of the link side, in series and in parallel. One
 * with an end on the chassis or on a low-voltage net is a filter to those, and left out; the rails of a 48 V unit count
 * whatever their potential.
 */
export function linkParts(context: Context, name: string): Found {
  const { graph } = context
  const [plus, minus] = rails(context).paths
  const inside = (net: string): boolean => net === plus || net === minus || linkSide(settledPotential(graph, net))
  const nets = graph.filterNodes((path, node) => node.kind === 'net' && inside(path))
  const all = nets.flatMap((net) => onNet(context, asPath(net), name).paths)
  const found = [...new Set(all)].filter((piece) => out(graph, piece, 'terminal').every(inside))
  const paths = eachOnce(context, found, name === 'capacitor' ? 'capacitance' : 'resistance')
  const classes = paths.map((piece) => classOf(context, piece))
  return answerOf(
    paths,
    paths.flatMap((piece) => edges(graph, piece, 'terminal', 'out').flatMap(evidenceOf)),
    nets.length > 0 && counted(context, name, { across: plus && minus && [plus, minus] }, classes),
  )
}

/** A bank and what is inside of it are the same thing: the bank where its value is on record, else what is inside. */
function eachOnce(context: Context, pieces: readonly Path[], property: string): readonly Path[] {
  const all = new Set(pieces)
  const around = (piece: Path): readonly Path[] => {
    const above = holder(context, piece)
    return above === undefined ? [] : [above, ...around(above)]
  }
  const within = new Map(pieces.map((piece) => [piece, around(piece).filter((one) => all.has(one))]))
  const isStated = (piece: Path): boolean =>
    generalisations(asPath(`${piece}/${property}`)).some((path) => context.record.facts.get(path)?.taken.quantity)
  const banks = new Set([...within.values()].flat())
  return pieces.filter((piece) => {
    if (banks.has(piece) && !isStated(piece)) return false
    return !within.get(piece)!.some(isStated)
  })
}

/** The net that a half bridge switches: the `ac` of a module, or the one that both its switches are on. */
export function loopOutput({ graph }: Context, loop: Path): Found {
  const node = nodeOf(graph, loop, 'loop')
  if (!node) return answerOf([])
  const ends = node.bridge.map((piece) => edges(graph, piece, 'terminal', 'out'))
  const ac = ends
    .flat()
    .filter(({ attributes }) => attributes.kind === 'terminal' && attributes.name === 'ac')
    .map(({ to }) => to)
  const rest = (ends[0] ?? [])
    .map(({ to }) => to)
    .filter(
      (net) => !node.rails.includes(net) && ends.length > 1 && ends.every((one) => one.some(({ to }) => to === net)),
    )
  return answerOf(ac.length > 0 ? ac : rest)
}

/**
 * Loops of the bridge that makes the alternating output: those whose output is a net of an AC port; where no port says
 * so, all loops on the rails.
 */
export function bridgeLoops(context: Context): Found {
  const ports = Object.values(context.record.sheet.specimen.ports ?? {})
  const outputs = new Set(
    ports.filter(({ kind }) => kind === 'ac').flatMap(({ nets }) => (nets ?? []).map((net) => `nets/${net}`)),
  )
  const all = loops(context).paths
  if (ports.length > 0) {
    const paths = all.filter((loop) => loopOutput(context, loop).paths.some((net) => outputs.has(net)))
    return answerOf(paths, [], paths.length > 0 || outputs.size === 0)
  }
  const pair = rails(context).paths.join()
  const paths = all.filter((loop) => nodeOf(context.graph, loop, 'loop')?.rails.join() === pair)
  return answerOf(paths, [], paths.length > 0)
}

const linkSide = (potential: string | null): boolean => potential === null || /^hv-|^floating$/.test(potential)
