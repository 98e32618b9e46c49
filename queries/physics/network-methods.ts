import { DomainError, defineMethod } from './method.ts'
import type { CoolantReference } from './network-types.ts'
import { solveNetwork } from './thermal-network.ts'

export type NetworkInputs = {
  losses: readonly number[]
  linkFrom?: readonly number[]
  linkTo?: readonly number[]
  linkResistances?: readonly number[]
  sinkNodes?: readonly number[]
  sinkTemperatures?: readonly number[]
  sinkResistances?: readonly number[]
  inletTemperature?: number
  heatCapacityRate?: number
  passageCount?: number
  cooledNodes?: readonly number[]
  coolingPassages?: readonly number[]
  coolingResistances?: readonly number[]
  coolantReference?: CoolantReference
}

export type NetworkOutputs = {
  readonly temperatures: readonly number[]
  readonly sinkHeats: readonly number[]
  readonly passageOutlets: readonly number[]
  readonly passageHeats: readonly number[]
  readonly unaccounted: number
}

/**
 * Thermal network by numbers: nodes are counted from 1 in the order of their losses, passages from 1 along one stream of
 * coolant in series. The same solve as {@link solveNetwork}, for use by hand.
 *
 * @throws {DomainError} as solveNetwork, on lists of unequal length, and on a number that names no node or passage
 *
 * @example networkByNumbers({ losses: [100], sinkNodes: [1], sinkTemperatures: [300], sinkResistances: [0.5] }).temperatures // [350]
 */
export function networkByNumbers(inputs: NetworkInputs): NetworkOutputs {
  const nodes = inputs.losses.map((_, i) => `${i + 1}`)
  const pairs = columns({ linkFrom: inputs.linkFrom, linkTo: inputs.linkTo, linkResistances: inputs.linkResistances })
  const sinks = columns({
    sinkNodes: inputs.sinkNodes,
    sinkTemperatures: inputs.sinkTemperatures,
    sinkResistances: inputs.sinkResistances,
  })
  const cooled = columns({
    cooledNodes: inputs.cooledNodes,
    coolingPassages: inputs.coolingPassages,
    coolingResistances: inputs.coolingResistances,
  })
  const state = solveNetwork({
    nodes,
    sources: inputs.losses.map((loss, i) => ({ node: nodes[i]!, loss })),
    links: pairs.map(([from, to, resistance]) => ({ a: `${from}`, b: `${to}`, conductance: 1 / resistance })),
    sinks: sinks.map(([node, temperature, resistance], i) => ({
      id: `${i}`,
      node: `${node}`,
      temperature,
      conductance: 1 / resistance,
    })),
    passages: passagesInSeries(inputs, cooled),
    ...(inputs.coolantReference === undefined ? {} : { coolantReference: inputs.coolantReference }),
  })
  if (!state.stable) throw new DomainError('networkByNumbers', 'losses', 'a runaway', 'constant, which cannot run away')
  return {
    temperatures: nodes.map((node) => state.temperatures[node]!),
    sinkHeats: sinks.map((_, i) => state.sinkHeats[`${i}`]!),
    passageOutlets: Object.values(state.passages).map(({ outlet }) => outlet),
    passageHeats: Object.values(state.passages).map(({ heat }) => heat),
    unaccounted: state.ledger.unaccounted,
  }
}

type Triple = readonly [number, number, number]

/** Three lists of one length, read across. */
function columns(lists: Readonly<Record<string, readonly number[] | undefined>>): Triple[] {
  const entries = Object.entries(lists).map(([name, list]) => [name, list ?? []] as const)
  const [a, b, c] = entries.map(([, list]) => list)
  for (const [name, list] of entries) {
    if (list.length !== a!.length) throw new DomainError('networkByNumbers', name, list.length, `${a!.length} numbers`)
  }
  return a!.map((first, i): Triple => [first, b![i]!, c![i]!])
}

function passagesInSeries(inputs: NetworkInputs, cooled: readonly Triple[]) {
  const { passageCount = 0, inletTemperature, heatCapacityRate } = inputs
  for (const [, passage] of cooled) {
    if (!(Number.isInteger(passage) && passage >= 1 && passage <= passageCount)) {
      throw new DomainError('networkByNumbers', 'coolingPassages', passage, `1 … ${passageCount} (passageCount)`)
    }
  }
  return Array.from({ length: passageCount }, (_, p) => {
    const rate = heatCapacityRate ?? Number.NaN
    const feed =
      p === 0
        ? { temperature: inletTemperature ?? Number.NaN, heatCapacityRate: rate }
        : { passage: `p${p}`, heatCapacityRate: rate }
    const cools = cooled
      .filter(([, passage]) => passage === p + 1)
      .map(([node, , resistance]) => ({ node: `${node}`, conductance: 1 / resistance }))
    return { id: `p${p + 1}`, feeds: [feed], cools }
  })
}

export const networkMethod = defineMethod<NetworkInputs, NetworkOutputs>({
  id: 'thermal-network',
  title: 'Thermal network with coolant passages in series',
  takes: {
    losses: { unit: 'W', list: true, about: 'of each node; 0 where none. Nodes are counted from 1 in this order' },
    linkFrom: { unit: '1', list: true, optional: true, about: 'node at one end of each link' },
    linkTo: { unit: '1', list: true, optional: true, about: 'node at the other end of each link' },
    linkResistances: { unit: 'K/W', list: true, optional: true, about: 'of each link' },
    sinkNodes: { unit: '1', list: true, optional: true, about: 'node that each fixed temperature is joined to' },
    sinkTemperatures: { unit: 'K', list: true, optional: true, about: 'fixed temperatures' },
    sinkResistances: { unit: 'K/W', list: true, optional: true, about: 'from node to fixed temperature' },
    inletTemperature: { unit: 'K', optional: true, about: 'coolant into the first passage' },
    heatCapacityRate: { unit: 'W/K', optional: true, about: 'mass flow times specific heat of the coolant' },
    passageCount: { unit: '1', optional: true, about: 'passages in series; none if left out' },
    cooledNodes: { unit: '1', list: true, optional: true, about: 'node of each path into a passage' },
    coolingPassages: { unit: '1', list: true, optional: true, about: 'passage of each of these paths, counted from 1' },
    coolingResistances: { unit: 'K/W', list: true, optional: true, about: 'of each of these paths' },
    coolantReference: {
      words: ['inlet', 'mean'],
      optional: true,
      about: 'coolant temperature that nodes see; mean if left out',
    },
  },
  gives: {
    temperatures: { unit: 'K', print: 'Cel', about: 'of the nodes' },
    sinkHeats: { unit: 'W', print: 'W', about: 'into each fixed temperature; negative where it gives heat' },
    passageOutlets: { unit: 'K', print: 'Cel', about: 'coolant leaving each passage' },
    passageHeats: { unit: 'W', print: 'W', about: 'into each passage' },
    unaccounted: { unit: '1', print: '1', about: 'heat that does not add up, relative; rounding only' },
  },
  valid: { unaccounted: [-1e-9, 1e-9] },
  caution:
    'A loaded unit is at lethal voltage and hot: work on it only when it is proved dead, by local codes and licensed practice.',
  sources: ['energy balance of each node and passage, one linear solve'],
  compute: networkByNumbers,
})

export const networkMethods = [networkMethod] as const
