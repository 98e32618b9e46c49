import {
  coolantHeat,
  coolantStages,
  isothermalWall,
  mixedTemperature,
} from '../../../queries/physics/coolant-energy.ts'
import { faceHeatFlux, heatFlux, moduleHeatFlux } from '../../../queries/physics/heat-flux.ts'
import { doubleSided } from '../../../queries/physics/layer-stack.ts'
import type { ThermalNetwork } from '../../../queries/physics/network-types.ts'
import { solveNetwork } from '../../../queries/physics/thermal-network.ts'
import type { Adapter, Case } from '../case.ts'
import { maybeQuantity, quantities, quantity, toSi } from './inputs.ts'

type Answer = Record<string, number | string | boolean>

function network(input: Case): Answer {
  if (Array.isArray(input.inputs.nodes)) return nodal(input)
  const stack = (name: string) =>
    Array.isArray(input.inputs[name])
      ? quantities({ ...input, inputs: { ...input.inputs, unit: input.inputs.resistanceUnit } }, name)
      : [quantity(input, name)]
  const found = doubleSided({
    loss: quantity(input, 'power', 'loss'),
    bottomResistances: stack('stackBottom'),
    topResistances: stack('stackTop'),
    bottomCoolant: quantity(input, 'coolantBottom', 'coolant'),
    topCoolant: quantity(input, 'coolantTop', 'coolant'),
  })
  return {
    junction: found.junctionTemperature,
    heatBottom: found.bottomHeat,
    heatTop: found.topHeat,
    equivalentResistance: found.equivalentResistance,
  }
}

type Row = Readonly<Record<string, unknown>>

function nodal(input: Case): Answer {
  const rows = (name: string) => (input.inputs[name] ?? []) as readonly Row[]
  const state = settled({
    nodes: input.inputs.nodes as readonly string[],
    links: rows('links').map((row) => ({ a: `${row.a}`, b: `${row.b}`, conductance: conductanceOf(row) })),
    sinks: rows('sinks').map((row, i) => ({
      id: `${i + 1}`,
      node: `${row.node}`,
      temperature: toSi(Number(row.temperature_Cel), 'Cel'),
      conductance: conductanceOf(row),
    })),
    sources: Object.entries((input.inputs.power_W ?? {}) as Readonly<Record<string, number>>).map(([node, loss]) => ({
      node,
      loss,
    })),
  })
  return {
    ...Object.fromEntries(Object.entries(state.temperatures).map(([node, temperature]) => [`T_${node}`, temperature])),
    ...Object.fromEntries(Object.entries(state.sinkHeats).map(([id, heat]) => [`heat_sink${id}`, heat])),
  }
}

const conductanceOf = (row: Row): number =>
  row.conductance_W_K === undefined ? 1 / Number(row.resistance_K_W) : Number(row.conductance_W_K)

function settled(network: ThermalNetwork) {
  const state = solveNetwork(network)
  if (!state.stable) throw new Error('constant losses cannot run away')
  return state
}

function sequence(input: Case): Answer | undefined {
  if (Array.isArray(input.inputs.parts)) return coupled(input)
  if (maybeQuantity(input, 'hA') !== undefined) {
    const found = isothermalWall({
      heatCapacityRate: quantity(input, 'heatCapacityRate'),
      wallConductance: quantity(input, 'hA'),
      inletTemperature: quantity(input, 'inlet'),
      wallTemperature: quantity(input, 'wall'),
    })
    return {
      ntu: found.transferUnits,
      effectiveness: found.effectiveness,
      heat: found.heat,
      outlet: found.outletTemperature,
      resistanceToInlet: found.inletResistance,
      resistanceToMean: found.meanResistance,
      resistanceToLogMean: found.logMeanResistance,
    }
  }
  if (Array.isArray(input.inputs.flowShares)) return branches(input)
  return maybeQuantity(input, 'totalHeatCapacityRate') === undefined ? series(input) : plumbing(input)
}

