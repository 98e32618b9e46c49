import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { DomainError } from '../../../queries/physics/method.ts'
import { networkByNumbers } from '../../../queries/physics/network-methods.ts'
import type { NetworkState, ThermalNetwork } from '../../../queries/physics/network-types.ts'
import { solveNetwork } from '../../../queries/physics/thermal-network.ts'

type Settled = Extract<NetworkState, { stable: true }>

function settle(network: ThermalNetwork): Settled {
  const state = solveNetwork(network)
  if (!state.stable) throw new Error(`runaway, loop gain ${state.loopGain}`)
  return state
}

/** Weak links make networks of some 10⁵ K, in which a fixed tolerance in kelvin would only test rounding. */
const near = (a: number, b: number, hottest: number) => Math.abs(a - b) < 1e-11 * hottest

const unit = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true })
const draws = fc.array(unit, { minLength: 40, maxLength: 80 })

/** A random network of two to nine nodes in a chain with cross links, two sinks, and coolant passages in series. */
function randomNetwork(list: readonly number[], coolantReference: 'inlet' | 'mean' = 'mean'): ThermalNetwork {
  let at = 0
  const next = (low: number, high: number) => low + (high - low) * list[at++ % list.length]!
  const nodes = Array.from({ length: 2 + Math.floor(next(0, 8)) }, (_, i) => `n${i}`)
  const any = () => nodes[Math.floor(next(0, nodes.length))]!
  const passageCount = 1 + Math.floor(next(0, 4))
  const rate = next(200, 900)
  const inlet = next(280, 345)
  return {
    nodes,
    links: [
      ...nodes.slice(1).map((b, i) => ({ a: nodes[i]!, b, conductance: next(0.1, 30) })),
      { a: any(), b: any(), conductance: next(0.1, 5) },
    ],
    sinks: [{ id: 'air', node: any(), temperature: next(270, 330), conductance: next(0.01, 3) }],
    sources: nodes.map((node) => ({ node, loss: next(0, 300) })),
    coolantReference,
    passages: Array.from({ length: passageCount }, (_, p) => ({
      id: `p${p}`,
      feeds: [
        p === 0 ? { temperature: inlet, heatCapacityRate: rate } : { passage: `p${p - 1}`, heatCapacityRate: rate },
      ],
      cools: [
        { node: any(), conductance: next(1, 40) },
        { node: any(), conductance: next(1, 40) },
      ],
    })),
  }
}

/** Second method: a dense system for the same balances, written from the definitions, node temperatures then outlets. */
function denseTemperatures(network: ThermalNetwork): Record<string, number> {
  const { nodes, links = [], sinks = [], sources = [], passages = [], coolantReference = 'mean' } = network
  const n = nodes.length + passages.length
  const a = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0))
  const at = (name: string) =>
    nodes.includes(name) ? nodes.indexOf(name) : nodes.length + passages.findIndex(({ id }) => id === name)
  for (const { a: i, b: j, conductance: g } of links) {
    if (i === j) continue
    a[at(i)]![at(i)]! += g
    a[at(j)]![at(j)]! += g
    a[at(i)]![at(j)]! -= g
    a[at(j)]![at(i)]! -= g
  }
  for (const { node, temperature, conductance } of sinks) {
    a[at(node)]![at(node)]! += conductance
    a[at(node)]![n]! += conductance * temperature
  }
  for (const { node, loss } of sources) a[at(node)]![n]! += loss
  for (const [p, { id, feeds, cools }] of passages.entries()) {
    const feed = feeds[0]!
    const inlet = new Array<number>(n + 1).fill(0)
    if ('passage' in feed) inlet[at(feed.passage)] = 1
    else inlet[n] = -feed.temperature
    const local = inlet.map((v) => (coolantReference === 'inlet' ? v : v / 2))
    if (coolantReference === 'mean') local[at(id)]! += 0.5
    const row = a[nodes.length + p]!
    row[at(id)]! += feed.heatCapacityRate
    for (let k = 0; k <= n; k++) row[k]! -= feed.heatCapacityRate * inlet[k]!
    for (const { node, conductance } of cools) {
      a[at(node)]![at(node)]! += conductance
      row[at(node)]! -= conductance
      for (let k = 0; k <= n; k++) {
        a[at(node)]![k]! -= conductance * local[k]!
        row[k]! += conductance * local[k]!
      }
    }
  }
  const x = eliminate(a)
  return Object.fromEntries([...nodes, ...passages.map(({ id }) => id)].map((name, i) => [name, x[i]!]))
}

