import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineTrait } from './trait.ts'

/** Power-semiconductor pieces: modules where there are any, else discrete devices. */
export function powerStage(view: View): readonly Path[] {
  for (const name of ['half-bridge-module', 'multi-bridge-module', 'discrete-power-device']) {
    const entries = view.find({ ask: 'parts', class: name }).paths
    if (entries.length > 0) return entries.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths)
  }
  return []
}

/** Faces of a piece from which a recorded path leads to a coolant passage, or that a passage touches. */
function cooledFaces(view: View, piece: Path): number {
  const faces = view.find({ ask: 'faces', part: piece }).paths
  return faces.filter((face) => view.find({ ask: 'heat-ends', piece: face }).paths.length > 0).length
}

const coolingSides = defineTrait({
  id: 'cooling-sides',
  title: 'Cooled sides of the power semiconductors',
  definition: 'How many faces of a power module (or discrete device) have a recorded heat path to coolant or air.',
  values: ['none', 'single', 'double', 'mixed'],
  compute(view) {
    const stage = powerStage(view)
    if (stage.length === 0) return null
    const sides = new Set(stage.map((piece) => Math.min(2, cooledFaces(view, piece))))
    if (sides.size > 1) return 'mixed'
    return ['none', 'single', 'double'][[...sides][0]!]!
  },
})

const coolantMedium = defineTrait({
  id: 'cooling-medium',
  title: 'Cooling medium',
  definition: 'What carries the heat away: liquid, air, or no circuit on record.',
  values: ['liquid', 'air', 'none recorded'],
  compute(view) {
    const circuits = view.find({ ask: 'circuits' }).paths
    if (circuits.length === 0) return 'none recorded'
    const fluids = circuits.map((circuit) => view.mayWord(`${circuit}/fluid` as Path))
    return fluids.some((fluid) => fluid !== undefined && fluid !== 'air') ? 'liquid' : 'air'
  },
})

const coolantOrder = defineTrait({
  id: 'coolant-order',
  title: 'Coolant order',
  definition:
    'Whether the passages that cool the power semiconductors are visited one after the other or side by side.',
  values: ['series', 'parallel', 'mixed', 'one passage'],
  compute(view) {
    const stage = powerStage(view)
    const passages = [...new Set(stage.flatMap((piece) => view.find({ ask: 'heat-ends', piece }).paths))].filter(
      (path) => path.startsWith('coolant'),
    )
    if (passages.length === 0) return null
    if (passages.length === 1) return 'one passage'
    const before = passages.map((passage) => new Set(view.find({ ask: 'upstream', passage }).paths))
    let ordered = 0
    let pairs = 0
    passages.forEach((a, i) => {
      passages.slice(i + 1).forEach((b, j) => {
        pairs++
        if (before[i]!.has(b) || before[i + 1 + j]!.has(a)) ordered++
      })
    })
    return ordered === 0 ? 'parallel' : ordered === pairs ? 'series' : 'mixed'
  },
})

const electronicsFirst = defineTrait({
  id: 'electronics-in-coolant',
  title: 'Control electronics in the coolant order',
  definition:
    'Whether a board or board part is cooled by a passage before, after or beside those of the power semiconductors.',
  values: ['before', 'after', 'beside', 'not cooled by the coolant'],
  compute(view) {
    const power = passagesOf(view, powerStage(view))
    const boards = ['board', 'board-part'].flatMap((group) => view.find({ ask: 'parts', class: group }).paths)
    if (power.size === 0 || boards.length === 0) return null
    const cooled = passagesOf(
      view,
      boards.flatMap((entry) => view.find({ ask: 'pieces', of: entry }).paths),
    )
    if (cooled.size === 0) return 'not cooled by the coolant'
    const upstream = (passage: Path): readonly Path[] => view.find({ ask: 'upstream', passage }).paths
    if ([...power].some((passage) => upstream(passage).some((one) => cooled.has(one)))) return 'before'
    if ([...cooled].some((passage) => upstream(passage).some((one) => power.has(one)))) return 'after'
    return 'beside'
  },
})

function passagesOf(view: View, pieces: readonly Path[]): ReadonlySet<Path> {
  return new Set(
    pieces
      .flatMap((piece) => view.find({ ask: 'heat-ends', piece }).paths)
      .filter((path) => path.startsWith('coolant')),
  )
}

const spreadForm = defineTrait({
  id: 'heat-spreading',
  title: 'How spreading of heat is recorded',
  definition:
    'By which rule the layers below the power semiconductors let the area grow: series solution, 45° rule, none, or several of these. Figures by the 45° rule are no better than that rule.',
  values: ['series', '45° rule', 'none', 'mixed', 'not recorded'],
  compute(view) {
    const stage = new Set(powerStage(view))
    if (stage.size === 0) return null
    const layers = view
      .find({ ask: 'heat-paths' })
      .paths.filter((path) => view.find({ ask: 'heat-start', path }).paths.some((start) => within(view, start, stage)))
      .flatMap((path) => view.find({ ask: 'heat-layers', path }).paths)
    const forms = new Set<string>(layers.flatMap((layer) => view.find({ ask: 'spread-of', layer }).paths))
    const growing = new Set([...forms].filter((form) => form !== 'none'))
    if (forms.size === 0) return 'not recorded'
    if (growing.size === 0) return 'none'
    return growing.size > 1 ? 'mixed' : growing.has('series') ? 'series' : '45° rule'
  },
})

function within(view: View, node: Path, stage: ReadonlySet<Path>): boolean {
  let at = view.find({ ask: 'piece-of', node }).paths[0]
  while (at !== undefined && !stage.has(at)) at = view.find({ ask: 'holder', piece: at }).paths[0]
  return at !== undefined
}

export const coolingTraits = [coolingSides, coolantMedium, coolantOrder, electronicsFirst, spreadForm] as const
