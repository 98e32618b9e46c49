import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mixedTemperature } from '../../../queries/physics/coolant-energy.ts'
import {
  type CoolantTree,
  coolantTree,
  ductPassage,
  powerLawPassage,
  splitFlow,
  treeDrop,
  treeTemperatures,
} from '../../../queries/physics/coolant-network.ts'
import { DomainError } from '../../../queries/physics/method.ts'
import { parallelTubes } from '../../../queries/physics/parallel-ducts.ts'

const fluid = { density: 1037, viscosity: 1.254e-3 }

/** A random tree of real tubes and power laws. */
function randomTree(numbers: readonly number[]): CoolantTree {
  let at = 0
  const next = () => numbers[at++ % numbers.length]!
  const leaf = (): CoolantTree =>
    next() < 0.5
      ? ductPassage({
          id: `t${at}`,
          shape: 'circular',
          diameter: 2e-3 + 6e-3 * next(),
          length: 0.05 + next(),
          minorLoss: 3 * next(),
          ...fluid,
        })
      : powerLawPassage({ id: `q${at}`, factor: 10 ** (11 + 2 * next()), exponent: 1.75 + 0.25 * next() })
  const tree = (depth: number): CoolantTree => {
    if (depth === 0 || next() < 0.25) return leaf()
    const parts = [tree(depth - 1), tree(depth - 1), ...(next() < 0.5 ? [tree(depth - 1)] : [])]
    return depth % 2 === 0 ? { series: parts } : { parallel: parts }
  }
  return tree(3)
}

const numbers = fc.array(fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }), {
  minLength: 30,
  maxLength: 60,
})

/** The laws themselves: flows of branches add to their group's, and every branch has its group's drop. */
function obeysLaws(
  tree: CoolantTree,
  flows: Readonly<Record<string, number>>,
  through: number,
  scale: number,
): boolean {
  if ('series' in tree) return tree.series.every((part) => obeysLaws(part, flows, through, scale))
  if (!('parallel' in tree)) return Math.abs(flows[tree.id]! - through) <= 1e-9 * scale
  const inlets = tree.parallel.map((branch) => entering(branch, flows))
  const drops = tree.parallel.map((branch, i) => treeDrop(branch, inlets[i]!))
  const even = drops.every((drop) => Math.abs(drop / drops[0]! - 1) < 1e-8)
  const adds = Math.abs(inlets.reduce((a, b) => a + b) - through) <= 1e-9 * scale
  return even && adds && tree.parallel.every((branch, i) => obeysLaws(branch, flows, inlets[i]!, scale))
}

function entering(tree: CoolantTree, flows: Readonly<Record<string, number>>): number {
  if ('series' in tree) return entering(tree.series[0]!, flows)
  if ('parallel' in tree) return tree.parallel.reduce((sum, branch) => sum + entering(branch, flows), 0)
  return flows[tree.id]!
}

describe('splitFlow', () => {
  it('shares by the current divider in laminar flow, by the root of conductance in rough flow', () => {
    // Closed form: Q ∝ R^(−1/n).
    for (const exponent of [1, 1.75, 2]) {
      const factors = [1e11, 3e11, 8e11]
      const tree = { parallel: factors.map((factor, i) => powerLawPassage({ id: `${i}`, factor, exponent })) }
      const { flows } = splitFlow({ tree, flow: 2e-4 })
      const weights = factors.map((factor) => factor ** (-1 / exponent))
      const total = weights.reduce((a, b) => a + b)
      for (const [i, weight] of weights.entries())
        expect(flows[`${i}`]! / ((2e-4 * weight) / total) - 1).toBeCloseTo(0, 11)
    }
  })

  it('obeys both laws in random nested networks through every regime', () => {
    fc.assert(
      fc.property(numbers, fc.double({ min: -6, max: -3.3, noNaN: true }), (list, decade) => {
        const tree = randomTree(list)
        const flow = 10 ** decade
        const { flows, pressureDrop } = splitFlow({ tree, flow })
        return obeysLaws(tree, flows, flow, flow) && Math.abs(pressureDrop / treeDrop(tree, flow) - 1) < 1e-9
      }),
      { numRuns: 60 },
    )
  })

  it('drops less with another branch beside, and more with more flow', () => {
    fc.assert(
      fc.property(numbers, fc.double({ min: 1e-6, max: 3e-4, noNaN: true }), (list, flow) => {
        const tree = randomTree(list)
        const aside = powerLawPassage({ id: 'aside', factor: 1e12, exponent: 2 })
        return (
          treeDrop({ parallel: [tree, aside] }, flow) < treeDrop(tree, flow) &&
          treeDrop(tree, 1.1 * flow) > treeDrop(tree, flow)
        )
      }),
      { numRuns: 40 },
    )
  })

  it('reads nested lists as series, parallel, series', () => {
    const p = (id: string) => powerLawPassage({ id, factor: 1e12, exponent: 2 })
    const tree = coolantTree([
      p('wall'),
      [
        [p('u'), p('v')],
        [p('x'), p('y')],
      ],
      p('cap'),
    ])
    const { flows, pressureDrop } = splitFlow({ tree, flow: 2e-4 })
    expect(flows.u).toBeCloseTo(1e-4, 12)
    expect(flows.y).toBeCloseTo(1e-4, 12)
    expect(pressureDrop).toBeCloseTo(1e12 * (2 * 4e-8 + 2 * 1e-8), 6)
  })

  it('refuses an id twice, an empty group and a branch without any resistance', () => {
    const p = powerLawPassage({ id: 'a', factor: 1, exponent: 2 })
    expect(() => splitFlow({ tree: { series: [p, p] }, flow: 1 })).toThrow(DomainError)
    expect(() => coolantTree([])).toThrow(DomainError)
    expect(() => splitFlow({ tree: { parallel: [p, { id: 'b', drop: () => 0 }] }, flow: 1 })).toThrow(/take all/)
  })
})

