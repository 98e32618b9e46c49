import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type TestCorpus, testCorpus } from '../corpus-fixture.ts'
import { store, unit } from '../demo-fixture.ts'

let corpus: TestCorpus
beforeAll(async () => {
  corpus = await testCorpus()
  await store(corpus, unit('unit-a'))
  await store(
    corpus,
    unit('unit-b', { specimen: { kind: 'dc-dc-converter', envelope: '200 x 100 x 100 mm (measured)' } }),
  )
})
afterAll(() => corpus.gone())

interface FigureShape {
  readonly metric: string
  readonly subject: string
  readonly status: string
  readonly value: number | null
  readonly inputs: readonly {
    readonly path: string
    readonly value: number
    readonly unit: string
    readonly share: number | null
  }[]
  readonly interaction: number | null
  readonly missing: readonly { readonly path: string | null; readonly asks: string }[]
}

const FIGURE =
  '{ metric subject status value unit ucum uncertainty low high how weakestBasis inputs { path value unit share basis } interaction missing { path asks } conditions { power numeric { name value } } cautions { id } }'

const figuresOf = async (id: string, args: string): Promise<readonly FigureShape[]> =>
  (
    await corpus.ask<{ teardown: { figures: FigureShape[] } }>(
      `{ teardown(id: "${id}") { figures(${args}) ${FIGURE} } }`,
    )
  ).teardown.figures

describe('figures', () => {
  it('are worked from the record: 100 kW over ten litres', async () => {
    const [one] = await figuresOf('unit-a', 'metrics: [POWER_DENSITY]')
    expect(one).toMatchObject({
      metric: 'POWER_DENSITY',
      subject: 'specimen',
      status: 'OK',
      unit: 'kW/L',
      ucum: 'kW/L',
    })
    expect(one?.value).toBeCloseTo(10, 9)
    expect(one?.inputs.find(({ path }) => path === 'operating-points/peak/power')).toMatchObject({
      value: 100_000,
      unit: 'W',
    })
    const shares = one!.inputs.reduce((sum, { share }) => sum + (share ?? 0), one!.interaction ?? 0)
    expect(shares).toBeCloseTo(1, 6)
  })

  it('are missing with what to measure, never zero', async () => {
    const [one] = await figuresOf('unit-b', 'metrics: [POWER_DENSITY], conditions: { volume: HULL }')
    expect(one).toMatchObject({ status: 'MISSING', value: null })
    expect(one?.missing).toEqual([
      expect.objectContaining({ path: 'specimen/hull-volume', asks: expect.stringContaining('specimen/hull-volume') }),
    ])
  })

  it('answer what-if without writing', async () => {
    const [heavier] = await figuresOf(
      'unit-a',
      'metrics: [SPECIFIC_POWER], whatIf: [{ path: "specimen/mass", value: "20 kg" }]',
    )
    expect(heavier?.value).toBeCloseTo(5, 9)
    const [still] = await figuresOf('unit-a', 'metrics: [SPECIFIC_POWER]')
    expect(still?.value).toBeCloseTo(10, 9)
  })

  it('take conditions as quantities, print them back, and refuse a wrong dimension', async () => {
    const [one] = await figuresOf(
      'unit-a',
      'metrics: [COOLANT_RISE], subjects: ["specimen"], conditions: { coolantFlow: "5 L/min" }',
    )
    expect(one).toMatchObject({ conditions: { numeric: [{ name: 'coolantFlow', value: '5 L/min' }] } })
    const refused = await corpus.refusal(
      '{ teardown(id: "unit-a") { figures(conditions: { coolantFlow: "5 mm" }) { id } } }',
    )
    expect(refused).toMatchObject({ message: expect.stringMatching(/flow/), mend: expect.stringMatching(/L\/min/) })
  })

  it('are the same from the stored rows and computed anew', async () => {
    const stored = await figuresOf('unit-a', 'conditions: { power: PEAK }')
    const computed = await figuresOf('unit-a', 'whatIf: [{ path: "specimen/mass", value: "10.0 ± 0.1 kg (measured)" }]')
    const shown = (list: readonly FigureShape[]) =>
      list.map(({ metric, subject, status, value }) => `${metric} ${subject} ${status} ${value?.toPrecision(9)}`).sort()
    expect(shown(stored)).toEqual(shown(computed))
  })

  it('warn where they touch stored energy', async () => {
    const [one] = await figuresOf('unit-a', 'metrics: [LINK_ENERGY]')
    expect(one).toMatchObject({ cautions: expect.arrayContaining([{ id: 'stored-energy' }]) })
  })
})

