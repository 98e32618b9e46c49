import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { asPath } from '../../../../graph/quantity/quantity.ts'
import { heatNetwork } from '../../../../queries/figures/heat/network.ts'
import { type OpenNetwork, settle } from '../../../../queries/figures/heat/settle.ts'
import { heatTopology } from '../../../../queries/figures/heat/topology.ts'
import { figureById } from '../../../../queries/figures/registry.ts'
import { heatLedger, ledgerLines } from '../../../../queries/heat-ledger.ts'
import { sessionOf } from '../../../fixtures/drive.ts'
import { atTaken, die, heatSession } from '../../../fixtures/heat.ts'

const solves = vi.hoisted(() => ({ count: 0 }))
vi.mock('../../../../queries/physics/thermal-network.ts', async (original) => {
  const real = await original<typeof import('../../../../queries/physics/thermal-network.ts')>()
  return {
    ...real,
    solveNetwork: (network: Parameters<typeof real.solveNetwork>[0]) => {
      solves.count++
      return real.solveNetwork(network)
    },
  }
})

const seeds = new URL('../../../../seeds/', import.meta.url)
const names = readdirSync(seeds).filter((name) => name.endsWith('.yaml') && name !== 'targets.yaml')
const seed = (name: string) => sessionOf(readFileSync(new URL(name, seeds), 'utf8'))

/** Ladder from a die to the frame with a branch to the air: resistances in K/W. */
interface Ladder {
  readonly down: readonly number[]
  readonly up: number
  readonly loss: number
}
const positive = fc.double({ min: 0.01, max: 5, noNaN: true })
const ladders = fc.record({
  down: fc.array(positive, { minLength: 1, maxLength: 4 }),
  up: positive,
  loss: fc.double({ min: 1, max: 300, noNaN: true }),
})

/** Every rung ends on a face of the block, from which the next one starts; the air is reached from the first. */
function session({ down, up, loss }: Ladder, air = 40, frame = 60) {
  const faces = down.slice(0, -1).map((_, n) => `f${n}: {}`)
  const at = (n: number): string => (n === 0 ? 'die' : `block/f${n - 1}`)
  const rungs = down.map(
    (resistance, n) =>
      `  - { id: r${n}, from: ${at(n)}, to: ${n === down.length - 1 ? 'frame' : at(n + 1)}, resistance: ${resistance} K/W }`,
  )
  return heatSession({
    parts: `${die('die', '', `${loss} W`)}\n  - { id: block, class: heat-spreader${faces.length > 0 ? `, faces: { ${faces.join(', ')} }` : ''} }`,
    heat: `${rungs.join('\n')}\n  - { id: up, from: ${at(Math.min(1, down.length - 1))}, to: ambient, resistance: ${up} K/W }`,
    ambient: `{ air: ${air} °C, frame: ${frame} °C }`,
  })
}

/** Second method: Gaussian elimination on the full matrix of the same ladder, written for this test alone. */
function dense({ down, up, loss }: Ladder, air = 40, frame = 60): number {
  const n = down.length
  const rows = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0))
  const link = (a: number, b: number | null, conductance: number, fixed = 0): void => {
    rows[a]![a]! += conductance
    if (b === null) rows[a]![n]! += conductance * fixed
    else {
      rows[b]![b]! += conductance
      rows[a]![b]! -= conductance
      rows[b]![a]! -= conductance
    }
  }
  for (const [k, resistance] of down.entries()) link(k, k === n - 1 ? null : k + 1, 1 / resistance, frame)
  link(Math.min(1, n - 1), null, 1 / up, air)
  rows[0]![n]! += loss
  for (let k = 0; k < n; k++) {
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const factor = rows[i]![k]! / rows[k]![k]!
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!
    }
  }
  return rows[0]![n]! / rows[0]![0]!
}

const celsius = (sheet: Ladder, air?: number, frame?: number): number =>
  atTaken(session(sheet, air, frame), 'JUNCTION_TEMPERATURE', 'parts/die') - 273.15

