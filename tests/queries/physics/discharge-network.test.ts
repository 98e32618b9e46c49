import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type DischargeNetworkInputs,
  dischargeNetwork,
  dischargeNetworkMethod,
} from '../../../queries/physics/discharge-network.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const ends = { plusRail: '+', minusRail: '-', startVoltage: 800, endVoltage: 60 }
const cap = (from: string, to: string, capacitance: number) => ({ from, to, capacitance })
const res = (from: string, to: string, resistance: number) => ({ from, to, resistance })
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Two sections, each with its balancing resistor, on a shared middle net. */
const sections = (...[c1, c2, r1, r2]: readonly [number, number, number, number]): DischargeNetworkInputs => ({
  capacitors: [cap('+', 'm', c1), cap('m', '-', c2)],
  resistors: [res('+', 'm', r1), res('m', '-', r2)],
  ...ends,
})

describe('two sections on a shared middle net', () => {
  // 33 kΩ · 200 µF = 6.6 s and 33 kΩ · 100 µF = 3.3 s, each section on its own; x = exp(−t/6.6 s):
  const unequal = dischargeNetwork(sections(200e-6, 100e-6, 33e3, 33e3))

  it('from rest: 400 x + 400 x² = 60', () => {
    const x = (-400 + Math.sqrt(400 ** 2 + 4 * 400 * 60)) / 800
    expect(unequal.fromRest).toBeCloseTo(-6.6 * Math.log(x), 10) // 13.342 s, where R C of the whole says 11.40 s
    expect(unequal.time).toBe(unequal.fromRest)
  })

  it('right after a quick charge: 266.7 x + 533.3 x² = 60', () => {
    const [a, b] = [1600 / 3, 800 / 3]
    const x = (-b + Math.sqrt(b ** 2 + 4 * a * 60)) / (2 * a)
    expect(unequal.fromQuickCharge).toBeCloseTo(-6.6 * Math.log(x), 10)
  })

  it('never falls sooner than equivalent R times equivalent C says, and as soon where both sections are alike', () => {
    const value = fc.tuple(between(1e-6, 1e-3), between(1e-6, 1e-3), between(1e3, 1e6), between(1e3, 1e6))
    fc.assert(
      fc.property(value, ([c1, c2, r1, r2]) => {
        const whole = (r1 + r2) * (1 / (1 / c1 + 1 / c2)) * Math.log(800 / 60)
        return dischargeNetwork(sections(c1, c2, r1, r2)).time > whole * (1 - 1e-9)
      }),
    )
    fc.assert(
      fc.property(value, ([c1, , r1, r2]) => {
        const { fromRest, fromQuickCharge } = dischargeNetwork(sections(c1, (c1 * r1) / r2, r1, r2))
        const whole = r1 * c1 * Math.log(800 / 60)
        return Math.abs(fromRest / whole - 1) < 1e-12 && Math.abs(fromQuickCharge / whole - 1) < 1e-12
      }),
    )
  })
})

describe('one time constant', () => {
  it('R C ln(U/60 V), the textbook’s, whatever the values', () => {
    fc.assert(
      fc.property(between(1e-9, 1e-1), between(1e-1, 1e8), (c, r) => {
        const { time } = dischargeNetwork({ ...ends, capacitors: [cap('+', '-', c)], resistors: [res('+', '-', r)] })
        return Math.abs(time / (r * c * Math.log(800 / 60)) - 1) < 1e-12
      }),
    )
  })

  it('a string that nothing balances falls as its capacitance, the middle by division', () => {
    const { time, everywhere } = dischargeNetwork({
      ...ends,
      capacitors: [cap('+', 'm', 200e-6), cap('m', '-', 100e-6)],
      resistors: [res('+', '-', 33e3)],
    })
    expect(time).toBeCloseTo(33e3 * (200e-6 / 3) * Math.log(800 / 60), 10)
    expect(everywhere).toBeCloseTo(time, 10)
  })

  it('is zero where the rails never rise above the end voltage', () => {
    expect(dischargeNetwork({ ...sections(1e-6, 1e-6, 1e3, 1e3), startVoltage: 50 }).time).toBe(0)
  })
})

