import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'

const HAZARDOUS = ['hv-positive', 'hv-negative', 'hv-middle', 'hv-switching'] as const

/** Potential of a net: its own, else that of the net it rides on. */
export function potentialOf(view: View, net: Path): string | undefined {
  const own = view.find({ ask: 'potential', net }).paths[0]
  if (own !== undefined) return own
  const below = view.find({ ask: 'rides-on', net }).paths[0]
  return below === undefined ? undefined : potentialOf(view, below)
}

/** Nets whose potential is hazardous, with those that ride on one. */
export function hazardousNets(view: View): readonly Path[] {
  return view
    .find({ ask: 'nets' })
    .paths.filter((net) => (HAZARDOUS as readonly (string | undefined)[]).includes(potentialOf(view, net)))
}

/** Low-voltage nets, and those that ride on one. */
export function lowNets(view: View): readonly Path[] {
  return view.find({ ask: 'nets' }).paths.filter((net) => potentialOf(view, net) === 'low-voltage')
}

/** The net that a net is tied to in the end; itself when it is tied to none. */
export function tiedTo(view: View, net: Path, seen: readonly Path[] = []): Path {
  const next = view.find({ ask: 'tied-to', net }).paths[0]
  return next === undefined || seen.includes(next) ? net : tiedTo(view, next, [...seen, net])
}

/** Nets at the potential of the chassis: the chassis itself, and what is tied to it. */
export function groundedNets(view: View): readonly Path[] {
  return view
    .find({ ask: 'nets' })
    .paths.filter((net) => potentialOf(view, tiedTo(view, net)) === 'chassis' || net === asPath('nets/chassis'))
}
