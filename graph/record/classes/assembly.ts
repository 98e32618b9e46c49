import { count } from '../field.ts'
import { ANY_TERMINAL, type PartClass, partClass } from './class.ts'

export const assemblyClasses: readonly PartClass[] = [
  partClass(
    'assembly',
    'assembly',
    'Assembly',
    'Parts that belong together, of no class of their own.',
    { fasteners: count() },
    { aliases: ['group', 'sub-assembly', 'subassembly'], terminals: ANY_TERMINAL, structures: ['joins'] },
  ),
]
