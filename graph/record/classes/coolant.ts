import { area, count, quantity, volume, word } from '../field.ts'
import { type PartClass, POLES, partClass } from './class.ts'

const G = 'coolant'

export const coolantClasses: readonly PartClass[] = [
  partClass(
    G,
    'coolant',
    'Coolant part',
    'Carries, guides or seals coolant; no more is known.',
    {},
    { structures: ['seals'] },
  ),
  partClass(
    G,
    'pipe-stub',
    'Pipe stub',
    'Where a hose goes on.',
    { bead: word('Form of the bead.') },
    { aliases: ['hose-stub', 'pipe'] },
  ),
  partClass(
    G,
    'coolant-channel',
    'Coolant channel',
    'Guides coolant past parts.',
    {
      section: area('Open section.'),
      'held-volume': volume('Coolant inside when full.'),
      'hydraulic-diameter': quantity('length'),
    },
    { aliases: ['channel'] },
  ),
  partClass(
    G,
    'cold-plate',
    'Cold plate',
    'Plate with coolant inside on which parts sit.',
    {
      'wetted-area': area('Touched by coolant.'),
      'wall-thickness': quantity('length', 'Between seat and coolant.'),
      'held-volume': volume('Coolant inside when full.'),
      flatness: quantity('length'),
    },
    { aliases: ['cooler', 'heat-exchanger'] },
  ),
  partClass(
    G,
    'fin-field',
    'Fin field',
    'Fins or pins wetted by coolant or air.',
    {
      pitch: quantity('length', 'From fin to fin.'),
      'fin-height': quantity('length'),
      'fin-thickness': quantity('length'),
      fins: count(),
      form: word('Straight or pin.'),
      'wetted-area': area('Touched by coolant.'),
    },
    { aliases: ['heat-sink', 'heatsink'] },
  ),
  partClass(G, 'flow-divider', 'Flow divider', 'Parts the flow over branches.', {
    branches: count(),
    section: area('Of one branch.'),
  }),
  partClass(
    G,
    'o-ring',
    'O-ring',
    'Round seal ring.',
    {
      'cord-diameter': quantity('length', 'Of its section.'),
      hardness: word('With its scale.'),
    },
    { aliases: ['oring', 'seal-ring'], structures: ['seals'] },
  ),
  partClass(
    G,
    'gasket',
    'Gasket',
    'Flat seal or bead of sealant.',
    {
      'bead-width': quantity('length'),
    },
    { aliases: ['seal'], structures: ['seals'] },
  ),
  partClass(
    G,
    'channel-plug',
    'Channel plug',
    'Closes a drilled channel.',
    {},
    { aliases: ['plug'], structures: ['seals'] },
  ),
  partClass(
    G,
    'fan',
    'Fan',
    'Moves air.',
    {
      voltage: quantity('voltage', 'Rated.'),
      current: quantity('current', 'Rated.'),
      'rotational-speed': quantity('rotational-speed'),
      'free-flow': quantity('flow', 'In free air: not the flow in the unit.'),
      'shut-off-pressure': quantity('pressure', 'At no flow.'),
    },
    { aliases: ['blower'], terminals: { names: ['plus', 'minus', 'sense', 'drive'] } },
  ),
  partClass(
    G,
    'pump',
    'Pump',
    'Moves coolant.',
    {
      voltage: quantity('voltage', 'Rated.'),
      current: quantity('current', 'Rated.'),
      'free-flow': quantity('flow', 'Without back pressure.'),
      'shut-off-pressure': quantity('pressure', 'At no flow.'),
    },
    { terminals: POLES },
  ),
]