function rateOf(input: Case): number {
  const stated = maybeQuantity(input, 'heatCapacityRate') ?? maybeQuantity(input, 'totalHeatCapacityRate')
  if (stated !== undefined) return stated
  const mass = maybeQuantity(input, 'massFlow') ?? quantity(input, 'flow') * quantity(input, 'density')
  return mass * quantity(input, 'specificHeat')
}

/** Passages in series, each part coupled to one or more of them; both conventions of the local coolant temperature. */
function coupled(input: Case): Answer {
  const parts = input.inputs.parts as readonly {
    name: string
    power_W: number
    resistanceToPassage_K_W: Readonly<Record<string, number>>
  }[]
  const heatCapacityRate = rateOf(input)
  const temperature = quantity(input, 'inlet')
  const count = quantity(input, 'passagesInSeries')
  const answer: Answer = {}
  for (const coolantReference of ['inlet', 'mean'] as const) {
    const state = settled({
      nodes: parts.map(({ name }) => name),
      sources: parts.map(({ name, power_W }) => ({ node: name, loss: power_W })),
      coolantReference,
      passages: Array.from({ length: count }, (_, p) => ({
        id: `${p + 1}`,
        feeds: [p === 0 ? { temperature, heatCapacityRate } : { passage: `${p}`, heatCapacityRate }],
        cools: parts.flatMap(({ name, resistanceToPassage_K_W: to }) =>
          to[p + 1] === undefined ? [] : [{ node: name, conductance: 1 / to[p + 1]! }],
        ),
      })),
    })
    for (const { name } of parts) answer[`junction_${name}_${coolantReference}`] = state.temperatures[name]!
    for (const [id, passage] of Object.entries(state.passages))
      answer[`coolantOut${id}_${coolantReference}`] = passage.outlet
  }
  return answer
}

function series(input: Case): Answer {
  const names =
    (input.inputs.stages as readonly string[] | undefined) ??
    quantities(input, 'heat', 'heats').map((_, i) => `${i + 1}`)
  const heats = quantities(input, 'heat', 'heats')
  const rate = rateOf(input)
  const found = coolantStages({ inletTemperature: quantity(input, 'inlet'), heatCapacityRate: rate, heats })
  const resistances = Array.isArray(input.inputs.junctionToCoolant) ? resistanceList(input) : undefined
  const answer: Answer = { riseTotal: found.rise, outlet: found.stageOutlets.at(-1)! }
  const specificHeat = maybeQuantity(input, 'specificHeat')
  if (specificHeat !== undefined) answer.massFlow = rate / specificHeat
  for (const [i, name] of names.entries()) {
    answer[`in_${name}`] = found.stageInlets[i]!
    answer[`out_${name}`] = found.stageOutlets[i]!
    answer[`mean_${name}`] = found.stageMeans[i]!
    if (resistances) answer[`junctionMean_${name}`] = junctions(input, rate, 'mean', [...heats.keys()])[i]!
    if (resistances) answer[`junctionInlet_${name}`] = junctions(input, rate, 'inlet', [...heats.keys()])[i]!
  }
  return answer
}

const resistanceList = (input: Case) =>
  quantities(
    { ...input, inputs: { ...input.inputs, junctionToCoolantUnit: input.inputs.resistanceUnit } },
    'junctionToCoolant',
  )

/** Junctions of the named stages, in series along one stream, by the network. */
function junctions(
  input: Case,
  heatCapacityRate: number,
  coolantReference: 'inlet' | 'mean',
  stages: readonly number[],
): readonly number[] {
  const [heats, resistances, temperature] = [
    quantities(input, 'heat', 'heats'),
    resistanceList(input),
    quantity(input, 'inlet'),
  ]
  const state = settled({
    nodes: stages.map(String),
    sources: stages.map((i) => ({ node: `${i}`, loss: heats[i]! })),
    coolantReference,
    passages: stages.map((i, place) => ({
      id: `${i}`,
      feeds: [place === 0 ? { temperature, heatCapacityRate } : { passage: `${stages[place - 1]}`, heatCapacityRate }],
      cools: [{ node: `${i}`, conductance: 1 / resistances[i]! }],
    })),
  })
  return stages.map((i) => state.temperatures[`${i}`]!)
}

