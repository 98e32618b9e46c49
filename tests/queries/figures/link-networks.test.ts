import fc from 'fast-check'
import { Matrix, solve } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { openSession } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { part, record } from '../../fixtures/record.ts'

/** Nets of the link: two rails and three in between. */
const NODES = ['p', 'n', 'm1', 'm2', 'm3'] as const
interface Cap {
  readonly from: number
  readonly to: number
  readonly micro: number
  readonly count: number
}

const cap = fc
  .record({
    from: fc.nat(4),
    to: fc.nat(4),
    micro: fc.integer({ min: 1, max: 900 }),
    count: fc.integer({ min: 1, max: 3 }),
  })
  .filter(({ from, to }) => from !== to)
const network = fc.array(cap, { minLength: 1, maxLength: 9 })

/**
 * Equivalent between the first two nodes: charges by node potentials with one rail at 1 V and the other at 0 (Kirchhoff's
 * current law for the displacement current), solved by a library for dense matrices; undefined where nothing joins them.
 */
function equivalent(caps: readonly Cap[]): number | undefined {
  const joined = new Set([0, 1])
  const grow = (from: number): ReadonlySet<number> => {
    const reached = new Set([from])
    for (let n = 0; n < NODES.length; n++)
      for (const one of caps)
        for (const [a, b] of [
          [one.from, one.to],
          [one.to, one.from],
        ] as const)
          if (reached.has(a)) reached.add(b)
    return reached
  }
  if (!grow(0).has(1)) return undefined
  for (const node of grow(0)) joined.add(node)
  const inner = [...joined].filter((node) => node > 1)
  const between = (a: number, b: number): number =>
    caps
      .filter(({ from, to }) => (from === a && to === b) || (from === b && to === a))
      .reduce((sum, { micro, count }) => sum + micro * count, 0)
  const at = (node: number): number => [...joined].reduce((sum, other) => sum + between(node, other), 0)
  const potential = new Map([
    [0, 1],
    [1, 0],
  ])
  if (inner.length > 0) {
    const matrix = new Matrix(inner.map((a) => inner.map((b) => (a === b ? at(a) : -between(a, b)))))
    const solved = solve(matrix, Matrix.columnVector(inner.map((node) => between(node, 0))))
    for (const [row, node] of inner.entries()) potential.set(node, solved.get(row, 0))
  }
  return [...joined].reduce((sum, node) => sum + between(0, node) * (1 - potential.get(node)!), 0)
}

/** A unit with that bank, a half bridge that says which nets are the rails, and capacitors that are none of the link. */
function linkOf(caps: readonly Cap[]) {
  const film = (one: Cap, n: number) =>
    part(`c${n}`, 'dc-link-film-capacitor', {
      count: String(one.count),
      capacitance: `${one.micro} µF (measured)`,
      terminals: { plus: NODES[one.from]!, minus: NODES[one.to]! },
    })
  const filter = (id: string, net: string, other: string) =>
    part(id, 'y-capacitor', { capacitance: '40 nF (marked)', terminals: { 1: net, 2: other } })
  return openSession(
    record({
      parts: [
        part('module', 'half-bridge-module', { terminals: { 'dc-plus': 'p', 'dc-minus': 'n', ac: 'ph' } }),
        ...caps.map(film),
        filter('y-p', 'p', 'frame-net'),
        filter('y-n', 'n', 'screen'),
        filter('y-m', 'm1', 'low'),
      ],
      nets: {
        p: { potential: 'hv-positive' },
        n: { potential: 'hv-negative' },
        m1: { potential: 'hv-middle' },
        m2: { potential: 'floating' },
        m3: {},
        ph: { potential: 'hv-switching' },
        'frame-net': { potential: 'chassis' },
        screen: { 'tied-to': 'frame-net' },
        low: { potential: 'low-voltage' },
      },
    }),
  )
}

const figure = figureById('LINK_CAPACITANCE')
const SPECIMEN = asPath('specimen')

describe('the capacitance between the rails of any network', () => {
  it('is what node potentials solved by a library give', () => {
    let joined = 0
    fc.assert(
      fc.property(network, (caps) => {
        const expected = equivalent(caps)
        const { value } = linkOf(caps).atTaken(figure, SPECIMEN)
        if (expected === undefined) expect(value).toBeNull()
        else expect(value! / (expected * 1e-6)).toBeCloseTo(1, 9)
        if (expected !== undefined) joined += 1
      }),
      { numRuns: 200 },
    )
    expect(joined).toBeGreaterThan(60)
  })

  it('does not depend on the order of the sheet or on which terminal is called plus', () => {
    fc.assert(
      fc.property(network, (caps) => {
        const turned = caps.toReversed().map(({ from, to, ...rest }) => ({ from: to, to: from, ...rest }))
        const [one, other] = [caps, turned].map((each) => linkOf(each).atTaken(figure, SPECIMEN).value)
        if (one === null) expect(other).toBeNull()
        else expect(other! / one!).toBeCloseTo(1, 12)
      }),
      { numRuns: 60 },
    )
  })
})
