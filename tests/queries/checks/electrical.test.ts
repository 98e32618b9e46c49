import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { checks } from '../../../queries/checks/registry.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { traits } from '../../../queries/traits/registry.ts'
import { drive, driveSheet, figure, sessionOf } from '../../fixtures/drive.ts'

/** Places that a check names; a lack inside a check would be no finding, so it is thrown here. */
function found(session: Session, id: string): readonly string[] {
  const check = checks.find((one) => one.id === id)!
  const { value, lack } = session.viewer.record((view) => check.run(view, session))
  if (!value) throw new Error(`${id} stopped: ${JSON.stringify(lack)}`)
  return value.map(({ path }) => path)
}

const seed = (name: string): Session =>
  sessionOf(readFileSync(new URL(`../../../seeds/${name}.yaml`, import.meta.url), 'utf8'))
const resistor = (id: string, a: string, b: string) =>
  `  - { id: ${id}, class: resistor, terminals: { 1: ${a}, 2: ${b} } }`

const TAPS = '  tap: {}\n  tap-1: {}\n  tap-2: {}'

describe('the isolation barrier', () => {
  it('one plain resistor across it is named', () => {
    expect(found(drive({ parts: resistor('r', 'dc-plus', 'lv-gnd') }), 'bridging-part')).toEqual(['parts/r'])
  })

  it('of a chain the smallest cut is one part, however long it is', () => {
    const chain = [resistor('a', 'phase-u', 'tap-1'), resistor('b', 'tap-1', 'tap-2'), resistor('c', 'tap-2', 'lv-gnd')]
    expect(found(drive({ nets: TAPS, parts: chain.join('\n') }), 'bridging-part')).toHaveLength(1)
  })

  it('two chains side by side need two', () => {
    const chains = [
      resistor('a', 'dc-plus', 'tap-1'),
      resistor('b', 'tap-1', 'lv-gnd'),
      resistor('c', 'dc-minus', 'tap-2'),
      resistor('d', 'tap-2', 'lv-gnd'),
    ]
    expect(found(drive({ nets: TAPS, parts: chains.join('\n') }), 'bridging-part')).toHaveLength(2)
  })

  it('two paths that meet in one part are cut there', () => {
    const parts = [resistor('a', 'dc-plus', 'tap'), resistor('b', 'dc-minus', 'tap'), resistor('last', 'tap', 'lv-gnd')]
    expect(found(drive({ nets: TAPS, parts: parts.join('\n') }), 'bridging-part')).toEqual(['parts/last'])
  })

  it('an isolating part may cross it, with its rating on record', () => {
    const driver = (rest: string) =>
      drive({
        parts: `  - { id: driver, class: isolated-gate-driver, ${rest}terminals: { in: lv-gnd, out: g-u-high } }`,
      })
    expect(found(driver(''), 'bridging-part')).toEqual([])
    expect(found(driver(''), 'barrier-without-rating')).toEqual(['parts/driver/isolation'])
    expect(found(driver('isolation: 5 kV (published), '), 'barrier-without-rating')).toEqual([])
  })
})

