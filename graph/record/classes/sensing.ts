import { count, quantity, share, word } from '../field.ts'
import { ONE_TWO, type PartClass, PINS, partClass, type TerminalNames } from './class.ts'

const G = 'sensing'
const SENSOR: TerminalNames = { names: ['supply', 'ground', 'out', 'reference'], pins: true }
const CURRENT: TerminalNames = { names: ['supply', 'ground', 'out', 'reference'] }

export const sensingClasses: readonly PartClass[] = [
  partClass(
    G,
    'sensing',
    'Sensing part',
    'Measures something; no more is known.',
    { principle: word() },
    { aliases: ['sensor'], terminals: { ...SENSOR, pattern: /^[a-z0-9-]+$/ } },
  ),
  partClass(
    G,
    'current-sensor',
    'Current sensor',
    'Gives a signal for a current.',
    {
      range: quantity('current', 'Largest current it follows.'),
      principle: word(),
      error: share('Of the range.'),
      bandwidth: quantity('frequency'),
      supply: quantity('voltage'),
      isolation: quantity('voltage', 'Conductor to signal.'),
      resistance: quantity('resistance', 'Of a shunt.'),
    },
    {
      aliases: ['shunt'],
      terminals: { ...CURRENT, pins: true, pattern: /^(?:in|sense)-(?:plus|minus)$/ },
      structures: ['round'],
    },
  ),
  partClass(
    G,
    'voltage-sensing-chain',
    'Voltage sensing chain',
    'Divider and what carries its signal across.',
    {
      resistance: quantity('resistance', 'Of the whole divider.'),
      ratio: quantity('one', 'Of the divider.'),
      'isolation-kind': word(),
    },
    { aliases: ['voltage-divider'], terminals: { ...ONE_TWO, pins: true, pattern: /^(?:plus|minus|out|ground)$/ } },
  ),
  partClass(
    G,
    'temperature-sensor',
    'Temperature sensor',
    'Thermistor, diode or other.',
    {
      resistance: quantity('resistance', 'At the temperature in `at:`.'),
      principle: word(),
    },
    { terminals: ONE_TWO },
  ),
  partClass(
    G,
    'position-sensor-interface',
    'Position-sensor interface',
    'Feeds and reads the rotor position sensor.',
    {
      excitation: quantity('frequency'),
      channels: count(),
    },
    { terminals: PINS },
  ),
  partClass(
    G,
    'interlock-switch',
    'Interlock switch',
    'Opens the interlock loop when a cover or plug is opened.',
    { contacts: count() },
    { terminals: ONE_TWO },
  ),
]
