import type { Found } from '../../graph/query.ts'
import type { View } from '../../graph/view.ts'
import { netOf } from './conductors.ts'
import { defineFigure } from './figure.ts'
import { netCurrent } from './net-current.ts'
import { below } from './paths.ts'

/** Joints between the metals of all nets. */
function joints(view: View): Found {
  const metals = view.find({ ask: 'nets' }).paths.flatMap((net) => view.find({ ask: 'metal-of', net }).paths)
  const paths = [...new Set(metals.flatMap((part) => view.find({ ask: 'joints-of', part }).paths))]
  return { paths, census: 'complete', basis: 'judged', restsOn: [] }
}

const jointLoss = defineFigure({
  id: 'JOINT_LOSS',
  title: 'Loss in a joint between conductors',
  definition:
    'Recorded resistance of the joint times the square of the current of its net, as if all of that current crossed this joint: where joints share it, the loss is less.',
  unit: 'W',
  subject: 'joint',
  honours: ['power', 'boundary'],
  operating: ['phaseCurrent'],
  bound: 'upper',
  caution: 'heat',
  method: 'I² R',
  sources: ['common practice'],
  subjects: joints,
  compute(view, joint) {
    const [part] = view.some({ ask: 'joined-by', joint }).paths
    const [{ resistance }, current] = view.all(
      () => view.need({ resistance: below(joint, 'resistance') }),
      () => view.model(netCurrent, netOf(view, part!)),
    )
    return current ** 2 * resistance
  },
})

export const jointFigures = [jointLoss]
