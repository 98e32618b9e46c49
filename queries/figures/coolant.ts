import { asPath, type Path } from '../../graph/quantity/quantity.ts'
import type { Model, View } from '../../graph/view.ts'
import { coolantProperties, FLUIDS, type Fluid } from '../physics/coolant-fluid.ts'
import { glycolMassFraction } from '../physics/coolant-fluid-glycol.ts'
import { defineFigure } from './figure.ts'
import { lossOf } from './loss.ts'

/** Heat of a circuit: what reaches it, and the sources of the record whose heat reaches no coolant. */
interface CircuitHeat {
  readonly total: number
  readonly elsewhere: readonly Path[]
}

/** Circuit of a subject: `specimen` stands for the only one. */
function circuitOf(view: View, subject: Path): Path {
  const circuits = view.some({ ask: 'circuits' }).paths
  if (circuits.length > 1 && subject === 'specimen')
    view.fail('several circuits: ask for each of them', 'refused', subject)
  return subject === 'specimen' ? circuits[0]! : subject
}

/** Sum of the losses whose every recorded way out ends in the circuit. */
const circuitHeat: Model<CircuitHeat> = {
  id: 'circuit heat',
  compute(view, circuit) {
    const passages = new Set(view.find({ ask: 'passages', circuit }).paths)
    const sources = view.some({ ask: 'heat-sources' }).paths.map((piece) => ({
      piece,
      ends: view.find({ ask: 'heat-ends', piece }).paths,
    }))
    const into = sources.filter(({ ends }) => ends.length > 0 && ends.every((end) => passages.has(end)))
    const divided = sources.filter(
      ({ ends }) => ends.some((end) => passages.has(end)) && !ends.every((end) => passages.has(end)),
    )
    if (divided.length > 0) view.model(unsplit, divided[0]!.piece)
    if (into.length === 0) view.fail('no recorded loss has a heat path into this circuit', 'refused', circuit)
    const heats = view.each(into, ({ piece }) => view.model(lossOf, piece))
    const elsewhere = sources.filter(({ ends }) => !ends.some((end) => passages.has(end))).map(({ piece }) => piece)
    return { total: heats.reduce((sum, heat) => sum + heat, 0), elsewhere }
  },
}

const unsplit: Model<never> = {
  id: 'divided heat',
  compute: (view, piece) =>
    view.fail(
      `the heat of ${piece} has several ways out; its share follows from the resistances of their paths`,
      'refused',
      piece,
    ),
}

/** Heat capacity of the stream per kelvin, from the recorded flow and the fluid at its inlet [W/K]. */
const capacityRate: Model<number> = {
  id: 'heat capacity rate',
  compute(view, circuit) {
    const [{ flow, inlet }, share, fluid] = view.all(
      () => view.need({ flow: asPath(`${circuit}/flow`), inlet: asPath(`${circuit}/inlet`) }),
      () => glycolShare(view, circuit),
      () => fluidOf(view, circuit),
    )
    const pressure = fluid === 'air' ? view.may(asPath(`${circuit}/pressure`)) : undefined
    const { density, specificHeat, formulaMargin, ...own } = coolantProperties({
      fluid,
      temperature: inlet,
      ...(share !== null && { glycolMassFraction: share }),
      ...(pressure !== undefined && { pressure }),
    })
    if (formulaMargin < 0)
      view.beyond(`${fluid} at ${(inlet - 273.15).toFixed(0)} °C is beyond the data of its formulas`)
    const doubt = (name: string, u: number): number =>
      view.doubt(asPath(`tables/${fluid}/${name}`), { kind: 'normal', u }, `formula for the ${name} of ${fluid}`)
    const rate = flow * density * specificHeat
    return (
      rate * (1 + doubt('density', own.densityUncertainty)) * (1 + doubt('specific-heat', own.specificHeatUncertainty))
    )
  },
}

function fluidOf(view: View, circuit: Path): Fluid {
  const word = view.word(asPath(`${circuit}/fluid`))
  const fluid = FLUIDS.find((one) => one === word)
  return fluid ?? view.fail(`no properties are built in for the coolant "${word}"; known: ${FLUIDS.join(', ')}`)
}

/** Glycol share by mass; null for a fluid that has none. */
function glycolShare(view: View, circuit: Path): number | null {
  if (fluidOf(view, circuit) !== 'ethylene-glycol-water') return null
  return view.first([
    { name: 'by mass', read: () => view.need({ share: asPath(`${circuit}/glycol-by-mass`) }).share },
    {
      name: 'by volume',
      read: () =>
        glycolMassFraction({ glycolVolumeFraction: view.need({ share: asPath(`${circuit}/glycol-by-volume`) }).share }),
    },
  ]).value
}

const coolantRise = defineFigure({
  id: 'COOLANT_RISE',
  title: 'Coolant temperature rise',
  definition:
    'Losses whose heat ends in the circuit over the heat capacity rate of its flow, with the fluid at its inlet temperature. Losses that reach no passage are named.',
  unit: 'K',
  subject: 'passage',
  honours: ['power'],
  operating: ['coolantFlow', 'coolantInlet', 'phaseCurrent', 'switchingFrequency'],
  caution: 'heat',
  method: 'energy balance P / (Q ρ c_p)',
  sources: ['energy balance; fluid properties as cited with the fluid'],
  subjects(view) {
    const circuits = view.find({ ask: 'circuits' })
    const whole = circuits.paths.length === 1 ? [asPath('specimen')] : circuits.paths
    return {
      ...circuits,
      paths: [...whole, ...circuits.paths.flatMap((circuit) => view.find({ ask: 'passages', circuit }).paths)],
    }
  },
  compute(view, subject) {
    const circuit = circuitOf(view, subject)
    const [heat, rate] = view.all(
      () => view.model(circuitHeat, circuit),
      () => view.model(capacityRate, circuit),
    )
    if (heat.elsewhere.length > 0)
      view.note(`not in it, for their heat reaches no passage: ${heat.elsewhere.join(', ')}`)
    return heat.total / rate
  },
})

export const coolantFigures = [coolantRise] as const
