import { quantity, word } from '../field.ts'
import { type PartClass, partClass } from './class.ts'

const G = 'insulation'
const INSULATION = {
  'dielectric-strength': quantity('field-strength'),
  permittivity: quantity('one', 'Relative.'),
  'tracking-index': quantity('voltage', 'Comparative tracking index.'),
  'material-group': word('Resistance to surface tracking.', ['I', 'II', 'IIIa', 'IIIb']),
  'material-mark': word('Moulded code, as seen.', undefined, 'marked'),
  'thermal-class': quantity('temperature', 'Highest service temperature of the insulation.'),
} as const

export const insulationClasses: readonly PartClass[] = [
  partClass(G, 'insulation', 'Insulation', 'Keeps conductors apart; no more is known.', INSULATION, {
    aliases: ['insulator'],
  }),
  partClass(G, 'insulating-sheet', 'Insulating sheet', 'Film, paper or sheet.', INSULATION, {
    aliases: ['insulating-film'],
  }),
  partClass(
    G,
    'insulating-moulding',
    'Insulating moulding',
    'Moulded body.',
    { ...INSULATION, wall: quantity('length') },
    { aliases: ['moulding', 'insulating-molding'] },
  ),
  partClass(G, 'potting', 'Potting', 'Resin poured in to hold, insulate or spread heat.', INSULATION, {
    aliases: ['encapsulant'],
  }),
  partClass(
    G,
    'conformal-coating',
    'Conformal coating',
    'Thin lacquer on a board.',
    { ...INSULATION, extent: word('What it covers.') },
    { aliases: ['coating'] },
  ),
]
