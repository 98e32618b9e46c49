import { word } from '../field.ts'
import { type PartClass, partClass } from './class.ts'

export const labelClasses: readonly PartClass[] = [
  partClass(
    'label',
    'label',
    'Label or engraving',
    'Text or code on the unit.',
    { 'code-kind': word('Printed code, matrix code, plain text.') },
    { aliases: ['engraving', 'name-plate', 'sticker'] },
  ),
]