describe('treeTemperatures', () => {
  it('gives the coolant exactly the heat that went in, whatever the plumbing', () => {
    fc.assert(
      fc.property(numbers, fc.double({ min: 0, max: 900, noNaN: true }), (list, heat) => {
        const tree = randomTree(list)
        const { flows } = splitFlow({ tree, flow: 1.5e-4 })
        const heats = Object.fromEntries(Object.keys(flows).map((id) => [id, heat]))
        const { outletTemperature, stages } = treeTemperatures({
          tree,
          flows,
          heats,
          inletTemperature: 338.15,
          volumetricHeatCapacity: 3.6e6,
        })
        const total = heat * Object.keys(flows).length
        const rises = Object.values(stages).every(({ inlet, outlet }) => outlet >= inlet && inlet >= 338.15 - 1e-9)
        return rises && Math.abs(3.6e6 * 1.5e-4 * (outletTemperature - 338.15) - total) < 1e-8 * (total + 1)
      }),
      { numRuns: 40 },
    )
  })

  it('mixes by flow and not by the plain mean', () => {
    const tree = { parallel: ['a', 'b'].map((id, i) => powerLawPassage({ id, factor: i === 0 ? 1 : 4, exponent: 2 })) }
    const { flows } = splitFlow({ tree, flow: 3 })
    const { outletTemperature, stages } = treeTemperatures({
      tree,
      flows,
      heats: { a: 1, b: 1 },
      inletTemperature: 300,
      volumetricHeatCapacity: 1,
    })
    expect(outletTemperature).toBeCloseTo(300 + 2 / 3, 12)
    expect(outletTemperature).toBeCloseTo(
      mixedTemperature({ temperatures: [stages.a!.outlet, stages.b!.outlet], heatCapacityRates: [2, 1] }),
      12,
    )
  })

  it('refuses heat for a passage that does not exist or does not flow', () => {
    const tree = powerLawPassage({ id: 'a', factor: 1, exponent: 2 })
    const at = (flows: Record<string, number>, heats: Record<string, number>) =>
      treeTemperatures({ tree, flows, heats, inletTemperature: 300, volumetricHeatCapacity: 1 })
    expect(() => at({ a: 1 }, { b: 1 })).toThrow(DomainError)
    expect(() => at({ a: 0 }, { a: 1 })).toThrow(DomainError)
  })
})

describe('parallelTubes', () => {
  it('gives equal tubes equal shares', () => {
    const { shares } = parallelTubes({
      diameters: [8e-3, 8e-3, 8e-3],
      lengths: [0.3, 0.3, 0.3],
      flow: 1e-4,
      density: 1000,
      viscosity: 1e-3,
    })
    for (const share of shares) expect(share).toBeCloseTo(1 / 3, 12)
  })

  it('refuses half a feed tube and lists of unequal length', () => {
    const tubes = { diameters: [8e-3], lengths: [0.3], flow: 1e-4, density: 1000, viscosity: 1e-3 }
    expect(() => parallelTubes({ ...tubes, feedDiameter: 0.01 })).toThrow(DomainError)
    expect(() => parallelTubes({ ...tubes, lengths: [1, 2] })).toThrow(DomainError)
  })
})
