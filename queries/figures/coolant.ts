import type { Path } from '../../graph/quantity/quantity.ts'
import type { Found } from '../../graph/query.ts'
import type { View } from '../../graph/view.ts'
import type { NumericName } from '../conditions.ts'
import { treeDrop } from '../physics/coolant-network.ts'
import { ductSection } from '../physics/duct.ts'
import { jetArray } from '../physics/jets.ts'
import { pumpPowerMethod } from '../physics/minor-loss.ts'
import { pinBank } from '../physics/pin-fins.ts'
import { apply } from './apply.ts'
import { defineFigure } from './figure.ts'
import { coolantAt, heatInto } from './heat/at.ts'
import { circuitFlow, passageFlow, physical } from './heat/flow.ts'
import { flowTree, passagesIn } from './heat/flow-tree.ts'
import { circuitFluid, heatPerVolume } from './heat/fluid.ts'
import { capacityRate } from './heat/open.ts'
import { passageDrop, passageForm } from './heat/passage.ts'
import { streamOf } from './heat/topology.ts'
import { HEAT_POINT } from './thermal.ts'

const FLOW: readonly NumericName[] = ['coolantFlow', 'coolantInlet']
const BALANCE = 'energy balance; fluid properties as cited with the fluid'

const found = (paths: readonly Path[]): Found => ({ paths, census: 'complete', basis: 'measured', restsOn: [] })

/** The specimen where it has one circuit, else each circuit. */
function wholes(view: View): readonly Path[] {
  const circuits = view.find({ ask: 'circuits' }).paths
  return circuits.length === 1 ? ['specimen' as Path] : circuits
}

const everyPassage = (view: View): Found => found(view.find({ ask: 'passages' }).paths)
const passagesAndWholes = (view: View): Found => found([...wholes(view), ...everyPassage(view).paths])

/** Circuit that a subject stands for; null when it is a passage. */
function circuitOf(view: View, subject: Path): Path | null {
  const circuits = view.some({ ask: 'circuits' }).paths
  if (subject !== 'specimen') return circuits.includes(subject) ? subject : null
  if (circuits.length > 1) view.fail('several circuits: ask for each of them', 'refused', subject)
  return circuits[0]!
}

/** Heat taken up in all passages of a circuit; sources that give nothing to it are named. */
function circuitHeat(view: View, circuit: Path): number {
  const { passages, elsewhere } = view.choice(`heat into ${circuit}`, () => heatersOf(view, circuit))
  if (elsewhere.length > 0) view.note(`not in it, for their heat reaches no passage of it: ${elsewhere.join(', ')}`)
  return view.each(passages, (passage) => carried(view, passage)).reduce((sum, heat) => sum + heat, 0)
}

/** Heat into a passage that coolant enters: into any other, nothing carries it away. */
function carried(view: View, passage: Path): number {
  const { before, faces } = streamOf(view, passage)
  if (before.length === 0 && faces > 0)
    view.fail(`${passage} stands in no sequence: no coolant is said to enter it and carry its heat`, 'refused', passage)
  return heatInto(view, passage)
}

function heatersOf(
  view: View,
  circuit: Path,
): { readonly passages: readonly Path[]; readonly elsewhere: readonly Path[] } {
  const passages = view.find({ ask: 'passages', circuit }).paths
  const heated = passages.filter((passage) => view.find({ ask: 'heated-by', passage }).paths.length > 0)
  if (heated.length === 0) view.fail('no recorded loss has a heat path into this circuit', 'refused', circuit)
  const sources = view.find({ ask: 'heat-sources' }).paths
  const reaches = (piece: Path): boolean =>
    view.find({ ask: 'heat-ends', piece }).paths.some((end) => passages.includes(end))
  return { passages, elsewhere: sources.filter((piece) => !reaches(piece)) }
}

function circuitRate(view: View, circuit: Path): number {
  const [{ flow }, fluid] = view.all(
    () => view.model(circuitFlow, circuit),
    () => view.model(circuitFluid, circuit),
  )
  return flow * heatPerVolume(fluid)
}

const coolantRise = defineFigure({
  id: 'COOLANT_RISE',
  title: 'Coolant temperature rise',
  definition:
    'Heat that a passage, or the whole circuit, takes up over the heat capacity rate of its flow: outlet less inlet. Losses that reach no passage are named.',
  unit: 'K',
  subject: 'passage',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method: 'energy balance P / (Q ρ c_p), fluid at the inlet temperature of the circuit; heat by the heat network',
  sources: [BALANCE],
  subjects: passagesAndWholes,
  compute(view, subject) {
    const circuit = circuitOf(view, subject)
    const [heat, rate] = view.all(
      () => (circuit ? circuitHeat(view, circuit) : heatInto(view, subject)),
      () => (circuit ? circuitRate(view, circuit) : view.model(capacityRate, subject)),
    )
    return heat / rate
  },
})

const coolantTemperature = defineFigure({
  id: 'COOLANT_TEMPERATURE',
  title: 'Local coolant temperature',
  definition: 'Coolant temperature that the parts of a passage see: the mean of its inlet and its outlet.',
  unit: '°C',
  subject: 'passage',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method: 'heat network; streams mix by heat capacity rate, stage mean of inlet and outlet',
  sources: [BALANCE],
  subjects: everyPassage,
  compute: (view, passage) => coolantAt(view, passage).local,
})

