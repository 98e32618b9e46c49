import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { type Branch, solveNetwork } from '../physics/inductance-network.ts'
import { defineFigure } from './figure.ts'
import { netMetal } from './metal/network.ts'
import { type Tap, terminalTap } from './metal/taps.ts'

/** Inductance of one loop, and what each branch adds to it [H]. */
interface SolvedLoop {
  readonly inductance: number
  readonly shares: ReadonlyMap<string, number>
}

/** One half bridge on the rails: where its plus and minus terminals take current, and what is inside of it. */
interface Bridge {
  readonly loop: Path
  readonly plus: readonly Tap[]
  readonly minus: readonly Tap[]
}

function bridgeTaps(view: View, loop: Path, [plus, minus]: readonly [Path, Path]): Bridge {
  const pieces = view.some({ ask: 'loop-bridge', loop }).paths
  const on = (net: Path): readonly Path[] =>
    pieces.filter((piece) => view.find({ ask: 'terminal-on', piece, net }).paths.length > 0)
  const [upper, lower] = view.all(
    () => view.each(on(plus), (piece) => terminalTap(view, piece, plus)),
    () => view.each(on(minus), (piece) => terminalTap(view, piece, minus)),
  )
  return { loop, plus: upper, minus: lower }
}

const bridge: Model<Bridge> = {
  id: 'bridge taps',
  compute: (view, loop) => bridgeTaps(view, loop, railsOfLoop(view, loop)),
}

function railsOfLoop(view: View, loop: Path): readonly [Path, Path] {
  const rails = view.some({ ask: 'loop-rails', loop }).paths
  return [rails[0]!, rails[1]!]
}

/**
 * The loop in one network: bars and plates of its two nets with all their mutual inductances, every capacitor across
 * the nets with its own inductance, seen from the terminals of the half bridge. Capacitors are shorts at this speed.
 */
const solvedLoop: Model<SolvedLoop> = {
  id: 'loop network',
  compute(view, loop) {
    const rails = railsOfLoop(view, loop)
    const [own, capacitors] = view.all(
      () => view.model(bridge, loop),
      () => capacitorBranches(view, loop, rails),
    )
    const taps = [...own.plus, ...own.minus, ...capacitors.flatMap(({ ends }) => ends)]
    const sides = view.each(rails, (net) =>
      netMetal(
        view,
        net,
        taps.filter((tap) => tap.net === net),
      ),
    )
    const node = (tap: Tap): string => sides.map(({ nodes }) => nodes.get(tap.id)).find((one) => one !== undefined)!
    const branches: Branch[] = [
      ...sides.flatMap((side) => side.branches),
      ...capacitors.map(({ piece, ends, inductance }) => ({
        id: piece,
        from: node(ends[0]!),
        to: node(ends[1]!),
        inductance,
      })),
    ]
    const joined = [...sides.flatMap((side) => side.joined), own.plus.map(node), own.minus.map(node)]
    const port = { id: loop, from: node(own.plus[0]!), to: node(own.minus[0]!) }
    const answer = solveNetwork({ branches, ports: [port], joined })
    if (answer.ok) return { inductance: answer.ports[0]![0]!, shares: answer.shares[0]! }
    const { fault } = answer
    return fault.kind === 'port-open'
      ? view.fail(
          `the loop is open: no joint leads from the metal at ${fault.pieces[0]?.[0]} to ${fault.pieces[1]?.[0]}; record the joints between the bars`,
          'refused',
          loop,
        )
      : view.fail(
          `two pieces of metal lie in the same place (${fault.branch}): check their coordinates`,
          'refused',
          loop,
        )
  },
}

interface CapacitorBranch {
  readonly piece: Path
  readonly ends: readonly [Tap, Tap]
  readonly inductance: number
}

function capacitorBranches(view: View, loop: Path, [plus, minus]: readonly [Path, Path]): readonly CapacitorBranch[] {
  const pieces = view.some({ ask: 'loop-capacitors', loop }).paths
  return view.each(pieces, (piece) => {
    const [a, b, { inductance }] = view.all(
      () => terminalTap(view, piece, plus),
      () => terminalTap(view, piece, minus),
      () => view.need({ inductance: asPath(`${piece}/inductance`) }),
    )
    return { piece, ends: [a, b], inductance }
  })
}

/** Inductance inside the half bridge: of the module, or of its two switches in series (those in parallel share). */
function bridgeInductance(view: View, loop: Path): number {
  const pieces = view.some({ ask: 'loop-bridge', loop }).paths
  const own = view.each(pieces, (piece) => view.need({ inductance: asPath(`${piece}/inductance`) }).inductance)
  if (pieces.length === 1) return own[0]!
  view.note('metal of the switching net between the two switches is not in it')
  const [plus] = railsOfLoop(view, loop)
  const upper = pieces.map((piece) => view.find({ ask: 'terminal-on', piece, net: plus }).paths.length > 0)
  const side = (high: boolean): number => 1 / own.reduce((sum, one, at) => sum + (upper[at] === high ? 1 / one : 0), 0)
  return side(true) + side(false)
}

const loopInductance = defineFigure({
  id: 'LOOP_INDUCTANCE',
  title: 'Commutation loop inductance',
  definition:
    'Inductance of the loop from the capacitors across the rails through bars and plates to one half bridge and back, with the capacitors’ and the half bridge’s own inductance, current spread over each section.',
  unit: 'nH',
  subject: 'loop',
  honours: [],
  caution: 'voltage',
  method: 'partial self and mutual inductances of rectangular bars in one network; capacitors as shorts in parallel',
  sources: [
    'C. Hoer, C. Love, “Exact inductance equations for rectangular conductors”, J. Res. NBS 69C (1965) 127-137 (from memory)',
  ],
  subjects: (view) => view.find({ ask: 'loops' }),
  compute(view, loop) {
    const [inside, outside] = view.all(
      () => bridgeInductance(view, loop),
      () => view.model(solvedLoop, loop),
    )
    return inside + outside.inductance
  },
})

export const loopFigures = [loopInductance] as const
