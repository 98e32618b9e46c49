import { area, count, quantity, share, yesNo } from '../field.ts'
import { ANY_TERMINAL, type PartClass, PINS, partClass } from './class.ts'

const G = 'board'
const BOARD = {
  layers: count('Of copper.'),
  'board-area': area('Of one side.'),
  copper: quantity('length', 'Thickness of one copper layer.'),
  coating: yesNo('Has a conformal coating.'),
  'tracking-index': quantity('voltage', 'Comparative tracking index of the base material.'),
} as const

export const boardClasses: readonly PartClass[] = [
  partClass(G, 'board', 'Board', 'Printed circuit of which no more is known.', BOARD, {
    aliases: ['pcb', 'circuit-board'],
    terminals: ANY_TERMINAL,
    structures: ['stack', 'joins'],
  }),
  partClass(G, 'control-board', 'Control board', 'With processor, communication and low-voltage supply.', BOARD, {
    aliases: ['logic-board'],
    terminals: PINS,
    structures: ['stack', 'joins'],
  }),
  partClass(
    G,
    'gate-driver-board',
    'Gate-driver board',
    'Turns logic into isolated gate signals.',
    { ...BOARD, 'isolated-supplies': count(), channels: count() },
    { aliases: ['driver-board'], terminals: PINS, structures: ['stack', 'joins'] },
  ),
  partClass(
    G,
    'supply-board',
    'Supply board',
    'Makes auxiliary voltages.',
    { ...BOARD, input: quantity('voltage'), output: quantity('voltage'), power: quantity('power') },
    { terminals: PINS, structures: ['stack', 'joins'] },
  ),
  partClass(G, 'filter-board', 'Filter board', 'Carries filter parts.', BOARD, {
    terminals: PINS,
    structures: ['stack', 'joins'],
  }),
  partClass(G, 'power-board', 'Power board', 'Carries power devices and their load current.', BOARD, {
    terminals: PINS,
    structures: ['stack', 'joins', 'metal'],
  }),
  partClass(
    G,
    'flexible-circuit',
    'Flexible circuit',
    'Thin bendable printed circuit.',
    {
      ...BOARD,
      conductors: count(),
      film: quantity('length', 'Thickness of the film.'),
      'mesh-share': share('Copper in the mesh plane.'),
      'bend-radius': quantity('length'),
    },
    { aliases: ['flex', 'flexible-printed-circuit'], terminals: PINS, structures: ['stack', 'joins'] },
  ),
]