describe('the heat network of a sheet', () => {
  it('agrees with elimination on the full matrix', () => {
    fc.assert(
      fc.property(ladders, (ladder) => {
        expect(celsius(ladder)).toBeCloseTo(dense(ladder), 6)
      }),
      { numRuns: 40 },
    )
  })

  it('superposes: twice the loss is twice the rise above what the boundaries alone give', () => {
    fc.assert(
      fc.property(ladders, (ladder) => {
        const idle = dense({ ...ladder, loss: 0 })
        const [once, twice] = [celsius(ladder), celsius({ ...ladder, loss: 2 * ladder.loss })]
        expect(twice - idle).toBeCloseTo(2 * (once - idle), 6)
      }),
      { numRuns: 20 },
    )
  })

  it('never cools a junction by a thicker layer, nor by a warmer frame', () => {
    fc.assert(
      fc.property(ladders, fc.nat(3), fc.double({ min: 1, max: 3, noNaN: true }), (ladder, at, factor) => {
        // Air and frame alike: a way from a boundary warmer than the junction would be one that more resistance cools.
        const hot = { ...ladder, loss: 300 }
        const down = hot.down.map((one, n) => (n === at ? one * factor : one))
        expect(celsius({ ...hot, down }, 40, 40)).toBeGreaterThanOrEqual(celsius(hot, 40, 40) - 1e-9)
        expect(celsius(hot, 40, 80)).toBeGreaterThanOrEqual(celsius(hot, 40, 40) - 1e-9)
      }),
      { numRuns: 20 },
    )
  })

  it('never heats a junction by more flow, whatever the regime', () => {
    const at = (flow: number): number =>
      atTaken(
        heatSession({
          parts: `${die('die')}\n  - { id: block, class: cold-plate, material: aluminium-wrought, faces: { wet: {} } }`,
          heat: '  - { id: down, from: die, to: block/wet, resistance: 0.1 K/W }',
          coolant: `  fluid: ethylene-glycol-water\n  glycol-by-mass: 50 %\n  flow: ${flow} L/min\n  inlet: 65 °C\n  passages:\n    - { id: run, fins: { gaps: 20, gap: 1.2 mm, fin: 0.5 mm, height: 7 mm, length: 66 mm }, cools: [ { face: block/wet } ] }\n  sequence: [inlet, run, outlet]`,
        }),
        'JUNCTION_TEMPERATURE',
        'parts/die',
      )
    const flows = [0.5, 1, 2, 4, 8, 16, 24, 32, 48, 64]
    const temperatures = flows.map(at)
    for (let n = 1; n < flows.length; n++) expect(temperatures[n]!).toBeLessThan(temperatures[n - 1]!)
  })
})

describe('solves of the heat network', () => {
  it('are one for each joined part of the record, however many figures ask', () => {
    const unit = seed('ferry-7-drive.yaml')
    const islands = unit.viewer.record((view) => heatTopology(view).islands).value!
    expect(islands.length).toBe(2) // modules, cans and coolant; chips and lid
    solves.count = 0
    const ask = (): void => {
      for (const id of ['JUNCTION_TEMPERATURE', 'COOLANT_TEMPERATURE', 'HEAT_FLUX'])
        for (const subject of unit.subjects(figureById(id)).paths)
          unit.viewer.record((view) => view.figure(id, subject))
    }
    ask()
    ask()
    expect(solves.count).toBe(islands.length)
  })

  it('are one more for each draw, shared by all who ask under it', () => {
    const unit = seed('ferry-7-drive.yaml')
    const solveAll = () =>
      unit.viewer.record((view) => heatTopology(view).islands.map(({ id }) => view.model(heatNetwork, id)))
    solveAll()
    solves.count = 0
    const draw = { moved: 'all', deviation: () => 1e-3 } as const
    for (const die of ['1', '2', '3'])
      unit.viewer.under(draw, (view) =>
        view.figure('JUNCTION_TEMPERATURE', asPath(`parts/module.v/switch.high/igbt.${die}`)),
      )
    expect(solves.count).toBe(1)
  })
})

