import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { backward, choleskyInPlace, forward } from '../physics/dense.ts'
import { DomainError } from '../physics/method.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { CONTACT, EVEN, FINE, GRID_DOUBT, ROUGH } from './metal/plate-grid.ts'
import { capacitorsOn, type ReducedRails, railsSubject, reducedRails } from './metal/rails.ts'
import { place } from './paths.ts'

function railsOfLoop(view: View, loop: Path): readonly [Path, Path] {
  const rails = view.some({ ask: 'loop-rails', loop }).paths
  return [rails[0]!, rails[1]!]
}

/** Own inductance of each capacitor of a loop [H]. */
const capacitorInductances: Model<ReadonlyMap<Path, number>> = {
  id: 'capacitor inductances',
  compute(view, loop) {
    const on = capacitorsOn(view, railsOfLoop(view, loop)).pieces
    const pieces = view.some({ ask: 'loop-capacitors', loop }).paths.filter((piece) => on.includes(piece))
    const values = view.each(
      pieces,
      (piece) => view.need({ inductance: asPath(`${piece}/inductance`), ...place(asPath(`${piece}/at`)) }).inductance,
    )
    return new Map(pieces.map((piece, at) => [piece, values[at]!]))
  },
}

/** Stands for a capacitor that a loop leaves out: so much inductance that no current takes that way [H]. */
const LEFT_OUT = 1

/**
 * Inductance at a half bridge of the rails closed by its capacitors, each with its own inductance in series; the
 * capacitors themselves are shorts at this speed. With K the port matrix of the metal (some capacitors joined), S the ways
 * through those, and D their own inductances: K + S D Sᵀ is the matrix with them, and L = K_bb − K_bc (K_cc + D)⁻¹ K_cb.
 */
function closed(
  { tree, ports, matrix, through }: ReducedRails,
  own: ReadonlyMap<Path, number>,
  loop: Path,
): ClosedLoop {
  const inTree = tree.map((id) => own.get(id) ?? LEFT_OUT)
  const at = (i: number, j: number): number =>
    inTree.reduce((sum, one, t) => sum + one * through[i]![t]! * through[j]![t]!, matrix[i]![j]!)
  const b = ports.indexOf(loop)
  const c = ports.flatMap((id, i) => (own.has(id) ? [i] : []))
  const factor = Float64Array.from(c.flatMap((i) => c.map((j) => at(i, j) + (i === j ? own.get(ports[i]!)! : 0))))
  if (choleskyInPlace(factor, c.length) !== undefined)
    throw new DomainError('LOOP_INDUCTANCE', 'inductance', loop, 'above zero in every capacitor of the loop')
  const currents = Float64Array.from(c.map((i) => at(i, b)))
  forward(factor, c.length, currents)
  backward(factor, c.length, currents)
  const inductance = at(b, b) - c.reduce((sum, i, n) => sum + at(b, i) * currents[n]!, 0)
  // One ampere at the half bridge: each capacitor gives its part, the joined ones what is left on their way.
  const left = inTree.map((_, t) => c.reduce((sum, i, n) => sum - through[i]![t]! * currents[n]!, through[b]![t]!))
  const inCapacitors =
    c.reduce((sum, i, n) => sum + own.get(ports[i]!)! * currents[n]! ** 2, 0) +
    inTree.reduce((sum, one, t) => sum + one * left[t]! ** 2, 0)
  return { inductance, inCapacitors }
}

/** Inductance outside a half bridge, and the part of it that is the capacitors' own (i²L of each) [H]. */
interface ClosedLoop {
  readonly inductance: number
  readonly inCapacitors: number
}

/**
 * Inductance outside the half bridge. With plates the value is that of a grid with true contacts, and a doubt moves it as
 * it moves an even grid: the first is solved once, and what it adds to the even one is kept under every draw.
 */
