import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { View } from '../../graph/view.ts'
import { heatFlux } from '../physics/heat-flux.ts'
import { defineFigure } from './figure.ts'
import { lossOf } from './loss.ts'

const SEATED = ['half-bridge-module', 'multi-bridge-module', 'discrete-power-device', 'power-die']

/** Modules, devices and dies, piece by piece, and the faces of a piece that carry a recorded area. */
function heatFluxSubjects(view: View): Found {
  const pieces = SEATED.flatMap((name) => view.find({ ask: 'parts', class: name }).paths).flatMap(
    (entry) => view.find({ ask: 'pieces', of: entry }).paths,
  )
  const faces = pieces.flatMap((piece) => view.find({ ask: 'faces', part: piece }).paths)
  return { paths: [...pieces, ...faces], census: 'complete', basis: 'measured', restsOn: [] }
}

/** Footprint of a piece: its recorded area, else length times width of its size. One side. */
function footprint(view: View, piece: Path): number {
  return view.first([
    { name: 'recorded area', read: () => view.need({ area: asPath(`${piece}/area`) }).area },
    {
      name: 'length times width',
      read: () => {
        const { length, width } = view.need({
          length: asPath(`${piece}/size/length`),
          width: asPath(`${piece}/size/width`),
        })
        return length * width
      },
    },
  ]).value
}

/** Share of a piece's loss that leaves through one of its faces: all of it when no other face has a way out. */
function faceHeat(view: View, face: Path): number {
  const piece = view.some({ ask: 'piece-of', node: face }).paths[0]!
  const open = view
    .find({ ask: 'faces', part: piece })
    .paths.filter((one) => view.find({ ask: 'heat-ends', piece: one }).paths.length > 0)
  if (!open.includes(face)) view.fail('no heat path leaves this face', 'not-applicable', face)
  if (open.length > 1) return splitHeat(view, piece, face)
  return view.model(lossOf, piece)
}

function splitHeat(view: View, piece: Path, face: Path): number {
  return view.fail(
    `the heat of ${piece} leaves by several faces; the share of ${face} follows from the resistances of their paths`,
    'refused',
    face,
  )
}

const heatFluxFigure = defineFigure({
  id: 'HEAT_FLUX',
  title: 'Heat flux',
  definition:
    'Heat over one named area: of a die, of a module or device its footprint (length × width, one side), of a face its recorded area and the heat that leaves through it.',
  unit: 'W/cm2',
  subject: 'component',
  honours: ['power'],
  operating: ['phaseCurrent', 'switchingFrequency'],
  caution: 'heat',
  method: 'loss ÷ named area; the loss stated, or summed over what is inside',
  sources: ['common practice'],
  subjects: heatFluxSubjects,
  compute(view, subject) {
    const isFace = view.find({ ask: 'piece-of', node: subject }).paths[0] !== subject
    const [loss, area] = isFace
      ? view.all(
          () => faceHeat(view, subject),
          () => view.need({ area: asPath(`${subject}/area`) }).area,
        )
      : view.all(
          () => view.model(lossOf, subject),
          () => footprint(view, subject),
        )
    return heatFlux({ loss, area })
  },
})

export const heatFigures = [heatFluxFigure] as const
