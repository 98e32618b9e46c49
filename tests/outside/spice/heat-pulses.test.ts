import { expect, it } from 'vitest'
import { ladderToFoster, pulseRise, repeatedPulseRise } from '../../../queries/physics/transient.ts'
import { describeSimulated, simulate } from './simulator.ts'

const LADDER = { heatCapacities: [0.4, 2.5, 30, 180], ladderResistances: [0.04, 0.05, 0.03, 0.06] }
const LOSS = 350 // W

/** The ladder as resistors and capacitors, volt for kelvin above coolant; heat enters at n0. */
const ladder = LADDER.heatCapacities.flatMap((capacity, i) => [
  `c${i} n${i} 0 ${capacity} ic=0`,
  `r${i} n${i} ${i === LADDER.heatCapacities.length - 1 ? '0' : `n${i + 1}`} ${LADDER.ladderResistances[i]}`,
])

// Trapezoidal rule at steps of less than a five-hundredth of the shortest time constant (13.6 ms), twice that for the many pulses.
const STEP = 2e-5
const TOLERANCE = 1e-5

describeSimulated('heat pulses into a thermal ladder', () => {
  const foster = ladderToFoster(LADDER)

  it('temperature during and after one pulse', () => {
    const times = [0.01, 0.1, 0.5, 0.8, 1.5]
    const { rises } = pulseRise({ ...foster, loss: LOSS, pulseDuration: 0.5, times })
    const values = simulate({
      circuit: [...ladder, `iloss 0 n0 pwl(0 ${LOSS} 0.5 ${LOSS} 0.50000001 0)`],
      commands: [
        'option reltol=1e-6',
        `tran ${STEP} 1.6 0 ${STEP} uic`,
        ...times.map((time, i) => `meas tran rise${i} find v(n0) at=${time}`),
      ],
      read: times.map((_, i) => `rise${i}`),
    })
    for (const [i, value] of values.entries()) expect(Math.abs(value / rises[i]! - 1)).toBeLessThan(TOLERANCE)
  })

  // The slowest time constant is 13 s, too long to wait for: the ladder starts at the temperatures of the mean loss. What
  // that leaves unsettled, a part of the ripple, is 5·10⁻⁴ of the valley after 10 s.
  it('peak and valley of pulses that repeat', () => {
    const [pulseDuration, period] = [0.04, 0.1]
    const { peakRise, valleyRise } = repeatedPulseRise({ ...foster, loss: LOSS, pulseDuration, period })
    const mean = (LOSS * pulseDuration) / period
    const startAt = (place: number) =>
      mean * LADDER.ladderResistances.slice(place).reduce((sum, resistance) => sum + resistance, 0)
    const [peak, valley] = simulate({
      circuit: [
        ...ladder.map((line) =>
          line.replace(/^(c(\d).*) ic=0$/, (_, element, i) => `${element} ic=${startAt(Number(i))}`),
        ),
        `iloss 0 n0 pulse(0 ${LOSS} 0 10n 10n ${pulseDuration} ${period})`,
      ],
      commands: [
        'option reltol=1e-6',
        `tran ${STEP * 2} 10 0 ${STEP * 2} uic`,
        'meas tran peak max v(n0) from=9.85 to=10',
        'meas tran valley min v(n0) from=9.85 to=10',
      ],
      read: ['peak', 'valley'],
    })
    expect(Math.abs(peak! / peakRise - 1)).toBeLessThan(1e-3)
    expect(Math.abs(valley! / valleyRise - 1)).toBeLessThan(1e-3)
  })
})
