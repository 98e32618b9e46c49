import fc from 'fast-check'
import { expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { type HeatState, heatNetwork } from '../../../queries/figures/heat/network.ts'
import { heatTopology } from '../../../queries/figures/heat/topology.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import type { ThermalNetwork } from '../../../queries/physics/network-types.ts'
import { solveNetwork } from '../../../queries/physics/thermal-network.ts'
import { demoRecords, sessionOf } from './demo-records.ts'
import { describeSimulated, nodeNames, simulate } from './simulator.ts'

/**
 * A heat network as its electrical twin: volt for kelvin, ampere for watt, siemens for W/K. A passage is a buffered
 * source at the temperature that its nodes see; what flows into that source is heat taken up, and a mirror of that
 * current warms the outlet, a node tied to the inlet by the heat capacity rate.
 */
function twin(
  network: ThermalNetwork,
  node: (id: string) => string,
  coolant: (id: string) => string,
): readonly string[] {
  const { links = [], sinks = [], sources = [], passages = [], coolantReference = 'mean' } = network
  return [
    ...links.map(({ a, b, conductance }, i) => `rl${i} ${node(a)} ${node(b)} ${1 / conductance}`),
    ...sinks.flatMap(({ node: at, temperature, conductance }, i) => [
      `vs${i} s${i} 0 ${temperature}`,
      `rs${i} ${node(at)} s${i} ${1 / conductance}`,
    ]),
    ...sources.map(({ node: at, loss, slope = 0, reference = 0, leak = 0, leakReference = 0, leakScale = 1 }, i) => {
      const t = `v(${node(at)})`
      const exponential = leak === 0 ? '' : `+${leak}*exp((${t}-${leakReference})/${leakScale})`
      return slope === 0 && leak === 0
        ? `iq${i} 0 ${node(at)} ${loss}`
        : `bq${i} 0 ${node(at)} i=${loss}*(1+(${slope})*(${t}-${reference}))${exponential}`
    }),
    ...passages.flatMap(({ id, feeds, cools, heat = 0 }, p) => {
      const rate = feeds.reduce((sum, feed) => sum + feed.heatCapacityRate, 0)
      const mix = feeds.map((feed) => {
        const from = 'passage' in feed ? `v(${coolant(feed.passage)})` : `${feed.temperature}`
        return `${feed.heatCapacityRate / rate}*${from}`
      })
      const out = coolant(id)
      return [
        `bin${p} in${p} 0 v=${mix.join('+')}`,
        `ro${p} in${p} ${out} ${1 / rate}`,
        `bsee${p} see${p} 0 v=${coolantReference === 'inlet' ? `v(in${p})` : `0.5*(v(in${p})+v(${out}))`}`,
        `vsee${p} film${p} see${p} 0`,
        `f${p} 0 ${out} vsee${p} 1`,
        `ih${p} 0 ${out} ${heat}`,
        ...cools.map((cool, i) => `rc${p}_${i} ${node(cool.node)} film${p} ${1 / cool.conductance}`),
      ]
    }),
  ]
}

/** Temperatures of nodes and passage outlets by the simulator. */
function simulated(network: ThermalNetwork) {
  const node = nodeNames()
  const passages = network.passages ?? []
  const coolant = (id: string) => `out${passages.findIndex((one) => one.id === id)}`
  const values = simulate({
    circuit: twin(network, node, coolant),
    // Heat capacity rates times 300 K leave 10⁻¹⁰ W of rounding in a current: no use to iterate below that.
    commands: ['option abstol=1e-7', 'op'],
    read: [...network.nodes.map((id) => `v(${node(id)})`), ...passages.map(({ id }) => `v(${coolant(id)})`)],
  })
  return {
    temperatures: new Map(network.nodes.map((id, i) => [id, values[i]!])),
    outlets: new Map(passages.map(({ id }, i) => [id, values[network.nodes.length + i]!])),
  }
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Two to eight nodes in a chain with cross links, two sinks, and passages that branch off and mix again. */
const networks = fc.integer({ min: 2, max: 8 }).chain((count) => {
  const at = fc.integer({ min: 0, max: count - 1 }).map((i) => `n${i}`)
  const nodes = Array.from({ length: count }, (_, i) => `n${i}`)
  const cools = fc.uniqueArray(fc.record({ node: at, conductance: between(1, 40) }), {
    minLength: 1,
    maxLength: 3,
    selector: (one) => one.node,
  })
  return fc
    .record({
      chain: fc.array(between(0.5, 30), { minLength: count - 1, maxLength: count - 1 }),
      cross: fc.array(fc.record({ a: at, b: at, conductance: between(0.1, 5) }), { maxLength: 3 }),
      sink: fc.array(fc.record({ node: at, temperature: between(250, 340), conductance: between(0.01, 3) }), {
        maxLength: 2,
      }),
      losses: fc.array(between(-50, 300), { minLength: count, maxLength: count }),
      slopes: fc.array(between(-0.001, 0.001), { minLength: count, maxLength: count }),
      cools: fc.array(cools, { minLength: 4, maxLength: 4 }),
      heats: fc.array(between(0, 200), { minLength: 4, maxLength: 4 }),
      rate: between(50, 900),
      share: between(0.2, 0.8),
      inlet: between(280, 345),
      coolantReference: fc.constantFrom('inlet' as const, 'mean' as const),
    })
    .map(
      ({ chain, cross, sink, losses, slopes, cools, heats, rate, share, inlet, coolantReference }): ThermalNetwork => {
        const from = (passage: string, part: number) => ({ passage, heatCapacityRate: rate * part })
        const feeds = [
          [{ temperature: inlet, heatCapacityRate: rate }],
          [from('first', share)],
          [from('first', 1 - share)],
          [from('left', share), from('right', 1 - share), { temperature: inlet - 5, heatCapacityRate: 20 }],
        ]
        return {
          nodes,
          links: [
            ...chain.map((conductance, i) => ({ a: `n${i}`, b: `n${i + 1}`, conductance })),
            ...cross.filter(({ a, b }) => a !== b),
          ],
          sinks: sink.map((one, i) => ({ ...one, id: `s${i}` })),
          sources: nodes.map((node, i) => ({ node, loss: losses[i]!, slope: slopes[i]!, reference: 330 })),
          passages: ['first', 'left', 'right', 'last'].map((id, p) => ({
            id,
            feeds: feeds[p]!,
            cools: cools[p]!,
            heat: heats[p]!,
          })),
          coolantReference,
        }
      },
    )
})

type Settled = Extract<ReturnType<typeof solveNetwork>, { stable: true }>

/** Largest difference of any temperature to the twin's, over the largest difference between two places. */
function apart(network: ThermalNetwork, state: Settled): number {
  const { temperatures, outlets } = simulated(network)
  const pairs = [
    ...[...temperatures].map(([id, value]) => [value, state.temperatures[id]!] as const),
    ...[...outlets].map(([id, value]) => [value, state.passages[id]!.outlet] as const),
  ]
  const all = pairs.map(([, value]) => value)
  const span = Math.max(1, Math.max(...all) - Math.min(...all))
  return Math.max(...pairs.map(([a, b]) => Math.abs(a - b))) / span
}

/** Every island of the heat network of a record that is known well enough to be solved. */
function islandsOf(session: Session): readonly HeatState[] {
  const ids = session.viewer.record((view) => heatTopology(view).islands.map(({ id }) => id)).value!
  return ids.flatMap((id) => session.viewer.record((view) => view.model(heatNetwork, id)).value ?? [])
}

const SHEET = `lidoff: 1
id: two-stages
title: Two half bridges on one cooler
basis: judged
specimen: { kind: traction-inverter }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative }, phase-*: { potential: hv-switching } }
parts:
  - id: module
    class: half-bridge-module
    each: { u: { loss: 320 W }, v: { loss: 210 W } }
    terminals: { dc-plus: plus, dc-minus: minus, ac: phase-* }
  - { id: cooler, class: cold-plate, faces: { seat-u: {}, seat-v: {} } }
heat:
  - { id: grease-u, from: module.u, layers: [ { kind: thermal-grease, thickness: 0.1 mm, conductivity: 2 W/(m·K), area: 20 cm² } ], to: cooler/seat-u }
  - { id: grease-v, from: module.v, layers: [ { kind: thermal-grease, thickness: 0.1 mm, conductivity: 2 W/(m·K), area: 20 cm² } ], to: cooler/seat-v }
  - { id: across, from: cooler/seat-u, to: cooler/seat-v, resistance: 0.4 K/W }
  - { id: to-air, from: cooler/seat-v, to: ambient, resistance: 1.5 K/W }
coolant:
  fluid: water
  flow: 2 L/min
  inlet: 60 °C
  passages:
    - { id: first, channel: { width: 14 mm, height: 6 mm, length: 80 mm }, cools: [ { face: cooler/seat-u, wetted-area: 30 cm², film-coefficient: 5000 W/(m²·K) } ] }
    - { id: second, channel: { width: 14 mm, height: 6 mm, length: 80 mm }, cools: [ { face: cooler/seat-v, wetted-area: 25 cm², film-coefficient: 5000 W/(m²·K) } ] }
  sequence: [inlet, first, second, outlet]
ambient: { air: 40 °C }`

// That sheet as a circuit, written by hand: volt for degree Celsius. Water at 60 °C: 983.2 kg/m³ and 4185 J/(kg·K)
// (steam tables, from memory), times 2 L/min: 137.16 W/K. The coolant that a face sees is the mean of its stage.
const BY_HAND = [
  'iu 0 u 320',
  'iv 0 v 210',
  'rgu u su 0.025',
  'rgv v sv 0.025',
  'racross su sv 0.4',
  'rair sv air 1.5',
  'vair air 0 40',
  'vinlet inlet 0 60',
  "efirst first 0 vol='0.5*(v(inlet)+v(middle))'",
  'vfirst film1 first 0',
  'r1 su film1 {1/15}',
  'ffirst 0 middle vfirst 1',
  'rmiddle inlet middle {1/137.16}',
  'ebuffer again 0 middle 0 1',
  "esecond second 0 vol='0.5*(v(again)+v(outlet))'",
  'vsecond film2 second 0',
  'r2 sv film2 {1/12.5}',
  'fsecond 0 outlet vsecond 1',
  'routlet again outlet {1/137.16}',
]

describeSimulated('heat networks as their electrical twins', () => {
  // The simulator iterates on losses that follow temperature until steps fall below 10⁻⁹. Found: 5·10⁻⁹ at most.
  const TOLERANCE = 1e-7

  it('random networks with coolant that branches, mixes and warms, and losses that follow temperature', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const state = solveNetwork(network)
        fc.pre(state.stable)
        expect(apart(network, state as Settled)).toBeLessThan(TOLERANCE)
      }),
      { numRuns: 20 },
    )
  })

  it('leakage that grows exponentially settles at the lower of two temperatures', () => {
    const network: ThermalNetwork = {
      nodes: ['die', 'base'],
      links: [{ a: 'die', b: 'base', conductance: 4 }],
      sinks: [{ id: 'air', node: 'base', temperature: 300, conductance: 1.5 }],
      sources: [{ node: 'die', loss: 60, slope: 0.002, reference: 300, leak: 2, leakReference: 350, leakScale: 25 }],
    }
    const state = solveNetwork(network)
    expect(state.stable).toBe(true)
    expect((state as Settled).losses.die).toBeGreaterThan(65)
    expect(apart(network, state as Settled)).toBeLessThan(TOLERANCE)
  })

  const islands = demoRecords().flatMap(({ name, session }) =>
    islandsOf(session)
      .filter(({ temperatures }) => temperatures.size >= 10)
      .map((island) => ({ name, nodes: island.network.nodes.length, island })),
  )
  it('several demo records have one of ten places and more', () => expect(islands.length).toBeGreaterThanOrEqual(4))

  it.each(islands)('$name: $nodes places', ({ island }) => {
    const { temperatures, outlets } = simulated(island.network)
    for (const [id, temperature] of island.temperatures)
      expect(Math.abs(temperatures.get(id)! - temperature)).toBeLessThan(1e-6)
    for (const [id, { outlet }] of island.coolant) expect(Math.abs(outlets.get(id)! - outlet)).toBeLessThan(1e-6)
  })

  it('a sheet with two stages of coolant, its circuit written by hand', () => {
    const session = sessionOf(SHEET, 'stages.yaml')
    const figure = (id: string, subject: string) => {
      const { status, atTaken, missing } = session.evaluate(figureById(id), asPath(subject))
      expect({ subject, status, missing }).toEqual({ subject, status: 'OK', missing: [] })
      return atTaken!
    }
    const values = simulate({
      circuit: BY_HAND,
      commands: ['op'],
      read: ['u', 'v', 'middle', 'outlet'].map((at) => `v(${at})`),
    })
    const figures = [
      figure('JUNCTION_TEMPERATURE', 'parts/module.u'),
      figure('JUNCTION_TEMPERATURE', 'parts/module.v'),
      figure('COOLANT_OUTLET', 'coolant/first'),
      figure('COOLANT_OUTLET', 'coolant/second'),
    ]
    // Heat capacity of the water: 0.1 % of a rise of 4 K at most.
    for (const [i, value] of values.entries()) expect(Math.abs(figures[i]! - value)).toBeLessThan(4e-3)
  })
})
