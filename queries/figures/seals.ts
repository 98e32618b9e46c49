import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { Model, View } from '../../graph/view.ts'
import { type ORing, oRing } from '../physics/o-ring.ts'
import { defineFigure } from './figure.ts'
import { sound } from './heat/reading.ts'
import { below } from './paths.ts'

/** An O-ring in its groove, as recorded. */
const inGroove: Model<ORing> = {
  id: 'o-ring in its groove',
  compute: (view, piece) =>
    sound(view, piece, () =>
      oRing(
        view.need({
          cordDiameter: below(piece, 'cord-diameter'),
          grooveDepth: below(piece, 'groove/depth'),
          grooveWidth: below(piece, 'groove/width'),
        }),
      ),
    ),
}

/** One of each kind: pieces of one entry are alike unless said otherwise. */
function rings(view: View): Found {
  return view.find({ ask: 'parts', class: 'o-ring' })
}

const SOURCES = ['geometry; customary limits: common practice, as in ISO 3601-2 (from memory)']

const squeeze = defineFigure({
  id: 'O_RING_SQUEEZE',
  title: 'O-ring squeeze',
  definition:
    'Cord diameter less the depth of the groove, over cord diameter, with faces that touch outside of the groove. Usual for a static face seal: 15 to 30 %.',
  unit: '%',
  subject: 'component',
  honours: [],
  caution: 'heat',
  method: '(d − h)/d',
  sources: SOURCES,
  subjects: rings,
  compute: (view, ring: Path) => view.model(inGroove, ring).squeeze,
})

const fill = defineFigure({
  id: 'O_RING_FILL',
  title: 'Groove fill of an O-ring',
  definition:
    'Section of the cord over the section of its groove. At most about 85 %, so that swelling rubber has room.',
  unit: '%',
  subject: 'component',
  honours: [],
  caution: 'heat',
  method: '(π/4) d² / (w h)',
  sources: SOURCES,
  subjects: rings,
  compute: (view, ring: Path) => view.model(inGroove, ring).fill,
})

export const sealFigures = [squeeze, fill] as const
