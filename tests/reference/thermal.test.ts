import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { conductionAdapter } from './adapters/conduction.ts'
import { convectionAdapter } from './adapters/convection.ts'
import { coolantFlowAdapter } from './adapters/coolant-flow.ts'
import { coolantPropertiesAdapter } from './adapters/coolant-properties.ts'
import { siOf } from './adapters/inputs.ts'
import { thermalNetworkAdapter } from './adapters/thermal-network.ts'
import { transientAdapter } from './adapters/transient.ts'
import type { Case, CaseValue } from './case.ts'

const folder = new URL('../../../shared/reference/', import.meta.url)
const adapters = [
  conductionAdapter,
  convectionAdapter,
  coolantFlowAdapter,
  coolantPropertiesAdapter,
  thermalNetworkAdapter,
  transientAdapter,
]
const files = ['thermal.json', 'published-benchmarks.json']
  .map((name) => new URL(name, folder))
  .filter((file) => existsSync(file))
const cases = files
  .flatMap((file) => JSON.parse(readFileSync(file, 'utf8')) as readonly Case[])
  .flatMap((input) => {
    const adapter = adapters.find(({ topics }) => topics.includes(input.topic))
    return adapter ? [{ id: input.id, input, adapter }] : []
  })

/** Temperatures in °C are held to the tolerance on their Celsius number, which is stricter than on kelvin. */
function distance(found: unknown, expected: CaseValue | boolean): { off: number; scale: number } {
  if (typeof expected === 'object' && typeof expected.value === 'boolean')
    return { off: found === expected.value ? 0 : 1, scale: 0 }
  if (typeof expected === 'boolean') return { off: found === expected ? 0 : 1, scale: 0 }
  const wanted = siOf(expected)
  const celsius = typeof expected === 'object' && expected.unit === 'Cel'
  return {
    off: typeof found === 'number' ? Math.abs(found - wanted) : Number.NaN,
    scale: Math.abs(celsius ? wanted - 273.15 : wanted),
  }
}

describe.skipIf(files.length < 2)(
  `thermal reference cases (${files.length < 2 ? `skipped: no files in ${folder.pathname}` : cases.length})`,
  () => {
    it('finds all of them', () => {
      expect(cases.length).toBeGreaterThanOrEqual(64)
    })

    it.each(cases)('$id', ({ input, adapter }) => {
      const answer = adapter.answer(input)
      for (const [key, expected] of Object.entries(input.expected)) {
        const { off, scale } = distance(answer?.[key], expected as CaseValue)
        expect(off, `${key}: ${answer?.[key]} against ${JSON.stringify(expected)}`).toBeLessThanOrEqual(
          input.relTol * scale + 1e-12,
        )
      }
    })
  },
)
