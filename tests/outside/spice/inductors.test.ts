import fc from 'fast-check'
import { expect, it } from 'vitest'
import { asPath } from '../../../graph/quantity/quantity.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import type { Bar, Vector } from '../../../queries/physics/bar.ts'
import { mutual } from '../../../queries/physics/bar-inductance.ts'
import { solveNetwork } from '../../../queries/physics/inductance-network.ts'
import { sessionOf } from './demo-records.ts'
import { describeSimulated, simulate } from './simulator.ts'

const FREQUENCY = 100e6
const OMEGA = 2 * Math.PI * FREQUENCY

interface Coil {
  readonly from: string
  readonly to: string
}

/**
 * Coupled inductors between their nodes, each with an ammeter. Rings of inductors have no steady state, so each has 1 µΩ
 * in series: at 100 MHz and some ohms of reactance its part in voltages and currents is below 10⁻¹².
 */
function coils(list: readonly Coil[], matrix: (i: number, j: number) => number): readonly string[] {
  const own = list.flatMap(({ from, to }, i) => [
    `v${i} ${from} a${i} 0`,
    `r${i} a${i} b${i} 1e-6`,
    `l${i} b${i} ${to} ${matrix(i, i)}`,
  ])
  const pairs = list.flatMap((_, i) =>
    list.slice(0, i).flatMap((__, j) => {
      const k = matrix(i, j) / Math.sqrt(matrix(i, i) * matrix(j, j))
      return k === 0 ? [] : [`k${i}_${j} l${i} l${j} ${k}`]
    }),
  )
  return [...own, ...pairs]
}

const analysis = [`ac lin 1 ${FREQUENCY} ${FREQUENCY}`]

/** Coils along a chain of nodes and more between any two; any matrix B Bᵀ + D is one of real coils. */
const networks = fc.integer({ min: 3, max: 5 }).chain((nodes) => {
  const node = fc.integer({ min: 0, max: nodes - 1 })
  const size = 10
  return fc.record({
    last: fc.constant(nodes - 1),
    more: fc.array(fc.tuple(node, node), { minLength: 2, maxLength: size - nodes + 1 }),
    chain: fc.constant(Array.from({ length: nodes - 1 }, (_, i) => [i, i + 1] as const)),
    wires: fc.array(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }), {
      minLength: size,
      maxLength: size,
    }),
  })
})

// A sheet whose rails are folded: along y = 0, across at x = 180 mm, and back along y = 60 mm to the half bridge.
const [GAP, WIDTH, THICKNESS] = [3, 24, 2] // mm, between middles; section
const CAPACITORS = { a: { at: [20, 0], esl: 12e-9 }, b: { at: [90, 0], esl: 20e-9 }, c: { at: [150, 60], esl: 9e-9 } }
const HALF_BRIDGE = { at: [30, 60], inside: 8e-9 }

const place = ([x, y]: readonly number[], z: number) => `${x} / ${y} / ${z} mm`
const rail = (net: string, z: number) =>
  [
    ['out', [0, 0], [180, 0]],
    ['over', [180, 0], [180, 60]],
    ['back', [180, 60], [10, 60]],
  ]
    .map(
      ([id, from, to]) =>
        `  - { id: ${net}-${id}, class: bus-bar, net: ${net}, flat: z, run: { from: ${place(from as number[], z)}, to: ${place(to as number[], z)}, width: ${WIDTH} mm, thickness: ${THICKNESS} mm } }`,
    )
    .join('\n')
const joints = (net: string, z: number) =>
  `  - { between: [${net}-out, ${net}-over], at: ${place([180, 0], z)}, kind: weld }
  - { between: [${net}-over, ${net}-back], at: ${place([180, 60], z)}, kind: weld }`
const capacitor = (id: string, { at, esl }: { readonly at: readonly number[]; readonly esl: number }) =>
  `  - { id: cap-${id}, class: dc-link-film-capacitor, inductance: ${esl * 1e9} nH, capacitance: 100 µF, at: ${place(at, 0)}, terminals: { plus: { net: plus, at: 0 / 0 / 0 mm }, minus: { net: minus, at: 0 / 0 / ${GAP} mm } } }`

