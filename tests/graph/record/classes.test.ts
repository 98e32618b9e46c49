import { describe, expect, it } from 'vitest'
import { isDimension } from '../../../graph/quantity/dimension.ts'
import { recordFromTree } from '../../../graph/record/from-tree.ts'
import { isOfClass, PART_CLASSES, partClassOf } from '../../../graph/record/part-class.ts'
import { part, sheetTree } from '../../fixtures/record.ts'

// The two-level table of part classes of the trade (common practice), group by group; four more are named by the sheet format.
const TABLE: Readonly<Record<string, string>> = {
  housing: 'case lid bracket service-cover vent shield-plate',
  coolant: 'pipe-stub coolant-channel cold-plate fin-field flow-divider o-ring gasket channel-plug fan',
  thermal: 'thermal-pad thermal-grease gap-filler heat-spreader spacer-block',
  'power-conductor':
    'bus-bar laminated-bus-bar phase-bar flexible-link power-terminal power-connector fuse-link contactor',
  semiconductor:
    'half-bridge-module multi-bridge-module discrete-power-device power-die ceramic-substrate die-attach clip-or-bond switch-position',
  capacitor:
    'dc-link-film-capacitor filter-film-capacitor x-capacitor y-capacitor electrolytic-capacitor ceramic-capacitor capacitor-bank',
  magnetic: 'one-turn-core common-mode-choke inductor transformer sensor-core ferrite-sleeve',
  sensing: 'current-sensor voltage-sensing-chain temperature-sensor position-sensor-interface interlock-switch',
  board: 'control-board gate-driver-board supply-board filter-board flexible-circuit',
  'board-part':
    'isolated-gate-driver microcontroller isolated-amplifier gate-supply-transformer gate-resistor bleed-resistor transceiver power-supply-chip board-connector',
  insulation: 'insulating-sheet insulating-moulding potting conformal-coating',
  joining: 'screw nut-or-insert weld solder-joint press-fit-pin adhesive-bond spring-or-clip',
  wiring: 'signal-connector harness',
  label: 'label',
  assembly: 'assembly',
}

describe('part classes', () => {
  it.each(Object.entries(TABLE))('of group %s are there, and the group itself', (group, classes) => {
    for (const name of classes.split(' ')) {
      expect(partClassOf(name)).toMatchObject({ class: name, group })
      expect(isOfClass(name, group)).toBe(true)
    }
    expect(partClassOf(group)?.group).toBe(group)
  })

  it('have names and aliases of their own', () => {
    const names = PART_CLASSES.flatMap(({ class: name, aliases }) => [name, ...aliases])
    expect(names.filter((name, n) => names.indexOf(name) !== n)).toEqual([])
  })

  it.each(PART_CLASSES.map((one) => [one.class, one] as const))(
    '%s has a title, a meaning and properties of known dimensions',
    (_, one) => {
      expect(one.title).not.toBe('')
      expect(one.is).toMatch(/\.$/)
      for (const field of Object.values(one.properties)) {
        expect(field.dimension === 'text' || isDimension(field.dimension)).toBe(true)
      }
    },
  )

  it.each(PART_CLASSES.map((one) => [one.class]))('%s can be a part', (name) => {
    expect(recordFromTree(sheetTree({ parts: [part('a', name)] }))).toHaveProperty('record')
  })

  it('keep under "also" what their table lacks', () => {
    const read = recordFromTree(
      sheetTree({ parts: [part('a', 'screw', { also: { colour: 'blue', 'some thing': ['1', { b: '2' }] } })] }),
    )
    if (!('record' in read)) throw new Error('not read')
    expect(read.record.sheet.parts?.[0]?.also).toEqual({ colour: 'blue', 'some thing': ['1', { b: '2' }] })
    expect(read.record.facts.size).toBe(0)
  })

  it.each([
    ['film-capacitr', 'film-capacitor'],
    ['igbt module', 'igbt-module'],
    ['Bus_Bar', 'bus-bar'],
    ['gate driver', 'gate-driver'],
  ])('suggest for %s', (typed, meant) => {
    expect(recordFromTree(sheetTree({ parts: [part('a', typed)] }))).toMatchObject({
      faults: [{ what: `unknown class "${typed}"`, mend: expect.stringContaining(`did you mean "${meant}"`) }],
    })
  })

  it('read other words for a property, with a note, where the class has no such property of its own', () => {
    const read = recordFromTree(
      sheetTree({
        parts: [
          part('a', 'x-capacitor', { voltage: '500 V (marked)', esl: '15 nH' }),
          part('b', 'fuse-link', { voltage: '500 V (marked)' }),
        ],
      }),
    )
    if (!('record' in read)) throw new Error('not read')
    expect([...read.record.facts.keys()]).toEqual(['parts/a/rated-voltage', 'parts/a/inductance', 'parts/b/voltage'])
    expect(read.warnings.map(({ what }) => what)).toEqual([
      '"voltage" read as rated-voltage',
      '"esl" read as inductance',
    ])
  })

  it('do not read another word beside the word itself', () => {
    const both = part('a', 'x-capacitor', { voltage: '500 V', 'rated-voltage': '560 V' })
    expect(recordFromTree(sheetTree({ parts: [both] }))).toMatchObject({ faults: [{ what: 'unknown key "voltage"' }] })
  })
})
