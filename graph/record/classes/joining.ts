import { count, quantity, word, yesNo } from '../field.ts'
import { NO_TERMINALS, type PartClass, partClass } from './class.ts'

const G = 'joining'
const THREADED = {
  thread: word(),
  drive: word('Form and size of the drive.'),
  head: word(),
  torque: quantity('torque'),
  locking: word('What keeps it from turning.'),
} as const

export const joiningClasses: readonly PartClass[] = [
  partClass(G, 'joining', 'Joining part', 'Holds parts together; no more is known.', THREADED, {
    aliases: ['fastener'],
  }),
  partClass(G, 'screw', 'Screw', 'Threaded, turned by its head.', THREADED, { aliases: ['bolt'] }),
  partClass(
    G,
    'nut-or-insert',
    'Nut or insert',
    'Holds a thread.',
    { ...THREADED, floating: yesNo() },
    { aliases: ['nut', 'insert'] },
  ),
  partClass(G, 'weld', 'Weld', 'Melted joint.', { process: word() }, { terminals: NO_TERMINALS }),
  partClass(G, 'solder-joint', 'Solder joint', 'Joint by solder.', { process: word() }, { aliases: ['solder'] }),
  partClass(G, 'press-fit-pin', 'Press-fit pin', 'Pin held in a plated hole by spring force.', {
    hole: quantity('length', 'Diameter of the hole.'),
  }),
  partClass(G, 'adhesive-bond', 'Adhesive bond', 'Joint by adhesive.', {}, { aliases: ['adhesive'] }),
  partClass(
    G,
    'spring-or-clip',
    'Spring or clip',
    'Presses parts together.',
    { force: quantity('force'), travel: quantity('length') },
    { aliases: ['spring'] },
  ),
  partClass(G, 'washer', 'Washer', 'Between head and seat.', { kind: word() }),
  partClass(G, 'rivet', 'Rivet', 'Headed pin set by force.', { rivets: count() }),
]
