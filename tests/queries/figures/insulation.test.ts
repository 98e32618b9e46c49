import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import { driveSheet, figure, sessionOf } from '../../fixtures/drive.ts'

// Distances of IEC 60664-1 as they stand in the published cases creepage-table and clearance-table (500 V, degree 2,
// group III: 5.0 mm; 4 kV: 3.0 mm) and, for 6 kV, 5.5 mm from memory of the same table.
interface Distance {
  readonly kind?: 'creepage' | 'clearance'
  readonly between?: string
  readonly distance?: string
  readonly rest?: string
}
const spacing = ({ kind = 'creepage', between = 'phase-u, lv-gnd', distance = '12 ± 0.1 mm', rest }: Distance) =>
  `spacings:\n  - { id: barrier, kind: ${kind}, between: [${between}], on: board, distance: ${distance} (measured), ${rest ?? 'insulation: reinforced, material-group: IIIa (assumed)'} }`
const BOARD = '  - { id: board, class: gate-driver-board }'

function margin(one: Distance, rest = '', change = (text: string) => text) {
  const text = change(driveSheet({ parts: BOARD, rest: `${spacing(one)}\n${rest}` }))
  return figure(sessionOf(text), `${(one.kind ?? 'creepage').toUpperCase()}_MARGIN`, 'parts/board')
}

describe('creepage margin', () => {
  it('is the distance less twice the basic one, at the whole link voltage', () => {
    // 12 mm − 2 · 5.0 mm
    const result = margin({})
    expect(result.atTaken).toBeCloseTo(2, 9)
    const said = result.warnings.join('\n')
    for (const word of ['500 V', 'pollution degree 2', 'first insulation fault', 'material group IIIa'])
      expect(said).toContain(word)
  })

  it('adds the offset of a net that rides on another', () => {
    // 500 V + 30 V: between 500 V (5.0 mm) and 630 V (6.3 mm) 5.3 mm; twice that is 10.6 mm
    const net = (text: string) =>
      text.replace('g-*-high: { rides-on: phase-* }', 'g-*-high: { rides-on: phase-*, offset: 30 V (measured) }')
    expect(margin({ between: 'g-u-high, lv-gnd' }, '', net).atTaken).toBeCloseTo(1.4, 9)
  })

  it('takes a stated working voltage before the derived one', () => {
    // 250 V: 2.5 mm, twice 5.0 mm
    const stated = 'voltages:\n  - { between: [phase-u, chassis], working: 250 V (measured) }'
    expect(margin({}, stated).atTaken).toBeCloseTo(7, 9)
  })

  it('altitude does not enter, pollution does', () => {
    const high = (text: string) => text.replace('altitude: 2000 m', 'altitude: 4500 m')
    expect(margin({}, '', high).atTaken).toBeCloseTo(2, 9)
    // degree 3, group III, 500 V: 8.0 mm (published case); twice 16 mm
    const dirty = (text: string) => text.replace('pollution-degree: 2', 'pollution-degree: 3')
    expect(margin({}, '', dirty).atTaken).toBeCloseTo(-4, 9)
  })

  it('does not apply between nets that are not hazardous', () => {
    expect(margin({ between: 'lv-gnd, chassis' }).status).toBe('NOT_APPLICABLE')
  })

  it('asks for the kind of insulation and the material group rather than taking one', () => {
    const lacks = margin({ rest: 'insulation: basic' }).missing.map(describeLack).join()
    expect(lacks).toContain('spacings/barrier/material-group')
    expect(margin({ rest: 'material-group: I (assumed)' }).missing.map(describeLack).join()).toContain('insulation:')
  })

  it('reads the material group from a tracking index', () => {
    // 600 V and above: group I (IEC 60664-1); degree 2, 500 V: 2.5 mm basic
    expect(margin({ rest: 'insulation: basic, tracking-index: 600 V (measured)' }).atTaken).toBeCloseTo(9.5, 9)
  })

  it('of several on a board is that of the tightest', () => {
    const second =
      '  - { id: other, kind: creepage, between: [dc-plus, lv-gnd], on: board, distance: 6 mm (measured), insulation: basic, material-group: IIIa (assumed) }'
    // 6 mm − 5.0 mm = 1 mm before 12 mm − 10 mm = 2 mm
    const result = margin({}, second)
    expect(result.atTaken).toBeCloseTo(1, 9)
    expect(result.warnings.join()).toContain('spacings/other')
  })
})

describe('clearance margin', () => {
  const AIR = { kind: 'clearance', distance: '6 ± 0.1 mm', rest: 'insulation: reinforced' } as const

  it('by the rated impulse voltage of the category, one step up for reinforced insulation', () => {
    // 500 V, category II: row of 600 V, 4 kV; reinforced 6 kV: 5.5 mm
    expect(margin(AIR).atTaken).toBeCloseTo(0.5, 9)
  })

  it('altitude widens it', () => {
    // 5.5 mm · 1.48 at 5000 m (published case altitude-factor-table) = 8.14 mm
    const high = (text: string) => text.replace('altitude: 2000 m', 'altitude: 5000 m')
    expect(margin(AIR, '', high).atTaken).toBeCloseTo(6 - 8.14, 9)
  })

  it('a stated impulse goes first, and its doubt moves no step of the list', () => {
    // 2.5 kV, reinforced 4 kV: 3.0 mm
    const stated = 'voltages:\n  - { between: [phase-u, chassis], impulse: 2.5 kV ± 10 % (assumed) }'
    const result = margin(AIR, stated)
    expect(result.atTaken).toBeCloseTo(3, 9)
    expect(result.high! - result.low!).toBeLessThan(0.4)
  })
})

describe('field between laminated bars', () => {
  it('is the voltage between their nets over the measured gap', () => {
    const bars = `${BOARD}
  - { id: plus, class: bus-bar, net: dc-plus, flat: z, plate: { corner: 0 / 0 / 0 mm, size: 100 x 40 x 1 mm (measured) } }
  - { id: minus, class: bus-bar, net: dc-minus, flat: z, plate: { corner: 0 / 0 / 1.5 mm, size: 100 x 40 x 1 mm (measured) }, beside: { part: plus, side: +z, gap: 0.25 mm (measured) } }`
    // 500 V/0.25 mm
    expect(figure(sessionOf(driveSheet({ parts: bars })), 'INSULATION_STRESS', 'parts/minus').atTaken).toBeCloseTo(2, 9)
  })
})
