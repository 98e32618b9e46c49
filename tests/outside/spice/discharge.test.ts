import { expect, it } from 'vitest'
import { asPath, type Path } from '../../../graph/quantity/quantity.ts'
import type { View } from '../../../graph/view.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { figureById } from '../../../queries/figures/registry.ts'
import { type DischargeInputs, discharge, voltageAfter } from '../../../queries/physics/discharge.ts'
import { type DischargeNetworkInputs, dischargeNetwork } from '../../../queries/physics/discharge-network.ts'
import { demoRecords } from './demo-records.ts'
import { describeSimulated, nodeNames, simulate } from './simulator.ts'

interface Fall {
  readonly circuit: readonly string[]
  readonly endVoltage: number
  /** Sets the step and how long to go on, no more. */
  readonly about: number
  /** A steady state first, or the initial voltages of the capacitors. */
  readonly from: '' | 'uic'
}

/** Time for the link, node `link`, to fall to a voltage. */
function timeTo({ circuit, endVoltage, about, from }: Fall): number {
  const commands = [
    'option reltol=1e-6',
    `tran ${about / 4000} ${about * 1.5} 0 ${about / 4000} ${from}`,
    `meas tran fallen when v(link)=${endVoltage} fall=1`,
  ]
  return simulate({ circuit, commands, read: ['fallen'] })[0]!
}

// A constant-power load takes no power from an empty link: it gives up at half the end voltage of these cases.
const drains = ({ resistance, power, current }: DischargeInputs): readonly string[] => [
  ...(resistance === undefined ? [] : [`rbleed link 0 ${resistance}`]),
  ...(power === undefined ? [] : [`bload link 0 i=${power}/max(v(link),30)`]),
  ...(current === undefined ? [] : [`isink link 0 ${current}`]),
]

const link = { capacitance: 560e-6, startVoltage: 450, endVoltage: 60 }
const cases: readonly DischargeInputs[] = [
  { ...link, resistance: 39e3 },
  { ...link, startVoltage: 850, endVoltage: 5, resistance: 150 },
  { ...link, power: 25 },
  { ...link, resistance: 20e3, power: 4 },
  { ...link, current: 0.05 },
  { ...link, endVoltage: 20, resistance: 10e3, current: 0.01 },
]

const place = (from: string, to: string, value: number) => ({ from, to, value })

/** Networks that no product of one resistance and one capacitance describes: capacitors [F], resistors [Ω]. */
const networks = [
  {
    about: 'two unequal sections on one middle',
    capacitors: [place('link', 'm', 200e-6), place('m', '0', 100e-6)],
    resistors: [place('link', 'm', 33e3), place('m', '0', 33e3)],
  },
  {
    about: 'three sections, two resistors, one across all',
    capacitors: [place('link', 'm', 330e-6), place('m', 'n', 220e-6), place('n', '0', 470e-6)],
    resistors: [place('link', 'm', 47e3), place('n', '0', 82e3), place('m', 'n', 22e3), place('link', '0', 150e3)],
  },
  {
    about: 'a bridge, one inner node on resistors alone, one island between resistors',
    capacitors: [place('link', '0', 40e-6), place('link', 'm', 90e-6), place('m', '0', 30e-6), place('p', 'q', 20e-6)],
    resistors: [
      place('link', 'x', 20e3),
      place('x', '0', 60e3),
      place('x', 'm', 10e3),
      place('link', 'p', 15e3),
      place('q', '0', 50e3),
    ],
  },
] as const

function networkInputs({ capacitors, resistors }: (typeof networks)[number]): DischargeNetworkInputs {
  return {
    capacitors: capacitors.map(({ from, to, value }) => ({ from, to, capacitance: value })),
    resistors: resistors.map(({ from, to, value }) => ({ from, to, resistance: value })),
    plusRail: 'link',
    minusRail: '0',
    startVoltage: 800,
    endVoltage: 60,
  }
}

/** The source leaves at the start, from rest. */
function networkCircuit({ capacitors, resistors }: (typeof networks)[number]): readonly string[] {
  return [
    ...sourceThatLeaves(800),
    ...capacitors.map(({ from, to, value }, i) => `c${i} ${from} ${to} ${value}`),
    ...resistors.map(({ from, to, value }, i) => `r${i} ${from} ${to} ${value}`),
  ]
}

