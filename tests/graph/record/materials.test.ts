import { describe, expect, it } from 'vitest'
import { MATERIALS } from '../../../graph/record/material-table.ts'
import { part, record } from '../../fixtures/record.ts'

const siOf = (of: ReturnType<typeof record>, path: string) => of.facts.get(path as never)?.taken.quantity?.value

describe('materials', () => {
  it('of the table come with the parts made of them, as assumed, their spread shared by all units', () => {
    const made = record({
      parts: [part('a', 'bus-bar', { material: 'copper' }), part('b', 'bus-bar', { material: 'copper' })],
    })
    const fact = made.facts.get('materials/copper/conductivity' as never)
    expect(fact?.taken.evidence.basis).toBe('assumed')
    expect(made.influences.get('table:materials/copper/conductivity')?.scope).toBe('corpus')
    expect(siOf(record(), 'materials/copper/density')).toBeUndefined()
  })

  it('of the sheet go before those of the table, property by property', () => {
    const made = record({
      materials: { copper: { conductivity: '300 W/(m·K) (measured)' } },
      parts: [part('a', 'bus-bar', { material: 'copper' })],
    })
    expect(siOf(made, 'materials/copper/conductivity')).toBe(300)
    expect(siOf(made, 'materials/copper/density')).toBe(8940)
  })

  // Second source beside the table's own: IEC 60028 for annealed copper (1.7241e-8 Ω·m at 20 °C, 0.00393 /K, 8.89 g/cm³); others by
  // textbooks of heat transfer (300 K, from memory): aluminium 237, copper 401, silicon 148 W/(m·K) falling to 99 at 400 K,
  // plain carbon steel 60.5, austenitic steel 14.9, alumina 36 when pure. Each within the spread stated.
  it.each([
    ['copper', 'resistivity', 1.7241e-8],
    ['copper', 'temperature-coefficient', 3.93e-3],
    ['copper', 'conductivity', 401],
    ['copper', 'specific-heat', 385],
    ['aluminium', 'conductivity', 237],
    ['aluminium', 'density', 2702],
    ['aluminium', 'specific-heat', 903],
    ['silicon', 'conductivity', 99],
    ['silicon', 'conductivity', 140],
    ['silicon', 'density', 2330],
    ['steel', 'conductivity', 60],
    ['stainless-steel', 'conductivity', 14.9],
    ['stainless-steel', 'density', 7900],
    ['polyimide-film', 'permittivity', 3.4],
  ] as const)('%s: %s covers %f', (name, property, outside) => {
    const [value, relative] = MATERIALS[name]?.[property] ?? [Number.NaN, 0]
    expect(Math.abs(outside / value - 1)).toBeLessThanOrEqual(relative)
  })

  // Wiedemann and Franz: λ·ρ/T is 2.44e-8 W·Ω/K² for a metal (Lorenz number, textbook value), within a tenth for these.
  it.each(['copper', 'aluminium', 'brass'])('%s conducts heat and current in the ratio of a metal', (name) => {
    const { conductivity, resistivity } = MATERIALS[name] ?? {}
    const lorenz = ((conductivity?.[0] ?? 0) * (resistivity?.[0] ?? 0)) / 293.15
    expect(Math.abs(lorenz / 2.44e-8 - 1)).toBeLessThan(0.13)
  })

  it('are physically possible', () => {
    for (const { density, conductivity, 'specific-heat': heat, permittivity } of Object.values(MATERIALS)) {
      expect(density?.[0] ?? 1000).toBeGreaterThan(500)
      expect(density?.[0] ?? 1000).toBeLessThan(22_600) // osmium
      expect(conductivity?.[0] ?? 1).toBeLessThan(2200) // diamond
      expect(heat?.[0] ?? 1000).toBeLessThan(4200) // water
      expect(permittivity?.[0] ?? 1).toBeGreaterThanOrEqual(1)
    }
  })
})
