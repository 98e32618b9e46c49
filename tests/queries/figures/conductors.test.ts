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

  it('resistance at the switching frequency: half a skin depth thick is direct current, thick bars follow their skin', () => {
    // 10 kHz, copper at 20 °C: δ = √(ρ/π f µ₀) = 0.661 mm (skin depth, textbook).
    const skin = 0.661
    const thin = bar('dc-plus').replace('thickness: 2 mm', 'thickness: 0.1 mm')
    const ratio = (parts: string) => at('BAR_AC_RESISTANCE', parts).atTaken! / at('BAR_RESISTANCE', parts).atTaken!
    expect(ratio(thin)).toBeGreaterThan(1)
    expect(ratio(thin)).toBeLessThan(1.15)
    // No bar alone is below a sheet of one skin depth all round its surface; crowding at the corners adds to that.
    const allRound = (20 * 2) / (2 * (20 + 2) * skin)
    expect(ratio(bar('dc-plus')) / allRound).toBeGreaterThan(1)
    expect(ratio(bar('dc-plus')) / allRound).toBeLessThan(1.7)
  })

  it('rails face to face: current keeps to the facing sides', () => {
    // One dimension, exact: Re (1 + j) t/δ coth((1 + j) t/δ) of 2 mm at 10 kHz, fed from one face.
    const x = 2 / 0.66086
    const one = (x * (Math.sinh(2 * x) + Math.sin(2 * x))) / (Math.cosh(2 * x) - Math.cos(2 * x))
    const wide = bar('dc-plus').replace('width: 20 mm', 'width: 60 mm')
    const pair = `${wide}\n  - { id: other, class: bus-bar, net: dc-minus, material: copper, flat: z, run: { along: bar, width: 60 mm (measured), thickness: 2 mm (measured) }, beside: { part: bar, side: "+z", gap: 0.3 mm (measured) } }`
    const session = drive({ parts: pair })
    for (const id of ['bar', 'other']) {
      const direct = figure(session, 'BAR_RESISTANCE', `parts/${id}`).atTaken!
      const result = figure(session, 'BAR_AC_RESISTANCE', `parts/${id}`)
      expect(Math.abs(result.atTaken! / direct / one - 1)).toBeLessThan(0.08) // its edges are not in one dimension
      expect(result.warnings.join()).toContain('face to face at 0.3 mm')
    }
  })

  it('doubts of size and material move it smoothly', () => {
    const result = at('BAR_AC_RESISTANCE', bar('dc-plus'))
    const times = (factor: string) => {
      const session = drive({ parts: bar('dc-plus').replace('thickness: 2 mm', `thickness: ${factor} mm`) })
      return figure(session, 'BAR_AC_RESISTANCE', 'parts/bar').atTaken!
    }
    // Sensitivity by the closed form against solving thinner and thicker bars anew.
    const input = result.inputs.find(({ path }) => path.endsWith('run/thickness'))!
    const slope = (times('2.1') - times('1.9')) / 0.2e-3
    expect(Math.abs(input.sensitivity! / slope - 1)).toBeLessThan(0.15)
  })

  it('loss of a phase takes the resistance at its recorded frequency', () => {
    const direct = at('BAR_LOSS', bar('phase-u'))
    expect(direct.warnings.join()).toContain('no output-frequency on record')
    const fast = at('BAR_LOSS', bar('phase-u'), `${POINT}, output-frequency: 1 kHz (measured)`)
    // 2 mm at 1 kHz, δ = 2.09 mm: between direct current and the bar of the 10 kHz above.
    expect(fast.atTaken! / direct.atTaken!).toBeGreaterThan(1.05)
    expect(fast.atTaken! / direct.atTaken!).toBeLessThan(1.3)
  })

  it('says what is lacking for it', () => {
    const link =
      '  - { id: bar, class: flexible-link, net: phase-u, material: copper, section: 35 mm² (measured), length: 100 mm (measured) }'
    const lacks = at('BAR_AC_RESISTANCE', link).missing.map(describeLack).join()
    expect(lacks).toContain('no width and thickness of parts/bar on record')
    expect(at('BAR_LOSS', link, `${POINT}, output-frequency: 1 kHz (measured)`).warnings.join()).toContain(
      'skin effect left out',
    )
  })

  it('a plate is taken along its longer side, and is densest at its widest hole', () => {
    const plate = `  - { id: bar, class: bus-bar, net: phase-u, material: copper, flat: z, plate: { corner: 0 / 0 / 0 mm, size: 100 x 40 x 1 mm (measured), holes: [ { at: 50 / 20 / 0 mm, diameter: 10 mm (measured) } ] } }`
    // 300 A over (40 − 10) mm · 1 mm
    expect(at('BAR_CURRENT_DENSITY', plate).atTaken).toBeCloseTo(10, 9)
    // π · 10²/(2 · 40) mm ÷ (1 − (π²/12)/16) = 4.140 mm more of plain strip
    const longer = 0.1 + (Math.PI * 0.01 ** 2) / 0.08 / (1 - Math.PI ** 2 / 12 / 16)
    expect(at('BAR_RESISTANCE', plate).atTaken).toBeCloseTo(((1.724e-8 * longer) / 40e-6) * 1e3, 9)
    // A hole of more than three quarters of the width is beyond what the closed form was held to.
    expect(at('BAR_RESISTANCE', plate.replace('diameter: 10 mm', 'diameter: 34 mm')).status).toBe('OUT_OF_RANGE')
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

  it('says at which current the slope was recorded, and that a larger one turns off more steeply', () => {
    const told = (parts: string, peak = POINT) =>
      figure(
        sessionOf(
          driveSheet({ parts, peak })
            .replace('dc-plus: dc-plus, dc-minus: dc-minus, ac: phase-*', 'ac: phase-*')
            .replace('nets: [phase-u, phase-v, phase-w]', 'nets: [middle]'),
        ),
        'TURN_OFF_OVERSHOOT',
        'loops/pair',
      ).warnings.join()
    // 300 A rms are 424 A peak, more than the 400 A of the slope; 280 A rms are 396 A.
    expect(told(metal)).toContain('recorded at 400 A peak')
    expect(told(metal)).toContain('a lower bound: the phase turns off up to 424 A peak')
    expect(told(metal, POINT.replace('300 A', '280 A'))).not.toContain('a lower bound')
    expect(told(metal.replace(', at: { current: 400 A peak }', ''))).toContain('is not on record')
  })

  it('lacks a slope where none is on record', () => {
    const without = metal.replace(/current-slope: \{[^}]*\{[^}]*\} \}, /, '')
    const result = figure(alone(without), 'TURN_OFF_OVERSHOOT', 'loops/pair')
    expect(result.missing.map(describeLack).join()).toContain('parts/pair/current-slope')
  })
})
