import { count, quantity, word } from '../field.ts'
import { ANY_TERMINAL, ONE_TWO, type PartClass, PINS, partClass, type TerminalNames } from './class.ts'

const G = 'board-part'
const DRIVER: TerminalNames = {
  names: ['in', 'supply', 'ground', 'out', 'out-off', 'supply-out', 'ground-out'],
  pins: true,
}

export const boardPartClasses: readonly PartClass[] = [
  partClass(
    G,
    'board-part',
    'Board part',
    'Part on a board of which no more is known.',
    {
      resistance: quantity('resistance'),
      capacitance: quantity('capacitance'),
      inductance: quantity('inductance'),
      'rated-voltage': quantity('voltage'),
      isolation: quantity('voltage'),
      pins: count(),
    },
    { aliases: ['chip-part', 'component'], terminals: ANY_TERMINAL },
  ),
  partClass(
    G,
    'isolated-gate-driver',
    'Isolated gate driver',
    'Driver chip with a barrier inside.',
    {
      isolation: quantity('voltage', 'Of its barrier.'),
      immunity: quantity('voltage-slope', 'Edge rate across the barrier that causes no false output.'),
      'peak-current': quantity('current'),
      channels: count(),
      pins: count(),
      'quiescent-current': quantity('current'),
      creepage: quantity('length', 'Over its package, across the barrier.'),
    },
    { aliases: ['gate-driver'], terminals: DRIVER },
  ),
  partClass(
    G,
    'microcontroller',
    'Microcontroller',
    'Processor of the unit.',
    { pins: count('Pins or balls.') },
    { aliases: ['mcu', 'processor'], terminals: PINS },
  ),
  partClass(
    G,
    'isolated-amplifier',
    'Isolated amplifier',
    'Carries a signal across a barrier.',
    {
      isolation: quantity('voltage', 'Of its barrier.'),
      bandwidth: quantity('frequency'),
      pins: count(),
    },
    {
      terminals: {
        names: ['in-plus', 'in-minus', 'supply', 'ground', 'out', 'out-plus', 'out-minus', 'supply-out', 'ground-out'],
        pins: true,
      },
    },
  ),
  partClass(
    G,
    'gate-supply-transformer',
    'Gate-supply transformer',
    'Feeds the isolated side of a gate driver.',
    {
      windings: count(),
      isolation: quantity('voltage', 'Between windings.'),
      turns: { ...count('Of one winding, or by winding.'), by: 'any' as const },
    },
    {
      terminals: { names: ['pri-1', 'pri-2', 'sec-1', 'sec-2'], pins: true, pattern: /^(?:pri|sec)[a-z0-9]*-[0-9]+$/ },
    },
  ),
  partClass(
    G,
    'gate-resistor',
    'Gate resistor',
    'Sets edge speed.',
    {
      resistance: quantity('resistance'),
      power: quantity('power', 'Rated.'),
    },
    { terminals: ONE_TWO },
  ),
  partClass(
    G,
    'bleed-resistor',
    'Bleed resistor',
    'Always-on discharge path of the link.',
    {
      resistance: quantity('resistance'),
      power: quantity('power', 'Rated.'),
      'rated-voltage': quantity('voltage'),
    },
    { aliases: ['discharge-resistor'], terminals: ONE_TWO },
  ),
  partClass(
    G,
    'resistor',
    'Resistor',
    'Any other resistor.',
    {
      resistance: quantity('resistance'),
      power: quantity('power', 'Rated.'),
      'rated-voltage': quantity('voltage'),
    },
    { terminals: ONE_TWO },
  ),
  partClass(
    G,
    'transceiver',
    'Transceiver',
    'Couples to a data bus.',
    { 'bus-kind': word(), channels: count(), pins: count() },
    { terminals: PINS },
  ),
  partClass(
    G,
    'power-supply-chip',
    'Power-supply chip',
    'Makes a low voltage.',
    {
      output: quantity('voltage'),
      input: quantity('voltage'),
      current: quantity('current'),
      pins: count(),
    },
    { aliases: ['supply-chip', 'regulator'], terminals: PINS },
  ),
  partClass(
    G,
    'board-connector',
    'Board connector',
    'Board to board or board to cable.',
    { pins: count(), pitch: quantity('length') },
    { terminals: PINS },
  ),
]
