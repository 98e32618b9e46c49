import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  capacitancePerPower,
  capacitorNetwork,
  capacitorNetworkMethod,
  evenBank,
  type PlacedCapacitor,
  seriesString,
} from '../../../queries/physics/capacitor-bank.ts'
import { capacitorShares } from '../../../queries/physics/capacitor-share.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const farads = fc.double({ min: 1e-9, max: 1e-2, noNaN: true })
const rails = { plusRail: '+', minusRail: '-' }
const close = (a: number, b: number, tolerance = 1e-9) =>
  Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b))

describe('network of capacitors between two rails', () => {
  it('adds in parallel and adds reciprocals in series', () => {
    fc.assert(
      fc.property(fc.array(farads, { minLength: 1, maxLength: 6 }), (values) => {
        const parallel = values.map((capacitance) => ({ from: '+', to: '-', capacitance }))
        const node = (i: number) => (i === 0 ? '+' : i === values.length ? '-' : `n${i}`)
        const series = values.map((capacitance, i) => ({ from: node(i), to: node(i + 1), capacitance }))
        const sum = values.reduce((total, one) => total + one, 0)
        const reciprocal = 1 / values.reduce((total, one) => total + 1 / one, 0)
        return (
          close(capacitorNetwork({ capacitors: parallel, ...rails, voltage: 1 }).capacitance, sum) &&
          close(capacitorNetwork({ capacitors: series, ...rails, voltage: 1 }).capacitance, reciprocal)
        )
      }),
    )
  })

  it('agrees with the reduction of random series-parallel trees', () => {
    // Second method: the tree is reduced from its leaves. Worst found: 1e-15, over seven decades of capacitance.
    fc.assert(
      fc.property(tree, (one) => {
        const capacitors: PlacedCapacitor[] = []
        place(one, '+', '-', capacitors)
        return close(capacitorNetwork({ capacitors, ...rails, voltage: 400 }).capacitance, reduced(one))
      }),
    )
  })

  it('agrees with the delta-star transformation of a bridge, which series and parallel cannot reduce', () => {
    fc.assert(
      fc.property(fc.tuple(farads, farads, farads, farads, farads), ([a, b, c, d, e]) => {
        const capacitors = bridge([a, b, c, d, e])
        // Delta (+, m, n) of a, b, e into a star; stiffness of capacitors transforms as conductance does.
        const sum = a * b + b * e + e * a
        const [atPlus, atM, atN] = [sum / e, sum / b, sum / a]
        const [left, right] = [1 / (1 / atM + 1 / c), 1 / (1 / atN + 1 / d)]
        const whole = 1 / (1 / atPlus + 1 / (left + right))
        return close(capacitorNetwork({ capacitors, ...rails, voltage: 1 }).capacitance, whole, 1e-12)
      }),
    )
  })

  it('keeps energy: that of the parts is that of the whole', () => {
    fc.assert(
      fc.property(fc.tuple(farads, farads, farads, farads, farads), (values) => {
        const { energy, energies } = capacitorNetwork({ capacitors: bridge(values), ...rails, voltage: 800 })
        return close(
          energy,
          energies.reduce((sum, one) => sum + one, 0),
          1e-6,
        )
      }),
    )
  })

  it('gives no voltage to a capacitor with an open end, or on neither rail', () => {
    const { capacitance, voltages } = capacitorNetwork({
      capacitors: [
        { from: '+', to: '-', capacitance: 1e-6 },
        { from: '+', to: 'open', capacitance: 1e-6 },
        { from: 'x', to: 'y', capacitance: 1e-6 },
        { from: '+', to: '+', capacitance: 1e-6 },
      ],
      ...rails,
      voltage: 100,
    })
    expect(capacitance).toBeCloseTo(1e-6, 15)
    expect(voltages.map((one) => Math.abs(one))).toEqual([100, 0, 0, 0])
  })

  it('refuses rails that nothing joins, rather than answering zero', () => {
    const capacitors = [{ from: '+', to: 'x', capacitance: 1e-6 }]
    expect(() => capacitorNetwork({ capacitors, ...rails, voltage: 1 })).toThrow(/a path from rail to rail/)
    expect(() => capacitorNetwork({ capacitors, plusRail: '+', minusRail: '+', voltage: 1 })).toThrow(DomainError)
    const uneven = { from: [1, 1], to: [2], capacitance: [1e-6], plusRail: 1, minusRail: 2, voltage: 1 }
    expect(() => capacitorNetworkMethod.compute(uneven)).toThrow(DomainError)
  })
})