describe('values that look wrong', () => {
  const can = (capacitance: string, rest = '') =>
    drive({
      parts: `  - { id: can, class: dc-link-film-capacitor, capacitance: ${capacitance} (marked), rated-voltage: 600 V (marked), ${rest}terminals: { plus: dc-plus, minus: dc-minus } }`,
    })

  it('a usual one is let pass', () => {
    for (const id of ['value-unusual', 'value-impossible', 'unit-slip']) expect(found(can('500 µF'), id)).toEqual([])
  })

  it('a prefix too small is called a slip', () => {
    expect(found(can('500 nF'), 'unit-slip')).toEqual(['parts/can/capacitance'])
  })

  it('what cannot be is an error', () => {
    expect(found(can('500 F'), 'value-impossible')).toEqual(['parts/can/capacitance'])
  })

  it('millimetres typed for inches are told from a thickness', () => {
    const board = (thickness: string) =>
      drive({ parts: `  - { id: board, class: control-board, size: 100 x 80 x ${thickness} mm (measured) }` })
    // 1.6 mm is 0.063 in: typed as millimetres it is 25.4 times too thin
    expect(found(board('0.063'), 'unit-slip')).toEqual(['parts/board/size/height'])
    expect(found(board('1.6'), 'unit-slip')).toEqual([])
  })

  it('a capacitor rated below what it sees', () => {
    const session = sessionOf(
      driveSheet({
        voltage: 'nominal: 600 V (marked), max: 700 V (published)',
        parts:
          '  - { id: can, class: dc-link-film-capacitor, capacitance: 500 µF (marked), rated-voltage: 600 V (marked), terminals: { plus: dc-plus, minus: dc-minus } }',
      }),
    )
    expect(found(session, 'capacitor-rating')).toEqual(['parts/can/rated-voltage'])
    expect(found(can('500 µF'), 'capacitor-rating')).toEqual([])
  })

  it('of two in series each sees half', () => {
    const half = (id: string, ends: string) =>
      `  - { id: ${id}, class: dc-link-film-capacitor, capacitance: 500 µF (marked), rated-voltage: 300 V (marked), terminals: { ${ends} } }`
    const parts = `${half('upper', 'plus: dc-plus, minus: middle')}\n${half('lower', 'plus: middle, minus: dc-minus')}`
    expect(found(drive({ parts }), 'capacitor-rating')).toEqual([]) // 250 V of 500 V
  })

  it('a total that is not count times each', () => {
    const screws = (all: string) =>
      drive({
        parts: `  - { id: screw, class: screw, count: 10, mass: 5.0 ± 0.1 g (measured), mass-of-all: ${all} (measured) }`,
      })
    expect(found(screws('50 ± 1 g'), 'total-not-sum')).toEqual([])
    expect(found(screws('40 ± 1 g'), 'total-not-sum')).toEqual(['parts/screw/mass-of-all'])
  })
})

describe('claims and observations', () => {
  const ring = (claims: string) =>
    drive({
      parts: `  - { id: ring, class: one-turn-core, inductance: { claims: [ ${claims} ], take: 1, because: test } }`,
    })
  const claim = (value: string, frequency: string) =>
    `{ value: ${value}, basis: measured, at: { frequency: ${frequency} } }`

  it('claims at different conditions do not disagree, at the same they do', () => {
    expect(found(ring(`${claim('20 µH', '10 kHz')}, ${claim('10 µH', '200 kHz')}`), 'claims-disagree')).toEqual([])
    expect(found(ring(`${claim('20 µH', '10 kHz')}, ${claim('10 µH', '10 kHz')}`), 'claims-disagree')).toEqual([
      'parts/ring/inductance',
    ])
  })

  const can =
    '  - { id: can, class: dc-link-film-capacitor, capacitance: 500 ± 5 µF (measured), terminals: { plus: dc-plus, minus: dc-minus } }'
  const observed = (value: string, rest = '') =>
    drive({
      parts: can,
      rest: `observed:\n  - { metric: LINK_CAPACITANCE, subject: specimen, value: "${value} (measured)"${rest} }`,
    })

  it('an observed value within the doubt of both is let pass, another is not', () => {
    expect(found(observed('505 ± 5 µF'), 'observed-contradicted')).toEqual([])
    expect(found(observed('450 ± 5 µF'), 'observed-contradicted')).toEqual(['observed/link-capacitance'])
  })

  it('the figure is computed at the conditions of the observation', () => {
    const ripple = (current: string) =>
      drive({
        parts: can,
        rest: `observed:\n  - { metric: LINK_RIPPLE_CURRENT, subject: specimen, value: 110.8 ± 2 A rms (measured), conditions: { phase-current: 200 A rms, modulation-index: 0.9, power-factor: ${current} } }`,
      })
    // 200 A · 0.553826 = 110.77 A at a power factor of 0.85
    expect(found(ripple('0.85'), 'observed-contradicted')).toEqual([])
    expect(found(ripple('0.2'), 'observed-contradicted')).toEqual(['observed/link-ripple-current'])
  })

  it('a bound is contradicted by a computed value on its far side', () => {
    // Two cans of 250 µF: 500 µF.
    for (const fine of ['> 480 µF', '< 520 µF', '≥ 500 µF', '> 501 µF'])
      expect(found(observed(fine), 'observed-contradicted'), fine).toEqual([])
    for (const wrong of ['> 600 µF', '< 400 µF'])
      expect(found(observed(wrong), 'observed-contradicted'), wrong).toEqual(['observed/link-capacitance'])
  })

  it('a bound on an efficiency is held against its upper bound from one side only', () => {
    const seen = (value: string) =>
      drive({ rest: `observed:\n  - { metric: EFFICIENCY, subject: specimen, value: "${value} (measured)" }` })
    for (const fine of ['> 95 %', '< 95 %']) expect(found(seen(fine), 'observed-contradicted'), fine).toEqual([])
    expect(found(seen('> 99.5 %'), 'observed-contradicted')).toEqual(['observed/efficiency'])
  })

  it('a figure known only between bounds is contradicted outside of them', () => {
    const seen = (value: string) =>
      drive({
        parts: can,
        rest: `observed:\n  - { metric: LINK_RIPPLE_VOLTAGE, subject: specimen, value: "${value} (measured)" }`,
      })
    const { low, high } = figure(seen('1 V'), 'LINK_RIPPLE_VOLTAGE')
    expect(found(seen(`${((low! + high!) / 2).toFixed(2)} ± 0.1 V`), 'observed-contradicted')).toEqual([])
    expect(found(seen(`${(high! * 1.5).toFixed(2)} ± 0.1 V`), 'observed-contradicted')).toHaveLength(1)
    expect(found(seen(`< ${(low! / 2).toFixed(2)} V`), 'observed-contradicted')).toHaveLength(1)
  })

  it('an efficiency below its upper bound contradicts nothing, one above it does', () => {
    const seen = (value: string) =>
      drive({ rest: `observed:\n  - { metric: EFFICIENCY, subject: specimen, value: ${value} (measured) }` })
    expect(found(seen('95 ± 0.1 %'), 'observed-contradicted')).toEqual([])
    expect(found(seen('99.9 ± 0.05 %'), 'observed-contradicted')).toEqual(['observed/efficiency'])
  })
})

