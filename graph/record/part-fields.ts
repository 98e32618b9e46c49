import { area, box, type Field, quantity, share, volume, word } from './field.ts'

/** What every part may have, whatever its class. */
export const COMMON_FIELDS = {
  mass: quantity('mass', 'Of one piece.'),
  'mass-of-all': quantity('mass', 'Of all pieces weighed together.'),
  volume: volume('Of one piece.'),
  size: box(),
  length: quantity('length', 'Longest side or axis.'),
  width: quantity('length', 'Across the length.'),
  height: quantity('length', 'Across both, above the seat.'),
  thickness: quantity('length', 'Of the layer, plate or sheet; of a thermal interface its bond line.'),
  diameter: quantity('length', 'Of a round thing.'),
  'outer-diameter': quantity('length', 'Outside.'),
  'inner-diameter': quantity('length', 'Inside.'),
  area: area('Footprint, or area that heat crosses.'),
  conductivity: quantity('thermal-conductivity', 'Thermal, of this part: goes before the one of its material.'),
  density: quantity('density', 'Of this part: goes before the one of its material.'),
  'specific-heat': quantity('specific-heat', 'Of this part: goes before the one of its material.'),
  'thermal-resistance': quantity('thermal-resistance', 'Between its two faces, or from junction to case of a device.'),
  'loss-coefficient': quantity(
    'temperature-coefficient',
    'Share of the stated loss by which it grows per kelvin, from the temperature said at it.',
  ),
  'temperature-limit': quantity('temperature', 'Highest it may have in service.'),
  material: word('From the table of materials or the `materials` of the sheet.'),
  grade: word('Alloy, quality or mix.'),
  marking: word('Text as seen, kept exactly.', undefined, 'marked'),
  serial: word('Serial number as seen.', undefined, 'marked'),
  'date-code': word('Year and week as marked.', undefined, 'marked'),
  maker: word('Who made it, when that is known.'),
  role: word('The job it does in this specimen.'),
  kind: word('Narrower than the class, in words.'),
  package: word('Outline of a device or chip.'),
  place: word('Where it sits, in words.'),
  finish: word('Coating or plating of the surface.'),
} as const satisfies Readonly<Record<string, Field>>

export const LOSS: Field = {
  ...quantity('power', 'Heat it gives off, at one operating point or at each; `computed` asks for the computed one.'),
  words: ['computed'],
  by: ['peak', 'continuous'],
}

export const RING_FIELDS = {
  'outer-diameter': quantity('length', 'Outside.'),
  'inner-diameter': quantity('length', 'Inside.'),
  height: quantity('length', 'Along the hole.'),
  'stacking-factor': share('Metal in the section.'),
} as const

export const MESH_FIELDS = {
  line: quantity('length', 'Width of a line of the grid.'),
  pitch: quantity('length', 'From line to line.'),
  angle: quantity('angle', 'Against the traces.'),
} as const

export const SECTION_FIELDS = {
  width: quantity('length', 'Of the wide face.'),
  thickness: quantity('length', 'Along the axis named by `flat`.'),
} as const

export const GROOVE_FIELDS = {
  depth: quantity('length', 'Of the groove.'),
  width: quantity('length', 'Of the groove.'),
} as const

/** Other words in use for a property: read as it, with a note, by classes that have it and not the other. */
export const PROPERTY_ALIASES: Readonly<Record<string, string>> = {
  'bond-count': 'bonds',
  'bond-line': 'thickness',
  'branch-count': 'branches',
  'bridge-count': 'bridges',
  'bead-form': 'bead',
  'casting-or-sheet': 'process',
  coil: 'coil-voltage',
  cord: 'cord-diameter',
  'current-rating': 'current',
  dimensions: 'size',
  'divider-resistance': 'resistance',
  esl: 'inductance',
  esr: 'resistance',
  'fastener-count': 'fasteners',
  'fastener-kind': 'fastener',
  'fin-count': 'fins',
  foils: 'strands',
  'input-voltage': 'input',
  'isolation-voltage': 'isolation',
  'locking-kind': 'locking',
  'material-code': 'material',
  'output-voltage': 'output',
  'rated-temperature': 'temperature-limit',
  'relative-permeability': 'permeability',
  ripple: 'ripple-current',
  'strand-count': 'strands',
  strength: 'dielectric-strength',
  text: 'marking',
  'thermal-conductivity': 'conductivity',
  'tracking-group': 'material-group',
  voltage: 'rated-voltage',
  'voltage-rating': 'rated-voltage',
  weight: 'mass',
}
