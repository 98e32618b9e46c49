import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chopperCapacitors, chopperRippleVoltage, inductorRipple } from '../../../queries/physics/chopper.ts'
import { DomainError } from '../../../queries/physics/method.ts'

const share = fc.double({ min: 0.01, max: 0.99, noNaN: true })

describe('capacitors of a buck or boost stage', () => {
  it('agrees with stepping through one period', () => {
    // Second method: root mean square of the stepped waveform. Worst found: 1.2e-7, from the steps.
    fc.assert(
      fc.property(share, fc.double({ min: 0, max: 150, noNaN: true }), (duty, inductorRippleCurrent) => {
        const found = chopperCapacitors({
          stage: 'buck',
          duty,
          inductorCurrent: 100,
          inductorRipple: inductorRippleCurrent,
        })
        return Math.abs(found.switchedSideRipple / stepped(duty, 100, inductorRippleCurrent) - 1) < 1e-6
      }),
      { numRuns: 30 },
    )
  })

  it('is the same circuit from both ends: a boost of duty D is a buck of 1 − D', () => {
    fc.assert(
      fc.property(share, (duty) => {
        const rest = { inductorCurrent: 80, inductorRipple: 20 }
        const buck = chopperCapacitors({ stage: 'buck', duty: 1 - duty, ...rest }).switchedSideRipple
        return Math.abs(chopperCapacitors({ stage: 'boost', duty, ...rest }).switchedSideRipple / buck - 1) < 1e-12
      }),
    )
  })

  it('is half the current at half duty without ripple, the textbook worst case', () => {
    // Common practice: input capacitor of a buck stage, I/2 at D = 1/2.
    const found = chopperCapacitors({ stage: 'buck', duty: 0.5, inductorCurrent: 10, inductorRipple: 0 })
    expect(found).toEqual({ switchedSideRipple: 5, inductorSideRipple: 0 })
  })

  it('balances volt-seconds: rise and fall of the inductor current are equal', () => {
    fc.assert(
      fc.property(share, (ratio) => {
        const stage = { highVoltage: 600, lowVoltage: 600 * ratio, inductance: 1e-4, switchingFrequency: 2e4 }
        const { duty, inductorRipple: swing } = inductorRipple(stage)
        const rise = ((stage.highVoltage - stage.lowVoltage) * duty) / (stage.inductance * stage.switchingFrequency)
        return Math.abs(swing / rise - 1) < 1e-9
      }),
    )
  })

  it('has the ripple voltage of integrating the capacitor current over one period', () => {
    // Second method: charge swing of the stepped waveform, switched side with a steady inductor current, inductor's side
    // with a triangle. Within the step of the integration, half a per cent at the shortest duty.
    const at = { capacitance: 1e-4, switchingFrequency: 2e4, stage: 'buck' } as const
    fc.assert(
      fc.property(share, (duty) => {
        const found = chopperRippleVoltage({ ...at, duty, inductorCurrent: 100, inductorRipple: 30 })
        const [pulse, triangle] = chargeSwings(duty, 100, 30)
        return (
          Math.abs(found.switchedSide / ((pulse / 1e-4) * 5e-5) - 1) < 1e-2 &&
          Math.abs(found.inductorSide / ((triangle / 1e-4) * 5e-5) - 1) < 1e-2
        )
      }),
      { numRuns: 20 },
    )
  })

  it('refuses a duty beyond one and a low side above the high side', () => {
    expect(() => chopperCapacitors({ stage: 'boost', duty: 1.2, inductorCurrent: 1, inductorRipple: 0 })).toThrow(
      DomainError,
    )
    const wrong = { highVoltage: 100, lowVoltage: 200, inductance: 1, switchingFrequency: 1 }
    expect(() => inductorRipple(wrong)).toThrow(DomainError)
  })
})

function stepped(duty: number, current: number, ripple: number): number {
  const steps = 2000
  let [sum, square] = [0, 0]
  for (let i = 0; i < steps; i++) {
    const place = (duty * (i + 0.5)) / steps
    // On for the share `duty`, rising by the ripple, else nothing: the capacitor carries the difference from the mean.
    const value = current + ripple * (place / duty - 0.5)
    sum += (duty * value) / steps
    square += (duty * value ** 2) / steps
  }
  return Math.sqrt(square - sum ** 2)
}

/** Swing of the charge over one period: of the pulsed side without ripple, and of the triangle alone. */
function chargeSwings(duty: number, current: number, ripple: number): readonly [number, number] {
  const steps = 20_000
  const swings = [0, 1].map((side) => {
    let [charge, high, low] = [0, 0, 0]
    for (let i = 0; i < steps; i++) {
      const place = (i + 0.5) / steps
      const triangle = place < duty ? place / duty - 0.5 : 0.5 - (place - duty) / (1 - duty)
      charge += (side === 0 ? current * ((place < duty ? 1 : 0) - duty) : ripple * triangle) / steps
      high = Math.max(high, charge)
      low = Math.min(low, charge)
    }
    return high - low
  })
  return [swings[0]!, swings[1]!]
}
