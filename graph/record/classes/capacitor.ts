import { quantity, volume, word } from '../field.ts'
import { ONE_TWO, type PartClass, POLES, partClass, type TerminalNames } from './class.ts'

const G = 'capacitor'
const CAPACITOR = {
  capacitance: quantity('capacitance', 'Of one can, near room temperature.'),
  'rated-voltage': quantity('voltage', 'At the marked temperature.'),
  inductance: quantity('inductance', 'Series inductance between the terminals of one can.'),
  resistance: quantity('resistance', 'Series resistance of one can.'),
  'ripple-current': { ...quantity('current', 'Rated, rms.'), rms: true as const },
  'loss-factor': quantity('one', 'Tangent of the loss angle.'),
  'can-volume': volume('Of one can.'),
  'hot-spot-limit': quantity('temperature', 'Highest inside.'),
  dielectric: word(),
} as const
const EITHER: TerminalNames = { names: ['plus', 'minus', '1', '2'] }

export const capacitorClasses: readonly PartClass[] = [
  partClass(G, 'capacitor', 'Capacitor', 'No more is known than that it is one.', CAPACITOR, { terminals: EITHER }),
  partClass(G, 'capacitor-bank', 'Capacitor bank', 'Several cans or windings in one body.', CAPACITOR, {
    terminals: EITHER,
  }),
  partClass(
    G,
    'dc-link-film-capacitor',
    'DC-link film capacitor',
    'Holds link voltage steady and carries ripple current: one can, however many are in the bank.',
    CAPACITOR,
    { aliases: ['film-capacitor', 'dc-link-capacitor', 'link-capacitor'], terminals: POLES },
  ),
  partClass(
    G,
    'filter-film-capacitor',
    'Filter film capacitor',
    'On the source side, not across the link.',
    CAPACITOR,
    { aliases: ['filter-capacitor'], terminals: POLES },
  ),
  partClass(
    G,
    'x-capacitor',
    'X capacitor',
    'Between the lines; a failure gives no shock.',
    { ...CAPACITOR, 'safety-class': word('X1, X2.') },
    { terminals: ONE_TWO },
  ),
  partClass(
    G,
    'y-capacitor',
    'Y capacitor',
    'From a line to chassis.',
    { ...CAPACITOR, 'safety-class': word('Y1, Y2.') },
    { terminals: ONE_TWO },
  ),
  partClass(
    G,
    'electrolytic-capacitor',
    'Electrolytic capacitor',
    'Polarised, high capacitance per volume.',
    CAPACITOR,
    { terminals: POLES },
  ),
  partClass(
    G,
    'ceramic-capacitor',
    'Ceramic capacitor',
    'Small, on a board.',
    { ...CAPACITOR, 'size-code': word() },
    { terminals: EITHER },
  ),
]
