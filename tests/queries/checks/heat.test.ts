import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { checks } from '../../../queries/checks/registry.ts'
import type { Session } from '../../../queries/evaluate/session.ts'
import { traits } from '../../../queries/traits/registry.ts'
import { sessionOf } from '../../fixtures/drive.ts'
import { die, heatSession } from '../../fixtures/heat.ts'

/** Places that a check names; a lack inside a check would be no finding, so it is thrown here. */
function found(session: Session, id: string): readonly string[] {
  const check = checks.find((one) => one.id === id)!
  const { value, lack } = session.viewer.record((view) => check.run(view, session))
  if (!value) throw new Error(`${id} stopped: ${JSON.stringify(lack)}`)
  return value.map(({ path }) => path)
}

const trait = (session: Session, id: string): string | null =>
  session.viewer.record((view) => traits.find((one) => one.id === id)!.compute(view)).value ?? null
const seed = (name: string): Session =>
  sessionOf(readFileSync(new URL(`../../../seeds/${name}.yaml`, import.meta.url), 'utf8'))

const NETS = 'nets:\n  bus: { potential: hv-positive }\n  chassis: { potential: chassis }'
const device = (id: string, loss: string): string =>
  `  - { id: ${id}, class: discrete-power-device, loss: ${loss}, faces: { tab: { area: 2 cm² } }, terminals: { drain: bus } }`
const block = '  - { id: block, class: heat-spreader, faces: { top: { area: 20 cm² }, wet: {} } }'
const layer = (more = ''): string => `{ kind: sheet, thickness: 0.2 mm, conductivity: 2 W/(m·K), area: 2 cm²${more} }`

describe('sources without a way', () => {
  it('are named when they have a loss, not when nobody looked for one', () => {
    const session = heatSession({ parts: `${die('hot')}\n${die('open', '', 'not looked for')}` })
    expect(found(session, 'source-without-path')).toEqual(['parts/hot'])
  })
})

describe('a live path without a barrier', () => {
  const paths = (first: string, second: string): Session =>
    heatSession({
      parts: `${device('fet', '5 W')}\n${block}`,
      heat: `  - { id: down, from: fet/tab, layers: [ ${first} ], to: block/top }
  - { id: out, from: block/top, layers: [ ${second} ], to: frame }`,
      rest: NETS,
    })

  it('is named', () => {
    expect(found(paths(layer(), layer()), 'live-path-without-barrier')).toEqual(['heat/down'])
  })

  it('is none with a barrier in it, or further on', () => {
    expect(found(paths(layer(', insulating: yes'), layer()), 'live-path-without-barrier')).toEqual([])
    expect(found(paths(layer(), layer(', insulating: yes')), 'live-path-without-barrier')).toEqual([])
  })

  it('is none where the barrier lies between the die and the face it starts from', () => {
    const session = heatSession({
      parts: `  - id: module
    class: half-bridge-module
    terminals: { dc-plus: bus }
    faces: { base: { area: 4 cm² } }
    parts: [ { id: chip, class: power-die, kind: IGBT, size: 10 x 10 mm, loss: 50 W } ]`,
      heat: `  - { id: chip-down, from: chip, layers: [ ${layer(', insulating: yes')} ], to: module/base }
  - { id: seat, from: module/base, layers: [ ${layer()} ], to: frame }`,
      rest: NETS,
    })
    expect(found(session, 'live-path-without-barrier')).toEqual([])
  })
})

describe('coolant', () => {
  const unit = (circuit: string, passages: string, sequence: string): Session =>
    heatSession({
      parts: `${device('fet', '500 W')}\n${block}`,
      heat: '  - { id: down, from: fet/tab, to: block/wet, resistance: 0.1 K/W }',
      coolant: `  ${circuit}\n  passages:\n${passages}\n  sequence: [inlet, ${sequence}, outlet]`,
      rest: NETS,
    })
  const run =
    '    - { id: run, channel: { width: 10 mm, height: 5 mm, length: 100 mm }, cools: [ { face: block/wet } ] }'
  const pipe = '    - { id: back, pipe: { diameter: 10 mm, length: 100 mm } }'
  const glycol = (inlet: string, flow = '6 L/min', pressure = '150 kPa'): string =>
    `fluid: ethylene-glycol-water\n  glycol-by-mass: 50 %\n  inlet: ${inlet}\n  flow: ${flow}\n  pressure: ${pressure}`

  it('within its range is nothing to say; half and half freezes at −36 °C and boils near 118 °C at 150 kPa', () => {
    expect(found(unit(glycol('65 °C'), run, 'run'), 'coolant-outside-its-range')).toEqual([])
    expect(found(unit(glycol('-40 °C'), run, 'run'), 'coolant-outside-its-range')).toContain('coolant/inlet')
    expect(found(unit(glycol('122 °C'), run, 'run'), 'coolant-outside-its-range')).toContain('coolant/inlet')
  })

  it('that boils on its way is named at the passage', () => {
    // 500 W into 0.1 L/min of about 6 W/K: 80 K above 100 °C
    const boiling = found(unit(glycol('100 °C', '0.1 L/min'), run, 'run'), 'coolant-outside-its-range')
    expect(boiling).toEqual(['coolant/run'])
  })

  it('a flow of zero is an error of its own', () => {
    expect(found(unit(glycol('65 °C', '0 L/min'), run, 'run'), 'coolant-flow-of-zero')).toEqual(['coolant/flow'])
  })

  it('a return pipe needs no heat, a passage whose face gets none is asked about', () => {
    const idle =
      '    - { id: idle, channel: { width: 10 mm, height: 5 mm, length: 100 mm }, cools: [ { face: block/top } ] }'
    const session = unit(glycol('65 °C'), `${run}\n${pipe}\n${idle}`, 'run, back, idle')
    expect(found(session, 'passage-without-heat')).toEqual(['coolant/idle'])
    expect(found(unit(glycol('65 °C'), `${run}\n${pipe}`, 'run'), 'passage-nothing-enters')).toEqual(['coolant/back'])
  })
})