const coolantOutlet = defineFigure({
  id: 'COOLANT_OUTLET',
  title: 'Coolant outlet temperature',
  definition: 'Temperature of the coolant that leaves a passage, or the whole circuit after mixing.',
  unit: '°C',
  subject: 'passage',
  honours: ['power'],
  operating: HEAT_POINT,
  caution: 'heat',
  method: 'heat network; circuit: inlet plus heat over heat capacity rate',
  sources: [BALANCE],
  subjects: passagesAndWholes,
  compute(view, subject) {
    const circuit = circuitOf(view, subject)
    if (circuit === null) return coolantAt(view, subject).outlet
    const [heat, rate] = view.all(
      () => circuitHeat(view, circuit),
      () => circuitRate(view, circuit),
    )
    return view.model(circuitFluid, circuit).inlet + heat / rate
  },
})

const passageFlowFigure = defineFigure({
  id: 'PASSAGE_FLOW',
  title: 'Coolant flow of a passage',
  definition: 'Volume flow through one passage, branches side by side sharing by their pressure drop.',
  unit: 'L/min',
  subject: 'passage',
  honours: [],
  operating: FLOW,
  method:
    'one pressure drop across branches side by side, solved for the split; fan curve where only a fan is recorded',
  sources: ['continuity; pressure drop as cited with it'],
  subjects: everyPassage,
  compute: passageFlow,
})

const DROP_SOURCES = [
  'S. W. Churchill, Chem. Eng. 84 (1977) 91-92 (from memory), for friction in all regimes',
  'E. S. Gaddis, V. Gnielinski, Int. Chem. Eng. 25 (1985) 1-15 (from memory), for pins',
  'loss factors of bends: handbook values, common practice, good to 30 %',
]

/** Pressure drop of a circuit at its flow [Pa]. */
function circuitDrop(view: View, circuit: Path): number {
  const tree = flowTree(view, circuit)
  if (!tree) return view.fail('no sequence leads from inlet to outlet', 'refused', circuit)
  const [{ flow }, drops] = view.all(
    () => view.model(circuitFlow, circuit),
    () => view.each(passagesIn(tree), (passage) => view.model(passageDrop, passage)),
  )
  return treeDrop(physical(tree, new Map(drops.map((drop) => [drop.id as Path, drop]))), flow)
}

const pressureDrop = defineFigure({
  id: 'PRESSURE_DROP',
  title: 'Coolant pressure drop',
  definition:
    'Loss of total pressure across one passage, or from inlet to outlet: friction, recorded loss factors and bends. What is not recorded (hoses, ports, junctions) is not in it.',
  unit: 'kPa',
  subject: 'passage',
  honours: [],
  operating: FLOW,
  caution: 'heat',
  method: 'Δp = (f L/D + K) ρu²/2, one friction curve through all regimes; pins and jets by their own laws',
  sources: DROP_SOURCES,
  subjects: passagesAndWholes,
  compute(view, subject) {
    const circuit = circuitOf(view, subject)
    if (circuit) return circuitDrop(view, circuit)
    const [flow, drop] = view.all(
      () => passageFlow(view, subject),
      () => view.model(passageDrop, subject),
    )
    return drop.drop(flow)
  },
})

const pumpPower = defineFigure({
  id: 'PUMP_POWER',
  title: 'Hydraulic power of the coolant',
  definition:
    'Pressure drop times flow, from inlet to outlet of the unit. What the pump takes from its supply is more, by its efficiency.',
  unit: 'W',
  subject: 'passage',
  honours: [],
  operating: FLOW,
  caution: 'heat',
  method: 'Δp Q',
  sources: ['definition'],
  subjects: (view) => found(wholes(view)),
  compute(view, subject) {
    const circuit = circuitOf(view, subject)!
    const [drop, { flow }] = view.all(
      () => circuitDrop(view, circuit),
      () => view.model(circuitFlow, circuit),
    )
    return apply(view, pumpPowerMethod, { pressureDrop: drop, flow }).hydraulicPower
  },
})

const reynolds = defineFigure({
  id: 'REYNOLDS',
  title: 'Reynolds number',
  definition:
    'Of the flow in a passage: on hydraulic diameter for channels, pipes and gaps between fins, on pin diameter and highest velocity for pins, on nozzle diameter for jets.',
  unit: '1',
  subject: 'passage',
  honours: [],
  operating: FLOW,
  method: 'ρ u D / μ, fluid at the inlet temperature of the circuit',
  sources: ['definition; laminar below about 2300 in ducts, turbulent above about 4000 (common practice)'],
  subjects: everyPassage,
  compute(view, passage) {
    const circuit = view.some({ ask: 'circuit-of', passage }).paths[0]!
    const [flow, fluid, made] = view.all(
      () => passageFlow(view, passage),
      () => view.model(circuitFluid, circuit),
      () => view.model(passageForm, passage),
    )
    const { density, viscosity, specificHeat, thermalConductivity } = fluid
    const all = { flow, density, viscosity, specificHeat, thermalConductivity }
    if (made.form === 'jets') return jetArray({ ...made.sizes, ...all }).reynolds
    if (made.form === 'pins') return pinBank({ ...made.sizes, ...all, pinConductivity: 1 }).reynolds
    const { area, hydraulicDiameter } = ductSection(made.sizes)
    return (density * (flow / (made.sizes.count * area)) * hydraulicDiameter) / viscosity
  },
})

export const coolantFigures = [
  coolantRise,
  coolantTemperature,
  coolantOutlet,
  passageFlowFigure,
  pressureDrop,
  pumpPower,
  reynolds,
] as const