describe('ratings', () => {
  const can = (rest = '') =>
    `  - { id: can, class: dc-link-film-capacitor, capacitance: 500 µF (measured), rated-voltage: 600 V (marked), ${rest}terminals: { plus: dc-plus, minus: dc-minus } }`

  it('ripple above the rating of a capacitor is named', () => {
    // All of the link’s 166 A rms (Kolar, Round 2006) is in the one can.
    expect(found(drive({ parts: can('ripple-current: 180 A rms (published), ') }), 'ripple-over-rating')).toEqual([])
    expect(found(drive({ parts: can('ripple-current: 150 A rms (published), ') }), 'ripple-over-rating')).toEqual([
      'parts/can',
    ])
  })

  it('a discharge resistor above its rating is named', () => {
    // 500 V on 50 kΩ: 5 W
    const bleed = (power: string) =>
      drive({
        parts: `${can()}\n  - { id: bleed, class: bleed-resistor, resistance: 50 kΩ (measured), power: ${power} (marked), terminals: { 1: dc-plus, 2: dc-minus } }`,
      })
    expect(found(bleed('10 W'), 'resistor-over-rating')).toEqual([])
    expect(found(bleed('3 W'), 'resistor-over-rating')).toEqual(['parts/bleed'])
  })

  it('more energy to the chassis than the touch limit is named', () => {
    // ½ · 1 µF · (500 V)² = 0.125 J; 2 µF: 0.25 J, above 0.2 J
    const y = (capacitance: string) =>
      drive({
        parts: `${can()}\n  - { id: y, class: y-capacitor, capacitance: ${capacitance} (measured), terminals: { 1: dc-plus, 2: chassis } }`,
      })
    expect(found(y('1 µF'), 'touch-energy')).toEqual([])
    expect(found(y('2 µF'), 'touch-energy')).toEqual(['specimen'])
  })

  it('a sensor core that saturates before full scale is named', () => {
    // µ₀ · 600 A/3 mm = 251 mT from the gap alone
    const core = (saturation: string) =>
      drive({
        parts: `  - { id: sensor, class: current-sensor, range: 600 A peak (published) }
  - { id: core, class: sensor-core, gap: 3 mm (measured), section: 30 mm² (measured), saturation-flux-density: ${saturation} (assumed) }`,
      })
    expect(found(core('0.35 T'), 'sensor-core-saturates')).toEqual([])
    expect(found(core('0.2 T'), 'sensor-core-saturates')).toEqual(['parts/core'])
  })

  it('a switch driven over its blocking voltage is named, one near it by its doubt', () => {
    const overshoot = (blocking: string) =>
      drive({
        nets: '  tap: { potential: hv-switching }',
        parts: `  - { id: bar, class: bus-bar, net: dc-plus, flat: z, run: { from: 0 / 0 / 0 mm, to: 100 / 0 / 0 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
  - { id: bar-minus, class: bus-bar, net: dc-minus, flat: z, run: { from: 0 / 0 / 4 mm, to: 100 / 0 / 4 mm, width: 20 mm (measured), thickness: 2 mm (measured) } }
  - { id: can, class: dc-link-film-capacitor, capacitance: 500 µF (measured), inductance: 15 nH (measured), rated-voltage: 600 V (marked), at: 5 / 0 / 0 mm, terminals: { plus: { net: dc-plus, at: 0 / 0 / 0 mm }, minus: { net: dc-minus, at: 0 / 0 / 4 mm } } }
  - { id: pair, class: half-bridge-module, inductance: 10 nH (measured), blocking-voltage: ${blocking} (published), current-slope: 3 kA/µs (measured), at: 95 / 0 / 0 mm, terminals: { dc-plus: { net: dc-plus, at: 0 / 0 / 0 mm }, dc-minus: { net: dc-minus, at: 0 / 0 / 4 mm }, ac: tap } }`,
      })
    const over = figure(overshoot('1200 V'), 'TURN_OFF_OVERSHOOT', 'loops/pair').atTaken!
    expect(over).toBeGreaterThan(75) // 3 kA/µs · 25 nH inside can and module alone
    expect(found(overshoot('1200 V'), 'overshoot-over-rating')).toEqual([])
    for (const near of [500 + over - 20, 500 + over + 2])
      expect(found(overshoot(`${near.toFixed(0)} V`), 'overshoot-over-rating')).toEqual(['loops/pair'])
  })
})

