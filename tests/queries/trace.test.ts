import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { asPath } from '../../graph/quantity/quantity.ts'
import { type Known, traceHeat } from '../../queries/trace.ts'
import { sessionOf } from '../fixtures/drive.ts'
import { die, heatSession } from '../fixtures/heat.ts'

const number = (known: Known): number => ('value' in known ? known.value : Number.NaN)

describe('traceHeat', () => {
  it('follows both sides of a die down to the coolant, with what is upstream and beside it', () => {
    const session = sessionOf(readFileSync(new URL('../../seeds/ferry-7-drive.yaml', import.meta.url), 'utf8'))
    const { routes, temperature } = traceHeat(session, asPath('parts/module.v/switch.high/igbt.1'))
    expect(routes.map(({ end }) => end.path)).toEqual(['coolant/lower.v', 'coolant/upper.v'])
    const [down] = routes
    expect(down!.ways.map(({ path }) => path)).toEqual(['heat/igbt-down.v-high-1', 'heat/seat-lower.v'])
    expect(down!.ways[0]!.layers.map(({ part }) => part)).toEqual([null, 'parts/module.v/substrate-lower'])
    expect(down!.end.upstream).toEqual(expect.arrayContaining(['coolant/lower.u', 'coolant/wall-run']))
    expect(down!.end.shares).toContain('parts/module.v/switch.low/diode.2')
    expect(down!.end.shares.every((one) => one.startsWith('parts/module.v'))).toBe(true)
    // Down the whole way temperature falls by resistance times heat, layer by layer to the local coolant.
    const fall = down!.ways.reduce((sum, { resistance, heat }) => sum + number(resistance) * number(heat), 0)
    const film = number(down!.end.film!) * number(down!.end.heat)
    expect(number(temperature) - fall - film).toBeCloseTo(number(down!.end.temperature), 6)
    for (const { resistance, layers } of down!.ways)
      expect(layers.reduce((sum, one) => sum + one.resistance!, 0)).toBeCloseTo(number(resistance), 12)
  })

  it('says what it lacks, and where a way leads nowhere', () => {
    const session = heatSession({
      parts: `${die('die')}\n  - { id: block, class: heat-spreader, faces: { top: {} } }`,
      heat: '  - { id: down, from: die, to: block/top, resistance: not looked for }',
    })
    const { routes, temperature } = traceHeat(session, asPath('parts/die'))
    expect(routes).toHaveLength(1)
    expect(routes[0]!.end).toMatchObject({ kind: 'nowhere', path: 'parts/block/top' })
    expect(routes[0]!.ways[0]!.resistance).toEqual({ lacks: 'heat/down/resistance: not looked for' })
    expect('lacks' in temperature).toBe(true)
  })

  it('has no route for a part that heat never leaves', () => {
    const session = heatSession({ parts: '  - { id: lid, class: lid }' })
    expect(traceHeat(session, asPath('parts/lid')).routes).toEqual([])
  })
})
