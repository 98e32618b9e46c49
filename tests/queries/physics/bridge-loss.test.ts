import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bridgeLoss, bridgeOutput, channelBridgeLoss } from '../../../queries/physics/bridge-loss.ts'
import {
  channelConduction,
  type DiodePairInputs,
  diodePairConduction,
} from '../../../queries/physics/conduction-loss.ts'
import { linkMeanCurrent } from '../../../queries/physics/dc-link.ts'
import { gateDrive } from '../../../queries/physics/gate-drive.ts'
import { MODULATIONS, modulationLimit, phaseDuties } from '../../../queries/physics/link-modulation.ts'
import { DomainError } from '../../../queries/physics/method.ts'
import { type SwitchingInputs, switchingLoss } from '../../../queries/physics/switching-loss.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const pair = { switchThreshold: 0.9, switchSlope: 2.5e-3, diodeThreshold: 1.1, diodeSlope: 2e-3 }
const point = { phaseCurrent: 300, modulationIndex: 0.9, powerFactor: 0.85 }
const energies = { turnOnEnergy: 12e-3, turnOffEnergy: 14e-3, referenceCurrent: 400, referenceVoltage: 400 }

describe('conduction loss with transistors and diodes', () => {
  it('agrees with switching through a fundamental, every zero sequence and power factor', () => {
    // Second method: a carrier at 60 times the fundamental with duties set once a period, device by device.
    // Worst found: 2.0e-4 of the loss of the pair, mostly from the finite carrier ratio.
    fc.assert(
      fc.property(fc.constantFrom(...MODULATIONS), between(0, 1), between(-1, 1), (modulation, share, powerFactor) => {
        const inputs = {
          ...pair,
          phaseCurrent: 300,
          modulationIndex: share * modulationLimit(modulation),
          powerFactor,
          modulation,
        }
        const found = diodePairConduction(inputs)
        const simulated = switched(inputs)
        const whole = found.switchLoss + found.diodeLoss
        return (
          Math.abs(found.switchLoss - simulated.switchLoss) < 5e-4 * whole &&
          Math.abs(found.diodeLoss - simulated.diodeLoss) < 5e-4 * whole
        )
      }),
      { numRuns: 40 },
    )
  })

  it('shares evenly between transistor and diode without voltage or at a right angle', () => {
    const alike = { ...pair, diodeThreshold: 0.9, diodeSlope: 2.5e-3 }
    const idle = diodePairConduction({ ...alike, ...point, modulationIndex: 0 })
    const reactive = diodePairConduction({ ...alike, ...point, powerFactor: 0 })
    expect(idle.switchLoss).toBeCloseTo(idle.diodeLoss, 9)
    expect(reactive.switchLoss).toBeCloseTo(reactive.diodeLoss, 9)
  })

  it('changes roles of transistor and diode when feeding back, and keeps their sum when alike', () => {
    const alike = { ...pair, diodeThreshold: 0.9, diodeSlope: 2.5e-3 }
    fc.assert(
      fc.property(between(0, 1), between(0, 1), fc.constantFrom(...MODULATIONS), (m, powerFactor, modulation) => {
        const drive = diodePairConduction({ ...alike, phaseCurrent: 100, modulationIndex: m, powerFactor, modulation })
        const brake = diodePairConduction({
          ...alike,
          phaseCurrent: 100,
          modulationIndex: m,
          powerFactor: -powerFactor,
          modulation,
        })
        return (
          Math.abs(drive.switchLoss - brake.diodeLoss) < 1e-6 && Math.abs(drive.bridgeLoss - brake.bridgeLoss) < 1e-6
        )
      }),
    )
  })

  it('refuses an index beyond the linear range', () => {
    expect(() => diodePairConduction({ ...pair, ...point, modulationIndex: 1.1 })).toThrow(DomainError)
    expect(
      diodePairConduction({ ...pair, ...point, modulationIndex: 1.1, modulation: 'space-vector' }).switchLoss,
    ).toBeGreaterThan(0)
  })
})