describe('the parts of a record', () => {
  it('know their pieces, terminals, ways of heat and place along the coolant', async () => {
    const query = `{ component(teardown: "unit-a", path: "module") {
      id path class count { built found } pieces { path state } terminals { name piece net { name potential } basis }
      heatPaths { id from layers { path properties { path value unit basis } } end { kind path passage { path } } }
      coolantPositions { stage passage { path components { path } } upstream { path } }
    } }`
    const { component } = await corpus.ask<{ component: unknown }>(query)
    expect(component).toMatchObject({
      id: 'unit-a/parts/module',
      path: 'parts/module',
      class: 'half-bridge-module',
      count: { built: 1, found: 1 },
      pieces: [{ path: 'parts/module.u', state: 'DAMAGED' }],
      terminals: expect.arrayContaining([
        {
          name: 'dc-plus',
          piece: 'parts/module.u',
          net: { name: 'dc-plus', potential: 'HV_POSITIVE' },
          basis: 'JUDGED',
        },
      ]),
      heatPaths: [
        {
          id: 'unit-a/heat/module-down',
          from: 'parts/module.u/seat',
          end: { kind: 'FACE', path: 'parts/cold-plate/top', passage: { path: 'coolant/first' } },
        },
      ],
      coolantPositions: [
        { stage: 0, passage: { path: 'coolant/first', components: [{ path: 'parts/module' }] }, upstream: [] },
      ],
    })
  })

  it('say what is stated of them and how it is known', async () => {
    const query = `{ component(teardown: "unit-a", path: "parts/link-cap") { properties { path text value unit ucum word basis claims { text taken } } } }`
    const { component } = await corpus.ask<{ component: { properties: readonly { path: string }[] } }>(query)
    expect(component.properties.find(({ path }) => path === 'parts/link-cap/capacitance')).toMatchObject({
      text: '120 µF ± 10 % (marked)',
      value: expect.closeTo(120, 9),
      unit: 'µF',
      ucum: 'uF',
      basis: 'MARKED',
    })
  })

  it('are null where there are none', async () => {
    expect(
      await corpus.ask('{ component(teardown: "unit-a", path: "parts/none") { id } teardown(id: "none") { id } }'),
    ).toEqual({
      component: null,
      teardown: null,
    })
  })

  it('are found across records by coolant, bounds, potential and state', async () => {
    const found = async (where: string): Promise<readonly string[]> => {
      const { components } = await corpus.ask<{ components: { edges: { node: { id: string } }[] } }>(
        `{ components(where: ${where}) { edges { node { id } } } }`,
      )
      return components.edges.map(({ node }) => node.id)
    }
    expect(await found('{ class: ["semiconductor"], upstreamOf: { class: ["inductor"] } }')).toEqual([
      'unit-a/parts/module',
      'unit-b/parts/module',
    ])
    expect(await found('{ property: [{ name: "capacitance", min: "0.1 mF", max: "121 µF" }] }')).toHaveLength(2)
    expect(await found('{ property: [{ name: "capacitance", min: "121 µF" }] }')).toEqual([])
    expect(await found('{ potential: [HV_SWITCHING], state: [DAMAGED] }')).toEqual([
      'unit-a/parts/module',
      'unit-b/parts/module',
    ])
    expect(await found('{ marking: "lc120" }')).toHaveLength(2)
  })

  it('are filtered inside one record by the same words', async () => {
    const query =
      '{ teardown(id: "unit-a") { components(where: { heatEndsIn: "second", class: ["inductor", "half-bridge-module"] }) { path } all: components { path } } }'
    expect(await corpus.ask(query)).toMatchObject({
      teardown: { components: [{ path: 'parts/choke' }], all: expect.objectContaining({ length: 4 }) },
    })
  })
})

