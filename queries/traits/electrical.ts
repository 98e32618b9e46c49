import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { groundedNets, lowNets } from '../figures/potential.ts'
import { defineTrait } from './trait.ts'

/** Widest gap that counts as laminated: film and bond of two bars, not a space between them (common practice). */
const LAMINATED = 1.05e-3

const laminated = defineTrait({
  id: 'laminated-bus-bars',
  title: 'Laminated bus bars',
  definition:
    'Whether bars or plates of the two DC rails lie face to face with no more than about a millimetre between, or are of the class laminated-bus-bar.',
  values: ['laminated', 'face to face, apart', 'not face to face', 'no bar recorded'],
  compute(view) {
    const rails = view.find({ ask: 'rails' }).paths
    if (rails.length !== 2) return null
    if (view.find({ ask: 'parts', class: 'laminated-bus-bar' }).paths.length > 0) return 'laminated'
    const [plus, minus] = rails.map((net) => view.find({ ask: 'metal-of', net }).paths)
    if (plus!.length + minus!.length === 0) return 'no bar recorded'
    const gaps = [...plus!, ...minus!].flatMap((part) => gapToOther(view, part, plus!, minus!))
    if (gaps.length === 0) return 'not face to face'
    return Math.min(...gaps) <= LAMINATED ? 'laminated' : 'face to face, apart'
  },
})

/** Gap of a bar to one of the other rail, or to a middle plate in the same stack. */
function gapToOther(view: View, part: Path, plus: readonly Path[], minus: readonly Path[]): readonly number[] {
  const other = view.find({ ask: 'beside', part }).paths[0]
  const own = plus.includes(part) ? plus : minus
  if (other === undefined || own.includes(other)) return []
  const gap = view.may(asPath(`${part}/beside/gap`))
  return gap === undefined ? [] : [gap]
}

const lowSide = defineTrait({
  id: 'low-voltage-side',
  title: 'Low-voltage side of the boards against the frame',
  definition:
    'Whether the low-voltage nets of the boards are tied to the chassis, so that the barrier to the live side is all that stands between, or float apart from it.',
  values: ['tied to the chassis', 'floating', 'not traced'],
  compute(view) {
    const low = lowNets(view)
    if (low.length === 0) return null
    const grounded = new Set(groundedNets(view))
    if (low.some((net) => grounded.has(net))) return 'tied to the chassis'
    return view.find({ ask: 'nets', potential: 'chassis' }).paths.length > 0 ? 'floating' : 'not traced'
  },
})

const barrier = defineTrait({
  id: 'board-isolation',
  title: 'How the boards are isolated from the frame',
  definition:
    'What stands between live parts of the boards and the frame on record: distances through air and along surfaces, a conformal coating beside them, insulating layers in the heat paths of board parts.',
  values: ['distance and coating', 'distance', 'coating', 'insulating pads', 'nothing recorded'],
  compute(view) {
    const boards = view.find({ ask: 'parts', class: 'board' }).paths
    if (boards.length === 0) return null
    const distances = view
      .find({ ask: 'spacings' })
      .paths.some((spacing) => view.find({ ask: 'lies-on', spacing }).paths.some((part) => boards.includes(part)))
    const coated =
      view.find({ ask: 'parts', class: 'conformal-coating' }).paths.length > 0 ||
      boards.some((board) => view.mayWord(asPath(`${board}/coating`)) === 'yes')
    if (distances) return coated ? 'distance and coating' : 'distance'
    if (coated) return 'coating'
    return padded(view) ? 'insulating pads' : 'nothing recorded'
  },
})

function padded(view: View): boolean {
  const parts = view.find({ ask: 'parts', class: 'board-part' }).paths
  return parts.some((node) =>
    view.find({ ask: 'heat-from', node }).paths.some((path) => view.find({ ask: 'barrier-on', path }).paths.length > 0),
  )
}

