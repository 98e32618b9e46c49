import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type DischargeInputs, discharge, dischargeResistor, voltageAfter } from '../../../queries/physics/discharge.ts'
import { DomainError } from '../../../queries/physics/method.ts'
import { isolationLimit, lowEnergyVoltage, voltageClass } from '../../../queries/physics/safety-limits.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('discharge of a capacitor', () => {
  it('falls to 1/e in one time constant', () => {
    // Textbook definition of the time constant.
    const { time } = discharge({ capacitance: 1e-3, resistance: 1e3, startVoltage: Math.E, endVoltage: 1 })
    expect(time).toBeCloseTo(1, 12)
  })

  it('agrees with integrating the current over voltage, for every kind of load', () => {
    // Second method: t = ∫ C dv/i(v) by the midpoint rule in ln v. Worst found: 7.5e-7.
    const loads = fc.constantFrom<Partial<DischargeInputs>>(
      { resistance: 2e4 },
      { power: 30 },
      { current: 0.05 },
      { resistance: 2e4, power: 30 },
      { resistance: 2e4, current: 0.05 },
    )
    fc.assert(
      fc.property(loads, between(100, 1000), between(0.01, 0.99), (load, startVoltage, share) => {
        const inputs = { capacitance: 6e-4, startVoltage, endVoltage: share * startVoltage, ...load }
        return Math.abs(discharge(inputs).time / integrated(inputs) - 1) < 2e-6
      }),
    )
  })

  it('splits in two at any voltage between', () => {
    fc.assert(
      fc.property(between(0.1, 0.9), between(0.1, 0.9), (a, b) => {
        const load = { capacitance: 5e-4, resistance: 1e4, power: 10 }
        const [middle, end] = [800 * a, 800 * a * b]
        const whole = discharge({ ...load, startVoltage: 800, endVoltage: end }).time
        const first = discharge({ ...load, startVoltage: 800, endVoltage: middle }).time
        return (
          Math.abs((first + discharge({ ...load, startVoltage: middle, endVoltage: end }).time) / whole - 1) < 1e-12
        )
      }),
    )
  })

  it('tends to the single load as the other fades away', () => {
    const base = { capacitance: 5e-4, startVoltage: 800, endVoltage: 60 }
    const resistor = discharge({ ...base, resistance: 1e4 }).time
    expect(discharge({ ...base, resistance: 1e4, power: 1e-11 }).time / resistor).toBeCloseTo(1, 9)
    const power = discharge({ ...base, power: 50 }).time
    expect(discharge({ ...base, power: 50, resistance: 1e15 }).time / power).toBeCloseTo(1, 9)
  })

  it('closes the circle: resistor from time, time from resistor, voltage after that time', () => {
    fc.assert(
      fc.property(between(1e-6, 1e-2), between(100, 1000), between(0.5, 300), (capacitance, startVoltage, time) => {
        const { resistance } = dischargeResistor({ capacitance, startVoltage, endVoltage: 60, time })
        const found = discharge({ capacitance, startVoltage, endVoltage: 60, resistance }).time
        const left = voltageAfter({ capacitance, resistance, startVoltage, time })
        return Math.abs(found / time - 1) < 1e-12 && Math.abs(left / 60 - 1) < 1e-9
      }),
    )
  })

  it('accounts for all energy', () => {
    const { energyRemoved, energyLeft } = discharge({ capacitance: 6e-4, power: 25, startVoltage: 800, endVoltage: 60 })
    expect(energyRemoved + energyLeft).toBeCloseTo(192, 9)
    expect(energyLeft).toBeCloseTo(1.08, 12)
  })

  it('refuses no load, two sinks at once, a resistor down to zero volts, and charging', () => {
    const base = { capacitance: 1e-3, startVoltage: 400, endVoltage: 60 }
    expect(() => discharge(base)).toThrow(DomainError)
    expect(() => discharge({ ...base, power: 1, current: 1 })).toThrow(DomainError)
    expect(() => discharge({ ...base, resistance: 1, endVoltage: 0 })).toThrow(/never reaches zero/)
    expect(() => discharge({ ...base, resistance: 1, endVoltage: 401 })).toThrow(DomainError)
    expect(discharge({ ...base, power: 40, endVoltage: 0 }).time).toBeCloseTo(2, 12)
  })
})

describe('limits of safety', () => {
  it('asks 100 or 500 ohms per volt', () => {
    // UN Regulation No. 100: separate DC bus, separate AC bus, joined buses without and with extra protection.
    const perVolt = (bus: 'dc' | 'ac' | 'joined' | 'joined-protected') =>
      isolationLimit({ workingVoltage: 450, bus }).perVolt
    expect([perVolt('dc'), perVolt('ac'), perVolt('joined'), perVolt('joined-protected')]).toEqual([100, 500, 500, 100])
    expect(isolationLimit({ workingVoltage: 800, bus: 'dc' })).toMatchObject({ resistance: 80e3, current: 0.01 })
  })

  it('tells the energy limit from the touch voltage', () => {
    const { voltage, energyAtTouchVoltage } = lowEnergyVoltage({ capacitance: 500e-6 })
    expect((500e-6 * voltage ** 2) / 2).toBeCloseTo(0.2, 12)
    expect(energyAtTouchVoltage).toBeGreaterThan(0.2)
    // The two criteria meet at 111 µF.
    expect(lowEnergyVoltage({ capacitance: 0.4 / 3600 }).voltage).toBeCloseTo(60, 9)
  })

  it('starts high voltage above 60 V DC and 30 V AC, not at them', () => {
    // ISO 6469-3, voltage classes A and B.
    expect(voltageClass({ voltage: 60, kind: 'dc' }).classB).toBe(false)
    expect(voltageClass({ voltage: 60.1, kind: 'dc' }).classB).toBe(true)
    expect(voltageClass({ voltage: 48, kind: 'ac' }).classB).toBe(true)
    expect(() => voltageClass({ voltage: -1, kind: 'dc' })).toThrow(DomainError)
  })
})

function integrated({
  capacitance,
  startVoltage,
  endVoltage,
  resistance,
  power = 0,
  current = 0,
}: DischargeInputs): number {
  const steps = 2000
  const width = Math.log(startVoltage / endVoltage) / steps
  let time = 0
  for (let i = 0; i < steps; i++) {
    const voltage = endVoltage * Math.exp((i + 0.5) * width)
    const drawn = (resistance ? voltage / resistance : 0) + power / voltage + current
    time += (capacitance * voltage * width) / drawn
  }
  return time
}
