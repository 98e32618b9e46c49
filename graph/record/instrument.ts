import type { Field } from './field.ts'
import { evidenceShape, fact, section, text } from './piece.ts'

const UNCERTAINTY: Field = { form: 'width', dimension: 'any', is: 'Of its scale (± 0.1 %) or absolute (± 0.03 mm).' }
const RESOLUTION: Field = { form: 'any', dimension: 'any', is: 'Smallest change that shows.' }

/** A shared cause of doubt; across sheets its key is kind and serial. */
export const instrument = section({
  kind: text('Balance, caliper, multimeter …'),
  serial: text('Serial number: makes it the same instrument in every sheet.').optional(),
  uncertainty: fact(UNCERTAINTY).optional(),
  resolution: fact(RESOLUTION).optional(),
  calibrated: text('Date.').optional(),
  maker: text().optional(),
  model: text().optional(),
  range: text('What it can measure.').optional(),
  ...evidenceShape,
})