function outside(view: View, loop: Path): ClosedLoop {
  const subject = railsSubject(railsOfLoop(view, loop))
  for (const piece of view.some({ ask: 'loop-bridge', loop }).paths) view.need(place(asPath(`${piece}/at`)))
  const at = (cells: number): ClosedLoop => {
    const [rails, own] = view.all(
      () => view.model(reducedRails, asPath(`${subject}|${cells}`)),
      () => view.model(capacitorInductances, loop),
    )
    return closed(rails, own, loop)
  }
  if (!hasPlate(view, loop)) return at(FINE)
  const coarse = at(EVEN)
  const rest = view.choice(`grid of ${loop}`, () => {
    const [fine, half, even] = [at(FINE), at(ROUGH), at(EVEN)]
    const share = ((100 * Math.abs(half.inductance - fine.inductance)) / fine.inductance).toFixed(1)
    view.note(
      `plates as grids, terminals touching them over ${CONTACT * 1e3} mm squares (assumed); a grid two thirds as fine changes the part outside the half bridge by ${share} %`,
    )
    return {
      inductance: fine.inductance - even.inductance,
      inCapacitors: fine.inCapacitors - even.inCapacitors,
    }
  })
  const [inductance, inCapacitors] = [coarse.inductance + rest.inductance, coarse.inCapacitors + rest.inCapacitors]
  const grid = view.doubt(asPath('tables/plate-grid'), GRID_DOUBT, 'plates as a grid of bars')
  return { inductance: inductance + (inductance - inCapacitors) * grid, inCapacitors }
}

function hasPlate(view: View, loop: Path): boolean {
  return railsOfLoop(view, loop).some((net) =>
    view.find({ ask: 'metal-of', net }).paths.some((part) => view.find({ ask: 'shape-of', part }).paths[0] === 'plate'),
  )
}

/** Inductance inside the half bridge: of the module, or of its two switches in series (those side by side share). */
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
    'Inductance of the loop from the capacitors between the rails (across both, or in strings over a middle net) through bars and plates to one half bridge and back, with the capacitors’ and the half bridge’s own inductance, current spread evenly over each section.',
  unit: 'nH',
  subject: 'loop',
  honours: [],
  caution: 'voltage',
  method: 'partial self and mutual inductances of rectangular bars in one network; capacitors as shorts in parallel',
  sources: [
    'C. Hoer, C. Love, “Exact inductance equations for rectangular conductors with applications to more complicated geometries”, J. Res. NBS 69C (1965) 127-137 (from memory)',
  ],
  subjects: (view) => view.find({ ask: 'loops' }),
  compute(view, loop) {
    const [inside, rest] = view.all(
      () => bridgeInductance(view, loop),
      () => outside(view, loop).inductance,
    )
    return inside + rest
  },
})

const shared = {
  unit: 'nH',
  subject: 'loop',
  honours: [],
  caution: 'voltage',
  sources: loopInductance.sources,
  subjects: loopInductance.subjects,
} as const

const inCapacitors = defineFigure({
  ...shared,
  id: 'LOOP_INDUCTANCE_CAPACITORS',
  costly: true,
  title: 'Part of the loop inductance that is in the capacitors',
  definition: 'Own inductances of the capacitors, each times the square of its share of the current.',
  method: 'energy of the current division in the loop network',
  compute: (view, loop) => outside(view, loop).inCapacitors,
})

const inMetal = defineFigure({
  ...shared,
  id: 'LOOP_INDUCTANCE_METAL',
  costly: true,
  title: 'Part of the loop inductance that is in bars and plates',
  definition: 'Loop inductance outside the half bridge less the part that is in the capacitors.',
  uses: ['LOOP_INDUCTANCE_CAPACITORS'],
  method: 'energy of the current division in the loop network',
  compute: (view, loop) => outside(view, loop).inductance - view.figure('LOOP_INDUCTANCE_CAPACITORS', loop),
})

const asymmetry = defineFigure({
  ...shared,
  id: 'LOOP_ASYMMETRY',
  title: 'Spread of the loop inductances of the phases',
  definition:
    'Largest less smallest commutation loop inductance of the half bridges that make the alternating output; of all half bridges where none does.',
  subject: 'specimen',
  kink: true,
  costly: true,
  uses: ['LOOP_INDUCTANCE'],
  method: 'largest − smallest LOOP_INDUCTANCE',
  subjects: () => SPECIMEN,
  compute(view) {
    const phases = view.find({ ask: 'bridge-loops' }).paths
    const loops = phases.length > 0 ? phases : view.some({ ask: 'loops' }).paths
    if (loops.length < 2) view.fail('one half bridge alone has no asymmetry', 'not-applicable')
    const all = view.each(loops, (loop) => view.figure('LOOP_INDUCTANCE', loop))
    return Math.max(...all) - Math.min(...all)
  },
})

export const loopFigures = [loopInductance, inCapacitors, inMetal, asymmetry] as const
