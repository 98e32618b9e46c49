import { area, count, type Field, quantity, word } from '../field.ts'
import { ANY_TERMINAL, NO_TERMINALS, type PartClass, partClass, type TerminalNames } from './class.ts'

const G = 'semiconductor'

/** Data of a switch or diode; each depends on conditions, said in `at:`. */
const SWITCH = {
  'blocking-voltage': quantity('voltage', 'Highest off-state voltage.'),
  current: quantity('current', 'Rated.'),
  'on-resistance': quantity('resistance', 'Of a field-effect transistor.'),
  'threshold-voltage': quantity('voltage', 'On-state voltage at vanishing current (straight-line model).'),
  'slope-resistance': quantity('resistance', 'Rise of the on-state voltage with current (straight-line model).'),
  'diode-threshold-voltage': quantity('voltage', 'Of the reverse diode.'),
  'diode-slope-resistance': quantity('resistance', 'Of the reverse diode.'),
  'turn-on-energy': quantity('energy', 'Per pulse.'),
  'turn-off-energy': quantity('energy', 'Per pulse.'),
  'switching-energy': quantity('energy', 'On and off together, per pulse.'),
  'recovery-energy': quantity('energy', 'Of the diode, per pulse.'),
  'recovery-charge': quantity('charge', 'Of the diode.'),
  'output-energy': quantity('energy', 'Stored in the output capacitance.'),
  'current-exponent': quantity('one', 'Of the switching energy.'),
  'voltage-exponent': quantity('one', 'Of the switching energy.'),
  'temperature-coefficient': quantity('temperature-coefficient', 'Of the on-state voltage or resistance.'),
  'gate-charge': quantity('charge', 'Over the swing.'),
  'gate-resistance': quantity('resistance', 'Inside the device.'),
  'input-capacitance': quantity('capacitance'),
  'current-slope': quantity('current-slope', 'At turn-off.'),
  'voltage-slope': quantity('voltage-slope', 'At switching.'),
} as const satisfies Readonly<Record<string, Field>>

const MODULE = {
  ...SWITCH,
  'dies-per-switch': count('In parallel.'),
  'cooled-sides': count('1 or 2.'),
  inductance: quantity('inductance', 'Between its DC terminals, inside.'),
  footprint: area(),
  isolation: quantity('voltage', 'Terminals to cooled face.'),
} as const

const BRIDGE: TerminalNames = {
  names: [
    'dc-plus',
    'dc-minus',
    'ac',
    'gate-high',
    'kelvin-high',
    'gate-low',
    'kelvin-low',
    'sense-plus',
    'sense-minus',
  ],
}
const DEVICE: TerminalNames = {
  names: ['drain', 'collector', 'source', 'emitter', 'gate', 'kelvin', 'anode', 'cathode'],
}

export const semiconductorClasses: readonly PartClass[] = [
  partClass(G, 'semiconductor', 'Semiconductor', 'Switches or rectifies; no more is known.', MODULE, {
    terminals: ANY_TERMINAL,
  }),
  partClass(
    G,
    'half-bridge-module',
    'Half-bridge module',
    'Two switches in series across the link, output at the midpoint, in one package.',
    MODULE,
    { aliases: ['power-module', 'half-bridge', 'igbt-module'], terminals: BRIDGE },
  ),
  partClass(
    G,
    'multi-bridge-module',
    'Multi-bridge module',
    'Several half bridges in one package.',
    { ...MODULE, bridges: count() },
    { aliases: ['six-pack', 'full-bridge-module'], terminals: ANY_TERMINAL },
  ),
  partClass(
    G,
    'switch-position',
    'Switch position',
    'One of the places of the circuit that acts as a single switch, made of one or more dies.',
    SWITCH,
    { aliases: ['switch'], terminals: DEVICE },
  ),
  partClass(
    G,
    'discrete-power-device',
    'Discrete power device',
    'One switch or diode in a package of its own.',
    { ...SWITCH, inductance: quantity('inductance', 'Between its power terminals, inside.') },
    { aliases: ['transistor', 'mosfet', 'igbt', 'power-diode'], terminals: DEVICE },
  ),
  partClass(
    G,
    'power-die',
    'Power die',
    'Bare semiconductor chip.',
    { ...SWITCH, 'active-area': area('Without the edge ring.'), bonds: count('Wires, ribbons or clips on it.') },
    { aliases: ['die', 'chip'], terminals: DEVICE },
  ),
  partClass(
    G,
    'ceramic-substrate',
    'Ceramic substrate',
    'Insulating plate with metal on both sides.',
    {
      'ceramic-thickness': quantity('length'),
      'ceramic-material': word(),
      'ceramic-conductivity': quantity('thermal-conductivity'),
      'metal-thickness': quantity('length', 'Of one side.'),
      'metal-material': word(),
      'dielectric-strength': quantity('field-strength'),
    },
    { aliases: ['substrate'], terminals: NO_TERMINALS },
  ),
  partClass(G, 'die-attach', 'Die attach', 'Solder, sinter or adhesive layer under a die.', {
    process: word('Solder, sinter, adhesive.'),
  }),
  partClass(
    G,
    'clip-or-bond',
    'Clip or bond',
    'Metal between die and terminal: clip, ribbon, wire.',
    { section: area(), bonds: count() },
    { aliases: ['clip', 'bond', 'bond-wire'] },
  ),
]
