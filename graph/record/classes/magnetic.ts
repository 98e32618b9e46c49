import { area, count, quantity, volume, word } from '../field.ts'
import { RING_FIELDS } from '../part-fields.ts'
import { ONE_TWO, type PartClass, partClass, type TerminalNames } from './class.ts'

const G = 'magnetic'
const CORE = {
  turns: { ...count('Of one winding, or by winding: { primary: 18, secondary: 2 }.'), by: 'any' as const },
  inductance: quantity('inductance', 'At the frequency in `at:`.'),
  'inductance-factor': quantity('inductance', 'Per turn squared.'),
  permeability: quantity('one', 'Relative.'),
  'saturation-flux-density': quantity('flux-density'),
  remanence: quantity('flux-density', 'Flux left at zero field.'),
  'cut-off-frequency': quantity('frequency', 'Where permeability has fallen by a half.'),
  resistivity: quantity('resistivity', 'Of the core.'),
  gap: quantity('length', 'Non-magnetic break in the core, all breaks together.'),
  section: area('Of the core.'),
  'effective-length': quantity('length', 'Of the ideal ring.'),
  'effective-area': area('Of the ideal ring.'),
  'effective-volume': volume('Of the ideal ring.'),
  'stacking-factor': quantity('fraction', 'Metal in the section.', 1),
  window: quantity('length', 'Clear width of the hole.'),
  current: quantity('current', 'Rated.'),
  'saturation-current': quantity('current', 'Where inductance has fallen as said in `at:`.'),
  resistance: { ...quantity('resistance', 'Of the winding, or by winding.'), by: 'any' as const },
  impedance: quantity('resistance', 'At the frequency in `at:`.'),
  leakage: quantity('inductance', 'Seen from the first winding.'),
  isolation: quantity('voltage', 'Between windings.'),
  'over-case': { ...quantity('length', 'Outside of the coated or cased core.'), fields: RING_FIELDS },
  magnetic: { ...quantity('length', 'Of the core proper.'), fields: RING_FIELDS },
  'core-kind': word('Ring, E, pot.'),
} as const
const WINDINGS: TerminalNames = {
  names: ['pri-1', 'pri-2', 'sec-1', 'sec-2'],
  pins: true,
  pattern: /^(?:pri|sec|aux|core)[a-z0-9]*-[0-9]+$/,
}

export const magneticClasses: readonly PartClass[] = [
  partClass(G, 'magnetic', 'Magnetic part', 'Core or winding of which no more is known.', CORE, {
    terminals: WINDINGS,
    structures: ['round'],
  }),
  partClass(G, 'one-turn-core', 'One-turn core', 'Ring through which the bar passes once.', CORE, {
    aliases: ['cm-core', 'ring-core'],
    structures: ['round'],
  }),
  partClass(
    G,
    'common-mode-choke',
    'Common-mode choke',
    'Two or more windings that carry the same current there and back.',
    CORE,
    { terminals: { names: [], pins: true }, structures: ['round'] },
  ),
  partClass(G, 'inductor', 'Inductor', 'One winding that stores energy.', CORE, {
    aliases: ['choke'],
    terminals: ONE_TWO,
    structures: ['round'],
  }),
  partClass(G, 'transformer', 'Transformer', 'Windings that share flux.', CORE, { terminals: WINDINGS }),
  partClass(G, 'sensor-core', 'Sensor core', 'Gapped core round a conductor, for a current sensor.', CORE, {
    structures: ['round'],
  }),
  partClass(G, 'ferrite-sleeve', 'Ferrite sleeve', 'Slipped over a cable.', CORE, {
    aliases: ['ferrite-bead'],
    structures: ['round'],
  }),
]
