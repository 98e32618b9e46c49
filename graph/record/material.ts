import { type Field, quantity, word } from './field.ts'
import { evidenceShape, factsOf, section } from './piece.ts'

export const MATERIAL_FIELDS = {
  conductivity: quantity('thermal-conductivity', 'Thermal.'),
  density: quantity('density'),
  'specific-heat': quantity('specific-heat'),
  resistivity: quantity('resistivity', 'Electric, at 20 °C unless `at:` says otherwise.'),
  'temperature-coefficient': quantity('temperature-coefficient', 'Of the resistivity.'),
  permittivity: quantity('one', 'Relative.'),
  permeability: quantity('one', 'Relative.'),
  'saturation-flux-density': quantity('flux-density'),
  'dielectric-strength': quantity('field-strength'),
  'tracking-index': quantity('voltage', 'Comparative tracking index.'),
  'contact-resistance': quantity('specific-thermal-resistance', 'Of both surfaces of a layer, times area.'),
  emissivity: quantity('fraction', undefined, 1),
  grade: word(),
} as const satisfies Readonly<Record<string, Field>>

/** One home for properties used in several places. */
export const material = section({ ...factsOf(MATERIAL_FIELDS), ...evidenceShape })
