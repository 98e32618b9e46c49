import { z } from 'zod'
import { area, quantity } from './field.ts'
import { identified } from './identified.ts'
import { choice, evidenceBesideFrom, evidenceShape, factsOf, id, section, text, told } from './piece.ts'
import { idOfHeat, idOfLayer } from './relation-id.ts'

export const LAYER_FIELDS = {
  thickness: quantity('length'),
  conductivity: quantity('thermal-conductivity'),
  area: area('That heat crosses.'),
} as const

const layer = identified(
  section({
    id: id.optional(),
    part: text('A recorded part: thickness, conductivity and area are its own.').optional(),
    kind: text('What it is, when it is no recorded part.').optional(),
    ...factsOf({
      ...LAYER_FIELDS,
      'contact-resistance': quantity('specific-thermal-resistance', 'Of its surfaces, times area.'),
      resistance: quantity('thermal-resistance', 'Stated whole.'),
    }),
    spread: choice(['series', 'cone-45', 'none'], 'How the area grows in it.').optional(),
    insulating: told('Marks an electrical barrier.', ['yes', 'no', 'true', 'false']).optional(),
    ...evidenceShape,
  }),
  ({ part, kind }) => idOfLayer(part, kind),
)

/** The way of heat from a part or face, through layers in order, to a face, a passage, `ambient` or `frame`. */
export const heatPath = identified(
  section({
    id: id.optional(),
    title: text().optional(),
    from: text('A part or a face.'),
    to: text('A face, a part, a passage, ambient or frame.'),
    layers: z.array(layer).optional(),
    ...factsOf({ resistance: quantity('thermal-resistance', 'Of the whole path, instead of layers.') }),
    ...evidenceBesideFrom,
  }),
  ({ from, to }) => idOfHeat(from, to),
)
