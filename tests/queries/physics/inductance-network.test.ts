import { describe, expect, it } from 'vitest'
import type { Bar, Vector } from '../../../queries/physics/bar.ts'
import { mutual, self } from '../../../queries/physics/bar-inductance.ts'
import type { Branch, NetworkInputs, SolvedNetwork } from '../../../queries/physics/inductance-network.ts'
import { solveNetwork } from '../../../queries/physics/inductance-network.ts'

function bar(start: Vector, end: Vector, width = 0.02, thickness = 0.002, flat: Vector = [0, 0, 1]): Bar {
  return { start, end, width, thickness, flat }
}

function solved(inputs: NetworkInputs): SolvedNetwork {
  const answer = solveNetwork(inputs)
  if (!answer.ok) throw new Error(JSON.stringify(answer.fault))
  return answer
}

const onePort = (answer: SolvedNetwork): number => answer.ports[0]?.[0] ?? Number.NaN
const relative = (found: number, expected: number): number => Math.abs(found / expected - 1)

// Go and return bar one over the other, joined at the far end.
const go = bar([0, 0, 0], [0.1, 0, 0])
const back = bar([0.1, 0, 0.0025], [0, 0, 0.0025])
const pair: Branch[] = [
  { id: 'go', from: 'plus', to: 'end', bar: go },
  { id: 'back', from: 'end', to: 'minus', bar: back },
]
const pairPort = [{ id: 'p', from: 'plus', to: 'minus' }]