describe('inner nets', () => {
  it('a dump resistor takes the rails down and leaves the sections charged', () => {
    // The rails fall within 20 ms; then both sections carry ±v, through 33 kΩ ∥ 33 kΩ on 300 µF: 4.95 s.
    const string = sections(200e-6, 100e-6, 33e3, 33e3)
    const found = dischargeNetwork({ ...string, resistors: [...string.resistors, res('+', '-', 100)] })
    expect(found.time).toBeLessThan(0.02)
    // From rest ±400 V are left with charge 400 V · (200 − 100) µF = 40 mC on 300 µF: 133.3 V.
    expect(found.everywhere).toBeCloseTo(4.95 * Math.log(400 / 3 / 60), 1)
  })

  it('a net that only capacitors reach carries no charge, and is at zero when all else is', () => {
    // At rest + and m are at 800 V and n divides by capacitance, 400 V; m follows + through its resistor.
    const { everywhere, time } = dischargeNetwork({
      ...ends,
      capacitors: [cap('+', 'm', 30e-6), cap('m', 'n', 30e-6), cap('n', '-', 30e-6), cap('+', '-', 1e-6)],
      resistors: [res('+', 'm', 1e5), res('+', '-', 1e5)],
    })
    expect(everywhere).toBeGreaterThan(time)
    expect(everywhere).toBeLessThan(1e5 * 60e-6 * Math.log(800 / 60))
  })

  it('a net that only resistors reach changes nothing but their sum', () => {
    const one = dischargeNetwork({ ...ends, capacitors: [cap('+', '-', 1e-4)], resistors: [res('+', '-', 5e4)] })
    const split = [res('+', 'x', 2e4), res('x', '-', 3e4), res('x', 'loose', 1e3)]
    const two = dischargeNetwork({ ...ends, capacitors: [cap('+', '-', 1e-4)], resistors: split })
    expect(two.time).toBeCloseTo(one.time, 10)
  })

  it('what does not hang together with the rails is left out', () => {
    const link = { ...ends, capacitors: [cap('+', '-', 1e-4)], resistors: [res('+', '-', 5e4)] }
    const more = {
      ...link,
      capacitors: [...link.capacitors, cap('a', 'b', 1)],
      resistors: [...link.resistors, res('a', 'b', 1e9)],
    }
    expect(dischargeNetwork(more)).toEqual(dischargeNetwork(link))
  })

  it('a closed contact is the limit of a small resistance, beside rates many decades slower', () => {
    const at = (contact: number) =>
      dischargeNetwork({
        ...ends,
        capacitors: [cap('+', '-', 500e-6), cap('x', '-', 10e-9)],
        resistors: [res('+', 'x', 100), res('x', '-', contact), res('+', '-', 1e6)],
      }).time
    expect(at(0)).toBeCloseTo((500e-6 / (1 / 100 + 1e-6)) * Math.log(800 / 60), 12)
    expect(Math.abs(at(1e-6) / at(0) - 1)).toBeLessThan(2e-8)
  })
})

describe('any network', () => {
  const node = fc.constantFrom('+', '-', 'a', 'b', 'c', 'd')
  const network = fc
    .tuple(
      fc.array(fc.tuple(node, node, between(1e-6, 1e-4)), { maxLength: 6 }),
      fc.array(fc.tuple(node, node, between(1e3, 1e5)), { maxLength: 6 }),
    )
    .map(([caps, resistors]) => ({
      ...ends,
      capacitors: [cap('+', '-', 1e-5), ...caps.map(([from, to, value]) => cap(from, to, value))],
      resistors: [res('+', '-', 1e5), ...resistors.map(([from, to, value]) => res(from, to, value))],
    }))

  it('agrees with small implicit steps in time', () => {
    // Second method: trapezoidal steps of the same node equations, from the same start, after 1000 times the step.
    fc.assert(
      fc.property(network, (inputs) => {
        const { fromQuickCharge } = dischargeNetwork(inputs)
        const stepped = steppedRail(inputs, fromQuickCharge)
        return Math.abs(stepped - 60) < 0.02
      }),
      { numRuns: 60 },
    )
  })

  it('times scale with resistance and with capacitance', () => {
    fc.assert(
      fc.property(network, (inputs) => {
        const { time, fromRest } = dischargeNetwork(inputs)
        const slower = {
          ...inputs,
          resistors: inputs.resistors.map((one) => ({ ...one, resistance: one.resistance * 8 })),
        }
        const larger = {
          ...inputs,
          capacitors: inputs.capacitors.map((one) => ({ ...one, capacitance: one.capacitance * 8 })),
        }
        return [dischargeNetwork(slower), dischargeNetwork(larger)].every(
          (found) => Math.abs(found.time / time / 8 - 1) < 1e-9 && Math.abs(found.fromRest / fromRest / 8 - 1) < 1e-9,
        )
      }),
    )
  })
})

