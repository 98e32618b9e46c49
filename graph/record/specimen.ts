import { z } from 'zod'
import { box, quantity, volume, word } from './field.ts'
import { OPERATING_POINT_FIELDS } from './operating-point.ts'
import { choice, evidenceShape, factsOf, flag, oneOrMore, section, text } from './piece.ts'

export const SPECIMEN_KINDS = [
  'traction-inverter',
  'dc-dc-converter',
  'on-board-charger',
  'auxiliary-inverter',
  'combined',
] as const

const port = section({
  kind: choice(['dc', 'ac'], 'What flows there.'),
  nets: oneOrMore(text(), 'Nets it is made of.').optional(),
  ...factsOf({
    voltage: quantity('voltage', 'Nominal; rms on an AC port.'),
    current: quantity('current', 'Rated; rms on an AC port.'),
    power: quantity('power', 'Rated.'),
    frequency: quantity('frequency', 'Of an AC port.'),
  }),
  rated: flag('The power or current of the unit is stated at this port.').optional(),
  ...evidenceShape,
})

/** The one physical converter on the bench. */
export const specimen = section({
  kind: choice(SPECIMEN_KINDS, 'What it does.'),
  ...factsOf({
    model: word('The design it is one of.'),
    maker: word('Who made it.'),
    marking: word('Text as seen, kept exactly.', undefined, 'marked'),
    serial: word('Serial number as seen.', undefined, 'marked'),
    'date-code': word('Year and week as marked.', undefined, 'marked'),
    origin: word('What it came out of.'),
    condition: word('In which state it came.'),
    envelope: box('Smallest box round the outer surface.'),
    'hull-volume': volume('Inside the outer skin, recesses outside.'),
    'displaced-volume': volume('Water pushed aside by the closed, plugged case.'),
    mass: quantity('mass', 'Dry.'),
    'wet-mass': quantity('mass', 'With coolant.'),
    'coolant-volume': volume('Coolant inside when full.'),
    protection: word('Degree of protection, IP code.'),
  }),
  'dc-voltage': section(
    factsOf({
      min: quantity('voltage', 'Lowest in service.'),
      nominal: quantity('voltage', 'Label value.'),
      max: quantity('voltage', 'Highest in service.'),
    }),
  ).optional(),
  ports: z.record(z.string(), port).optional(),
  environment: section(
    factsOf({
      altitude: quantity('length', 'Highest above sea level.'),
      'pollution-degree': word('1 clean, 2 chance dew, 3 conductive dirt, 4 lasting conduction.', ['1', '2', '3', '4']),
      'overvoltage-category': word('Strength of surges expected.', ['I', 'II', 'III', 'IV']),
      'material-group': word('Resistance to surface tracking.', ['I', 'II', 'IIIa', 'IIIb']),
    }),
  ).optional(),
  ...factsOf({
    'peak-power': OPERATING_POINT_FIELDS.power,
    'continuous-power': OPERATING_POINT_FIELDS.power,
    'phase-current': OPERATING_POINT_FIELDS['phase-current'],
    'switching-frequency': OPERATING_POINT_FIELDS['switching-frequency'],
  }),
  also: z.unknown().optional(),
  ...evidenceShape,
})
