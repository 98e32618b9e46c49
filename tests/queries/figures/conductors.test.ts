import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import type { Settings } from '../../../graph/settings.ts'
import { whatIf } from '../../../queries/quantity-input.ts'
import { drive, driveSheet, figure, POINT, sessionOf } from '../../fixtures/drive.ts'

const bar = (net: string, length = 100) =>
  `  - { id: bar, class: bus-bar, net: ${net}, material: copper, flat: z, run: { from: 0 / 0 / 0 mm, to: ${length} / 0 / 0 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }`
const at = (metric: string, parts: string, peak = POINT) => figure(drive({ parts, peak }), metric, 'parts/bar')

describe('bus bars', () => {
  it('resistance is resistivity times length over section', () => {
    // 1.724·10⁻⁸ Ω·m (table of materials, copper at 20 °C) · 100 mm/(20 · 2 mm²) = 43.1 µΩ
    expect(at('BAR_RESISTANCE', bar('dc-plus')).atTaken).toBeCloseTo(0.0431, 9)
  })

  it('follows the conductor temperature', () => {
    // 80 °C: 1 + 3.93·10⁻³/K · 60 K = 1.2358
    const result = at('BAR_RESISTANCE', bar('dc-plus'), `${POINT}, conductor-temperature: 80 °C (assumed)`)
    expect(result.atTaken).toBeCloseTo(0.0431 * 1.2358, 8)
  })

  it('a recorded resistance goes before the computed one', () => {
    expect(
      at('BAR_RESISTANCE', bar('dc-plus').replace('material', 'resistance: 50 µΩ (measured), material')).atTaken,
    ).toBe(0.05)
  })

  it('density of a rail by power over voltage, of a phase by its rms current', () => {
    // 100 kW/450 V = 222.22 A over 40 mm²; 300 A over 40 mm²
    const rail = at('BAR_CURRENT_DENSITY', bar('dc-plus'))
    expect(rail.atTaken).toBeCloseTo(100e3 / 450 / 40, 9)
    expect(rail.warnings.join()).toContain('peak power over DC voltage')
    expect(at('BAR_CURRENT_DENSITY', bar('phase-u')).atTaken).toBeCloseTo(7.5, 9)
  })

  it('says that the current of another net is not known', () => {
    const result = at('BAR_CURRENT_DENSITY', bar('middle'))
    expect(result.missing.map(describeLack).join()).toContain('current of nets/middle is not on record')
  })

  it('loss is resistance times current squared', () => {
    // 43.1 µΩ · (300 A)² = 3.879 W
    expect(at('BAR_LOSS', bar('phase-u')).atTaken).toBeCloseTo(3.879, 6)
  })

  it('a plate is taken along its longer side, and is densest at its widest hole', () => {
    const plate = `  - { id: bar, class: bus-bar, net: phase-u, material: copper, flat: z, plate: { corner: 0 / 0 / 0 mm, size: 100 x 40 x 1 mm (measured), holes: [ { at: 50 / 20 / 0 mm, diameter: 10 mm (measured) } ] } }`
    // 300 A over (40 − 10) mm · 1 mm
    expect(at('BAR_CURRENT_DENSITY', plate).atTaken).toBeCloseTo(10, 9)
    expect(at('BAR_RESISTANCE', plate).atTaken).toBeCloseTo(((1.724e-8 * 0.1) / 40e-6) * 1e3, 9)
  })

  it('doubling the current in a what-if makes four times the loss', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 400 }), (current) => {
        const session = drive({ parts: bar('phase-u') })
        const with_ = (amperes: number) =>
          figure(
            session.over([whatIf(session.record, `operating-points/peak/phase-current=${amperes} A rms`)]),
            'BAR_LOSS',
            'parts/bar',
          ).atTaken!
        return Math.abs(with_(2 * current) / with_(current) - 4) < 1e-9
      }),
      { numRuns: 5 },
    )
  })
})

describe('turn-off overshoot', () => {
  const metal = `  - { id: bar, class: bus-bar, net: dc-plus, flat: z, run: { from: 0 / 0 / 0 mm, to: 100 / 0 / 0 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
  - { id: bar-minus, class: bus-bar, net: dc-minus, flat: z, run: { from: 0 / 0 / 4 mm, to: 100 / 0 / 4 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
  - { id: can, class: dc-link-film-capacitor, capacitance: 500 µF (measured), inductance: 15 nH (measured), rated-voltage: 600 V (marked), at: 5 / 0 / 0 mm, terminals: { plus: { net: dc-plus, at: 0 / 0 / 0 mm }, minus: { net: dc-minus, at: 0 / 0 / 4 mm } } }
  - { id: pair, class: half-bridge-module, inductance: 10 nH (measured), blocking-voltage: 650 V (published), current-slope: { value: 3 kA/µs, basis: measured, at: { current: 400 A peak } }, at: 95 / 0 / 0 mm, terminals: { dc-plus: { net: dc-plus, at: 0 / 0 / 0 mm }, dc-minus: { net: dc-minus, at: 0 / 0 / 4 mm }, ac: middle } }`
  /** The three modules of the small drive are taken off the rails: the one loop is that of the pair. */
  const alone = (parts: string, settings: Partial<Settings> = {}) =>
    sessionOf(
      driveSheet({ parts }).replace('dc-plus: dc-plus, dc-minus: dc-minus, ac: phase-*', 'ac: phase-*'),
      settings,
    )
  const session = alone(metal)

  it('is loop inductance times current slope, and leaves a margin at the voltage of the setting', () => {
    const inductance = figure(session, 'LOOP_INDUCTANCE', 'loops/pair').atTaken!
    expect(inductance).toBeGreaterThan(25) // the can’s 15 nH and the module’s 10 nH alone
    const overshoot = figure(session, 'TURN_OFF_OVERSHOOT', 'loops/pair').atTaken!
    expect(overshoot).toBeCloseTo(inductance * 1e-9 * 3e9, 9)
    expect(figure(session, 'OVERSHOOT_MARGIN', 'loops/pair').atTaken).toBeCloseTo(650 - 500 - overshoot, 9)
    const nominal = figure(alone(metal, { voltage: 'NOMINAL' }), 'OVERSHOOT_MARGIN', 'loops/pair')
    expect(nominal.atTaken).toBeCloseTo(650 - 450 - overshoot, 9)
  })

  it('lacks a slope where none is on record', () => {
    const without = metal.replace(/current-slope: \{[^}]*\{[^}]*\} \}, /, '')
    const result = figure(alone(without), 'TURN_OFF_OVERSHOOT', 'loops/pair')
    expect(result.missing.map(describeLack).join()).toContain('parts/pair/current-slope')
  })
})
