import { LINK_CAUTION } from './dc-link.ts'
import { type Branch, type Fall, freeFall, heldPotentials } from './discharge-modes.ts'
import { type Decay, lastTimeAbove } from './exponential-sum.ts'
import { DomainError, defineMethod, requireNonNegative, requirePositive } from './method.ts'
import { disjointSets } from './network-nodes.ts'

const METHOD = 'dischargeNetwork'

export type PlacedResistor = { readonly from: string; readonly to: string; readonly resistance: number }

export type DischargeNetworkInputs = {
  readonly capacitors: readonly { readonly from: string; readonly to: string; readonly capacitance: number }[]
  readonly resistors: readonly PlacedResistor[]
  readonly plusRail: string
  readonly minusRail: string
  readonly startVoltage: number
  readonly endVoltage: number
}

export type DischargeNetwork = {
  readonly time: number
  readonly fromRest: number
  readonly fromQuickCharge: number
  readonly everywhere: number
}

/**
 * Time for any network of capacitors and resistors between two rails to fall to a voltage, the source taken away:
 * C dv/dt = −G v at every node. Resistance times capacitance is exact only where strings of capacitors and of balancing
 * resistors share no inner node, or have one time constant in every section; else the slowest section holds the rails up.
 *
 * How the voltage was divided at the start is not known of a real unit, so both ends are computed and the longer time
 * holds: at rest (held until the resistors set every node) and right after a quick charge from empty (by capacitance).
 * A node that only capacitors reach is taken to carry no charge of its own; leakage, which may give it some, is left out.
 *
 * @param capacitors   each with its two nodes and capacitance [F], > 0; equivalent series resistance left out
 * @param resistors    each with its two nodes and resistance [Ω], ≥ 0; 0 is a closed contact
 * @param plusRail     and minusRail: names of two nodes
 * @param startVoltage between the rails [V], > 0
 * @param endVoltage   [V], > 0
 * @returns time [s] after which the rails stay within the end voltage, from either start and the longer of the two; and
 *   the time after which no two nodes differ by more, which a quick dump between the rails alone may leave far behind
 * @throws {DomainError} when capacitors or resistors leave no path from rail to rail, or on a value out of its bounds
 *
 * @example dischargeNetwork({ capacitors: [{ from: '+', to: 'm', capacitance: 200e-6 }, { from: 'm', to: '-',
 *   capacitance: 100e-6 }], resistors: [{ from: '+', to: 'm', resistance: 33e3 }, { from: 'm', to: '-', resistance: 33e3
 *   }], plusRail: '+', minusRail: '-', startVoltage: 800, endVoltage: 60 }).time // 13.342
 */
export function dischargeNetwork(inputs: DischargeNetworkInputs): DischargeNetwork {
  requireNetwork(inputs)
  const { startVoltage, endVoltage } = inputs
  const { network, plus } = numbered(inputs)
  const held = { node: plus, voltage: startVoltage }
  const { nodes, capacitors, conductances } = network
  const falls = [
    freeFall(network, heldPotentials(nodes, [conductances, capacitors], held)),
    freeFall(network, heldPotentials(nodes, [capacitors, conductances], held)),
  ]
  const [fromRest, fromQuickCharge] = falls.map((fall) => lastTimeAbove(fall(plus), endVoltage)!) as [number, number]
  const pairs = falls.flatMap((fall) => voltagesOf(fall, nodes))
  return {
    time: Math.max(fromRest, fromQuickCharge),
    fromRest,
    fromQuickCharge,
    everywhere: Math.max(...pairs.map((terms) => lastTimeAbove(terms, endVoltage)!)),
  }
}

/** Voltage of every node against every other. */
function voltagesOf(fall: Fall, nodes: number): readonly (readonly Decay[])[] {
  const all = Array.from({ length: nodes }, (_, node) => fall(node))
  return all.flatMap((high, i) =>
    all.slice(0, i).map((low) => high.map(({ amount, rate }, k) => ({ amount: amount - low[k]!.amount, rate }))),
  )
}

/** Nodes that hang together with the rails, by number, 0 the minus rail; closed contacts make one node of two. */
function numbered({ capacitors, resistors, plusRail, minusRail }: DischargeNetworkInputs) {
  const contacts = disjointSets()
  for (const { from, to, resistance } of resistors) if (resistance === 0) contacts.unite(from, to)
  const joined = disjointSets()
  for (const { from, to } of [...capacitors, ...resistors]) joined.unite(contacts.find(from), contacts.find(to))
  const names = new Set(
    [minusRail, ...[...capacitors, ...resistors].flatMap(({ from, to }) => [from, to])].map(contacts.find),
  )
  const here = [...names].filter((name) => joined.find(name) === joined.find(contacts.find(minusRail)))
  const numbers = new Map(here.map((name, i) => [name, i]))
  const branch = (from: string, to: string, value: number): readonly Branch[] => {
    const ends = [numbers.get(contacts.find(from)), numbers.get(contacts.find(to))] as const
    return ends[0] === undefined || ends[1] === undefined || ends[0] === ends[1]
      ? []
      : [{ from: ends[0], to: ends[1], value }]
  }
  return {
    plus: numbers.get(contacts.find(plusRail))!,
    network: {
      nodes: here.length,
      capacitors: capacitors.flatMap(({ from, to, capacitance }) => branch(from, to, capacitance)),
      conductances: resistors.flatMap(({ from, to, resistance }) => branch(from, to, 1 / resistance)),
    },
  }
}

