import { quantity } from './field.ts'
import { choice, evidenceShape, fact, section, text, told } from './piece.ts'

export const POTENTIALS = [
  'hv-positive',
  'hv-negative',
  'hv-middle',
  'hv-switching',
  'low-voltage',
  'chassis',
  'coolant',
  'floating',
] as const

/** One ideal node; its metal is the parts with `net:` on them. */
export const net = section({
  title: text().optional(),
  potential: choice(POTENTIALS, 'What it is at.').optional(),
  'rides-on': told('The net it moves with.').optional(),
  offset: fact(quantity('voltage', 'Against the net it rides on.')).optional(),
  'tied-to': told('The net it is tied to.').optional(),
  ...evidenceShape,
})
