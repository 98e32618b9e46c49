import { writeSync } from 'node:fs'
import { asPath } from '../../../graph/quantity/quantity.ts'
import type { Derived } from '../../../graph/store/derived.ts'
import { openStore } from '../../../graph/store/sqlite.ts'

/** One line of what it says. */
export interface Acknowledged {
  readonly id: string
  readonly revision: number
  readonly hash: string
  readonly n: number
}

/**
 * Writes revision after revision and says so, line by line, only after each is stored. Run by `durable.test.ts`, which
 * kills it. Arguments: file, first number, how many (endless when 0), what to do.
 */
const [file = '', from = '1', count = '0', job = 'write'] = process.argv.slice(2)
const PARTS = 20

/** Everything in a revision carries its number, so that a torn one shows. */
function derivedOf(number: number): Derived {
  return {
    summary: { title: `Round ${number}`, kind: 'combined', maker: null, model: null, text: `round ${number}` },
    parts: Array.from({ length: PARTS }, (_, at) => ({
      ...{
        path: asPath(`parts/p${at}`),
        id: `p${at}`,
        class: 'inductor',
        group: 'magnetic',
        parent: null,
        built: number,
        found: 1,
      },
      ...{
        type: null,
        marking: `M ${number}`,
        markingNormal: `M${number}`,
        material: null,
        states: [],
        nets: [`n${number}`],
      },
      ...{ potentials: [], heatEnds: [], properties: [], bases: [], text: `round ${number}` },
    })),
    passages: [],
    figures: Array.from({ length: PARTS }, (_, at) => ({
      ...{
        metric: 'PART_COUNT',
        subject: asPath(`parts/p${at}`),
        conditions: 'default',
        status: 'OK' as const,
        unit: '1',
      },
      ...{
        value: number,
        atTaken: number,
        uncertainty: 0,
        low: number,
        high: number,
        how: 'exact',
        basis: null,
        reason: null,
      },
      ...{ components: {}, body: `{"round":${number}}` },
    })),
    traits: [],
    checks: [],
  }
}

const store = await openStore({ file, ...(job !== 'count' && { checkpointPages: 100 }) })
if (job === 'backup') void store.backup(`${file}.copy`)
for (let n = Number(from); count === '0' || n < Number(from) + Number(count); n++) {
  const { id, revision, hash } = await store.commit({
    ...{
      id: `unit-${n % 5}`,
      sheetText: `round: ${n}\n${'# '.repeat(900)}`,
      body: `{"round":${n}}`,
      expected: undefined,
    },
    ...{ derived: derivedOf(n), at: '2026-11-19T08:00:00Z' },
  })
  writeSync(1, `${JSON.stringify({ id, revision, hash, n })}\n`)
  await new Promise(setImmediate)
}
await store.close()