/** Rail voltage after a quick charge and a time, by 4000 steps; inner nodes get 1 pF so that all have a state. */
function steppedRail({ capacitors, resistors }: DischargeNetworkInputs, time: number): number {
  const names = ['+', 'a', 'b', 'c', 'd']
  const [c, g] = [
    stamp(
      names,
      capacitors.map((one) => ({ ...one, value: one.capacitance })),
      1e-12,
    ),
    stamp(
      names,
      resistors.map((one) => ({ ...one, value: 1 / one.resistance })),
      1e-15,
    ),
  ]
  // Quick charge: capacitors alone set the inner nodes, with the plus rail at 800 V.
  const inner = solve(
    c.slice(1).map((row, i) => row.slice(1).map((one, j) => one + 1e-9 * g[i + 1]![j + 1]!)),
    c.slice(1).map((row) => -row[0]! * 800),
  )
  let v = [800, ...inner]
  // Backward steps first damp what is fast; the error of the rest is second order.
  const steps = 4000
  const h = time / steps
  for (let k = 0; k < steps; k++) {
    const theta = k < 4 ? 1 : 0.5
    const left = c.map((row, i) => row.map((one, j) => one / h + theta * g[i]![j]!))
    const right = c.map((row, i) => row.reduce((sum, one, j) => sum + (one / h - (1 - theta) * g[i]![j]!) * v[j]!, 0))
    v = solve(left, right)
  }
  return v[0]!
}

function stamp(
  names: readonly string[],
  branches: readonly { from: string; to: string; value: number }[],
  least: number,
) {
  const matrix = names.map((_, i) => names.map((__, j) => (i === j ? least : 0)))
  for (const { from, to, value } of branches) {
    if (from === to) continue
    const [a, b] = [names.indexOf(from), names.indexOf(to)]
    for (const one of [a, b]) if (one >= 0) matrix[one]![one]! += value
    if (a < 0 || b < 0) continue
    matrix[a]![b]! -= value
    matrix[b]![a]! -= value
  }
  return matrix
}

/** Gaussian elimination with pivoting. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i]!])
  const n = rows.length
  for (let k = 0; k < n; k++) {
    const best = rows.slice(k).reduce((at, row, i) => (Math.abs(row[k]!) > Math.abs(rows[at]![k]!) ? k + i : at), k)
    ;[rows[k], rows[best]] = [rows[best]!, rows[k]!]
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const factor = rows[i]![k]! / rows[k]![k]!
      rows[i] = rows[i]!.map((one, j) => one - factor * rows[k]![j]!)
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!)
}

describe('what cannot be', () => {
  const link = sections(1e-6, 1e-6, 1e3, 1e3)
  const refused = (change: Partial<DischargeNetworkInputs>) => {
    try {
      return dischargeNetwork({ ...link, ...change })
    } catch (error) {
      if (error instanceof DomainError) return error.argument
      throw error
    }
  }

  it('names what is wrong', () => {
    expect(refused({ resistors: [res('+', 'm', 1)] })).toBe('resistors')
    expect(refused({ capacitors: [cap('+', 'm', 1)] })).toBe('capacitors')
    expect(refused({ capacitors: [cap('+', '-', 0)] })).toBe('capacitance')
    expect(refused({ resistors: [res('+', '-', -1)] })).toBe('resistance')
    expect(refused({ resistors: [res('+', '-', 0)] })).toBe('minusRail')
    expect(refused({ minusRail: '+' })).toBe('minusRail')
    expect(refused({ endVoltage: 0 })).toBe('endVoltage')
    expect(refused({ startVoltage: Number.NaN })).toBe('startVoltage')
  })

  it('the calculator takes nodes by number and counts them', () => {
    const numbers = {
      capacitorFrom: [1, 2],
      capacitorTo: [2, 0],
      capacitance: [200e-6, 100e-6],
      resistorFrom: [1, 2],
      resistorTo: [2, 0],
      resistance: [33e3, 33e3],
      ...{ plusRail: 1, minusRail: 0, startVoltage: 800, endVoltage: 60 },
    }
    expect(dischargeNetworkMethod.compute(numbers).time).toBeCloseTo(13.342, 3)
    expect(() => dischargeNetworkMethod.compute({ ...numbers, resistorTo: [2] })).toThrow(DomainError)
  })
})