describe('solveNetwork', () => {
  it('gives self + self + 2 mutual for two bars in series (law)', () => {
    const expected = self(go) + self(back) + 2 * mutual(go, back)
    expect(relative(onePort(solved({ branches: pair, ports: pairPort })), expected)).toBeLessThan(1e-12)
  })

  it('changes nothing when a straight bar is cut in two, within 1e-9', () => {
    // Worst found over the cuts below: 7.1e-12.
    const whole = onePort(solved({ branches: pair, ports: pairPort }))
    for (const cut of [0.001, 0.02, 0.05, 0.0973]) {
      const branches: Branch[] = [
        { id: 'go-1', from: 'plus', to: 'cut', bar: bar([0, 0, 0], [cut, 0, 0]) },
        { id: 'go-2', from: 'cut', to: 'end', bar: bar([cut, 0, 0], [0.1, 0, 0]) },
        ...pair.slice(1),
      ]
      expect(relative(onePort(solved({ branches, ports: pairPort })), whole)).toBeLessThan(1e-9)
    }
  })

  it('divides current over two coupled branches in parallel as the closed form says', () => {
    // Textbook: L = (L1 L2 − M²)/(L1 + L2 − 2M), current of branch 1 (L2 − M)/(L1 + L2 − 2M).
    const [a, b] = [bar([0, 0, 0], [0.1, 0, 0]), bar([0, 0.05, 0], [0.1, 0.05, 0], 0.01)]
    const [la, lb, m] = [self(a), self(b), mutual(a, b)]
    const branches: Branch[] = [
      { id: 'a', from: 'p', to: 'q', bar: a },
      { id: 'b', from: 'p', to: 'q', bar: b },
    ]
    const answer = solved({ branches, ports: [{ id: 'x', from: 'p', to: 'q' }] })
    expect(relative(onePort(answer), (la * lb - m * m) / (la + lb - 2 * m))).toBeLessThan(1e-12)
    expect(relative(answer.currents[0]?.get('a') ?? 0, (lb - m) / (la + lb - 2 * m))).toBeLessThan(1e-12)
    expect([...(answer.shares[0]?.values() ?? [])].reduce((s, x) => s + x, 0)).toBeCloseTo(onePort(answer), 20)
  })

  it('solves lumped ladders like a hand calculation', () => {
    // 10 nH in series with (20 nH parallel to 30 nH = 12 nH) = 22 nH; a short joins its nodes.
    const branches: Branch[] = [
      { id: 'l1', from: 'p', to: 'm', inductance: 10e-9 },
      { id: 'l2', from: 'm', to: 'q', inductance: 20e-9 },
      { id: 'l3', from: 'm', to: 'r', inductance: 30e-9 },
      { id: 'screw', from: 'r', to: 'q', inductance: 0 },
    ]
    const answer = solved({ branches, ports: [{ id: 'x', from: 'p', to: 'q' }] })
    expect(relative(onePort(answer), 22e-9)).toBeLessThan(1e-12)
    expect(answer.currents[0]?.get('l2')).toBeCloseTo(0.6, 12)
    expect(answer.currents[0]?.has('screw')).toBe(false)
  })

  it('gives a symmetric matrix for several ports, and couples stated mutuals', () => {
    const branches: Branch[] = [
      { id: 'l1', from: 'a', to: 'b', inductance: 10e-9 },
      { id: 'l2', from: 'c', to: 'd', inductance: 40e-9 },
    ]
    const ports = [
      { id: 'x', from: 'a', to: 'b' },
      { id: 'y', from: 'c', to: 'd' },
    ]
    const answer = solved({ branches, ports, couplings: [{ first: 'l1', second: 'l2', mutual: 5e-9 }] })
    const expected = [
      [10e-9, 5e-9],
      [5e-9, 40e-9],
    ]
    for (const i of [0, 1]) for (const j of [0, 1]) expect(answer.ports[i]?.[j]).toBeCloseTo(expected[i]?.[j] ?? 0, 20)
  })

  it('lets a short-circuited ring beside a loop lower its inductance by M²/L', () => {
    const branches: Branch[] = [
      { id: 'loop', from: 'p', to: 'q', inductance: 100e-9 },
      { id: 'ring', from: 'r', to: 'r', inductance: 50e-9 },
    ]
    const couplings = [{ first: 'loop', second: 'ring', mutual: 20e-9 }]
    const answer = solved({ branches, ports: [{ id: 'x', from: 'p', to: 'q' }], couplings })
    expect(relative(onePort(answer), 100e-9 - 400e-18 / 50e-9)).toBeLessThan(1e-12)
    expect(answer.floating).toEqual([['r']])
  })

  it('names the pieces when a port is open', () => {
    const answer = solveNetwork({ branches: pair, ports: [{ id: 'p', from: 'plus', to: 'elsewhere' }] })
    expect(answer).toMatchObject({ ok: false, fault: { kind: 'port-open', port: 'p' } })
    if (answer.ok || answer.fault.kind !== 'port-open') throw new Error('expected an open port')
    expect(answer.fault.pieces.map((piece) => [...piece].sort())).toEqual([['end', 'minus', 'plus'], ['elsewhere']])
  })

  it('names the branch where couplings exceed what the selfs allow', () => {
    const branches: Branch[] = [
      { id: 'l1', from: 'a', to: 'b', inductance: 10e-9 },
      { id: 'l2', from: 'a', to: 'b', inductance: 10e-9 },
    ]
    const couplings = [{ first: 'l1', second: 'l2', mutual: 11e-9 }]
    const answer = solveNetwork({ branches, ports: [{ id: 'x', from: 'a', to: 'b' }], couplings })
    expect(answer).toEqual({ ok: false, fault: { kind: 'not-positive', branch: 'l2' } })
  })

  it('refuses a negative inductance and a name used twice', () => {
    const l: Branch = { id: 'l', from: 'a', to: 'b', inductance: -1e-9 }
    expect(() => solveNetwork({ branches: [l], ports: [] })).toThrow(/≥ 0/)
    expect(() => solveNetwork({ branches: [...pair, ...pair], ports: [] })).toThrow(/once each/)
  })

  it('is linear in size: a network twice as large has twice the inductance', () => {
    const twice = (v: Vector): Vector => [2 * v[0], 2 * v[1], 2 * v[2]]
    const doubled = pair.map((branch): Branch => {
      if (!('bar' in branch)) return branch
      const { bar: b } = branch
      return {
        ...branch,
        bar: { ...b, start: twice(b.start), end: twice(b.end), width: 2 * b.width, thickness: 2 * b.thickness },
      }
    })
    const ratio =
      onePort(solved({ branches: doubled, ports: pairPort })) / onePort(solved({ branches: pair, ports: pairPort }))
    expect(relative(ratio, 2)).toBeLessThan(1e-11)
  })
})
