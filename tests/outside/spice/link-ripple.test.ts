import { expect, it } from 'vitest'
import { linkMeanCurrent, linkRippleCurrent } from '../../../queries/physics/dc-link.ts'
import { linkRippleVoltage, type Modulation } from '../../../queries/physics/link-modulation.ts'
import { describeSimulated, simulate } from './simulator.ts'

const LINE = 50 // Hz
const CARRIERS = 37 // to a sixth of the fundamental period, after which three balanced phases repeat
const CAPACITANCE = 500e-6 // F
const CURRENT = 300 // A, RMS

const SPAN = 1 / LINE / 6
const PERIOD = SPAN / CARRIERS
const STEP = PERIOD / 3000

const HIGHEST = 'max(max(v(sa),v(sb)),v(sc))'
const LOWEST = 'min(min(v(sa),v(sb)),v(sc))'

const ZERO_SEQUENCE: Readonly<Record<Modulation, (m: number) => string>> = {
  sinusoidal: () => '0',
  // Minus a sixth of the third harmonic: v(sa) is M cos θ, and cos 3θ = 4 cos³θ − 3 cos θ.
  'third-harmonic': (m) => `-${m}/6*(4*(v(sa)/${m})^3-3*v(sa)/${m})`,
  'space-vector': () => `-0.5*(${HIGHEST}+${LOWEST})`,
  // The phase of largest size is clamped to its rail; v(sign) says to which one.
  discontinuous: () => `0.5*(1+v(sign))*(1-${HIGHEST})-0.5*(1-v(sign))*(1+${LOWEST})`,
}

interface Point {
  readonly modulation: Modulation
  readonly modulationIndex: number
  readonly powerFactor: number
}

/**
 * Six switches on a capacitor that a steady current feeds; each compares its reference with a triangular carrier. Load:
 * three sinusoidal currents. The steady current is what a first run finds the bridge to draw on average.
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
  const tran = `tran ${STEP} ${SPAN} 0 ${STEP} uic`
  const [mean, rms, swing] = simulate({
    circuit: [
      '.model on sw(ron=1u roff=1g vt=0 vh=0)',
      `vcarrier carrier 0 pulse(-1 1 0 ${PERIOD / 2} ${PERIOD / 2} 1p ${PERIOD})`,
      `vsign sign 0 pulse(1 -1 ${SPAN / 2} 1n 1n ${SPAN} ${2 * SPAN})`,
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
      // Largest swing of any one carrier period.
      ...Array.from(
        { length: CARRIERS },
        (_, k) => `meas tran p${k} pp v(cap) from=${k * PERIOD} to=${(k + 1) * PERIOD}`,
      ),
      'let swing = p0',
      ...Array.from({ length: CARRIERS }, (_, k) => `let swing = max(swing, p${k})`),
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

// Theory: currents steady within a carrier period; here they move by 2π/222 in one. Edges come up to a step of 1/3000 of
// it late, which the swing feels most. Found: mean within 7·10⁻⁵ of the phase current, RMS within 2·10⁻⁴, swing within
// 1.3·10⁻³; with six times fewer steps eight times as much.
describeSimulated('DC-link ripple of a switched bridge', () => {
  it.each(points)('$modulation, index $modulationIndex, power factor $powerFactor', (point) => {
    const inputs = { ...point, phaseCurrent: CURRENT }
    const { mean, rms, swing } = bridge(point)
    expect(Math.abs(mean - linkMeanCurrent(inputs)) / CURRENT).toBeLessThan(3e-4)
    expect(Math.abs(rms / linkRippleCurrent(inputs) - 1)).toBeLessThan(5e-4)
    const expected = linkRippleVoltage({ ...inputs, capacitance: CAPACITANCE, switchingFrequency: 1 / PERIOD })
    expect(Math.abs(swing / expected - 1)).toBeLessThan(4e-3)
  })
})
