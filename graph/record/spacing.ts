import { quantity, word } from './field.ts'
import { identified } from './identified.ts'
import { choice, evidenceBesideOn, factsOf, flag, id, oneOrMore, section, text } from './piece.ts'
import { idOfSpacing } from './relation-id.ts'

export const INSULATION_KINDS = ['functional', 'basic', 'supplementary', 'double', 'reinforced'] as const

export const SPACING_KINDS = ['creepage', 'clearance', 'through-insulation'] as const

/** A distance between two conductors, through air or along a surface. */
export const spacing = identified(
  section({
    id: id.optional(),
    kind: choice(SPACING_KINDS, 'Along the surface, through air, through a solid.'),
    between: oneOrMore(text(), 'Two nets.'),
    on: text('The part it lies on.').optional(),
    ...factsOf({
      distance: quantity('length', 'Shortest.'),
      'material-group': word('Resistance to surface tracking.', ['I', 'II', 'IIIa', 'IIIb']),
      'tracking-index': quantity('voltage', 'Comparative tracking index.'),
      'pollution-degree': word('1 to 4.', ['1', '2', '3', '4']),
    }),
    insulation: choice(INSULATION_KINDS).optional(),
    coated: flag('Under a conformal coating or potting.').optional(),
    ...evidenceBesideOn,
  }),
  ({ kind, between }) => idOfSpacing(kind, between),
)
