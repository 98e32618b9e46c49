import type { Path } from '../../../graph/quantity/quantity.ts'
import type { Model, View } from '../../../graph/view.ts'
import { type CoolantTree, type PassageDrop, splitFlow, treeDrop } from '../../physics/coolant-network.ts'
import { fanOperatingPoint } from '../../physics/fan.ts'
import { below } from '../paths.ts'
import { type FlowTree, flowTree, passagesIn } from './flow-tree.ts'
import { passageDrop } from './passage.ts'
import { known, sound } from './reading.ts'
import { streamOf } from './topology.ts'

export interface CircuitFlow {
  readonly flow: number
  /** Of every passage whose share is known. */
  readonly flows: ReadonlyMap<Path, number>
  /** Of the others: the passages beside them whose pressure drop is not known. */
  readonly undecided: ReadonlyMap<Path, readonly Path[]>
}

/** Flow through a circuit and each of its passages, branches side by side by their pressure drop. */
export const circuitFlow: Model<CircuitFlow> = {
  id: 'coolant flow',
  compute: (view, circuit) =>
    sound(view, circuit, () => {
      const tree = flowTree(view, circuit)
      const flow = totalFlow(view, circuit, tree)
      const flows = new Map<Path, number>()
      const undecided = new Map<Path, readonly Path[]>()
      if (tree) share(view, tree, flow, { flows, undecided })
      return { flow, flows, undecided }
    }),
}

/** Flow of one passage; what keeps it from being known is raised as the lack of it. */
export function passageFlow(view: View, passage: Path): number {
  const { circuit } = streamOf(view, passage)
  const { flows, undecided } = view.model(circuitFlow, circuit)
  const flow = flows.get(passage)
  if (flow !== undefined) return flow
  const others = undecided.get(passage)
  if (others) view.each(others, (one) => view.model(passageDrop, one))
  return view.fail(`${passage} stands in no sequence: no coolant is said to enter it`, 'refused', passage)
}

/** The recorded flow; without one, where the fan meets the drop of the passages. The free-air flow is never the flow. */
function totalFlow(view: View, circuit: Path, tree: FlowTree | null): number {
  const path = below(circuit, 'flow')
  const flow = view.may(path)
  if (flow === undefined)
    return view.first([
      { name: 'recorded', read: () => view.need({ flow: path }).flow },
      { name: 'by its fan', read: () => fanFlow(view, circuit, tree) },
    ]).value
  if (!(flow > 0)) view.fail(`${path} is ${flow}: without flow no coolant temperature can be given`, 'refused', path)
  return flow
}

function fanFlow(view: View, circuit: Path, tree: FlowTree | null): number {
  const at = (name: string): Path => below(circuit, `fan/${name}`)
  const [{ freeFlow, pressure }, drops] = view.all(
    () => view.need({ freeFlow: at('free-flow'), pressure: at('shut-off-pressure') }),
    () => view.each(tree ? passagesIn(tree) : [], (passage) => view.model(passageDrop, passage)),
  )
  if (!tree) return view.fail(`no sequence says where the air of ${circuit} goes`, 'refused', circuit)
  const system = physical(tree, new Map(drops.map((drop) => [drop.id as Path, drop])))
  view.note(
    'flow by a straight line between the free flow and the shut-off pressure of the fan: real curves sag below it',
  )
  const curve = { flows: [0, freeFlow], pressures: [pressure, 0] }
  return fanOperatingPoint({ curve, systemDrop: (one) => treeDrop(system, one) }).flow
}

interface Shares {
  readonly flows: Map<Path, number>
  readonly undecided: Map<Path, readonly Path[]>
}

function share(view: View, tree: FlowTree, flow: number, into: Shares): void {
  if ('passage' in tree) into.flows.set(tree.passage, flow)
  else if ('series' in tree) for (const one of tree.series) share(view, one, flow, into)
  else shareBeside(view, tree.parallel, flow, into)
}

function shareBeside(view: View, branches: readonly FlowTree[], flow: number, into: Shares): void {
  const passages = branches.flatMap(passagesIn)
  const drops = passages.map((passage) => ({ passage, drop: known(view, () => view.model(passageDrop, passage)) }))
  const lacking = drops.flatMap(({ passage, drop }) => (drop ? [] : [passage]))
  if (lacking.length === 0) {
    const byPassage = new Map(drops.map(({ passage, drop }) => [passage, drop!]))
    const even = branches.map((branch) => treeDrop(physical(branch, byPassage), flow / branches.length))
    // Branches that drop the same at equal shares have equal shares: nothing is left to be found.
    if (even.every((drop) => Math.abs(drop - even[0]!) <= 1e-12 * drop)) {
      for (const branch of branches) share(view, branch, flow / branches.length, into)
      return
    }
    const { flows } = splitFlow({ tree: physical({ parallel: branches }, byPassage), flow })
    for (const passage of passages) into.flows.set(passage, flows[passage]!)
  } else if (alike(branches)) {
    view.note(`branches of one design side by side share the flow evenly: ${passages.join(', ')}`)
    for (const branch of branches) share(view, branch, flow / branches.length, into)
  } else for (const passage of passages) into.undecided.set(passage, lacking)
}

/** Whether branches are pieces of the same passages in the same order: then nothing parts them but their names. */
function alike(branches: readonly FlowTree[]): boolean {
  return (
    new Set(
      branches.map((branch) =>
        passagesIn(branch)
          .map((path) => path.replace(/\.[^/]*/g, ''))
          .join(),
      ),
    ).size === 1
  )
}

/** The tree as the physics takes it. */
export function physical(tree: FlowTree, drops: ReadonlyMap<Path, PassageDrop>): CoolantTree {
  if ('passage' in tree) return drops.get(tree.passage)!
  return 'series' in tree
    ? { series: tree.series.map((one) => physical(one, drops)) }
    : { parallel: tree.parallel.map((one) => physical(one, drops)) }
}
