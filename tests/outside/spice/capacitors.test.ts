import fc from 'fast-check'
import { expect, it } from 'vitest'
import { capacitorNetwork, type PlacedCapacitor, seriesString } from '../../../queries/physics/capacitor-bank.ts'
import { capacitorShares } from '../../../queries/physics/capacitor-share.ts'
import { describeSimulated, nodeNames, simulate } from './simulator.ts'

const FREQUENCY = 1e6
const OMEGA = 2 * Math.PI * FREQUENCY

const microfarads = fc.double({ min: 0.1e-6, max: 1e-3, noNaN: true })

/** A chain of capacitors from rail to rail through every node, and more of them between any two nodes. */
const networks = fc.integer({ min: 2, max: 7 }).chain((nodes) => {
  const node = fc.integer({ min: 0, max: nodes - 1 })
  return fc
    .record({
      chain: fc.array(microfarads, { minLength: nodes - 1, maxLength: nodes - 1 }),
      more: fc.array(fc.record({ from: node, to: node, capacitance: microfarads }), { maxLength: 8 }),
    })
    .map(({ chain, more }): { readonly capacitors: readonly PlacedCapacitor[]; readonly last: string } => ({
      capacitors: [...chain.map((capacitance, i) => ({ from: i, to: i + 1, capacitance })), ...more].map((one) => ({
        from: `${one.from}`,
        to: `${one.to}`,
        capacitance: one.capacitance,
      })),
      last: `${nodes - 1}`,
    }))
})

describeSimulated('networks of capacitors', () => {
  // Linear and lossless: only rounding is left, and the 10¹² Ω that the simulator wants from every node.
  it('capacitance between the rails and voltage of each, by AC analysis', () => {
    fc.assert(
      fc.property(networks, ({ capacitors, last }) => {
        const solved = capacitorNetwork({ capacitors, plusRail: '0', minusRail: last, voltage: 1 })
        const node = nodeNames(last)
        const at = (name: string) => (node(name) === '0' ? '0' : `v(${node(name)})`)
        const [susceptance, ...voltages] = simulate({
          circuit: [
            '.options rshunt=1e12',
            `vrails ${node('0')} 0 ac 1`,
            ...capacitors.map(({ from, to, capacitance }, i) => `c${i} ${node(from)} ${node(to)} ${capacitance}`),
          ],
          commands: [`ac lin 1 ${FREQUENCY} ${FREQUENCY}`],
          read: ['-imag(i(vrails))', ...capacitors.map(({ from, to }) => `real(${at(from)}-${at(to)})`)],
        })
        expect(Math.abs(susceptance! / OMEGA / solved.capacitance - 1)).toBeLessThan(1e-9)
        for (const [i, voltage] of voltages.entries())
          expect(Math.abs(voltage - solved.voltages[i]!)).toBeLessThan(1e-9)
      }),
      { numRuns: 12 },
    )
  })

  it('voltages along a string, quickly charged and at rest', () => {
    const string = { capacitance: [330e-6, 150e-6, 220e-6], resistance: [47e3, 33e3, 56e3], voltage: 800 }
    const { quickVoltages, restingVoltages } = seriesString(string)
    const circuit = string.capacitance.flatMap((capacitance, i) => [
      `c${i} n${i} n${i + 1} ${capacitance}`,
      `r${i} n${i} n${i + 1} ${string.resistance[i]}`,
    ])
    const source = (volts: string) => [...circuit, `vstring n0 0 ${volts}`, 'vend n3 0 0']
    const read = [0, 1, 2].map((i) => `v(n${i})-v(n${i + 1})`)
    const resting = simulate({ circuit: source('800'), commands: ['op'], read })
    // Charged within 1 µs, some 10⁷ times faster than the resistors move charge.
    const quick = simulate({
      circuit: source('pwl(0 0 1u 800)'),
      commands: ['option reltol=1e-6', 'tran 10n 1u'],
      read: read.map((one) => `(${one})[length(time)-1]`),
    })
    for (const i of [0, 1, 2]) {
      expect(Math.abs(resting[i]! / restingVoltages![i]! - 1)).toBeLessThan(1e-9)
      expect(Math.abs(quick[i]! / quickVoltages[i]! - 1)).toBeLessThan(1e-6)
    }
  })

  it('shares of a ripple current among unequal capacitors, below, between and above their resonances', () => {
    const bank = {
      capacitance: [400e-6, 100e-6, 4.7e-6],
      resistance: [1.2e-3, 3e-3, 8e-3],
      inductance: [30e-9, 15e-9, 8e-9],
    }
    for (const frequency of [5e3, 60e3, 400e3, 3e6]) {
      const { shares, resistance, reactance } = capacitorShares({ ...bank, frequency })
      const [re, im, ...currents] = simulate({
        circuit: [
          'iripple 0 rail ac 1',
          ...bank.capacitance.flatMap((capacitance, i) => [
            `r${i} rail a${i} ${bank.resistance[i]}`,
            `l${i} a${i} b${i} ${bank.inductance[i]}`,
            `v${i} b${i} d${i} 0`,
            `c${i} d${i} 0 ${capacitance}`,
          ]),
          '.options rshunt=1e12',
        ],
        commands: [`ac lin 1 ${frequency} ${frequency}`],
        read: ['real(v(rail))', 'imag(v(rail))', ...bank.capacitance.map((_, i) => `mag(i(v${i}))`)],
      })
      const size = Math.hypot(resistance, reactance)
      expect(Math.abs(re! - resistance) / size).toBeLessThan(1e-9)
      expect(Math.abs(im! - reactance) / size).toBeLessThan(1e-9)
      for (const [i, current] of currents.entries()) expect(Math.abs(current / shares[i]! - 1)).toBeLessThan(1e-9)
    }
  })
})
