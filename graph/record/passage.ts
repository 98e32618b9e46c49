import { z } from 'zod'
import { eachOf } from './each.ts'
import { area, count, quantity, word } from './field.ts'
import { identified } from './identified.ts'
import { evidenceShape, factsOf, id, section, text } from './piece.ts'
import { idOfFace } from './relation-id.ts'

const WALL = { roughness: quantity('length', 'Of the wall.'), bends: count('Right-angle turns.') } as const

/** Ways a passage can be made; it has exactly one. */
export const PASSAGE_FORMS = {
  channel: section(
    factsOf({
      width: quantity('length', 'Clear.'),
      height: quantity('length', 'Clear.'),
      length: quantity('length', 'Along the flow.'),
      channels: count('Side by side.'),
      ...WALL,
    }),
  ),
  fins: section(
    factsOf({
      gaps: count('Gaps between fins, not fins.'),
      gap: quantity('length', 'Clear, between two fins.'),
      fin: quantity('length', 'Thickness of a fin.'),
      height: quantity('length', 'Of the fins.'),
      length: quantity('length', 'Along the flow.'),
      pitch: quantity('length', 'From fin to fin.'),
      conductivity: quantity('thermal-conductivity', 'Of the fins.'),
      ...WALL,
    }),
  ),
  pins: section(
    factsOf({
      diameter: quantity('length', 'Of a pin.'),
      height: quantity('length', 'Of a pin.'),
      pins: count('All pins.'),
      rows: count('Along the flow.'),
      columns: count('Across the flow.'),
      'pitch-along': quantity('length', 'Along the flow.'),
      'pitch-across': quantity('length', 'Across the flow.'),
      pitch: quantity('length', 'Both ways.'),
      width: quantity('length', 'Of the field, across the flow.'),
      length: quantity('length', 'Of the field, along the flow.'),
      arrangement: word('How rows stand behind each other.', ['inline', 'staggered']),
      conductivity: quantity('thermal-conductivity', 'Of the pins.'),
    }),
  ),
  pipe: section(
    factsOf({
      diameter: quantity('length', 'Clear.'),
      length: quantity('length', 'Along the flow.'),
      pipes: count('Side by side.'),
      ...WALL,
    }),
  ),
  jets: section(
    factsOf({
      jets: count(),
      diameter: quantity('length', 'Of a nozzle.'),
      pitch: quantity('length', 'From jet to jet.'),
      distance: quantity('length', 'Nozzle to target.'),
    }),
  ),
} as const

export const PASSAGE_FORM_NAMES = ['channel', 'fins', 'pins', 'pipe', 'jets'] as const

const minorLoss = identified(
  section({
    id: id.optional(),
    kind: text('Contraction, bend, branch …'),
    ...factsOf({ 'loss-factor': quantity('one', 'Referred to the velocity in the passage.'), count: count() }),
    ...evidenceShape,
  }),
  ({ kind }) => kind.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-'),
)

const cools = identified(
  section({
    id: id.optional(),
    face: text('A face of a part.'),
    ...factsOf({
      'wetted-area': area('Touched by coolant.'),
      'film-coefficient': quantity('film-coefficient', 'When it is known.'),
    }),
    ...evidenceShape,
  }),
  ({ face }) => idOfFace(face),
)

const passageShape = {
  title: text().optional(),
  channel: PASSAGE_FORMS.channel.optional(),
  fins: PASSAGE_FORMS.fins.optional(),
  pins: PASSAGE_FORMS.pins.optional(),
  pipe: PASSAGE_FORMS.pipe.optional(),
  jets: PASSAGE_FORMS.jets.optional(),
  'minor-losses': z.array(minorLoss).optional(),
  ...factsOf({
    'pressure-drop': quantity('pressure', 'Measured across this passage, at: { flow: … }; goes before its geometry.'),
  }),
  cools: z.array(cools).optional(),
  ...evidenceShape,
}

/** One stretch of the coolant's way. */
export const passage = section({
  id,
  ...passageShape,
  each: eachOf(section(passageShape)).optional(),
})