describe('the ledger of all heat', () => {
  it.each(names)('of %s closes to 1e-9', (name) => {
    const ledger = heatLedger(seed(name))
    expect(Math.abs(ledger.unaccounted)).toBeLessThan(1e-9)
    // A record of which nothing is known would close as well: all but the one without any loss have watts or name what they lack.
    expect(ledger.given > 0 || ledger.open.length > 0).toBe(name !== 'ferry-8-drive.yaml')
    for (const { loss, to } of ledger.sources) {
      if (to.length > 0) expect(to.reduce((sum, { heat }) => sum + heat, 0) / loss).toBeCloseTo(1, 9)
    }
  })

  it('of ferry 7 shows where every watt goes', () => {
    const { sources, ends, given, open } = heatLedger(seed('ferry-7-drive.yaml'))
    expect(open).toEqual([])
    expect(given).toBeCloseTo(
      sources.reduce((sum, { loss }) => sum + loss, 0),
      6,
    )
    expect(ends.map(({ end }) => end)).toEqual(
      expect.arrayContaining(['coolant/wall-run', 'coolant/upper.u', 'coolant/lower.w', 'ambient/air']),
    )
  })

  it('follows heat through a resistance that is not known to where it ends', () => {
    // 100 W of the die go to the base whatever resists; from there 1 K/W to the frame beside 3 K/W to the air.
    const base = '  - { id: block, class: heat-spreader, faces: { top: {}, side: {} } }'
    const inner = '  - { id: inner, from: die, to: block/top, resistance: not looked for }'
    const one = heatLedger(
      heatSession({
        parts: `${die('die')}\n${base}`,
        heat: `${inner}\n  - { id: out, from: block/top, to: frame, resistance: not looked for }`,
      }),
    )
    expect(one.sources).toEqual([{ piece: 'parts/die', loss: 100, to: [{ end: 'ambient/frame', heat: 100 }] }])
    const two = heatLedger(
      heatSession({
        parts: `${die('die')}\n${base}`,
        heat: `${inner}\n  - { id: down, from: block/top, to: frame, resistance: 1 K/W }\n  - { id: up, from: block/top, to: ambient, resistance: 3 K/W }`,
      }),
    )
    const heat = new Map(two.sources[0]!.to.map((to) => [to.end as string, to.heat]))
    expect(heat.get('ambient/frame')).toBeCloseTo(75, 9)
    expect(heat.get('ambient/air')).toBeCloseTo(25, 9)
    expect(ledgerLines(two)[0]).toBe('parts/die gives 100 W: 75 W to ambient/frame, 25 W to ambient/air')
  })

  it('says so of watts whose end it cannot tell', () => {
    const sources = [{ piece: asPath('parts/die'), loss: 12, to: [] }]
    const [line] = ledgerLines({ sources, ends: [], given: 12, taken: 12, unaccounted: 0, open: [] })
    expect(line).toBe('parts/die gives 12 W: its ways are not known well enough to say where to')
  })

  it('names sources that nothing leads away from, and does not count them', () => {
    const ledger = heatLedger(
      heatSession({
        parts: `${die('die')}\n${die('lost')}`,
        heat: '  - { id: down, from: die, to: frame, resistance: 1 K/W }',
      }),
    )
    expect(ledger.given).toBe(100)
    expect(ledger.open.map(({ piece }) => piece)).toEqual(['parts/lost'])
  })
})

describe('settle: what is not known in one place does not blank the rest', () => {
  const network = (more: Partial<OpenNetwork>): OpenNetwork => ({
    nodes: ['a', 'b', 'c'],
    links: [],
    sinks: [],
    coolings: [],
    sources: [],
    passages: [],
    ...more,
  })
  const air = { id: 'out', sink: 'air', node: 'c', conductance: 1, temperature: 300 }

  it('pushes heat through the only way out, whatever its resistance', () => {
    const { pushed, temperatureGaps, heatGaps } = settle(
      network({
        links: [
          { id: 'ab', a: 'a', b: 'b' },
          { id: 'bc', a: 'b', b: 'c', conductance: 2 },
        ],
        sinks: [air],
        sources: [{ id: 'loss a', node: 'a', loss: 5 }],
      }),
    )
    expect(pushed.get('ab')).toBe(5)
    expect([...temperatureGaps.keys()]).toEqual(['a'])
    expect(heatGaps.size).toBe(0)
  })

  it('stops where heat could part', () => {
    const { pushed, temperatureGaps } = settle(
      network({
        links: [
          { id: 'ab', a: 'a', b: 'b' },
          { id: 'ac', a: 'a', b: 'c' },
          { id: 'bc', a: 'b', b: 'c', conductance: 2 },
        ],
        sinks: [air],
        sources: [{ id: 'loss a', node: 'a', loss: 5 }],
      }),
    )
    expect(pushed.size).toBe(0)
    expect(temperatureGaps.get('c')).toEqual(new Set(['ab', 'ac']))
  })

  it('carries a gap down the coolant and into what it cools, but not up', () => {
    const cooling = (id: string, passage: string, node: string) => ({ id, passage, node, conductance: 1 })
    const feed = (passage: string) => [{ passage, heatCapacityRate: 1 }]
    const { temperatureGaps } = settle(
      network({
        coolings: [cooling('x', 'p1', 'a'), cooling('y', 'p2', 'b'), cooling('z', 'p3', 'c')],
        sources: [
          { id: 'loss a', node: 'a', loss: 1 },
          { id: 'loss b', node: 'b' },
          { id: 'loss c', node: 'c', loss: 1 },
        ],
        passages: [
          { id: 'p1', upstream: [], feeds: [{ temperature: 300, heatCapacityRate: 1 }] },
          { id: 'p2', upstream: ['p1'], feeds: feed('p1') },
          { id: 'p3', upstream: ['p2'], feeds: feed('p2') },
        ],
      }),
    )
    expect([...temperatureGaps.keys()].sort()).toEqual(['b', 'c', 'p2', 'p3'])
    expect(temperatureGaps.get('c')).toEqual(new Set(['loss b']))
  })
})
