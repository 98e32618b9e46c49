import { type Field, quantity, word } from './field.ts'
import { evidenceShape, factsOf, section } from './piece.ts'

export const OPERATING_POINT_FIELDS = {
  power: quantity('power', 'Rated output.'),
  'apparent-power': quantity('apparent-power', 'Not kW.'),
  duration: quantity('time', 'How long it may be held.'),
  'phase-current': { ...quantity('current', 'Of one phase, rms.'), rms: true as const },
  'dc-voltage': quantity('voltage', 'Of the link at this point, when it is not the nominal one.'),
  'dc-current': quantity('current', 'From the source.'),
  'modulation-index': quantity('one', 'Peak phase voltage over half the link voltage.'),
  'power-factor': { ...quantity('one', 'Cosine of the displacement angle.', 1), signed: true as const },
  'output-frequency': quantity('frequency', 'Of the fundamental.'),
  'switching-frequency': quantity('frequency', 'Switching cycles per second.'),
  'dead-time': quantity('time', 'Both switches off.'),
  'conductor-temperature': quantity('temperature', 'Of the bars.'),
  modulation: word('Zero sequence of the modulation.', [
    'sinusoidal',
    'third-harmonic',
    'space-vector',
    'discontinuous',
  ]),
} as const satisfies Readonly<Record<string, Field>>

const operatingPoint = section({ ...factsOf(OPERATING_POINT_FIELDS), ...evidenceShape })

/** What the unit is rated for; the condition `power` picks one. */
export const operatingPoints = section({
  peak: operatingPoint.optional(),
  continuous: operatingPoint.optional(),
})
