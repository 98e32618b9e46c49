import { describe, expect, it } from 'vitest'
import { describeLack } from '../../../graph/lack.ts'
import { drive, figure } from '../../fixtures/drive.ts'

const flex = (stack: string, trace: string) =>
  `  - { id: flex, class: flexible-circuit, stack: [ ${stack} ], traces: [ { id: t1, net: lv-gnd, layer: top, ${trace} } ] }`
const TOP = '{ id: top, copper: 18 ± 1 µm (measured) }'
const FILM = '{ film: 50 ± 1 µm (measured), permittivity: 3.4 ± 0.1 (measured) }'
const PLANE = '{ id: plane, copper: 18 ± 1 µm (measured), net: lv-gnd }'
const MESH = PLANE.replace(
  ' }',
  ', mesh: { line: 0.15 ± 0.005 mm (measured), pitch: 0.6 ± 0.005 mm (measured), angle: 45 deg (measured) } }',
)
const TRACE = 'reference: [plane], width: 0.1 ± 0.005 mm (measured), length: 40 mm (measured)'
const impedance = (stack: string, trace = TRACE, metric = 'TRACE_IMPEDANCE') =>
  figure(drive({ parts: flex(stack, trace) }), metric, 'parts/flex/traces/t1')

describe('trace impedance', () => {
  it('over a solid plane is a value', () => {
    // Published case microstrip-thick-0.1x0.018-h0.05: 50.5074 Ω
    const result = impedance(`${TOP}, ${FILM}, ${PLANE}`)
    expect(Math.abs(result.atTaken! / 50.5074 - 1)).toBeLessThan(2e-3)
    expect(result.u!).toBeGreaterThan(0)
  })

  it('over a mesh has bounds and no value; the lower one is the solid plane', () => {
    const result = impedance(`${TOP}, ${FILM}, ${MESH}`)
    expect([result.status, result.value, result.atTaken, result.u]).toEqual(['OK', null, null, null])
    expect(result.low!).toBeLessThan(50.5074)
    // Published case slotted-reference-plane: a slot of 0.2 mm alone makes 84.5 Ω; openings here are 0.64 mm across
    expect(result.high!).toBeGreaterThan(84.5)
    const solid = impedance(`${TOP}, ${FILM}, ${MESH}`, TRACE, 'TRACE_IMPEDANCE_SOLID')
    expect(Math.abs(solid.atTaken! / 50.5074 - 1)).toBeLessThan(2e-3)
  })

  it('between two planes is a stripline', () => {
    // Published case stripline-er4.3-wb0.5: 48.4328 Ω for a trace without thickness; here 1 µm of it, hence a little less
    const film = '{ id: a, film: 200 ± 1 µm (measured), permittivity: 4.3 ± 0.1 (measured) }'
    const stack = `{ id: upper, copper: 18 ± 1 µm (measured), net: lv-gnd }, ${film}, { id: top, copper: 1 ± 0.1 µm (measured) }, ${film.replace('id: a', 'id: b')}, ${PLANE}`
    const result = impedance(stack, 'reference: [upper, plane], width: 0.2 ± 0.005 mm (measured)')
    expect(Math.abs(result.atTaken! / 48.4328 - 1)).toBeLessThan(0.01)
  })

  it('films in series make one permittivity', () => {
    // 25 µm of 3.4 twice is 50 µm of 3.4
    const half = FILM.replace('50 ± 1', '25 ± 0.5')
    const result = impedance(`${TOP}, ${half.replace('{', '{ id: a,')}, ${half.replace('{', '{ id: b,')}, ${PLANE}`)
    expect(result.atTaken).toBeCloseTo(impedance(`${TOP}, ${FILM}, ${PLANE}`).atTaken!, 6)
  })

  it('names what it lacks', () => {
    const lacks = (stack: string, trace = TRACE) => impedance(stack, trace).missing.map(describeLack).join()
    expect(lacks(`${TOP}, { film: 50 µm (measured) }, ${PLANE}`)).toContain('parts/flex/stack/film/permittivity')
    expect(lacks(`${TOP}, ${PLANE}`)).toContain('no film lies between')
  })
})