const sourceThatLeaves = (voltage: number): readonly string[] => [
  '.model gate sw(ron=1u roff=1e15 vt=0.5 vh=0)',
  `vsource source 0 ${voltage}`,
  'vgate gate 0 pwl(0 1 1n 0)',
  'sgate source link gate 0 gate',
]

interface Element {
  readonly name: string
  readonly nets: readonly Path[]
  readonly value: number
}

/** Capacitors and bleed resistors of the high-voltage side between their nets, as recorded. */
function recordedElements(view: View): readonly Element[] {
  const read = (kind: string, quantity: string, pieces: readonly Path[]): readonly Element[] =>
    pieces.map((piece, i) => ({
      name: `${kind}${i}`,
      nets: view.some({ ask: 'terminals', piece }).paths,
      value: view.need({ value: asPath(`${piece}/${quantity}`) }).value,
    }))
  return [
    ...read('c', 'capacitance', view.some({ ask: 'link-capacitors' }).paths),
    ...read('r', 'resistance', view.some({ ask: 'link-parts', class: 'bleed-resistor' }).paths),
  ]
}

/** What hangs together with the rails: the rest (behind a transformer) has no potential that could be solved. */
function joinedTo(rails: readonly Path[], elements: readonly Element[]): readonly Element[] {
  const reached = new Set(rails)
  for (const _ of elements) {
    for (const { nets } of elements) if (nets.some((net) => reached.has(net))) for (const net of nets) reached.add(net)
  }
  return elements.filter(({ nets }) => reached.has(nets[0]!))
}

/** The recorded elements and a stiff source that leaves at the start. */
function recordedLink(view: View, voltage: number): readonly string[] {
  const rails = view.some({ ask: 'rails' }).paths
  const name = nodeNames(rails[1]!)
  const node = (net: Path): string => (net === rails[0] ? 'link' : name(net))
  return [
    '.options rshunt=1e12', // for nets that only capacitors reach
    ...sourceThatLeaves(voltage),
    ...joinedTo(rails, recordedElements(view)).map((one) => `${one.name} ${one.nets.map(node).join(' ')} ${one.value}`),
  ]
}

const timeOf = (session: Session) => session.evaluate(figureById('LINK_DISCHARGE_TIME'), asPath('specimen'))

// Trapezoidal rule with 4000 steps to the end, then a straight line between two of them; measurements come with seven
// digits. Found: 2·10⁻⁷ at most.
const TOLERANCE = 1e-6

describeSimulated('discharge of the link', () => {
  it.each(cases)('%o', (inputs) => {
    const { time } = discharge(inputs)
    const { capacitance, startVoltage, endVoltage } = inputs
    const circuit = [`clink link 0 ${capacitance} ic=${startVoltage}`, ...drains(inputs)]
    const simulated = timeTo({ circuit, endVoltage, about: time, from: 'uic' })
    expect(Math.abs(simulated / time - 1)).toBeLessThan(TOLERANCE)
  })

  it('voltage left after a time', () => {
    const inputs = { capacitance: 600e-6, resistance: 40e3, startVoltage: 800, time: 60 }
    const [left] = simulate({
      circuit: ['clink n1 0 600u ic=800', 'rbleed n1 0 40k'],
      commands: ['option reltol=1e-6', 'tran 10m 60 0 10m uic'],
      read: ['v(n1)[length(time)-1]'],
    })
    expect(Math.abs(left! / voltageAfter(inputs) - 1)).toBeLessThan(TOLERANCE)
  })

  it.each(networks)('network from rest: $about', (network) => {
    const { fromRest } = dischargeNetwork(networkInputs(network))
    const simulated = timeTo({ circuit: networkCircuit(network), endVoltage: 60, about: fromRest, from: '' })
    expect(Math.abs(simulated / fromRest - 1)).toBeLessThan(TOLERANCE)
  })

  const recorded = demoRecords().filter(({ session }) => timeOf(session).status === 'OK')
  it('is known of several demo records', () => expect(recorded.length).toBeGreaterThanOrEqual(3))

  it.each(recorded)('standing resistors of $name, every capacitor and resistor between its own nets', ({ session }) => {
    const time = timeOf(session).atTaken!
    const voltage = session.viewer.record((view) => view.need({ max: asPath('specimen/dc-voltage/max') }).max).value!
    const circuit = session.viewer.record((view) => recordedLink(view, voltage)).value!
    const simulated = timeTo({ circuit, endVoltage: 60, about: time, from: '' })
    expect(Math.abs(simulated / time - 1)).toBeLessThan(TOLERANCE)
  })
})