const SHEET = `lidoff: 1
id: folded-rails
title: Folded rails
basis: judged
specimen: { kind: traction-inverter, dc-voltage: { max: 400 V } }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative }, phase: { potential: hv-switching } }
parts:
${rail('plus', 0)}
${rail('minus', GAP)}
${Object.entries(CAPACITORS)
  .map(([id, one]) => capacitor(id, one))
  .join('\n')}
  - { id: module, class: half-bridge-module, inductance: ${HALF_BRIDGE.inside * 1e9} nH, at: ${place(HALF_BRIDGE.at, 0)}, terminals: { dc-plus: { net: plus, at: 0 / 0 / 0 mm }, dc-minus: { net: minus, at: 0 / 0 / ${GAP} mm }, ac: phase } }
joints:
${joints('plus', 0)}
${joints('minus', GAP)}`

/** The stretches of both rails from tap to tap; nothing flows beyond the first capacitor and the half bridge. */
const WAY = [CAPACITORS.a.at, CAPACITORS.b.at, [180, 0], [180, 60], CAPACITORS.c.at, HALF_BRIDGE.at]

function railStretches(): readonly (Coil & { readonly bar: Bar })[] {
  return [0, GAP].flatMap((z) =>
    WAY.slice(1).map((to, i) => {
      const point = ([x, y]: readonly number[]): Vector => [x! / 1e3, y! / 1e3, z / 1e3]
      const bar: Bar = {
        start: point(WAY[i]!),
        end: point(to),
        width: WIDTH / 1e3,
        thickness: THICKNESS / 1e3,
        flat: [0, 0, 1],
      }
      return { from: `z${z}_${i}`, to: `z${z}_${i + 1}`, bar }
    }),
  )
}

describeSimulated('networks of coupled inductors', () => {
  // Linear: only rounding is left, and k = M/√(L₁L₂) near 1 costs some digits of it.
  it('inductance at a port and how current divides', () => {
    fc.assert(
      fc.property(networks, ({ last, more, chain, wires }) => {
        const name = (node: number) => (node === last ? '0' : `n${node}`)
        const list = [...chain, ...more]
          .filter(([from, to]) => from !== to)
          .map(([from, to]) => ({ from: name(from), to: name(to) }))
        const matrix = (i: number, j: number): number =>
          1e-8 * ((i === j ? 1 : 0) + wires[i]!.reduce((sum, wire, k) => sum + wire * wires[j]![k]!, 0))
        const solved = solveNetwork({
          branches: list.map(({ from, to }, i) => ({ id: `${i}`, from, to, inductance: matrix(i, i) })),
          ports: [{ id: 'port', from: 'n0', to: '0' }],
          couplings: list.flatMap((_, i) =>
            list.slice(0, i).map((__, j) => ({ first: `${i}`, second: `${j}`, mutual: matrix(i, j) })),
          ),
        })
        if (!solved.ok) throw new Error(JSON.stringify(solved.fault))
        const [voltage, ...currents] = simulate({
          circuit: ['iport 0 n0 dc 0 ac 1', ...coils(list, matrix)],
          commands: analysis,
          read: ['imag(v(n0))', ...list.map((_, i) => `real(i(v${i}))`)],
        })
        expect(Math.abs(voltage! / OMEGA / solved.ports[0]![0]! - 1)).toBeLessThan(1e-8)
        for (const [i, current] of currents.entries())
          expect(Math.abs(current - solved.currents[0]!.get(`${i}`)!)).toBeLessThan(1e-8)
      }),
      { numRuns: 12 },
    )
  })

  // Partial inductances are those of the product, which other checks compare; here it is what becomes of them between a
  // sheet and its figure: where bars are cut, joined and tapped, and how the currents divide.
  it('commutation loop of a sheet with folded rails and three capacitors', () => {
    const session = sessionOf(SHEET, 'folded.yaml')
    const { status, atTaken, missing } = session.evaluate(figureById('LOOP_INDUCTANCE'), asPath('loops/module'))
    expect({ status, missing }).toEqual({ status: 'OK', missing: [] })
    const stretches = railStretches()
    const inductances = new Map(stretches.map((a, i) => [i, stretches.map((b) => mutual(a.bar, b.bar))]))
    const [voltage] = simulate({
      circuit: [
        'vminus z3_5 0 0',
        'iport 0 port dc 0 ac 1',
        `linside port z0_5 ${HALF_BRIDGE.inside}`,
        ...Object.entries(CAPACITORS).map(
          ([id, { at, esl }]) => `lc${id} z0_${WAY.indexOf(at)} z3_${WAY.indexOf(at)} ${esl}`,
        ),
        ...coils(stretches, (i, j) => inductances.get(i)![j]!),
      ],
      commands: analysis,
      read: ['imag(v(port))'],
    })
    expect(Math.abs(((voltage! / OMEGA) * 1e9) / atTaken! - 1)).toBeLessThan(1e-9)
  })
})
