import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { adiabaticHoldTime } from '../physics/transient.ts'
import { defineFigure, SPECIMEN } from './figure.ts'
import { entriesWithin } from './heat/at.ts'
import { ofMaterial } from './heat/material.ts'
import { firstOf, known } from './heat/reading.ts'
import { heatTopology, isSink } from './heat/topology.ts'
import { lossOf } from './loss.ts'
import { below } from './paths.ts'
import { HEAT_POINT, stagePieces } from './thermal.ts'

interface Carriers {
  /** Modules or devices, and whatever their heat passes through that is not inside of them. */
  readonly pieces: readonly Path[]
  /** Inlets of the coolant, air and frame where the heat ends: how warm everything is at the start. */
  readonly starts: readonly Path[]
}

/** What warms when the power stage gives off heat, found along its ways. */
function carriers(view: View): Carriers {
  return view.choice('carriers of the heat of the power stage', () => {
    const stage = stagePieces(view)
    const { islands, streams } = heatTopology(view)
    const pieces = new Set<Path>(stage)
    const starts = new Set<Path>()
    const seen = new Set<Path>()
    const queue = stage.flatMap((piece) => entriesWithin(view, piece).map(({ node }) => node))
    const holders = new Set(stage.map(entryOf))
    // A part named for all pieces of a module stands for each of them: it is in the mass of the module.
    const inside = (piece: Path): boolean =>
      stage.includes(piece) || [piece, ...partsAbove(view, piece)].some((one) => holders.has(entryOf(one)))
    for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
      const at = node
      if (seen.has(at)) continue
      seen.add(at)
      const owner = view.find({ ask: 'piece-of', node: at }).paths[0] ?? at
      if (!inside(owner)) pieces.add(owner)
      for (const { ways, coolings } of islands) {
        for (const { from, to, layers } of ways) {
          if (from !== at) continue
          for (const { part } of layers) if (part && !inside(part)) pieces.add(part)
          if (isSink(to)) starts.add(to)
          else queue.push(to)
        }
        for (const { face, passage } of coolings) {
          if (face === at) starts.add(below(streams.get(passage)!.circuit, 'inlet'))
        }
      }
    }
    return { pieces: [...pieces], starts: [...starts] }
  })
}

const entryOf = (piece: Path): string => piece.replace(/\.[^/]*/g, '')

/** Entries that hold the entry of a piece. */
function partsAbove(view: View, piece: Path): readonly Path[] {
  const above = view.find({ ask: 'parent', part: entryOf(piece) as Path }).paths[0]
  return above === undefined ? [] : [above, ...partsAbove(view, above)]
}

/** Mass of a piece: weighed, else of the whole lot shared among its pieces, else volume times density. */
function massOfPiece(view: View, piece: Path): number {
  return view.first([
    { name: 'weighed', read: () => view.need({ mass: below(piece, 'mass') }).mass },
    {
      name: 'volume times density',
      read: () => {
        const [{ volume }, density] = view.all(
          () => view.need({ volume: below(piece, 'volume') }),
          () => ofMaterial(view, piece, 'density'),
        )
        return volume * density
      },
    },
  ]).value
}

const holdTime = defineFigure({
  id: 'HOLD_TIME',
  title: 'Time at the operating point without cooling',
  definition:
    'How long the loss of the power stage could be borne if no heat left: modules and everything their heat passes through warm together, from the coolant inlet (or air, or frame) to the lowest recorded temperature limit of the power stage. What is heated first is hotter than the mean, so the true time is shorter; parts without a recorded mass are named and left out.',
  unit: 's',
  subject: 'specimen',
  honours: ['power'],
  operating: HEAT_POINT,
  kink: true,
  caution: 'heat',
  method: 'Σ m c ΔT / P',
  sources: ['energy balance'],
  subjects: () => SPECIMEN,
  compute(view) {
    const stage = stagePieces(view)
    if (stage.length === 0) view.fail('no power module or device is on record', 'not-applicable')
    const { pieces, starts } = carriers(view)
    const [losses, limits, from, heated] = view.all(
      () => view.each(stage, (piece) => view.model(lossOf, piece)),
      () => view.each(stage, (piece) => limitOf(view, piece)),
      () => view.each(starts, (path) => view.need({ temperature: path }).temperature),
      () => heatedMasses(view, pieces),
    )
    if (from.length === 0) view.fail('no heat path leads from the power stage to coolant, air or frame')
    const allowedRise = Math.min(...limits) - Math.max(...from)
    if (!(allowedRise > 0)) view.fail('the power stage starts above its temperature limit')
    return adiabaticHoldTime({ ...heated, allowedRise, loss: losses.reduce((sum, one) => sum + one, 0) }).holdTime
  },
})

/** Highest temperature that a piece, or the dies inside of it, may have. */
function limitOf(view: View, piece: Path): number {
  const dies = entriesWithin(view, piece).map(({ of }) => below(of, 'temperature-limit'))
  return firstOf(view, [...new Set([below(piece, 'temperature-limit'), ...dies])].slice(0, 3))
}

function heatedMasses(view: View, pieces: readonly Path[]): { masses: number[]; specificHeats: number[] } {
  const found = pieces.map((piece) => ({
    piece,
    own: known(view, () =>
      view.all(
        () => massOfPiece(view, piece),
        () => ofMaterial(view, piece, 'specific-heat'),
      ),
    ),
  }))
  const have = found.flatMap(({ own }) => (own ? [own] : []))
  const without = found.flatMap(({ piece, own }) => (own ? [] : [piece]))
  if (have.length === 0)
    view.each(pieces, (piece) =>
      view.all(
        () => massOfPiece(view, piece),
        () => ofMaterial(view, piece, 'specific-heat'),
      ),
    )
  if (without.length > 0) view.note(`left out, for their mass or material is not on record: ${without.join(', ')}`)
  return { masses: have.map(([mass]) => mass), specificHeats: have.map(([, heat]) => heat) }
}

export const transientFigures = [holdTime] as const
