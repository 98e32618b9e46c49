import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { backward, choleskyInPlace, forward } from '../physics/dense.ts'
import { defineFigure } from './figure.ts'
import { CONTACT, EVEN, FINE, ROUGH } from './metal/plate-grid.ts'
import { type ReducedRails, railsSubject, reducedRails } from './metal/rails.ts'
import { place } from './paths.ts'

function railsOfLoop(view: View, loop: Path): readonly [Path, Path] {
  const rails = view.some({ ask: 'loop-rails', loop }).paths
  return [rails[0]!, rails[1]!]
}

/** Own inductance of each capacitor of a loop [H]. */
const capacitorInductances: Model<ReadonlyMap<Path, number>> = {
  id: 'capacitor inductances',
  compute(view, loop) {
    const pieces = view.some({ ask: 'loop-capacitors', loop }).paths
    const values = view.each(pieces, (piece) => view.need({ inductance: asPath(`${piece}/inductance`) }).inductance)
    return new Map(pieces.map((piece, at) => [piece, values[at]!]))
  },
}

/** Stands for a capacitor that a loop leaves out: so much inductance that no current takes that way [H]. */
const LEFT_OUT = 1

/**
 * Inductance at a half bridge of the rails closed by its capacitors, each with its own inductance in series; the
 * capacitors themselves are shorts at this speed. With K the port matrix of the metal (first capacitor joined) and D the
 * capacitors' own inductances: L = K_bb − K_bc (K_cc + D)⁻¹ K_cb, all with that of the first added throughout.
 */
function closed(rails: ReducedRails, own: ReadonlyMap<Path, number>, loop: Path): number {
  const first = own.get(rails.first) ?? LEFT_OUT
  const at = (i: number, j: number): number => rails.matrix[i]![j]! + first
  const b = rails.ports.indexOf(loop)
  const c = rails.ports.flatMap((id, i) => (own.has(id) ? [i] : []))
  if (c.length === 0) return at(b, b)
  const factor = Float64Array.from(c.flatMap((i) => c.map((j) => at(i, j) + (i === j ? own.get(rails.ports[i]!)! : 0))))
  choleskyInPlace(factor, c.length)
  const currents = Float64Array.from(c.map((i) => at(i, b)))
  forward(factor, c.length, currents)
  backward(factor, c.length, currents)
  return at(b, b) - c.reduce((sum, i, n) => sum + at(b, i) * currents[n]!, 0)
}

/**
 * Inductance outside the half bridge. With plates the value is that of a grid with true contacts, and a doubt moves it as
 * it moves an even grid: the first is solved once, and its ratio to the even one is kept under every draw.
 */
function outside(view: View, loop: Path): number {
  const subject = railsSubject(railsOfLoop(view, loop))
  for (const piece of view.some({ ask: 'loop-bridge', loop }).paths) view.need(place(asPath(`${piece}/at`)))
  const at = (cells: number): number => {
    const [rails, own] = view.all(
      () => view.model(reducedRails, asPath(`${subject}|${cells}`)),
      () => view.model(capacitorInductances, loop),
    )
    return closed(rails, own, loop)
  }
  if (!hasPlate(view, loop)) return at(FINE)
  const coarse = at(EVEN)
  const ratio = view.choice(`grid of ${loop}`, () => {
    const [fine, half] = [at(FINE), at(ROUGH)]
    const share = ((100 * Math.abs(half - fine)) / fine).toFixed(1)
    view.note(
      `plates as grids, terminals touching them over ${CONTACT * 1e3} mm squares (assumed); a grid two thirds as fine changes the part outside the half bridge by ${share} %`,
    )
    return fine / coarse
  })
  return coarse * ratio
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
    'Inductance of the loop from the capacitors across the rails through bars and plates to one half bridge and back, with the capacitors’ and the half bridge’s own inductance, current spread evenly over each section.',
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
      () => outside(view, loop),
    )
    return inside + rest
  },
})

export const loopFigures = [loopInductance] as const
