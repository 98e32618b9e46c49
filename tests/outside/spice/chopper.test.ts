import { expect, it } from 'vitest'
import { chopperCapacitors, chopperRippleVoltage, inductorRipple } from '../../../queries/physics/chopper.ts'
import { describeSimulated, simulate } from './simulator.ts'

const FREQUENCY = 20e3
const PERIOD = 1 / FREQUENCY
const CAPACITANCE = 200e-6

interface Stage {
  readonly high: number
  readonly low: number
  readonly inductance: number
  /** Mean of the inductor [A]. */
  readonly current: number
}

/**
 * Two ideal switches between stiff sides, as a pair of controlled sources: the inductor hangs on the high side while the
 * gate is up, and the high side carries its current then. Each capacitor takes what a steady far end leaves.
 */
function switched({ high, low, inductance, current }: Stage) {
  const step = PERIOD / 4000
  const tran = `tran ${step} ${PERIOD} 0 ${step} uic`
  const valley = current - (low * (1 - low / high)) / (2 * inductance * FREQUENCY)
  const readings = ['ripple', 'rmsin', 'rmsout', 'swingin', 'swingout']
  const values = simulate({
    circuit: [
      `vgate gate 0 pulse(0 1 0 1n 1n ${(low / high) * PERIOD - 1e-9} ${PERIOD})`,
      `bmid mid 0 v=v(gate)*${high}`,
      `l1 mid out ${inductance} ic=${valley}`,
      `vlow out 0 ${low}`,
      'bin 0 in i=v(gate)*i(vlow)',
      'vin in cin 0',
      `cin cin 0 ${CAPACITANCE} ic=0`,
      'imeanin in 0 0',
      'fout 0 side vlow 1',
      'vout side cout 0',
      `cout cout 0 ${CAPACITANCE} ic=0`,
      'imeanout side 0 0',
    ],
    commands: [
      'option reltol=1e-6',
      tran,
      'meas tran meanin avg i(vin)',
      'meas tran meanout avg i(vout)',
      'alter imeanin = meanin',
      'alter imeanout = meanout',
      tran,
      'meas tran ripple pp i(vlow)',
      'meas tran rmsin rms i(vin)',
      'meas tran rmsout rms i(vout)',
      'meas tran swingin pp v(cin)',
      'meas tran swingout pp v(cout)',
    ],
    read: readings,
  })
  const [ripple, switchedRms, inductorRms, switchedSwing, inductorSwing] = values
  return {
    ripple: ripple!,
    switchedRms: switchedRms!,
    inductorRms: inductorRms!,
    switchedSwing: switchedSwing!,
    inductorSwing: inductorSwing!,
  }
}

const stages: readonly Stage[] = [
  { high: 650, low: 260, inductance: 200e-6, current: 100 },
  { high: 400, low: 300, inductance: 300e-6, current: 60 },
  { high: 800, low: 96, inductance: 150e-6, current: 90 },
]

const off = (a: number, b: number) => Math.abs(a / b - 1)

// 4000 steps to a period, edges of 1 ns. Found: 3·10⁻⁵ at most.
const TOLERANCE = 1e-4

describeSimulated('capacitors of buck and boost stages', () => {
  it.each(stages)('$low V and $high V, $current A', (stage) => {
    const { high, low, inductance, current } = stage
    const found = switched(stage)
    const ripple = inductorRipple({ highVoltage: high, lowVoltage: low, inductance, switchingFrequency: FREQUENCY })
    expect(off(found.ripple, ripple.inductorRipple)).toBeLessThan(TOLERANCE)
    const inputs = { inductorCurrent: current, inductorRipple: ripple.inductorRipple }
    for (const [name, duty] of [
      ['buck', low / high],
      ['boost', 1 - low / high],
    ] as const) {
      const currents = chopperCapacitors({ ...inputs, stage: name, duty })
      expect(off(found.switchedRms, currents.switchedSideRipple)).toBeLessThan(TOLERANCE)
      expect(off(found.inductorRms, currents.inductorSideRipple)).toBeLessThan(TOLERANCE)
      const both = { capacitance: CAPACITANCE, switchingFrequency: FREQUENCY }
      const swings = chopperRippleVoltage({ ...inputs, ...both, stage: name, duty })
      expect(off(found.switchedSwing, swings.switchedSide)).toBeLessThan(TOLERANCE)
      expect(off(found.inductorSwing, swings.inductorSide)).toBeLessThan(TOLERANCE)
    }
  })
})
