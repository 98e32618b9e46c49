import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { calculators } from '../../queries/calculators.ts'

const folder = new URL('../../queries/physics/', import.meta.url)

describe('bench calculators', () => {
  it('every method list of the physics files is in the list', async () => {
    const lists: string[] = []
    for (const file of readdirSync(folder).filter((name) => name.endsWith('.ts'))) {
      const module: Record<string, unknown> = await import(new URL(file, folder).href)
      for (const [name, value] of Object.entries(module)) {
        if (name.endsWith('Methods') && Array.isArray(value)) lists.push(...value.map((method) => method.id))
      }
    }
    expect(calculators.map(({ id }) => id).toSorted()).toEqual(lists.toSorted())
  })

  it.each(calculators.map((one) => [one.id, one] as const))('%s says what it takes, gives and stands on', (_, one) => {
    expect(one.title).not.toBe('')
    expect(one.sources.length).toBeGreaterThan(0)
    expect(Object.keys(one.gives).length).toBeGreaterThan(0)
    for (const { about } of [...Object.values(one.takes), ...Object.values(one.gives)]) expect(about).not.toBe('')
  })

  it('no two share an id', () => {
    expect(new Set(calculators.map(({ id }) => id)).size).toBe(calculators.length)
  })
})
