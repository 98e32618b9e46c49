import type { Path } from '../../graph/quantity/quantity.ts'
import type { View } from '../../graph/view.ts'
import { defineFigure, SPECIMEN } from './figure.ts'

const partCount = defineFigure({
  id: 'PART_COUNT',
  title: 'Part count',
  definition:
    'Pieces that hold no other part, joining parts (screws, nuts, clips, welds) left out, as built or as found.',
  unit: '1',
  subject: 'specimen',
  honours: ['counts'],
  exact: true,
  method: 'count of leaf pieces; nested counts multiply',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view) {
    view.setting('counts')
    const entries = view.some({ ask: 'leaf-parts' }).paths
    return entries.reduce((sum, entry) => sum + view.find({ ask: 'pieces', of: entry }).paths.length, 0)
  },
})

const fastenerCount = defineFigure({
  id: 'FASTENER_COUNT',
  title: 'Fastener count',
  definition: 'Pieces of the group joining: screws, nuts, clips, press-fit pins, welds and bonds that are on record.',
  unit: '1',
  subject: 'specimen',
  honours: ['counts'],
  exact: true,
  method: 'count of pieces of the group joining',
  sources: ['common practice'],
  subjects: () => SPECIMEN,
  compute(view) {
    view.setting('counts')
    const entries = view.some({ ask: 'parts', class: 'joining' }).paths
    return entries.reduce((sum, entry) => sum + view.find({ ask: 'pieces', of: entry }).paths.length, 0)
  },
})

/** Everything that must be done before a step, whichever way the blockers lead. */
function before(view: View, step: Path, seen = new Set<Path>()): ReadonlySet<Path> {
  for (const blocker of view.find({ ask: 'blockers', step }).paths) {
    if (seen.has(blocker)) continue
    seen.add(blocker)
    before(view, blocker, seen)
  }
  return seen
}

const stepsToReach = defineFigure({
  id: 'STEPS_TO_REACH',
  title: 'Steps before a part can be taken off',
  definition:
    'Recorded steps that must come before the one that takes the part, or what holds it, off: its blockers and theirs, the proof that the link is dead among them.',
  unit: '1',
  subject: 'component',
  honours: [],
  exact: true,
  method: 'count of blocking steps; of several ways the shortest',
  sources: ['common practice'],
  subjects(view) {
    const found = view.find({ ask: 'parts' })
    const taken = found.paths.filter((part) => view.find({ ask: 'steps-taking', part }).paths.length > 0)
    return { ...found, paths: taken }
  },
  compute(view, part) {
    const steps = view.some({ ask: 'steps-taking', part }).paths
    return Math.min(...steps.map((step) => before(view, step).size))
  },
})

export const buildFigures = [partCount, fastenerCount, stepsToReach] as const