describe('conduction loss with channels', () => {
  it('is three phases of R I², shared by six', () => {
    // Kirchhoff: one of the two channels of each leg always carries the phase current.
    const { channelLoss, bridgeLoss: whole } = channelConduction({ phaseCurrent: 250, onResistance: 4e-3 })
    expect(whole).toBeCloseTo(3 * 4e-3 * 250 ** 2, 9)
    expect(channelLoss).toBeCloseTo(whole / 6, 12)
  })

  it('is what transistors and diodes of pure, equal resistance lose', () => {
    const resistive = { switchThreshold: 0, switchSlope: 4e-3, diodeThreshold: 0, diodeSlope: 4e-3 }
    const { switchLoss, diodeLoss } = diodePairConduction({ ...resistive, ...point })
    expect(switchLoss + diodeLoss).toBeCloseTo(
      channelConduction({ phaseCurrent: 300, onResistance: 4e-3 }).channelLoss,
      9,
    )
  })

  it('hands the current to the body diode in the dead times', () => {
    // Textbook: two dead times a period, mean of the rectified current 2Î/π, shared by two diodes.
    const found = channelConduction({
      phaseCurrent: 100,
      onResistance: 0,
      deadTime: 1e-6,
      switchingFrequency: 20e3,
      diodeThreshold: 3,
    })
    expect(found.deadTimeLoss).toBeCloseTo((0.04 * 3 * (2 * Math.SQRT2 * 100)) / Math.PI / 2, 9)
    expect(() => channelConduction({ phaseCurrent: 1, onResistance: 1, deadTime: 1e-6 })).toThrow(DomainError)
  })
})

describe('switching loss', () => {
  const base: SwitchingInputs = { ...energies, phaseCurrent: 300, linkVoltage: 450, switchingFrequency: 10e3 }

  it('agrees with summing single switchings over a fundamental', () => {
    // Second method: one turn-on and one turn-off in each of 200 carrier periods of the positive half wave.
    // Worst found: 1.7e-4, from the sum.
    fc.assert(
      fc.property(between(0.3, 2), between(0.5, 1.5), (currentExponent, voltageExponent) => {
        const found = switchingLoss({ ...base, currentExponent, voltageExponent }).switchLoss
        let energy = 0
        for (let i = 0; i < 400; i++) {
          const current = 300 * Math.SQRT2 * Math.sin(((i + 0.5) / 400) * 2 * Math.PI)
          if (current > 0) energy += 26e-3 * (current / 400) ** currentExponent * (450 / 400) ** voltageExponent
        }
        return Math.abs(found / ((10e3 * energy) / 400) - 1) < 5e-4
      }),
      { numRuns: 30 },
    )
  })

  it('halves, about, with the discontinuous zero sequence at unity power factor', () => {
    // Common practice: clamping the 60° round each crest saves half: 1 − sin 30° of the half-wave mean is left.
    const left = switchingLoss({
      ...base,
      modulation: 'discontinuous',
      modulationIndex: 0.9,
      powerFactor: 1,
    }).switchLoss
    expect(left / switchingLoss(base).switchLoss).toBeCloseTo(0.5, 2)
    expect(() => switchingLoss({ ...base, modulation: 'discontinuous' })).toThrow(DomainError)
  })

  it('is in proportion to frequency, and to current and voltage by their exponents', () => {
    const one = switchingLoss(base)
    expect(switchingLoss({ ...base, switchingFrequency: 20e3 }).switchLoss / one.switchLoss).toBeCloseTo(2, 12)
    expect(switchingLoss({ ...base, linkVoltage: 900, voltageExponent: 1.3 }).switchLoss / one.switchLoss).toBeCloseTo(
      (900 / 400) ** 1.3 / (450 / 400),
      9,
    )
    expect(switchingLoss({ ...base, recoveryEnergy: 13e-3 }).diodeLoss / one.switchLoss).toBeCloseTo(0.5, 12)
  })
})

