import { area, count, quantity, word, yesNo } from '../field.ts'
import { ONE_TWO, type PartClass, partClass, type TerminalNames } from './class.ts'

const G = 'power-conductor'
const BAR = {
  section: area('Conducting section.'),
  plating: word('Of the surface.'),
  resistance: quantity('resistance', 'End to end.'),
  inductance: quantity('inductance', 'Of the bar alone, measured or published.'),
  'joint-kind': word('Weld, screw, solder.'),
} as const
const ENDS: TerminalNames = { names: [], pins: true, pattern: /^[a-z][a-z0-9-]*$/ }
const POLE_NAMES: TerminalNames = {
  names: ['plus', 'minus', 'u', 'v', 'w', 'l1', 'l2', 'l3', 'n', 'pe', 'shield', 'interlock-1', 'interlock-2'],
  pins: true,
}

export const conductorClasses: readonly PartClass[] = [
  partClass(G, 'power-conductor', 'Power conductor', 'Carries the load current; no more is known.', BAR, {
    terminals: ENDS,
    structures: ['metal'],
  }),
  partClass(G, 'bus-bar', 'Bus bar', 'Stiff conductor, usually strip.', BAR, {
    aliases: ['busbar', 'bar'],
    terminals: ENDS,
    structures: ['metal'],
  }),
  partClass(
    G,
    'laminated-bus-bar',
    'Laminated bus bar',
    'Stacked bars bonded and sealed by insulating resin or film.',
    {
      ...BAR,
      layers: count(),
      'bar-thickness': quantity('length'),
      'insulation-thickness': quantity('length'),
      'insulation-material': word(),
      'loop-inductance': quantity('inductance', 'There and back.'),
    },
    { terminals: ENDS, structures: ['metal'] },
  ),
  partClass(G, 'phase-bar', 'Phase bar', 'Bus bar of one phase.', BAR, { terminals: ENDS, structures: ['metal'] }),
  partClass(
    G,
    'flexible-link',
    'Flexible link',
    'Braid, foils or strands between two joints.',
    { ...BAR, strands: count('Strands or foils.') },
    { terminals: ENDS, structures: ['metal'] },
  ),
  partClass(
    G,
    'power-terminal',
    'Power terminal',
    'Where a power cable or bar is fixed.',
    {
      thread: word(),
      torque: quantity('torque'),
      current: quantity('current', 'Rated.'),
    },
    { terminals: ENDS, structures: ['metal'] },
  ),
  partClass(
    G,
    'power-connector',
    'Power connector',
    'Pluggable, for the load current.',
    {
      poles: count(),
      voltage: quantity('voltage', 'Rated.'),
      current: quantity('current', 'Rated.'),
      interlock: yesNo('Has interlock contacts.'),
    },
    { terminals: POLE_NAMES },
  ),
  partClass(
    G,
    'fuse-link',
    'Fuse-link',
    'Replaceable part that melts on overcurrent.',
    {
      current: quantity('current', 'Rated.'),
      voltage: quantity('voltage', 'Rated.'),
      'melting-integral': quantity('melting-integral'),
      resistance: quantity('resistance', 'Cold.'),
    },
    { aliases: ['fuse'], terminals: ONE_TWO },
  ),
  partClass(
    G,
    'contactor',
    'Contactor',
    'Switches the load current, driven by a coil.',
    {
      current: quantity('current', 'Rated.'),
      voltage: quantity('voltage', 'Rated.'),
      'coil-voltage': quantity('voltage'),
      resistance: quantity('resistance', 'Of the closed contact.'),
    },
    { aliases: ['relay'], terminals: { names: ['1', '2', 'coil-plus', 'coil-minus', 'sense-1', 'sense-2'] } },
  ),
]
