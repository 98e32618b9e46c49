import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import { drive, figure, ONE_DIE, POINT } from '../../fixtures/drive.ts'

const HIGH = 'parts/module.u/switch.high'

// Published case conduction-loss-spwm: 190.06064 W a transistor, 43.982065 W a diode (M 0.9, cos φ 0.85, 424.264 A peak,
// 0.9 V, 2.5 mΩ). Case switching-loss-linear: 98.753446 W (12 + 14 mJ at 400 A and 400 V, 450 V, 10 kHz).
const TRANSISTOR = 190.06064 + 98.753446
// Recovery 4 mJ: 10 kHz · 4 mJ · (424.264/400) · (450/400)/π = 15.19284 W.
const DIODE = 43.982065 + 15.19284

describe('semiconductor loss of a two-level bridge', () => {
  it('of one die each, conduction and switching', () => {
    const session = drive()
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt`).atTaken).toBeCloseTo(TRANSISTOR, 3)
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/diode`).atTaken).toBeCloseTo(DIODE, 3)
    expect(figure(session, 'SEMICONDUCTOR_LOSS', HIGH).atTaken).toBeCloseTo(TRANSISTOR + DIODE, 3)
    expect(figure(session, 'BRIDGE_LOSS').atTaken).toBeCloseTo(6 * (TRANSISTOR + DIODE), 2)
  })

  it('of two dies that share the switch equally', () => {
    // Two dies of twice the slope and half the energies at half the current are one die: V i + (2r)(i/2)² · 2 = V i + r i².
    const halves = ONE_DIE.replace('igbt, class: power-die,', 'igbt, class: power-die, per: die, count: 2,')
      .replace('slope-resistance: 2.5 mΩ', 'slope-resistance: 5 mΩ')
      .replace('12 mJ, basis: measured, at: { current: 400 A', '6 mJ, basis: measured, at: { current: 200 A')
      .replace('14 mJ, basis: measured, at: { current: 400 A', '7 mJ, basis: measured, at: { current: 200 A')
    const session = drive({ dies: halves })
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt.1`).atTaken).toBeCloseTo(TRANSISTOR / 2, 3)
    expect(figure(session, 'SEMICONDUCTOR_LOSS', HIGH).atTaken).toBeCloseTo(TRANSISTOR + DIODE, 3)
  })

  it('of dies whose data are for the whole switch', () => {
    const whole = ONE_DIE.replace('igbt, class: power-die,', 'igbt, class: power-die, per: switch, count: 2,')
    expect(figure(drive({ dies: whole }), 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt.1`).atTaken).toBeCloseTo(
      TRANSISTOR / 2,
      3,
    )
  })

  it('of channels that conduct both ways', () => {
    // Published case conduction-loss-mosfet-synchronous: 3 mΩ at 400 A peak (282.8427 A rms): 120 W a transistor.
    const dies =
      '          - { id: fet, class: power-die, kind: silicon-carbide field-effect transistor, loss: computed, on-resistance: 3 mΩ (measured), switching-energy: { value: 0.001 mJ, basis: measured, at: { current: 400 A, voltage: 450 V } } }'
    const session = drive({ dies, peak: POINT.replace('300 A rms', '282.8427 A rms') })
    // 0.001 mJ · 10 kHz/π = 3.2 mW of switching beside it
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/fet`).atTaken).toBeCloseTo(120 + 0.01 / Math.PI, 3)
  })

  it('names missing diode data and gives no sum without them', () => {
    const dies = ONE_DIE.replace(/recovery-energy: .*\} \}$/, 'recovery-energy: not looked for }')
    const session = drive({ dies })
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt`).status).toBe('OK')
    const module = figure(session, 'SEMICONDUCTOR_LOSS', 'parts/module.u')
    expect(module.status).toBe('MISSING')
    expect(module.missing.map(describeLack).join()).toContain('diode/recovery-energy: not looked for')
    expect(figure(session, 'EFFICIENCY').status).toBe('MISSING')
  })

  it('a stated loss goes before a computed one', () => {
    const dies = ONE_DIE.replace('loss: computed', 'loss: 200 W (measured)')
    expect(figure(drive({ dies }), 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt`).atTaken).toBe(200)
  })

  it('is out of range where the closed form ends, and says so', () => {
    const session = drive({ peak: POINT.replace('modulation-index: 0.9', 'modulation-index: 1.1') })
    expect(figure(session, 'SEMICONDUCTOR_LOSS', `${HIGH}/igbt`).status).toBe('OUT_OF_RANGE')
  })
})

describe('what is made of it', () => {
  it('efficiency counts recorded losses only and says that it is an upper bound', () => {
    const loss = 6 * (TRANSISTOR + DIODE)
    const result = figure(drive(), 'EFFICIENCY')
    expect(result.atTaken).toBeCloseTo(100 * (100e3 / (100e3 + loss)), 5)
    expect(result.warnings.join()).toContain('upper bound')
    const parts = '  - { id: choke, class: inductor, loss: 50 W (measured) }'
    expect(figure(drive({ parts }), 'EFFICIENCY').atTaken).toBeCloseTo(100 * (100e3 / (100e3 + loss + 50)), 5)
  })

  it('die areas: transistors and diodes apart', () => {
    // 6 · 10 mm · 10 mm = 600 mm² over 100 kW; 6 · 8 · 10 = 480 mm²; 300 A over 1 cm²
    const session = drive()
    expect(figure(session, 'DIE_AREA_PER_KW').atTaken).toBeCloseTo(6, 9)
    expect(figure(session, 'DIES_PER_SWITCH').atTaken).toBe(1)
    expect(figure(session, 'DIODE_AREA_PER_KW').atTaken).toBeCloseTo(4.8, 9)
    expect(figure(session, 'CURRENT_PER_DIE_AREA').atTaken).toBeCloseTo(300, 9)
  })

  it('die area needs to know which dies are diodes', () => {
    const dies = ONE_DIE.replace('kind: IGBT, ', '')
    expect(figure(drive({ dies }), 'DIE_AREA_PER_KW').missing.map(describeLack).join()).toContain('/kind')
  })
})

describe('gate drive', () => {
  const driver = (terminals: string) => `  - { id: driver, class: isolated-gate-driver, terminals: { ${terminals} } }`

  it('power over the net that the driver drives', () => {
    // Published case gate-drive-power: 1.2 µC · 23 V · 20 kHz = 0.552 W; here at 10 kHz
    const session = drive({ parts: driver('in: lv-gnd, out: g-u-high') })
    expect(figure(session, 'GATE_DRIVE_POWER', 'parts/driver').atTaken).toBeCloseTo(0.276, 9)
  })

  it('charges of dies in parallel add up', () => {
    const dies = ONE_DIE.replace('igbt, class: power-die,', 'igbt, class: power-die, count: 3,')
    const session = drive({ dies, parts: driver('out: g-v-low') })
    expect(figure(session, 'GATE_DRIVE_POWER', 'parts/driver').atTaken).toBeCloseTo(3 * 0.276, 9)
  })

  it('an untraced output is missing, with what to trace', () => {
    const result = figure(drive({ parts: driver('in: lv-gnd') }), 'GATE_DRIVE_POWER', 'parts/driver')
    expect(result.missing.map(describeLack).join()).toContain('trace the output of parts/driver')
  })
})