describe('loss of the whole bridge', () => {
  const whole = { ...pair, ...point, ...energies, linkVoltage: 450, switchingFrequency: 10e3 }

  it('hands on the power that the link gives: mean current times voltage', () => {
    fc.assert(
      fc.property(between(0, 1), between(-1, 1), (modulationIndex, powerFactor) => {
        const inputs = { phaseCurrent: 200, modulationIndex, powerFactor }
        return Math.abs(bridgeOutput({ ...inputs, linkVoltage: 400 }) - 400 * linkMeanCurrent(inputs)) < 1e-6
      }),
    )
  })

  it('adds conduction and switching, and keeps efficiency within 0 … 1 both ways', () => {
    const drive = bridgeLoss(whole)
    expect(drive.totalLoss).toBeCloseTo(drive.conductionLoss + drive.switchingLoss, 9)
    expect(drive.efficiency).toBeCloseTo(drive.outputPower / (drive.outputPower + drive.totalLoss), 12)
    const brake = bridgeLoss({ ...whole, powerFactor: -0.85 })
    expect(brake.efficiency).toBeCloseTo(
      (Math.abs(brake.outputPower) - brake.totalLoss) / Math.abs(brake.outputPower),
      12,
    )
    expect(bridgeLoss({ ...whole, modulationIndex: 0 }).efficiency).toBe(0)
    expect(bridgeLoss({ ...whole, powerFactor: -0.001 }).efficiency).toBe(0)
  })

  it('has the channel form agree with pairs of pure resistance', () => {
    const resistive = { switchThreshold: 0, switchSlope: 3e-3, diodeThreshold: 0, diodeSlope: 3e-3 }
    const { onResistance, ...channel } = { ...whole, onResistance: 3e-3 }
    expect(
      channelBridgeLoss({ ...point, ...energies, linkVoltage: 450, switchingFrequency: 10e3, onResistance }).totalLoss,
    ).toBeCloseTo(bridgeLoss({ ...channel, ...resistive }).totalLoss, 8)
  })
})

describe('gate drive', () => {
  it('charges through the whole swing once a cycle', () => {
    // Charge balance by hand: 500 nC × 20 V × 50 kHz.
    const found = gateDrive({ gateCharge: 500e-9, voltageHigh: 15, voltageLow: -5, switchingFrequency: 50e3 })
    expect(found.power).toBeCloseTo(0.5, 12)
    expect(found.averageCurrent).toBeCloseTo(0.025, 12)
    expect(found.energy).toBeCloseTo(1e-5, 15)
    expect(found).not.toHaveProperty('peakCurrent')
  })

  it('gives a greatest current only where the resistance is known, and refuses a swing of nought', () => {
    const gate = { gateCharge: 1e-6, voltageHigh: 15, voltageLow: -5, switchingFrequency: 1e4 }
    expect(gateDrive({ ...gate, gateResistance: 4 }).peakCurrent).toBe(5)
    expect(() => gateDrive({ ...gate, voltageLow: 15 })).toThrow(DomainError)
  })
})

/** Loss by stepping through carrier periods of one fundamental: who conducts, for how long, at which current. */
function switched(inputs: DiodePairInputs) {
  const { phaseCurrent, modulationIndex, powerFactor, modulation = 'sinusoidal' } = inputs
  const periods = 60
  const lag = Math.acos(powerFactor)
  let [switchLoss, diodeLoss] = [0, 0]
  for (let i = 0; i < periods * 20; i++) {
    const angle = ((i + 0.5) / (periods * 20)) * 2 * Math.PI
    const middle = ((Math.floor(i / 20) + 0.5) / periods) * 2 * Math.PI
    const current = Math.SQRT2 * phaseCurrent * Math.cos(angle - lag)
    if (current <= 0) continue
    const duty = phaseDuties(modulation, modulationIndex, middle)[0]!
    switchLoss += (duty * (inputs.switchThreshold * current + inputs.switchSlope * current ** 2)) / (periods * 20)
    diodeLoss += ((1 - duty) * (inputs.diodeThreshold * current + inputs.diodeSlope * current ** 2)) / (periods * 20)
  }
  return { switchLoss, diodeLoss }
}