function eliminate(a: number[][]): number[] {
  const n = a.length
  for (let c = 0; c < n; c++) {
    const p = a.reduce((best, row, i) => (i >= c && Math.abs(row[c]!) > Math.abs(a[best]![c]!) ? i : best), c)
    ;[a[c], a[p]] = [a[p]!, a[c]!]
    for (let i = 0; i < n; i++) {
      if (i === c) continue
      const factor = a[i]![c]! / a[c]![c]!
      for (let j = c; j <= n; j++) a[i]![j]! -= factor * a[c]![j]!
    }
  }
  return a.map((row, i) => row[n]! / row[i]!)
}

describe('solveNetwork', () => {
  it('agrees with dense elimination of the written-out balances', () => {
    fc.assert(
      fc.property(draws, fc.constantFrom('inlet' as const, 'mean' as const), (list, reference) => {
        const network = randomNetwork(list, reference)
        const [state, dense] = [settle(network), denseTemperatures(network)]
        const hottest = Math.max(...Object.values(dense))
        const nodes = network.nodes.every((node) => near(state.temperatures[node]!, dense[node]!, hottest))
        return nodes && Object.entries(state.passages).every(([id, { outlet }]) => near(outlet, dense[id]!, hottest))
      }),
    )
  })

  it('accounts for all heat to 1e-9, and node by node', () => {
    fc.assert(
      fc.property(draws, (list) => {
        const network = randomNetwork(list)
        const { ledger, passages } = settle(network)
        const perPassage = Object.values(passages).every(
          ({ heat, from }) => Math.abs(heat - from.reduce((a, b) => a + b, 0)) < 1e-9 * (1 + Math.abs(heat)),
        )
        return Math.abs(ledger.unaccounted) < 1e-9 && perPassage
      }),
    )
  })

  it('superposes: rises of two loads add', () => {
    fc.assert(
      fc.property(draws, (list) => {
        const network = randomNetwork(list)
        const [first] = network.nodes
        const load = (scale: (node: string) => number) =>
          settle({ ...network, sources: network.sources!.map((s) => ({ ...s, loss: s.loss * scale(s.node) })) })
            .temperatures
        const [none, one, rest, all] = [
          load(() => 0),
          load((n) => (n === first ? 1 : 0)),
          load((n) => (n === first ? 0 : 1)),
          load(() => 1),
        ]
        return network.nodes.every((n) => near(one[n]! + rest[n]!, none[n]! + all[n]!, Math.max(...Object.values(all))))
      }),
    )
  })

  it('is reciprocal without coolant: a watt here warms there as a watt there warms here', () => {
    fc.assert(
      fc.property(draws, (list) => {
        const network = { ...randomNetwork(list), passages: [] }
        const [a, b] = [network.nodes[0]!, network.nodes.at(-1)!]
        const rise = (from: string, to: string) =>
          settle({ ...network, sources: [{ node: from, loss: 1000 }] }).temperatures[to]! -
          settle({ ...network, sources: [] }).temperatures[to]!
        return Math.abs(rise(a, b) / rise(b, a) - 1) < 1e-8
      }),
    )
  })

  it('never heats a junction with more coolant, when the coolant comes in below all else', () => {
    fc.assert(
      fc.property(draws, fc.constantFrom('inlet' as const, 'mean' as const), (list, reference) => {
        const network = randomNetwork(list, reference)
        const flow = (scale: number) =>
          settle({
            ...network,
            sinks: network.sinks!.map((sink) => ({ ...sink, temperature: 350 })),
            passages: network.passages!.map((p) => ({
              ...p,
              feeds: p.feeds.map((f) => ({ ...f, heatCapacityRate: scale * f.heatCapacityRate })),
            })),
          }).temperatures
        const [slow, fast] = [flow(1), flow(1.3)]
        return network.nodes.every((n) => fast[n]! <= slow[n]! + 1e-9)
      }),
    )
  })

  it('never cools a source by weakening the only way out of it', () => {
    const at = (conductance: number) =>
      settle({
        nodes: ['die', 'plate'],
        links: [{ a: 'die', b: 'plate', conductance }],
        sinks: [{ id: 'air', node: 'plate', temperature: 300, conductance: 5 }],
        sources: [{ node: 'die', loss: 100 }],
      }).temperatures.die!
    expect(at(2)).toBeGreaterThan(at(3))
    expect(at(1e9)).toBeCloseTo(320, 6)
  })

  it('lets coolant warm along stages that all add heat, and mix by flow where streams join', () => {
    const state = settle({
      nodes: ['a', 'b', 'c'],
      sources: ['a', 'b', 'c'].map((node) => ({ node, loss: 900 })),
      passages: [
        {
          id: 'left',
          feeds: [{ temperature: 338.15, heatCapacityRate: 248 }],
          cools: [{ node: 'a', conductance: 10 }],
        },
        {
          id: 'right',
          feeds: [{ temperature: 338.15, heatCapacityRate: 152 }],
          cools: [{ node: 'b', conductance: 10 }],
        },
        {
          id: 'join',
          feeds: [
            { passage: 'left', heatCapacityRate: 248 },
            { passage: 'right', heatCapacityRate: 152 },
          ],
          cools: [{ node: 'c', conductance: 10 }],
        },
      ],
    })
    expect(state.passages.join!.inlet).toBeCloseTo(338.15 + 1800 / 400, 9)
    expect(state.passages.join!.outlet).toBeCloseTo(338.15 + 2700 / 400, 9)
    // Branch outlets 338.15 + 900/248 and + 900/152; the plain mean of them would be 0.275 K too high.
    expect(state.passages.left!.outlet).toBeCloseTo(338.15 + 900 / 248, 9)
  })

  it('lets heat flow from a warm coolant into a cold part', () => {
    const state = settle({
      nodes: ['part'],
      sources: [{ node: 'part', loss: 5 }],
      sinks: [
        { id: 'cold', node: 'part', temperature: 333.15, conductance: 5 },
        { id: 'warm', node: 'part', temperature: 343.15, conductance: 1 / 0.3 },
      ],
    })
    expect(state.temperatures.part).toBeCloseTo(64.6 + 273.15, 9)
    expect(state.sinkHeats.warm).toBeCloseTo(-18, 9)
  })

  it('solves five thousand nodes in a chain, a star and a sheet', () => {
    const nodes = Array.from({ length: 5000 }, (_, i) => `n${i}`)
    const sinks = [{ id: 'end', node: 'n0', temperature: 300, conductance: 1 }]
    const chain = settle({
      nodes,
      sinks,
      links: nodes.slice(1).map((b, i) => ({ a: nodes[i]!, b, conductance: 1 })),
      sources: [{ node: 'n4999', loss: 1 }],
    })
    expect(chain.temperatures.n4999).toBeCloseTo(300 + 5000, 5)
    const star = settle({
      nodes,
      sinks,
      links: nodes.slice(1).map((b) => ({ a: 'n0', b, conductance: 2 })),
      sources: nodes.slice(1).map((node) => ({ node, loss: 1 })),
    })
    expect(star.temperatures.n77).toBeCloseTo(300 + 4999 + 0.5, 6)
    const width = 70
    const sheet = nodes.slice(0, width * width)
    const links = sheet.flatMap((a, i) => [
      ...(i % width < width - 1 ? [{ a, b: sheet[i + 1]!, conductance: 3 }] : []),
      ...(i + width < sheet.length ? [{ a, b: sheet[i + width]!, conductance: 3 }] : []),
    ])
    const even = settle({
      nodes: sheet,
      links,
      sinks: sheet.map((node) => ({ id: node, node, temperature: 300, conductance: 0.5 })),
      sources: sheet.map((node) => ({ node, loss: 2 })),
    })
    expect(even.temperatures.n2500).toBeCloseTo(304, 9)
    expect(Math.abs(even.ledger.unaccounted)).toBeLessThan(1e-9)
  })

  it('refuses what cannot be: unknown or repeated names, a node without a way out, coolant from nowhere', () => {
    const one = { nodes: ['a'], sinks: [{ id: 's', node: 'a', temperature: 300, conductance: 1 }] }
    expect(() => solveNetwork({ ...one, nodes: ['a', 'a'] })).toThrow(DomainError)
    expect(() => solveNetwork({ ...one, sources: [{ node: 'b', loss: 1 }] })).toThrow(/one of a/)
    expect(() => solveNetwork({ ...one, nodes: ['a', 'b'] })).toThrow(/nowhere to go/)
    const passage = (heatCapacityRate: number, drawn: number): ThermalNetwork => ({
      ...one,
      passages: [
        { id: 'p', feeds: [{ temperature: 300, heatCapacityRate }], cools: [] },
        { id: 'q', feeds: [{ passage: 'p', heatCapacityRate: drawn }], cools: [{ node: 'a', conductance: 1 }] },
      ],
    })
    expect(() => solveNetwork(passage(100, 150))).toThrow(/drawn from p/)
    expect(solveNetwork(passage(100, 60)).stable).toBe(true)
    expect(() => solveNetwork(passage(0, 60))).toThrow(DomainError)
  })
})

