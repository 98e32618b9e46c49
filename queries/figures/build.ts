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

export const buildFigures = [partCount, fastenerCount] as const
