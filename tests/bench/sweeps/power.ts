import { chopperCapacitors } from '../../../queries/physics/chopper.ts'
import { diodePairConduction } from '../../../queries/physics/conduction-loss.ts'
import { linkRippleCurrent } from '../../../queries/physics/dc-link.ts'
import { discharge } from '../../../queries/physics/discharge.ts'
import { ringDimensions } from '../../../queries/physics/ring-core.ts'
import { draws, mean, repeated, type Sweep, type Worst, worst } from './sweep.ts'

const third = (2 * Math.PI) / 3

/** RMS capacitor current for 1 A rms a phase, from the states of a triangular carrier at each angle of a fundamental. */
function rippleByStates(index: number, lag: number): number {
  const steps = 2000
  let [sum, square] = [0, 0]
  for (let k = 0; k < steps; k++) {
    const angle = (2 * Math.PI * (k + 0.5)) / steps
    const phases = [0, 1, 2]
      .map((n) => ({
        duty: (1 + index * Math.cos(angle - n * third)) / 2,
        current: Math.SQRT2 * Math.cos(angle - n * third - lag),
      }))
      .toSorted((a, b) => b.duty - a.duty)
    // From the longest duty on, one after the other opens: while n are closed, their currents add up.
    let taken = 0
    for (const [n, { duty, current }] of phases.entries()) {
      taken += current
      const time = duty - (phases[n + 1]?.duty ?? 0)
      sum += (taken * time) / steps
      square += (taken ** 2 * time) / steps
    }
  }
  return Math.sqrt(square - sum ** 2)
}

function linkRipple(): Worst {
  const { even } = draws(31)
  return worst(
    repeated(40, () => {
      const [modulationIndex, lag] = [even(0.02, 1), even(0, Math.PI)]
      const powerFactor = Math.cos(lag)
      return [
        linkRippleCurrent({ phaseCurrent: 1, modulationIndex, powerFactor }),
        rippleByStates(modulationIndex, lag),
      ] as const
    }),
  )
}

function conduction(): Worst {
  const { even } = draws(37)
  return worst(
    repeated(40, () => {
      const [index, lag] = [even(0, 1), even(0, Math.PI)]
      const [threshold, slope, peak] = [even(0.5, 1.2), even(1e-3, 1e-2), Math.SQRT2 * 200]
      const expected = mean(0, 2 * Math.PI, 4000, (angle) => {
        const current = Math.max(0, peak * Math.sin(angle))
        return ((1 + index * Math.sin(angle + lag)) / 2) * current * (threshold + slope * current)
      })
      const found = diodePairConduction({
        phaseCurrent: 200,
        modulationIndex: index,
        powerFactor: Math.cos(lag),
        switchThreshold: threshold,
        switchSlope: slope,
        diodeThreshold: threshold,
        diodeSlope: slope,
      })
      return [found.switchLoss, expected] as const
    }),
  )
}

function discharging(): Worst {
  const { log, even } = draws(41)
  return worst(
    repeated(60, () => {
      const given = {
        capacitance: log(1e-5, 1e-2),
        startVoltage: even(100, 1000),
        resistance: log(1e3, 1e6),
        power: log(1, 100),
      }
      const endVoltage = even(0.05, 0.95) * given.startVoltage
      const [low, high] = [Math.log(endVoltage), Math.log(given.startVoltage)]
      const expected =
        (high - low) *
        mean(low, high, 20_000, (log) => {
          const v = Math.exp(log)
          return (given.capacitance * v) / (v / given.resistance + given.power / v)
        })
      return [discharge({ ...given, endVoltage }).time, expected] as const
    }),
  )
}

function chopper(): Worst {
  const { even } = draws(43)
  return worst(
    repeated(40, () => {
      const [duty, ripple] = [even(0.02, 0.98), even(0, 150)]
      const during = (power: number): number => duty * mean(0, 1, 20_000, (at) => (100 + ripple * (at - 0.5)) ** power)
      const found = chopperCapacitors({ stage: 'buck', duty, inductorCurrent: 100, inductorRipple: ripple })
      return [found.switchedSideRipple, Math.sqrt(during(2) - during(1) ** 2)] as const
    }),
  )
}

function rings(part: 'c1' | 'c2'): Worst {
  const { even } = draws(47)
  return worst(
    repeated(60, () => {
      const ring = { outerDiameter: even(0.005, 0.2), innerDiameter: 0, height: even(1e-3, 0.1) }
      ring.innerDiameter = even(0.05, 0.98) * ring.outerDiameter
      const [inside, outside] = [ring.innerDiameter / 2, ring.outerDiameter / 2]
      const sum = (power: number): number =>
        (outside - inside) * mean(inside, outside, 20_000, (r) => ring.height / (2 * Math.PI * r) ** power)
      const c1 = 1 / sum(1)
      return [ringDimensions(ring)[part], part === 'c1' ? c1 : c1 ** 3 * sum(2)] as const
    }),
  )
}

export const powerSweeps: readonly Sweep[] = [
  {
    field: 'electrical',
    method: 'RMS current of the link capacitor, closed form',
    range: 'modulation index 0.02 … 1, every power factor',
    against: 'switching states of the sinusoidal modulation at 2,000 angles',
    run: linkRipple,
  },
  {
    field: 'electrical',
    method: 'conduction loss of transistor and diode, closed form',
    range: 'modulation index 0 … 1, every power factor, thresholds 0.5 … 1.2 V, slopes 1 … 10 mΩ',
    against: 'duty times loss, summed over 4,000 angles',
    run: conduction,
  },
  {
    field: 'electrical',
    method: 'discharge time into a resistor and a constant power',
    range: '10 µF … 10 mF, 100 … 1000 V, 1 kΩ … 1 MΩ, 1 … 100 W, down to 5 %',
    against: '∫ C dv/i(v), 20,000 steps of ln v',
    run: discharging,
  },
  {
    field: 'electrical',
    method: 'RMS current of the capacitor of a buck stage',
    range: 'duty 0.02 … 0.98, ripple up to 1.5 times the current',
    against: 'mean squares of the trapezium, 20,000 steps',
    run: chopper,
  },
  {
    field: 'electrical',
    method: 'effective dimensions of a ring core, C₁',
    range: 'outer diameter 5 … 200 mm, inner 5 … 98 % of it',
    against: 'IEC 60205 by its definition: 20,000 thin rings',
    run: () => rings('c1'),
  },
  {
    field: 'electrical',
    method: 'effective dimensions of a ring core, C₂',
    range: 'the same',
    against: 'the same',
    run: () => rings('c2'),
  },
]