const currentSensing = defineTrait({
  id: 'current-sensing',
  title: 'Where current is sensed',
  definition:
    'On which conductors current sensors sit: by the conductors they go round where that is on record, else by their number against the phases.',
  values: ['every phase', 'two of three phases', 'one place', 'rails', 'phases and rails', 'more than the phases'],
  compute(view) {
    const entries = view.find({ ask: 'parts', class: 'current-sensor' }).paths
    const pieces = entries.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths)
    if (pieces.length === 0) return null
    const phases = new Set(
      view.find({ ask: 'bridge-loops' }).paths.flatMap((loop) => view.find({ ask: 'loop-output', loop }).paths),
    ).size
    const known = sensedNets(view, pieces)
    if (known !== null) return known
    if (phases > 0 && pieces.length === phases) return 'every phase'
    if (phases === 3 && pieces.length === 2) return 'two of three phases'
    if (pieces.length === 1) return 'one place'
    return phases > 0 && pieces.length > phases ? 'more than the phases' : null
  },
})

/** By the metal that the sensors go round; null when that is not on record for any. */
function sensedNets(view: View, sensors: readonly Path[]): string | null {
  const round = new Set(sensors.flatMap((part) => view.find({ ask: 'goes-round', part }).paths))
  if (round.size === 0) return null
  const rails: readonly Path[] = view.find({ ask: 'rails' }).paths
  const nets = view
    .find({ ask: 'nets' })
    .paths.filter((net) => view.find({ ask: 'metal-of', net }).paths.some((part) => round.has(part)))
  const onRails = nets.some((net) => rails.includes(net))
  const onPhases = nets.filter((net) => !rails.includes(net)).length
  if (onRails) return onPhases > 0 ? 'phases and rails' : 'rails'
  return onPhases >= 3 ? 'every phase' : onPhases === 2 ? 'two of three phases' : 'one place'
}

const impedance = defineTrait({
  id: 'trace-impedance',
  title: 'How trace impedance is set',
  definition: 'Against what the recorded traces run: a solid plane, a meshed one, two planes, or none.',
  values: ['solid plane', 'meshed plane', 'between two planes', 'no reference plane', 'mixed'],
  compute(view) {
    const traces = view.find({ ask: 'traces' }).paths
    if (traces.length === 0) return null
    const kinds = new Set(traces.map((trace) => referenceKind(view, trace)))
    return kinds.size === 1 ? [...kinds][0]! : 'mixed'
  },
})

function referenceKind(view: View, trace: Path): string {
  const planes = view.find({ ask: 'trace-references', trace }).paths
  if (planes.length === 0) return 'no reference plane'
  if (planes.some((plane) => view.may(asPath(`${plane}/mesh/pitch`)) !== undefined)) return 'meshed plane'
  return planes.length > 1 ? 'between two planes' : 'solid plane'
}

const LINK_KINDS: Readonly<Record<string, string>> = {
  'dc-link-film-capacitor': 'film',
  'electrolytic-capacitor': 'electrolytic',
  'ceramic-capacitor': 'ceramic',
}

const linkCapacitor = defineTrait({
  id: 'link-capacitor',
  title: 'Kind of link capacitor',
  definition: 'Class of the capacitors that hold the DC link, X capacitors and snubbers apart.',
  values: ['film', 'electrolytic', 'ceramic', 'mixed'],
  compute(view) {
    const rails: readonly Path[] = view.find({ ask: 'rails' }).paths
    const onRail = (piece: Path): boolean =>
      view.find({ ask: 'terminals', piece }).paths.some((net) => rails.includes(net))
    const link = new Set(view.find({ ask: 'link-capacitors' }).paths.filter(onRail))
    const kinds = Object.entries(LINK_KINDS).flatMap(([name, kind]) => {
      const pieces = view
        .find({ ask: 'parts', class: name })
        .paths.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths)
      return pieces.some((piece) => link.has(piece)) ? [kind] : []
    })
    if (kinds.length === 0) return null
    return kinds.length === 1 ? kinds[0]! : 'mixed'
  },
})

export const electricalTraits = [laminated, barrier, lowSide, currentSensing, impedance, linkCapacitor] as const