describe('losses that depend on temperature', () => {
  const base = { nodes: ['die'], sinks: [{ id: 'coolant', node: 'die', temperature: 343.15, conductance: 2.5 }] }

  it('settles a linear loss at the closed form, with its loop gain', () => {
    // T = (T_c + R P₀ (1 − a T₀))/(1 − R P₀ a), exact.
    const state = solveNetwork({ ...base, sources: [{ node: 'die', loss: 310, slope: 0.004, reference: 298.15 }] })
    const exact = 343.15 + (0.4 * 310 * (1 + 0.004 * 45)) / (1 - 0.4 * 310 * 0.004)
    if (!state.stable) throw new Error('stable was expected')
    expect(state.temperatures.die).toBeCloseTo(exact, 9)
    expect(state.loopGain).toBeCloseTo(0.4 * 310 * 0.004, 10)
    expect(state.losses.die).toBeCloseTo((exact - 343.15) * 2.5, 8)
  })

  it('takes the lower root of an exponential loss', () => {
    // Lambert function, both branches: 130.606737 °C stable, 233.365 °C unstable.
    const state = solveNetwork({
      ...base,
      sources: [{ node: 'die', loss: 150, leak: 4, leakReference: 423.15, leakScale: 20 }],
    })
    expect(state.stable && state.temperatures.die! - 273.15).toBeCloseTo(130.606737212, 7)
  })

  it('answers a runaway without any temperature', () => {
    const linear = solveNetwork({ ...base, sources: [{ node: 'die', loss: 520, slope: 0.0075, reference: 298.15 }] })
    expect(linear).toEqual({ stable: false, loopGain: expect.closeTo(0.4 * 520 * 0.0075, 8) })
    const exponential = solveNetwork({
      ...base,
      sources: [{ node: 'die', loss: 150, leak: 40, leakReference: 398.15, leakScale: 18 }],
    })
    expect(exponential.stable).toBe(false)
    expect(exponential.loopGain).toBeGreaterThanOrEqual(1)
  })

  it('is stable exactly when the resistance is below the critical one', () => {
    // Critical resistance of this loss: 0.66832290016 K/W, from the tangent condition.
    const at = (resistance: number) =>
      solveNetwork({
        nodes: ['die'],
        sinks: [{ id: 'c', node: 'die', temperature: 343.15, conductance: 1 / resistance }],
        sources: [{ node: 'die', loss: 150, leak: 4, leakReference: 423.15, leakScale: 20 }],
      }).stable
    expect(at(0.6683)).toBe(true)
    expect(at(0.6684)).toBe(false)
  })

  it('finds a runaway that only the coupling of two dies makes', () => {
    // Alone, a die would run away at a slope of 1/(0.6 × 100) = 0.0167 per kelvin; the other one lowers that to 0.0091.
    const pair = (slope: number): ThermalNetwork => ({
      nodes: ['a', 'b', 'plate'],
      links: [
        { a: 'a', b: 'plate', conductance: 10 },
        { a: 'b', b: 'plate', conductance: 10 },
      ],
      sinks: [{ id: 'coolant', node: 'plate', temperature: 340, conductance: 2 }],
      sources: ['a', 'b'].map((node) => ({ node, loss: 100, slope, reference: 340 })),
    })
    // Resistance matrix own 0.6, mutual 0.5: eigenvalue 1.1 for both together.
    expect(solveNetwork(pair(0.009)).loopGain).toBeCloseTo(1.1 * 0.9, 8)
    expect(solveNetwork(pair(0.009)).stable).toBe(true)
    expect(solveNetwork(pair(0.0095)).stable).toBe(false)
  })

  it('takes a loss that falls with temperature as a help, not as gain', () => {
    const state = solveNetwork({ ...base, sources: [{ node: 'die', loss: 300, slope: -0.02, reference: 343.15 }] })
    expect(state.loopGain).toBe(0)
    expect(state.stable && state.temperatures.die).toBeCloseTo(343.15 + 120 / (1 + 2.4), 8)
  })
})

describe('networkByNumbers', () => {
  it('is the same solve by numbers', () => {
    const found = networkByNumbers({
      losses: [260, 190, 0],
      linkFrom: [1, 2],
      linkTo: [3, 3],
      linkResistances: [0.11, 0.14],
      inletTemperature: 338.15,
      heatCapacityRate: 480,
      passageCount: 1,
      cooledNodes: [3],
      coolingPassages: [1],
      coolingResistances: [0.05],
    })
    expect(found.passageOutlets[0]).toBeCloseTo(338.15 + 450 / 480, 9)
    expect(found.temperatures[2]).toBeCloseTo(338.15 + 450 / 960 + 22.5, 9)
    expect(found.temperatures[0]).toBeCloseTo(found.temperatures[2]! + 28.6, 9)
  })

  it('refuses a passage that is not there and lists of unequal length', () => {
    expect(() =>
      networkByNumbers({ losses: [1], cooledNodes: [1], coolingPassages: [1], coolingResistances: [1] }),
    ).toThrow(/passageCount/)
    expect(() =>
      networkByNumbers({ losses: [1], sinkNodes: [1], sinkTemperatures: [300], sinkResistances: [] }),
    ).toThrow(DomainError)
  })
})
