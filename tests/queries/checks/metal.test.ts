import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { demoSheets } from '../../../api/demo.ts'
import { describeLack } from '../../../graph/lack.ts'
import { readSheet } from '../../../graph/sheet/read.ts'
import { checks } from '../../../queries/checks/registry.ts'
import { materialise } from '../../../queries/corpus/materialise.ts'
import { openSession, type Session } from '../../../queries/evaluate/session.ts'
import { figure, sessionOf } from '../../fixtures/drive.ts'

const BAR = 'width: 24 mm (measured), thickness: 2 mm (measured)'
const SOUND = {
  voltage: 'min: 250 V (marked), max: 450 V (marked)',
  plus: `{ id: bar-plus, class: bus-bar, net: plus, material: copper, flat: z, run: { from: 0 / 0 / 0 mm, to: 200 / 0 / 0 mm, ${BAR} } }`,
  minus: `{ id: bar-minus, class: bus-bar, net: minus, material: copper, flat: z, run: { from: 0 / 0 / 3 mm, to: 200 / 0 / 3 mm, ${BAR} } }`,
  can: '{ id: can, class: dc-link-film-capacitor, inductance: 12 nH (measured), capacitance: 500 µF (measured), rated-voltage: 500 V (marked), at: 10 / 0 / 0 mm, terminals: { plus: { net: plus, at: 0 / 0 / 0 mm }, minus: { net: minus, at: 0 / 0 / 3 mm } } }',
}

const sheet = (change: Partial<typeof SOUND>): string => {
  const { voltage, plus, minus, can } = { ...SOUND, ...change }
  return `lidoff: 1
id: slips
title: Slips of the hand
basis: judged
specimen: { kind: traction-inverter, dc-voltage: { ${voltage} } }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative }, phase: { potential: hv-switching }, aux-*: { potential: low-voltage } }
parts:
  - ${plus}
  - ${minus}
  - ${can}
  - { id: module, class: half-bridge-module, inductance: 8 nH (measured), at: 190 / 0 / 0 mm, terminals: { dc-plus: { net: plus, at: 0 / 0 / 0 mm }, dc-minus: { net: minus, at: 0 / 0 / 3 mm }, ac: phase } }`
}

const unit = (change: Partial<typeof SOUND> = {}): Session => sessionOf(sheet(change))

function found(
  session: Session,
  id: string,
): readonly { readonly path: string; readonly what: string; readonly mend: string }[] {
  const check = checks.find((one) => one.id === id)!
  return session.viewer.record((view) => check.run(view, session)).value!
}

const METAL = [
  'metals-overlap',
  'terminal-off-its-metal',
  'bar-length-slip',
  'both-ends-on-one-net',
  'link-capacitor-off-the-rails',
]