describe('sizes of zero', () => {
  it('are named where they stand', () => {
    const session = heatSession({
      parts: `${device('fet', '5 W')}\n${block}`,
      heat: `  - { id: down, from: fet/tab, layers: [ ${layer().replace('2 cm²', '0 mm²')} ], to: frame }`,
      rest: NETS,
    })
    expect(found(session, 'heat-path-of-zero')).toEqual(['heat/down/sheet/area'])
  })

  it('of a passage are named as well, and of what it wets', () => {
    const run = (width: string, wetted: string): Session =>
      heatSession({
        parts: block,
        coolant: `  fluid: water\n  flow: 6 L/min\n  inlet: 25 °C\n  passages:\n    - { id: run, channel: { width: ${width}, height: 5 mm, length: 100 mm }, cools: [ { face: block/wet, wetted-area: ${wetted} } ] }\n  sequence: [inlet, run, outlet]`,
      })
    expect(found(run('10 mm', '4 cm²'), 'heat-path-of-zero')).toEqual([])
    expect(found(run('0 mm', '0 cm²'), 'heat-path-of-zero')).toEqual([
      'coolant/run/cools/block-wet/wetted-area',
      'coolant/run/channel/width',
    ])
  })
})

describe('a loss that outgrows its way out', () => {
  it('is an error at the part, one that settles is none', () => {
    // 100 W · 2 %/K · 1 K/W is a loop gain of 2; at 0.5 %/K it is one half.
    const at = (coefficient: string): Session =>
      heatSession({
        parts: die('die', `, loss-coefficient: ${coefficient}`, '{ value: 100 W, at: { junction: 60 °C } }'),
        heat: '  - { id: down, from: die, to: frame, resistance: 1 K/W }',
      })
    expect(found(at('2 %/K'), 'thermal-runaway')).toEqual(['parts/die'])
    expect(found(at('0.5 %/K'), 'thermal-runaway')).toEqual([])
  })
})

describe('a temperature where a difference is meant', () => {
  const observed = (value: string): Session =>
    heatSession({
      parts: die('die'),
      rest: `observed:\n  - { metric: COOLANT_RISE, subject: specimen, value: ${value} (measured) }`,
    })

  it('is named with its place, and compared with nothing', () => {
    expect(found(observed('4 K'), 'temperature-for-a-difference')).toEqual([])
    expect(found(observed('4 °C'), 'temperature-for-a-difference')).toEqual(['observed/coolant-rise/value'])
    expect(found(observed('4 °C'), 'observed-contradicted')).toEqual([])
  })
})

describe('seals', () => {
  const seal = (cord: string, width: string, towards: string): Session =>
    heatSession({
      parts: `${device('fet', '5 W')}
  - { id: box, class: lid }
  - { id: ring, class: o-ring, cord-diameter: ${cord}, groove: { depth: 1.82 mm, width: ${width} }, seals: { passages: [run], leaks-towards: ${towards} } }`,
      coolant:
        '  fluid: water\n  flow: 6 L/min\n  inlet: 25 °C\n  passages:\n    - { id: run, pipe: { diameter: 8 mm, length: 1 m } }\n  sequence: [inlet, run, outlet]',
      rest: NETS,
    })

  it('that would leak onto what is live are named, others are not', () => {
    expect(found(seal('2.41 mm', '3.2 mm', 'fet'), 'seal-above-live-parts')).toEqual(['parts/ring'])
    expect(found(seal('2.41 mm', '3.2 mm', 'box'), 'seal-above-live-parts')).toEqual([])
  })

  it('are asked about beyond the usual squeeze and fill', () => {
    // 2.41 mm in 1.82 × 3.2 mm: 24.5 % and 78 %, both usual. 3 mm cord: squeeze 39 %, fill 121 %.
    expect(found(seal('2.41 mm', '3.2 mm', 'box'), 'o-ring-squeeze')).toEqual([])
    expect(found(seal('2.41 mm', '3.2 mm', 'box'), 'o-ring-fill')).toEqual([])
    expect(found(seal('3 mm', '3.2 mm', 'box'), 'o-ring-squeeze')).toEqual(['parts/ring'])
    expect(found(seal('3 mm', '3.2 mm', 'box'), 'o-ring-fill')).toEqual(['parts/ring'])
  })
})

describe('traits of cooling in the demo corpus', () => {
  it.each([
    ['ferry-7-drive', { 'cooling-sides': 'double', 'coolant-order': 'mixed', 'heat-spreading': '45° rule' }],
    ['ferry-9-drive', { 'cooling-sides': 'single', 'coolant-order': 'series', 'heat-spreading': 'mixed' }],
    ['ferry-2-combined', { 'coolant-order': 'parallel', 'cooling-medium': 'liquid' }],
    ['sweeper-11-drive', { 'cooling-medium': 'air', 'coolant-order': 'one passage' }],
    ['sweeper-5-charger', { 'heat-spreading': 'none' }],
  ] as const)('%s', (name, expected) => {
    const session = seed(name)
    for (const [id, value] of Object.entries(expected)) expect(trait(session, id)).toBe(value)
  })
})