/** The same modules in series and in parallel with an even split of the flow. */
function plumbing(input: Case): Answer {
  const heats = quantities(input, 'heat', 'heats')
  const rate = rateOf(input)
  const inSeries = junctions(input, rate, 'mean', [...heats.keys()])
  const inParallel = heats.map((_, i) => junctions(input, rate / heats.length, 'mean', [i])[0]!)
  const spread = (all: readonly number[]) => Math.max(...all) - Math.min(...all)
  const answer: Answer = {
    spreadSeries: spread(inSeries),
    spreadParallel: spread(inParallel),
    outlet: coolantStages({
      inletTemperature: quantity(input, 'inlet'),
      heatCapacityRate: rate,
      heats,
    }).stageOutlets.at(-1)!,
  }
  for (const [i, junction] of inSeries.entries()) answer[`seriesJunction${i + 1}`] = junction
  for (const [i, junction] of inParallel.entries()) answer[`parallelJunction${i + 1}`] = junction
  return answer
}

function branches(input: Case): Answer {
  const shares = input.inputs.flowShares as readonly number[]
  const heats = quantities(input, 'heat', 'heats')
  const rates = shares.map((share) => share * rateOf(input))
  const outlets = rates.map(
    (rate, i) =>
      coolantStages({ inletTemperature: quantity(input, 'inlet'), heatCapacityRate: rate, heats: [heats[i]!] })
        .stageOutlets[0]!,
  )
  return {
    ...Object.fromEntries(outlets.map((outlet, i) => [`outlet${i + 1}`, outlet])),
    mixed: mixedTemperature({ temperatures: outlets, heatCapacityRates: rates }),
    // The case shows the plain mean as what is wrong: equal weights.
    arithmeticMeanWrong: mixedTemperature({ temperatures: outlets, heatCapacityRates: rates.map(() => 1) }),
  }
}

function coolant(input: Case): Answer {
  return {
    heat: coolantHeat({
      flow: quantity(input, 'flow'),
      density: quantity(input, 'density'),
      specificHeat: quantity(input, 'cp', 'specificHeat'),
      inletTemperature: quantity(input, 'inlet'),
      outletTemperature: quantity(input, 'outlet'),
    }),
  }
}

function flux(input: Case): Answer {
  if (maybeQuantity(input, 'shareBottom') !== undefined) {
    const found = faceHeatFlux({
      loss: quantity(input, 'loss', 'power'),
      bottomShare: quantity(input, 'shareBottom'),
      bottomArea: quantity(input, 'areaBottom'),
      topArea: quantity(input, 'areaTop'),
    })
    return { fluxBottom: found.bottomHeatFlux, fluxTop: found.topHeatFlux, fluxAverage: found.averageHeatFlux }
  }
  if (maybeQuantity(input, 'area') !== undefined)
    return { flux: heatFlux({ loss: quantity(input, 'loss', 'power'), area: quantity(input, 'area') }) }
  const found = moduleHeatFlux({
    loss: quantity(input, 'lossPerModule', 'loss'),
    dieCount: quantity(input, 'diesPerModule', 'dies'),
    dieLength: quantity(input, 'dieX'),
    dieWidth: quantity(input, 'dieY'),
    footprintLength: quantity(input, 'footprintX'),
    footprintWidth: quantity(input, 'footprintY'),
    moduleCount: maybeQuantity(input, 'modules') ?? 1,
  })
  return {
    fluxDie: found.dieHeatFlux,
    fluxFootprint: found.footprintHeatFlux,
    dieAreaTotal: found.totalDieArea,
    lossTotal: found.totalLoss,
  }
}

const BY_TOPIC: Readonly<Record<string, (input: Case) => Answer | undefined>> = {
  'thermal-network': network,
  'coolant-sequence': sequence,
  'coolant heat': coolant,
  'heat-flux': flux,
}

export const thermalNetworkAdapter: Adapter = {
  topics: Object.keys(BY_TOPIC),
  answer: (input) => BY_TOPIC[input.topic]?.(input),
}