describe('bank of equal capacitors', () => {
  it('agrees with the general network', () => {
    const count = fc.integer({ min: 1, max: 5 })
    fc.assert(
      fc.property(count, count, farads, (series, parallel, capacitance) => {
        const capacitors = Array.from({ length: parallel }, (_, p) =>
          Array.from({ length: series }, (_, s) => ({
            from: s === 0 ? '+' : `${p}.${s}`,
            to: s === series - 1 ? '-' : `${p}.${s + 1}`,
            capacitance,
          })),
        ).flat()
        const bank = evenBank({ capacitance, series, parallel, voltage: 700 })
        const network = capacitorNetwork({ capacitors, ...rails, voltage: 700 })
        return (
          close(bank.capacitance, network.capacitance) &&
          close(bank.energy, network.energy) &&
          network.voltages.every((one) => close(one, bank.voltageEach))
        )
      }),
    )
  })

  it('leaves out what was not given, and refuses half a capacitor', () => {
    expect(evenBank({ capacitance: 1e-6, series: 1, parallel: 1, voltage: 1 })).not.toHaveProperty('resistance')
    expect(() => evenBank({ capacitance: 1e-6, series: 1.5, parallel: 1, voltage: 1 })).toThrow(DomainError)
  })

  it('divides by capacitance at once and by resistance at rest', () => {
    const string = seriesString({ capacitance: [3e-4, 1e-4], resistance: [1e4, 3e4], voltage: 400 })
    expect(string.quickVoltages[0]).toBeCloseTo(100, 9)
    expect(string.restingVoltages).toEqual([100, 300])
    expect(seriesString({ capacitance: [3e-4, 1e-4], voltage: 400 })).not.toHaveProperty('restingVoltages')
    expect(() => seriesString({ capacitance: [1e-6], resistance: [1, 2], voltage: 1 })).toThrow(DomainError)
  })

  it('states capacitance and energy by power', () => {
    // Laboratory benchmarking report ORNL/TM-2010/253 as transcribed openly: 888 µF, 60 kW, 650 V.
    const { capacitancePerPower: ratio, energy } = capacitancePerPower({
      capacitance: 888e-6,
      voltage: 650,
      power: 60e3,
    })
    expect(ratio * 1e9).toBeCloseTo(14.8, 9)
    expect(energy).toBeCloseTo(187.59, 9)
  })
})

describe('share of a current between parallel capacitors', () => {
  it('is by capacitance when there is nothing else, at every frequency', () => {
    fc.assert(
      fc.property(farads, farads, fc.double({ min: 1, max: 1e7, noNaN: true }), (a, b, frequency) => {
        const { shares } = capacitorShares({ frequency, capacitance: [a, b] })
        return close(shares[0]!, a / (a + b))
      }),
    )
  })

  it('can exceed the whole between two own resonances', () => {
    // Textbook anti-resonance: a large capacitor already inductive, a small one still capacitive.
    const { shares, resonances } = capacitorShares({
      frequency: 200e3,
      capacitance: [500e-6, 1e-6],
      inductance: [20e-9, 5e-9],
      resistance: [1e-3, 3e-3],
    })
    expect(shares[0]! + shares[1]!).toBeGreaterThan(1)
    expect(resonances[0]).toBeCloseTo(50.33e3, -1)
  })

  it('agrees with the voltage divider by hand for two branches', () => {
    // Second method: real and imaginary parts written out.
    const ohms = fc.double({ min: 1e-4, max: 1, noNaN: true })
    fc.assert(
      fc.property(ohms, ohms, fc.double({ min: 1e3, max: 1e6, noNaN: true }), (r1, r2, frequency) => {
        const x = (c: number, l: number) => 2 * Math.PI * frequency * l - 1 / (2 * Math.PI * frequency * c)
        const [x1, x2] = [x(1e-4, 2e-8), x(3e-5, 1e-8)]
        const byHand = Math.hypot(r2, x2) / Math.hypot(r1 + r2, x1 + x2)
        const inputs = { frequency, capacitance: [1e-4, 3e-5], inductance: [2e-8, 1e-8], resistance: [r1, r2] }
        return close(capacitorShares(inputs).shares[0]!, byHand, 1e-9)
      }),
    )
  })

  it('refuses lists of unequal length', () => {
    expect(() => capacitorShares({ frequency: 1, capacitance: [1e-6], resistance: [1, 2] })).toThrow(DomainError)
  })
})

const bridge = (values: readonly [number, number, number, number, number]): readonly PlacedCapacitor[] => [
  { from: '+', to: 'm', capacitance: values[0] },
  { from: '+', to: 'n', capacitance: values[1] },
  { from: 'm', to: '-', capacitance: values[2] },
  { from: 'n', to: '-', capacitance: values[3] },
  { from: 'm', to: 'n', capacitance: values[4] },
]

type Tree = { kind: 'one'; value: number } | { kind: 'series' | 'parallel'; parts: readonly Tree[] }

const { tree } = fc.letrec<{ tree: Tree }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4 },
    fc.record({ kind: fc.constant('one' as const), value: farads }),
    fc.record({
      kind: fc.constantFrom('series' as const, 'parallel' as const),
      parts: fc.array(tie('tree'), { minLength: 1, maxLength: 3 }),
    }),
  ),
}))

function reduced(one: Tree): number {
  if (one.kind === 'one') return one.value
  if (one.kind === 'parallel') return one.parts.reduce((sum, part) => sum + reduced(part), 0)
  return 1 / one.parts.reduce((sum, part) => sum + 1 / reduced(part), 0)
}

function place(one: Tree, from: string, to: string, into: PlacedCapacitor[], depth = 0): void {
  if (one.kind === 'one') {
    into.push({ from, to, capacitance: one.value })
    return
  }
  let at = from
  one.parts.forEach((part, i) => {
    const next = one.kind === 'parallel' || i === one.parts.length - 1 ? to : `n${into.length}.${depth}.${i}`
    place(part, at, next, into, depth + 1)
    if (one.kind === 'series') at = next
  })
}