describe('metal of the rails', () => {
  it.each(METAL)('%s says nothing of a sound unit, nor of the demo units', (id) => {
    expect(found(unit(), id)).toEqual([])
    for (const file of demoSheets()) expect(found(sessionOf(readFileSync(file, 'utf8')), id), file).toEqual([])
  })

  it('bars of two nets in one place are named with the depth, and refused', () => {
    // 2 mm thick, centre lines 1.2 mm apart: 0.8 mm deep
    const session = unit({ minus: SOUND.minus.replaceAll('/ 3 mm', '/ 1.2 mm') })
    expect(found(session, 'metals-overlap')[0]?.what).toContain('stands 0.80 mm in parts/bar-plus')
    const loop = figure(session, 'LOOP_INDUCTANCE', 'loops/module')
    expect(loop.missing.map(describeLack).join()).toContain('stand 0.80 mm in each other')
  })

  it('bars that touch are not in each other, nor is one that passes through a hole', () => {
    expect(found(unit({ minus: SOUND.minus.replaceAll('/ 3 mm', '/ 2 mm') }), 'metals-overlap')).toEqual([])
    const plate = (hole: string) =>
      `{ id: bar-plus, class: bus-bar, net: plus, material: copper, flat: z, plate: { corner: 0 / -40 / -1 mm, size: 200 x 80 x 2 mm (measured)${hole} } }`
    const post = `{ id: bar-minus, class: bus-bar, net: minus, material: copper, flat: x, run: { from: 100 / 0 / -20 mm, to: 100 / 0 / 20 mm, width: 10 mm (measured), thickness: 2 mm (measured) } }`
    expect(found(unit({ plus: plate(''), minus: post }), 'metals-overlap')).toHaveLength(1)
    const hole = ', holes: [ { at: 100 / 0 / 0 mm, diameter: 14 mm (measured) } ]'
    expect(found(unit({ plus: plate(hole), minus: post }), 'metals-overlap')).toEqual([])
  })

  it('says by how much a terminal misses its metal', () => {
    // 60 mm aside of a bar of 24 mm: 48 mm from its edge
    const session = unit({ can: SOUND.can.replace('at: 10 / 0 / 0', 'at: 10 / 60 / 0') })
    expect(found(session, 'terminal-off-its-metal').map(({ what }) => what.slice(0, 30))).toEqual([
      'lies 48 mm from parts/bar-plus',
      'lies 48 mm from parts/bar-minu',
    ])
  })

  it('a bar typed in metres, and one typed in inches, are called slips', () => {
    const metres = unit({
      plus: SOUND.plus.replace('0 / 0 / 0 mm, to: 200 / 0 / 0 mm', '0 / 0 / 0 m, to: 200 / 0 / 0 m'),
    })
    expect(found(metres, 'bar-length-slip')[0]?.mend).toBe(
      'typed in metres, meant in millimetres? 200 mm would be usual',
    )
    const inches = unit({ plus: SOUND.plus.replace('to: 200', 'to: 7.87') })
    expect(found(inches, 'bar-length-slip')[0]?.mend).toBe(
      'typed in millimetres, meant in inches? 200 mm would be usual',
    )
    expect(found(inches, 'terminal-off-its-metal').map(({ path }) => path)).toContain('parts/module/terminals/dc-plus')
  })
})

describe('nets and voltages', () => {
  it('a capacitor with both ends on one net is named', () => {
    const session = unit({ can: SOUND.can.replace('net: minus', 'net: plus') })
    expect(found(session, 'both-ends-on-one-net').map(({ path }) => path)).toEqual(['parts/can'])
  })

  it('a link capacitor across no rails is named, and no figure counts it', () => {
    const session = unit({ can: SOUND.can.replace('net: plus', 'net: aux-1').replace('net: minus', 'net: aux-2') })
    expect(found(session, 'link-capacitor-off-the-rails').map(({ path }) => path)).toEqual(['parts/can'])
    expect(figure(session, 'LINK_CAPACITANCE').status).toBe('MISSING')
  })

  it('a minimum above the maximum, without a nominal between', () => {
    const session = unit({ voltage: 'min: 500 V (marked), max: 450 V (marked)' })
    expect(found(session, 'voltage-order').map(({ path }) => path)).toEqual(['specimen/dc-voltage/min'])
  })
})

describe('sizes of nothing', () => {
  it('a bar without width has no resistance, and says so', () => {
    const result = figure(
      unit({ plus: SOUND.plus.replace('width: 24', 'width: 0') }),
      'BAR_RESISTANCE',
      'parts/bar-plus',
    )
    expect(result.status).toBe('MISSING')
    expect(result.missing.map(describeLack).join()).toContain('the section of parts/bar-plus is not above zero')
  })

  it('what cannot be makes one answer impossible, not the whole record', () => {
    for (const change of [
      { can: SOUND.can.replace('500 µF', '0 µF') },
      { can: SOUND.can.replace('12 nH', '0 nH') },
      { plus: SOUND.plus.replace('width: 24', 'width: 0') },
    ]) {
      const read = readSheet(sheet(change), 'slips.yaml')
      if (!('record' in read)) throw new Error('not read')
      const { checks: told } = materialise(read.record)
      expect(told.map(({ id }) => id)).toContain('value-impossible')
      expect(openSession(read.record)).toBeDefined()
    }
  })
})
