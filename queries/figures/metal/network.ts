import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { minus, norm, plus, type Vector } from '../../physics/bar.ts'
import type { BarBranch } from '../../physics/inductance-network.ts'
import { type Metal, metalOfPart, nearest, type Stretch } from './geometry.ts'
import { contactPlate, EVEN, evenPlate } from './plate-grid.ts'
import type { Tap } from './taps.ts'

/** Further from its metal than this, a terminal is said to be, with the distance [m]. */
const CLOSE = 3e-3
/** Taps nearer to each other along a bar are one node [m]. */
const SAME = 1e-7

/** Metals of a net as recorded. */
export const metalsOfNet: Model<readonly Metal[]> = {
  id: 'metals',
  compute: (view, net) => view.each(view.some({ ask: 'metal-of', net }).paths, (part) => view.model(metalOfPart, part)),
}

/** Which metal of its net a tap enters, which stretch of it, and from how far [m]. */
interface Place {
  readonly part: Path
  readonly stretch: number
  readonly distance: number
}

/** The nearest metal of the tap's net, or that which its joint names; the same under every draw. */
export function placeOf(view: View, tap: Tap): Place {
  return view.choice(`metal of ${tap.id}`, () => {
    const all = view.model(metalsOfNet, tap.net)
    const candidates = tap.part === undefined ? all : all.filter(({ part }) => part === tap.part)
    const point = tap.point()
    const places = candidates.flatMap((metal): readonly Place[] =>
      metal.shape === 'run'
        ? metal.stretches.map((one, stretch) => ({ part: metal.part, stretch, distance: nearest(point, one).distance }))
        : [{ part: metal.part, stretch: 0, distance: plateDistance(point, metal) }],
    )
    const found = places.toSorted((a, b) => a.distance - b.distance)[0]
    if (!found) return view.fail(`${tap.id} names metal that is not of the net ${tap.net}`, 'refused', tap.net)
    if (found.distance > CLOSE) {
      const far = (found.distance * 1e3).toFixed(1)
      view.note(`${tap.id} lies ${far} mm from ${found.part}: taken to enter it at the nearest point`)
    }
    return found
  })
}

function plateDistance(point: Vector, { corner, size }: Extract<Metal, { shape: 'plate' }>): number {
  const outside = [0, 1, 2].map((axis) =>
    Math.max(0, corner[axis]! - point[axis]!, point[axis]! - corner[axis]! - size[axis]!),
  )
  return Math.hypot(...outside)
}

/** A metal cut where current enters it: its branches, nodes that are one, and the node of each tap. */
export interface CutMetal {
  readonly branches: readonly BarBranch[]
  readonly joined: readonly (readonly string[])[]
  readonly nodes: ReadonlyMap<string, string>
}

/** Cuts a metal at its taps. On the even grid of a plate a tap enters at the same node under every draw. */
export function cutMetal(view: View, part: Path, taps: readonly Tap[], across: number): CutMetal {
  const metal = view.model(metalOfPart, part)
  if (metal.shape === 'plate') {
    return across === EVEN
      ? evenPlate(
          metal,
          (nearestNode) =>
            new Map(taps.map((tap) => [tap.id, view.choice(`node of ${tap.id}`, () => nearestNode(tap.point()))])),
        )
      : contactPlate(
          metal,
          taps.map((tap) => ({ id: tap.id, point: tap.point() })),
          across,
        )
  }
  return cutBar(
    metal,
    taps.map((tap) => ({ id: tap.id, stretch: placeOf(view, tap).stretch, point: tap.point() })),
  )
}

/** A bar cut at its taps: nodes by their distance along it, dead ends left out. */
function cutBar(
  metal: Extract<Metal, { shape: 'run' }>,
  taps: readonly { readonly id: string; readonly stretch: number; readonly point: Vector }[],
): CutMetal {
  const lengths = metal.stretches.map(lengthOf)
  const starts = lengths.map((_, at) => lengths.slice(0, at).reduce((sum, one) => sum + one, 0))
  const positions = taps.map(
    ({ stretch, point }) => starts[stretch]! + nearest(point, metal.stretches[stretch]!).along * lengths[stretch]!,
  )
  const first = Math.min(...positions)
  const last = Math.max(...positions)
  const cuts = distinct([...starts.filter((start) => start > first && start < last), ...positions])
  const name = (position: number): string =>
    `${metal.part}@${cuts.findIndex((cut) => Math.abs(cut - position) <= SAME)}`
  const branches = cuts.slice(1).map((end, at) => {
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
  return { branches, joined: [], nodes: new Map(taps.map(({ id }, at) => [id, name(positions[at]!)])) }
}

function onStretch(stretch: Stretch, along: number): Vector {
  return plus(stretch.start, minus(stretch.end, stretch.start), along)
}

const lengthOf = (stretch: Stretch): number => norm(minus(stretch.end, stretch.start))

function distinct(positions: readonly number[]): readonly number[] {
  const sorted = [...positions].sort((a, b) => a - b)
  return sorted.filter((one, at) => at === 0 || one - sorted[at - 1]! > SAME)
}

/** Joints of the metals of a net, each once. */
export function jointsOfNet(view: View, net: Path): readonly Path[] {
  const parts = view.some({ ask: 'metal-of', net }).paths
  return [...new Set(parts.flatMap((part) => view.find({ ask: 'joints-of', part }).paths))].map(asPath)
}
