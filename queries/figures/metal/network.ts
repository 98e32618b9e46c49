import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { minus, norm, plus, type Vector } from '../../physics/bar.ts'
import type { BarBranch, Branch } from '../../physics/inductance-network.ts'
import { type Metal, metalOfPart, nearest, type Stretch } from './geometry.ts'
import { plateBranches } from './plate-grid.ts'
import { jointTaps, type Tap } from './taps.ts'

/** Further from its metal than this, a terminal is said to be, with the distance [m]. */
const CLOSE = 3e-3
/** Taps nearer to each other along a bar are one node [m]. */
const SAME = 1e-7

/** The metal of one net as branches between nodes, and the node at which each tap enters it. */
export interface NetMetal {
  readonly branches: readonly Branch[]
  readonly nodes: ReadonlyMap<string, string>
  readonly joined: readonly (readonly string[])[]
}

/** Metals of a net as recorded. */
const metals: Model<readonly Metal[]> = {
  id: 'metals',
  compute: (view, net) => view.each(view.some({ ask: 'metal-of', net }).paths, (part) => view.model(metalOfPart, part)),
}

/** Cuts the metal of a net at the places where current enters or passes from one piece of metal to another. */
export function netMetal(view: View, net: Path, terminals: readonly Tap[]): NetMetal {
  const all = view.model(metals, net)
  const joints = [...new Set(all.flatMap(({ part }) => view.find({ ask: 'joints-of', part }).paths))]
  const ends = view.each(joints, (joint) => jointTaps(view, joint, net))
  const entered = [...terminals, ...ends.flat()].map((tap) => ({ tap, ...entry(view, all, tap) }))
  const nodes = new Map<string, string>()
  const branches = all.flatMap((metal) => {
    const own = entered.filter((one) => one.metal === metal)
    return metal.shape === 'run' ? barBranches(metal, own, nodes) : plateBranches(metal, own, nodes)
  })
  return {
    branches: pruned(branches, new Set(nodes.values())),
    nodes,
    joined: ends.map((pair) => pair.map(({ id }) => nodes.get(id)!)),
  }
}

/** Where a tap enters: the nearest metal of its net, or that which its joint names. */
export interface Entered {
  readonly tap: Tap
  readonly metal: Metal
  readonly stretch: number
  readonly along: number
}

type Place = Omit<Entered, 'tap'> & { readonly distance: number }

function entry(view: View, all: readonly Metal[], tap: Tap): Place {
  const candidates = tap.part === undefined ? all : all.filter(({ part }) => part === tap.part)
  const places = candidates.flatMap((metal): readonly Place[] =>
    metal.shape === 'run'
      ? metal.stretches.map((one, stretch) => ({ metal, stretch, ...nearest(tap.point, one) }))
      : [{ metal, stretch: 0, along: 0, distance: plateDistance(tap.point, metal) }],
  )
  const found = places.toSorted((a, b) => a.distance - b.distance)[0]
  if (!found) return view.fail(`${tap.id} names metal that is not of the net ${tap.net}`, 'refused', tap.net)
  if (found.distance > CLOSE) {
    const far = (found.distance * 1e3).toFixed(1)
    view.note(`${tap.id} lies ${far} mm from ${found.metal.part}: taken to enter it at the nearest point`)
  }
  return found
}

function plateDistance(point: Vector, { corner, size }: Extract<Metal, { shape: 'plate' }>): number {
  const outside = [0, 1, 2].map((axis) =>
    Math.max(0, corner[axis]! - point[axis]!, point[axis]! - corner[axis]! - size[axis]!),
  )
  return Math.hypot(...outside)
}

/** A bar cut at its taps: nodes by their distance along it. */
function barBranches(
  metal: Extract<Metal, { shape: 'run' }>,
  taps: readonly Entered[],
  nodes: Map<string, string>,
): readonly BarBranch[] {
  const lengths = metal.stretches.map(lengthOf)
  const starts = lengths.map((_, at) => lengths.slice(0, at).reduce((sum, one) => sum + one, 0))
  const positions = taps.map(({ stretch, along }) => starts[stretch]! + along * lengths[stretch]!)
  const corners = [...starts, starts.at(-1)! + lengths.at(-1)!]
  const cuts = distinct([...corners, ...positions])
  const name = (position: number): string =>
    `${metal.part}@${cuts.findIndex((cut) => Math.abs(cut - position) <= SAME)}`
  taps.forEach(({ tap }, at) => {
    nodes.set(tap.id, name(positions[at]!))
  })
  return cuts.slice(1).map((end, at) => {
    const from = cuts[at]!
    const stretch = metal.stretches.findIndex((_, one) => end <= starts[one]! + lengths[one]! + SAME)
    const bar = metal.stretches[stretch]!
    const point = (position: number): Vector => onStretch(bar, (position - starts[stretch]!) / lengths[stretch]!)
    return {
      id: `${metal.part}#${at}`,
      from: name(from),
      to: name(end),
      bar: { ...bar, start: point(from), end: point(end) },
    }
  })
}

function onStretch(stretch: Stretch, along: number): Vector {
  return plus(stretch.start, minus(stretch.end, stretch.start), along)
}

const lengthOf = (stretch: Stretch): number => norm(minus(stretch.end, stretch.start))

function distinct(positions: readonly number[]): readonly number[] {
  const sorted = [...positions].sort((a, b) => a - b)
  return sorted.filter((one, at) => at === 0 || one - sorted[at - 1]! > SAME)
}

/** Without the dead ends that carry no current: they would cost time and change nothing. */
function pruned(branches: readonly Branch[], kept: ReadonlySet<string>): readonly Branch[] {
  const degree = new Map<string, number>()
  for (const { from, to } of branches) for (const node of [from, to]) degree.set(node, (degree.get(node) ?? 0) + 1)
  const dead = (node: string): boolean => degree.get(node) === 1 && !kept.has(node)
  const alive = branches.filter(({ from, to }) => !dead(from) && !dead(to))
  return alive.length === branches.length ? branches : pruned(alive, kept)
}
