import { describe, expect, it } from 'vitest'
import { buildGraph } from '../../../graph/build.ts'
import { asking, structureOf } from '../structure-fixture.ts'

describe('what is named without its section', () => {
  const sheet = `specimen: { kind: traction-inverter }
parts:
  - { id: choke, class: inductor, loss: 5 W, faces: { base: { area: 60 x 50 mm } } }
  - { id: case, class: housing, faces: { floor: { area: 90 x 60 mm } } }
heat:
  - { id: choke-pad, from: choke/base, layers: [ { id: filler, kind: gap-filler, thickness: 1.5 mm, conductivity: 2 W/(m·K), area: 60 x 50 mm } ], to: case/floor }
coolant:
  fluid: water
  flow: 6 L/min
  inlet: 55 °C
  passages: [ { id: duct, channel: { width: 20 mm, height: 5 mm, length: 160 mm }, cools: [ { face: case/floor } ] } ]
  sequence: [inlet, duct, outlet]
nets: { p: { potential: hv-positive } }
steps: [ { id: dig, takes-off: choke, loses: [choke-pad/filler/thickness, duct/channel/height, choke/loss] } ]
findings: [ { id: grey, about: [choke-pad, p], observation: grey powder, status: open, confidence: possible } ]
observed: [ { id: drop, metric: PRESSURE_DROP, subject: duct, value: 4 kPa (measured) } ]
`
  const ask = asking(sheet)

  it('a step to come puts a layer and a passage at risk as it does a part', () => {
    expect(ask.paths({ ask: 'at-risk' })).toEqual([
      'heat/choke-pad/filler/thickness',
      'coolant/duct/channel/height',
      'parts/choke/loss',
    ])
    expect(ask.paths({ ask: 'lost-with', path: 'heat/choke-pad/filler/thickness' })).toEqual(['steps/dig'])
  })

  it('an observation is held against the figure of the passage it names', () => {
    expect(ask.paths({ ask: 'observed-subject', observed: 'observed/drop' })).toEqual(['coolant/duct'])
  })

  it('a finding hangs on the heat path and the net it is about', () => {
    expect(buildGraph(structureOf(sheet).record).outNeighbors('findings/grey').toSorted()).toEqual([
      'heat/choke-pad',
      'nets/p',
    ])
  })
})