describe('the record as a whole', () => {
  it('has nets, passages, findings, suggestions and cautions', async () => {
    const query = `{ teardown(id: "unit-a") {
      title revision kind nets { name components { path } } passages { path stage upstream { path } }
      findings { id observation status rivals { reading } } measureNext { asks why gain } cautions { id }
      traits { id value } checks { id path severity what mend }
    } }`
    expect(await corpus.ask(query)).toMatchObject({
      teardown: {
        title: 'Unit unit-a',
        revision: 1,
        kind: 'traction-inverter',
        nets: expect.arrayContaining([{ name: 'phase-u', components: [{ path: 'parts/module' }] }]),
        passages: [
          { path: 'coolant/first', stage: 0, upstream: [] },
          { path: 'coolant/second', stage: 1, upstream: [{ path: 'coolant/first' }] },
        ],
        findings: [{ id: 'unit-a/findings/soot', status: 'open', rivals: [{ reading: 'flux left from soldering' }] }],
        cautions: [{ id: 'stored-energy' }, { id: 'high-voltage' }, { id: 'hot-coolant' }, { id: 'cut-unit' }],
      },
    })
  })
})

describe('benchmark', () => {
  it('ranks those with a value and names the others with the reason', async () => {
    const query = `{ benchmark(metrics: [SPECIFIC_POWER], groupBy: { kind: true }) {
      rows { rank tiedWith subject teardown { id } figures { metric value inputs { path } } }
      left { teardown metric status reason } groups { group count median } targets { id unit source year } totalCount
      conditions { power volume } pageInfo { hasNextPage hasPreviousPage }
    } }`
    const { benchmark } = await corpus.ask<{ benchmark: Record<string, unknown> }>(query)
    expect(benchmark).toMatchObject({
      rows: [{ rank: 1, subject: 'specimen', teardown: { id: 'unit-a' }, figures: [{ value: expect.closeTo(10, 9) }] }],
      left: [
        { teardown: 'unit-b', metric: 'SPECIFIC_POWER', status: 'MISSING', reason: expect.stringContaining('mass') },
      ],
      groups: [{ group: 'traction-inverter', count: 1 }],
      totalCount: 1,
    })
    expect(benchmark.targets).not.toEqual([])
  })

  it('computes anew under conditions that are not stored', async () => {
    const query =
      '{ benchmark(metrics: [POWER_DENSITY], conditions: { volume: HULL }) { rows { rank } left { teardown reason } } }'
    expect(await corpus.ask(query)).toMatchObject({
      benchmark: { rows: [], left: [{ teardown: 'unit-a' }, { teardown: 'unit-b' }] },
    })
  })

  it.each([
    ['{ benchmark(metrics: []) { totalCount } }', /no figure/],
    ['{ benchmark(metrics: [POWER_DENSITY], groupBy: { trait: "colour" }) { totalCount } }', /no trait "colour"/],
    ['{ benchmark(metrics: [POWER_DENSITY], after: "x.y") { totalCount } }', /cursor/],
    ['{ benchmark(metrics: [POWER_DENSTY]) { totalCount } }', /Did you mean.*POWER_DENSITY/],
  ])('refuses %s', async (query, message) => {
    expect(await corpus.refusal(query)).toMatchObject({ message: expect.stringMatching(message) })
  })
})

describe('calc', () => {
  // J. W. Kolar, S. D. Round, IEE Proc. Electr. Power Appl. 153 (2006) 535-543 (from memory), the closed form worked by hand
  // for 330 A, M = 0.9, cos φ = 0.85: 182.76 A.
  it('takes quantities as text and gives customary units', async () => {
    const query =
      '{ calc { linkRipple(phaseCurrent: "330 A", modulationIndex: "0.9", powerFactor: "0.85") { outputs { name value unit outOfRange } outOfRange caution sources } } }'
    const { calc } = await corpus.ask<{
      calc: { linkRipple: { outputs: readonly { value: number; unit: string }[] } }
    }>(query)
    expect(calc.linkRipple.outputs.some(({ value, unit }) => unit === 'A' && Math.abs(value - 182.76) < 0.01)).toBe(
      true,
    )
  })

  it('refuses what cannot be, with what mends it', async () => {
    expect(
      await corpus.refusal(
        '{ calc { linkRipple(phaseCurrent: "330 V", modulationIndex: "0.9", powerFactor: "0.85") { id } } }',
      ),
    ).toMatchObject({
      code: 'QUANTITY',
    })
    expect(
      await corpus.refusal(
        '{ calc { linkRipple(phaseCurrent: "330 A", modulationIndex: "-1", powerFactor: "0.85") { id } } }',
      ),
    ).toMatchObject({
      argument: expect.any(String),
    })
  })
})
