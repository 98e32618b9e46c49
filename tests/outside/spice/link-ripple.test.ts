import { expect, it } from 'vitest'
import { linkMeanCurrent, linkRippleCurrent } from '../../../queries/physics/dc-link.ts'
import { linkRippleVoltage, type Modulation } from '../../../queries/physics/link-modulation.ts'
import { describeSimulated, simulate } from './simulator.ts'

const LINE = 50 // Hz
const CARRIER = 20e3 // Hz
const CAPACITANCE = 500e-6 // F
const CURRENT = 300 // A, RMS
const STEP = 1 / CARRIER / 250

const ZERO_SEQUENCE: Readonly<Record<Modulation, (m: number) => string>> = {
  sinusoidal: () => '0',
  // Minus a sixth of the third harmonic: v(ra) is M cos θ, and cos 3θ = 4 cos³θ − 3 cos θ.
  'third-harmonic': (m) => `-${m}/6*(4*(v(sa)/${m})^3-3*v(sa)/${m})`,
  'space-vector': () => '-0.5*(max(max(v(sa),v(sb)),v(sc))+min(min(v(sa),v(sb)),v(sc)))',
  // The phase of largest size is clamped to its rail.
  discontinuous: () =>
    '(max(max(v(sa),v(sb)),v(sc)) >= -min(min(v(sa),v(sb)),v(sc))) ? 1-max(max(v(sa),v(sb)),v(sc)) : -1-min(min(v(sa),v(sb)),v(sc))',
}

interface Point {
  readonly modulation: Modulation
  readonly modulationIndex: number
  readonly powerFactor: number
}

/**
 * Six switches on a capacitor that a steady current feeds; each compares its reference with a triangular carrier. Load:
 * three sinusoidal currents. The steady current is what the first run finds the bridge to draw on average.
 */
function bridge({ modulation, modulationIndex, powerFactor }: Point) {
  const lag = (Math.acos(powerFactor) * 180) / Math.PI
  const legs = ['a', 'b', 'c'].flatMap((x, k) => [
    `vs${x} s${x} 0 sin(0 ${modulationIndex} ${LINE} 0 0 ${90 - k * 120})`,
    `br${x} r${x} 0 v=v(s${x})+v(zero)`,
    `su${x} rail ${x} r${x} carrier on`,
    `sl${x} ${x} 0 carrier r${x} on`,
    `i${x} ${x} 0 sin(0 ${CURRENT * Math.SQRT2} ${LINE} 0 0 ${90 - k * 120 - lag})`,
  ])
  const period = 1 / CARRIER
  const tran = `tran ${STEP} ${1 / LINE} 0 ${STEP} uic`
  const [mean, rms, swing] = simulate({
    circuit: [
      '.model on sw(ron=1u roff=1g vt=0 vh=0)',
      `vcarrier carrier 0 pulse(-1 1 0 ${period / 2} ${period / 2} 1p ${period})`,
      `bzero zero 0 v=${ZERO_SEQUENCE[modulation](modulationIndex)}`,
      'vdrawn plus rail 0',
      'isupply 0 plus 0',
      'vcap plus cap 0',
      `clink cap 0 ${CAPACITANCE} ic=400`,
      ...legs,
    ],
    commands: [
      'option reltol=1e-5',
      tran,
      'meas tran drawn avg i(vdrawn)',
      'alter isupply = drawn',
      tran,
      'meas tran mean avg i(vdrawn)',
      'meas tran ripple rms i(vcap)',
      'meas tran swing pp v(cap)',
    ],
    read: ['mean', 'ripple', 'swing'],
  })
  return { mean: mean!, rms: rms!, swing: swing! }
}

const points: readonly Point[] = [
  { modulation: 'sinusoidal', modulationIndex: 0.9, powerFactor: 0.85 },
  { modulation: 'space-vector', modulationIndex: 0.61, powerFactor: 1 },
  { modulation: 'space-vector', modulationIndex: 1.1, powerFactor: 0.6 },
  { modulation: 'third-harmonic', modulationIndex: 0.3, powerFactor: 0.9 },
  { modulation: 'discontinuous', modulationIndex: 0.8, powerFactor: -0.95 },
  { modulation: 'sinusoidal', modulationIndex: 0.5, powerFactor: 0 },
]

// 400 carrier periods of 250 steps to one fundamental.
describeSimulated('DC-link ripple of a switched bridge', () => {
  it.each(points)('$modulation, index $modulationIndex, power factor $powerFactor', (point) => {
    const inputs = { ...point, phaseCurrent: CURRENT }
    const { mean, rms, swing } = bridge(point)
    const pp = linkRippleVoltage({ ...inputs, capacitance: CAPACITANCE, switchingFrequency: CARRIER })
    console.log(mean, linkMeanCurrent(inputs), rms / linkRippleCurrent(inputs) - 1, swing / pp - 1)
    expect(true).toBe(true)
  })
})
