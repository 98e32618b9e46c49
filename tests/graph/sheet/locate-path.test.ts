import { describe, expect, it } from 'vitest'
import { pathLocator } from '../../../graph/sheet/locate-path.ts'

const SHEET = `lidoff: 1
parts:
  - id: module
    loss: 300 W
    each: { u: { at: 1 / 2 / 3 mm }, v: { loss: 0 W } }
heat:
  - { id: down, from: module, layers: [ { kind: pad, area: 0 mm² }, { part: plate } ] }
  - { id: up, from: module, layers: [ { kind: pad, area: 4 mm² } ] }
coolant:
  flow: 0 L/min
  passages:
    - { id: run, cools: [ { face: module/base, wetted-area: 0 cm² } ] }
    - { id: two, cools: [ { face: a/b, wetted-area: 1 cm² }, { face: a/c, wetted-area: 0 cm² } ] }
observed:
  - { metric: COOLANT_RISE, value: 3 K }
  - { metric: PRESSURE_DROP, value: 4 kPa }
`
const at = pathLocator(SHEET)
/** What stands at the place, to the end of its line. */
const typed = (path: string): string | null => {
  const spot = at(path)
  return spot && SHEET.split('\n')[spot.line - 1]!.slice(spot.column - 1)
}

describe('where a canonical path stands in the text', () => {
  it('is the value itself where the sheet spells it out', () => {
    expect(at('coolant/flow')).toEqual({ line: 10, column: 9 })
    expect(typed('heat/down/pad/area')).toMatch(/^0 mm²/)
    expect(typed('heat/up/pad/area')).toMatch(/^4 mm²/)
    expect(typed('observed/pressure-drop/value')).toMatch(/^4 kPa/)
  })

  it('is that of the piece where it has its own, else that of all pieces', () => {
    expect(typed('parts/module.v/loss')).toMatch(/^0 W/)
    expect(typed('parts/module.u/loss')).toMatch(/^300 W/)
  })

  it('passes over a derived name that can mean one entry only, and stops before one that could mean several', () => {
    expect(typed('coolant/run/cools/module-base/wetted-area')).toMatch(/^0 cm²/)
    expect(typed('coolant/two/cools/a-c/wetted-area')).toMatch(/^cools:/)
  })

  it('is nowhere for what is not in the sheet', () => {
    expect(at('specimen/mass')).toBeNull()
  })
})