function requireNetwork(inputs: DischargeNetworkInputs): void {
  const { capacitors, resistors, plusRail, minusRail, startVoltage, endVoltage } = inputs
  requirePositive(METHOD, 'startVoltage', startVoltage)
  requirePositive(METHOD, 'endVoltage', endVoltage)
  for (const { capacitance } of capacitors) requirePositive(METHOD, 'capacitance', capacitance)
  for (const { resistance } of resistors) requireNonNegative(METHOD, 'resistance', resistance)
  const contacts = resistors.filter(({ resistance }) => resistance === 0)
  if (plusRail === minusRail || joins(contacts, plusRail, minusRail))
    throw new DomainError(
      METHOD,
      'minusRail',
      minusRail,
      'another node than plusRail, not joined to it by contacts alone',
    )
  for (const [argument, branches] of Object.entries({ capacitors: [...capacitors, ...contacts], resistors }))
    if (!joins(branches, plusRail, minusRail))
      throw new DomainError(METHOD, argument, `${branches.length} of them`, 'a path from rail to rail')
}

/** Whether branches make a path from one node to another. */
export function joins(
  branches: readonly { readonly from: string; readonly to: string }[],
  a: string,
  b: string,
): boolean {
  const sets = disjointSets()
  for (const { from, to } of branches) sets.unite(from, to)
  return sets.find(a) === sets.find(b)
}

/** Whether a branch lies on a way from rail to rail that passes no node twice: else no current holds a voltage over it. */
export function isOnWay(
  branches: readonly { readonly from: string; readonly to: string }[],
  { from, to }: { readonly from: string; readonly to: string },
  [plus, minus]: readonly [string, string],
): boolean {
  const closed = [...branches, { from: plus, to: minus }]
  const nodes = new Set(closed.flatMap((branch) => [branch.from, branch.to]))
  // A dead end hangs off one node: without that node, nothing joins it to the rails.
  return [...nodes].every((without) => {
    const left = closed.filter((branch) => branch.from !== without && branch.to !== without)
    return joins(left, from === without ? to : from, without === plus ? minus : plus)
  })
}

export type NumberedDischargeInputs = {
  capacitorFrom: readonly number[]
  capacitorTo: readonly number[]
  capacitance: readonly number[]
  resistorFrom: readonly number[]
  resistorTo: readonly number[]
  resistance: readonly number[]
  plusRail: number
  minusRail: number
  startVoltage: number
  endVoltage: number
}

export const dischargeNetworkMethod = defineMethod<NumberedDischargeInputs, DischargeNetwork>({
  id: 'discharge-network',
  title: 'Discharge of any network of capacitors and resistors between two rails',
  takes: {
    capacitorFrom: { unit: '1', list: true, about: 'number of the node at one end of each capacitor' },
    capacitorTo: { unit: '1', list: true, about: 'number of the node at the other end' },
    capacitance: { unit: 'F', list: true, about: 'of each' },
    resistorFrom: { unit: '1', list: true, about: 'number of the node at one end of each resistor' },
    resistorTo: { unit: '1', list: true, about: 'number of the node at the other end' },
    resistance: { unit: 'Ohm', list: true, about: 'of each; 0 is a closed contact' },
    plusRail: { unit: '1', about: 'number of the plus node' },
    minusRail: { unit: '1', about: 'number of the minus node' },
    startVoltage: { unit: 'V', about: 'between the rails at the start' },
    endVoltage: { unit: 'V', about: 'to be reached; 60 V is the usual limit of touch voltage' },
  },
  gives: {
    time: {
      unit: 's',
      print: 's',
      about: 'after which the rails stay within the end voltage, the longer of two starts',
    },
    fromRest: { unit: 's', print: 's', about: 'where the resistors had set every node' },
    fromQuickCharge: { unit: 's', print: 's', about: 'where the capacitors had divided a quick charge' },
    everywhere: { unit: 's', print: 's', about: 'after which no two nodes differ by more' },
  },
  caution: `${LINK_CAUTION} A computed time is no proof: resistors fail open, and a capacitor recovers charge after a short circuit.`,
  sources: ["Kirchhoff's current law: C dv/dt = −G v, solved by its modes"],
  compute: (inputs) =>
    dischargeNetwork({
      ...inputs,
      capacitors: placed(inputs.capacitorFrom, inputs.capacitorTo, inputs.capacitance).map(({ value, ...ends }) => ({
        ...ends,
        capacitance: value,
      })),
      resistors: placed(inputs.resistorFrom, inputs.resistorTo, inputs.resistance).map(({ value, ...ends }) => ({
        ...ends,
        resistance: value,
      })),
      plusRail: `${inputs.plusRail}`,
      minusRail: `${inputs.minusRail}`,
    }),
})

function placed(from: readonly number[], to: readonly number[], values: readonly number[]) {
  if (from.length !== to.length || from.length !== values.length)
    throw new DomainError(
      METHOD,
      'nodes',
      `${from.length} and ${to.length} for ${values.length} parts`,
      'two for each part',
    )
  return values.map((value, i) => ({ from: `${from[i]}`, to: `${to[i]}`, value }))
}

export const dischargeNetworkMethods = [dischargeNetworkMethod] as const
