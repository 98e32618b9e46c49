import { quantity, volume, word } from '../field.ts'
import { type PartClass, partClass } from './class.ts'

const G = 'thermal'
const LAYER = {
  'contact-resistance': quantity('specific-thermal-resistance', 'Of both its surfaces together, times area.'),
  'dielectric-strength': quantity('field-strength'),
  permittivity: quantity('one', 'Relative.'),
} as const

export const thermalClasses: readonly PartClass[] = [
  partClass(G, 'thermal', 'Thermal part', 'Carries or spreads heat; no more is known.', LAYER),
  partClass(
    G,
    'thermal-pad',
    'Thermal pad',
    'Soft sheet between two surfaces.',
    { ...LAYER, hardness: word('With its scale.') },
    { aliases: ['gap-pad', 'pad'] },
  ),
  partClass(
    G,
    'thermal-grease',
    'Thermal grease',
    'Paste between two surfaces; its thickness is the bond line.',
    LAYER,
    { aliases: ['thermal-paste', 'thermal-interface'] },
  ),
  partClass(G, 'gap-filler', 'Gap filler', 'Filled resin poured or dispensed between two surfaces.', {
    ...LAYER,
    'filled-volume': volume(),
  }),
  partClass(G, 'heat-spreader', 'Heat spreader', 'Metal that widens the heat path.', LAYER, {
    aliases: ['base-plate'],
  }),
  partClass(G, 'spacer-block', 'Spacer block', 'Metal that bridges a height and carries heat.', LAYER, {
    aliases: ['spacer'],
  }),
]
