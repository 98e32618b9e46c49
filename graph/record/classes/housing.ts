import { count, quantity, volume, word, yesNo } from '../field.ts'
import { ONE_TWO, type PartClass, PINS, partClass } from './class.ts'

const G = 'housing'

export const housingClasses: readonly PartClass[] = [
  partClass(G, 'housing', 'Housing', 'Part of the enclosure of which no more is known.', {}, { terminals: PINS }),
  partClass(
    G,
    'case',
    'Case',
    'Main body of the enclosure.',
    {
      'wall-thickness': quantity('length', 'Of the plain wall.'),
      'inner-volume': volume('Free volume inside.'),
      process: word('Casting, sheet, extrusion.'),
    },
    { aliases: ['enclosure', 'casing'], terminals: ONE_TWO },
  ),
  partClass(
    G,
    'lid',
    'Lid',
    'Closes the case.',
    {
      'wall-thickness': quantity('length', 'Of the plain wall.'),
      fasteners: count('That hold it.'),
      'seal-kind': word('What seals it.'),
    },
    { aliases: ['cover'] },
  ),
  partClass(G, 'bracket', 'Bracket', 'Holds other parts.', { holds: word('What it holds.') }),
  partClass(G, 'service-cover', 'Service cover', 'Small cover meant to be opened in service.', {
    interlock: yesNo('Opens the interlock loop when it is taken off.'),
    fastener: word('Kind of fastener.'),
  }),
  partClass(G, 'vent', 'Vent', 'Lets pressure out and keeps water out.', {
    membrane: yesNo('Has a membrane.'),
    'opening-diameter': quantity('length'),
  }),
  partClass(
    G,
    'shield-plate',
    'Shield plate',
    'Sheet of metal against stray fields.',
    {
      'earth-points': count('Where it is tied to chassis.'),
    },
    { aliases: ['shield'], terminals: ONE_TWO },
  ),
]