describe('phases', () => {
  const marked = (w: string) =>
    sessionOf(
      driveSheet().replace(
        'each: { u: {}, v: {}, w: {} }',
        `each: { u: { marking: A }, v: { marking: A }, w: { marking: ${w} } }`,
      ),
    )

  it('the odd one of three is named', () => {
    expect(found(marked('B'), 'phase-differs')).toEqual(['parts/module.w'])
    expect(found(marked('A'), 'phase-differs')).toEqual([])
  })

  it('a terminal that was not traced', () => {
    const parts = '  - { id: sensor, class: current-sensor, terminals: { ground: lv-gnd, out: not looked for } }'
    expect(found(drive({ parts }), 'terminal-on-no-net')).toEqual(['parts/sensor/terminals/out'])
    expect(found(drive({ parts: parts.replace('not looked for', 'not applicable') }), 'terminal-on-no-net')).toEqual([])
  })
})

describe('the demo corpus', () => {
  const fires = [
    'voltage-order',
    'driver-count',
    'phase-differs',
    'claims-disagree',
    'bridging-part',
    'creepage-short',
    'creepage-below-clearance',
    'source-without-path',
    'live-path-without-barrier',
    'passage-nothing-enters',
    'die-larger-than-substrate',
    'total-not-sum',
    'observed-contradicted',
    'mass-closure',
    'terminal-on-no-net',
    'value-unusual',
  ]

  it('tractor 3 is full of questions, as its sheet says', () => {
    const session = seed('tractor-3-drive')
    expect(fires.filter((id) => found(session, id).length === 0)).toEqual([])
  })

  it.each(['ferry-9-drive', 'sweeper-11-drive', 'sweeper-14-auxiliary', 'tractor-8-drive'])(
    '%s raises none',
    (name) => {
      const session = seed(name)
      const raised = checks.flatMap(({ id }) => found(session, id).map((path) => `${id} ${path}`))
      expect(raised).toEqual([])
    },
  )

  it('traits tell the units apart', () => {
    const told = (name: string) => {
      const session = seed(name)
      return Object.fromEntries(
        traits.map(({ id, compute }) => [id, session.viewer.record((view) => compute(view)).value]),
      )
    }
    expect(told('ferry-7-drive')).toMatchObject({
      'laminated-bus-bars': 'laminated',
      'trace-impedance': 'meshed plane',
      'current-sensing': 'every phase',
      'link-capacitor': 'film',
      'board-isolation': 'distance and coating',
      'phase-symmetry': 'alike',
      'core-family': 'nanocrystalline', // 26 000
    })
    expect(told('tractor-3-drive')).toMatchObject({
      'current-sensing': 'two of three phases',
      'trace-impedance': null,
      'phase-symmetry': 'unequal', // one can at the end of long bars: 35.4, 33.8 and 31.8 nH
    })
    expect(told('tractor-8-drive')).toMatchObject({
      'link-capacitor': 'electrolytic',
      'driver-per-switch': 'no driver recorded',
    })
    expect(told('ferry-9-drive')).toMatchObject({
      'trace-impedance': 'solid plane',
      'low-voltage-side': 'tied to the chassis',
    })
  })
})
