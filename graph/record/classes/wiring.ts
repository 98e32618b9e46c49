import { area, count, quantity, yesNo } from '../field.ts'
import { ANY_TERMINAL, type PartClass, PINS, partClass } from './class.ts'

const G = 'wiring'

export const wiringClasses: readonly PartClass[] = [
  partClass(
    G,
    'wiring',
    'Wiring',
    'Carries signals; no more is known.',
    { wires: count() },
    { terminals: ANY_TERMINAL },
  ),
  partClass(
    G,
    'signal-connector',
    'Signal connector',
    'To the outside, for signals and low-voltage supply.',
    {
      pins: count(),
      sealed: yesNo(),
      pitch: quantity('length'),
    },
    { terminals: PINS },
  ),
  partClass(
    G,
    'harness',
    'Harness',
    'Cables made up together.',
    { wires: count(), section: area('Of one wire.') },
    { aliases: ['cable', 'wire'], terminals: ANY_TERMINAL, structures: ['joins'] },
  ),
]
