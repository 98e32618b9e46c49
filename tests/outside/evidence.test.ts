import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { projectFolder } from '../../api/place.ts'
import { type RunChoice, run as runProgram, type Served, serve } from './program.ts'

// What is known, how well, why, what if, and what to measure before it goes back: asked as a user does, from outside.
let folder: string
let served: Served
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lidoff-evidence-'))
  for (const [name, text] of [
    ['bench.yaml', sheet()],
    ['sister.yaml', sheet({ id: 'sister', mass: '10.2 ± 0.1 kg (measured; k=2; with scale)' })],
    ['stranger.yaml', sheet({ id: 'stranger', mass: '10.2 ± 0.1 kg (measured; k=2; with scale)', serial: '2' })],
  ] as const) {
    writeFileSync(join(folder, name), text)
    expect(await run(['add', name])).toMatchObject({ status: 0 })
  }
  served = await serve([], { cwd: folder, env: { LIDOFF_DB: join(folder, 'test.db') } })
}, 60_000)
afterAll(async () => {
  await served.stop('SIGTERM')
  rmSync(folder, { recursive: true })
})

const run = (args: readonly string[], { env = {}, ...choice }: RunChoice = {}) =>
  runProgram(args, { cwd: folder, ...choice, env: { LIDOFF_DB: join(folder, 'test.db'), ...env } })

interface Change {
  readonly before: { readonly value: number }
  readonly after: { readonly value: number }
}

const json = async (args: readonly string[]) => JSON.parse((await run([...args, '--json'])).out)

/** A GraphQL document over HTTP. */
const ask = async (query: string) => {
  const headers = { 'content-type': 'application/json' }
  const answer = await fetch(`${served.url}/graphql`, { method: 'POST', headers, body: JSON.stringify({ query }) })
  return JSON.parse(await answer.text())
}

/** 100 kW in 10 kg, weighed on a scale; three cans of one judged finding; a pad that the next step destroys. */
function sheet({ id = 'bench', mass = '10.0 ± 0.1 kg (measured; k=2; with scale)', serial = '1' } = {}): string {
  return `lidoff: 1
id: ${id}
title: Bench ${id}
specimen:
  kind: traction-inverter
  dc-voltage: { max: 400 V ± 1 % (published) }
  mass: ${mass}
  envelope: unreadable
operating-points: { peak: { power: 100 kW ± 0.001 % (published) } }
instruments: { scale: { kind: balance, serial: "${serial}", uncertainty: ± 2 % } }
parts:
  - id: can
    class: dc-link-film-capacitor
    count: 3 (judged)
    capacitance: { claims: [ { value: 100 µF ± 10 %, basis: marked, rests-on: same-type }, 80 µF (judged) ], take: 1, because: all of one lot }
    terminals: { plus: plus, minus: minus }
  - { id: pad, class: thermal-interface, size: 20 x 30 mm (measured), thickness: 1 mm ± 40 % (judged), conductivity: 3 W/(m·K) ± 1 % (published) }
  - { id: case, class: case, faces: { deck: { area: 100 cm² (judged) } } }
heat:
  - { id: can-deck, from: can, layers: [ { part: pad } ], to: case/deck }
nets: { plus: { potential: hv-positive }, minus: { potential: hv-negative } }
steps:
  - { id: prove-dead, proved-dead: { across: [plus, minus], reading: 0.1 V (measured), on: 2026-11-16 }, done: 2026-11-16 }
  - { id: peel, takes-off: can, destructive: true, loses: [pad/thickness], time: 20 min }
findings:
  - { id: seen, about: [can], observation: one code on every can, status: held }
  - { id: same-type, about: [can/capacitance], reading: they are of one type, rests-on: seen, status: open }
loan: { back: 2026-12-01 }
`
}

describe('a figure with its evidence', () => {
  // 100 kW / 10 kg. Own ± 0.1 kg at k = 2, the scale ± 2 % as limits: u = √(0.5² + (2/√3)²) % (JCGM 100:2008 4.3).
  const U = 10 * Math.hypot(0.005, 0.02 / Math.sqrt(3))

  it('is printed by the rounding rule of the GUM, plain and concise (JCGM 100:2008 7.2.6, 7.2.2)', async () => {
    const { out } = await run(['figures', 'bench', '--metric', 'SPECIFIC_POWER'])
    expect(out).toContain('SPECIFIC_POWER specimen: 10.00 ± 0.13 kW/kg OK')
    expect(out).toContain('concise: 10.00(13) kW/kg')
    for (const word of ['basis', 'u ', 'changes it by [kW/kg]', 'share', 'weakest basis: published'])
      expect(out).toContain(word)
  })

  it('has one budget in the document of the command and over HTTP', async () => {
    const {
      figures: [told],
    } = await json(['figures', 'bench', '--metric', 'SPECIFIC_POWER'])
    const fields = 'path value unit uncertainty basis share sensitivity remaining defaulted'
    const { data } = await ask(
      `{ teardown(id: "bench") { figures(metrics: [SPECIFIC_POWER]) { value uncertainty low high how concise weakestBasis restsOn interaction weak { ofVariance ofValue relations } inputs { ${fields} } } } }`,
    )
    const [asked] = data.teardown.figures
    expect(told.uncertainty / U).toBeCloseTo(1, 3)
    for (const key of ['value', 'uncertainty', 'low', 'high', 'how', 'concise', 'interaction', 'weak', 'restsOn'])
      expect(asked[key], key).toEqual(told[key])
    expect(
      asked.inputs.map(({ basis, ...one }: { basis: string }) => ({ ...one, basis: basis.toLowerCase() })),
    ).toEqual(told.inputs.map(({ ucum: _, ...one }: { ucum: string }) => one))
    // The budget sums to the variance: (sensitivity · u)² over the inputs is u².
    const squares = told.inputs.map(
      (one: { sensitivity: number; uncertainty: number }) => (one.sensitivity * one.uncertainty) ** 2,
    )
    expect(Math.sqrt(squares.reduce((sum: number, one: number) => sum + one, 0)) / told.uncertainty).toBeCloseTo(1, 4)
  })

  it('keeps losing claims, names the weakest basis and every finding below', async () => {
    const { out } = await run(['figures', 'bench', '--metric', 'LINK_CAPACITANCE'])
    expect(out).toContain('also claimed of parts/can/capacitance: 80 µF (judged)')
    expect(out).toMatch(/rests on findings\/same-type\n {2}rests on findings\/seen/)
    const { data } = await ask(
      '{ component(teardown: "bench", path: "parts/can") { properties { path claims { text taken value uncertainty unit basis } } } }',
    )
    const { claims } = data.component.properties.find(({ path }: { path: string }) => path === 'parts/can/capacitance')
    expect(claims).toMatchObject([
      { text: '100 µF ± 10 %', taken: true, value: 100, uncertainty: expect.closeTo(10 / Math.sqrt(3), 9), unit: 'µF' },
      { text: '80 µF (judged)', taken: false, value: 80, basis: 'JUDGED' },
    ])
  })
})

describe('what if', () => {
  it('a finding is refuted: every figure, trait and check that changes, old and new', async () => {
    const { scenarios } = await json(['what-if', 'bench', 'findings/seen=refuted'])
    const { figures, checks } = scenarios[0]
    const link = figures.find(({ metric }: { metric: string }) => metric === 'LINK_CAPACITANCE')
    // What rested on it falls to the next claim: 3 · 80 µF.
    expect([link.before.value, link.after.value]).toEqual([expect.closeTo(300, 6), expect.closeTo(240, 6)])
    expect(checks).toContainEqual(expect.objectContaining({ id: 'rests-on-refuted', now: 'raised' }))
    const { data } = await ask(
      '{ teardown(id: "bench") { findings { path figures ifRefuted { figures { metric before { value } after { value } } } } } }',
    )
    const seen = data.teardown.findings.find(({ path }: { path: string }) => path === 'findings/seen')
    expect(seen.ifRefuted.figures.map(({ metric }: { metric: string }) => metric)).toEqual(
      figures.map(({ metric }: { metric: string }) => metric),
    )
    for (const { metric } of seen.ifRefuted.figures.filter(
      ({ metric: one }: { metric: string }) => one !== 'EVIDENCE_SHARE',
    ))
      expect(seen.figures.join(' ')).toContain(metric)
  })

  it('says the same of a layer from the line, a sheet of scenarios and over HTTP', async () => {
    const change = { path: 'heat/can-deck/pad', value: 'doubled' }
    const text = `metrics: [PATH_RESISTANCE]\nscenarios: [ { id: thick, what-if: ["${change.path}=${change.value}"] } ]\n`
    writeFileSync(join(folder, 'thick.yaml'), text)
    const line = (await json(['what-if', 'bench', `${change.path}=${change.value}`, '--metric', 'PATH_RESISTANCE']))
      .scenarios[0]
    const played = (await json(['scenarios', 'bench', 'thick.yaml'])).scenarios[0]
    const { data } = await ask(
      `{ teardown(id: "bench") { whatIf(changes: [{ path: "${change.path}", value: "${change.value}" }], metrics: [PATH_RESISTANCE]) { figures { before { value } after { value } } } } }`,
    )
    const values = (figures: readonly Change[]) => figures.map(({ before, after }) => [before.value, after.value])
    // 1 mm / (3 W/(m·K) · 6 cm²), once and twice.
    const [once, twice] = [0.001 / (3 * 6e-4), 0.002 / (3 * 6e-4)]
    expect(values(line.figures)).toEqual(line.figures.map(() => [expect.closeTo(once, 9), expect.closeTo(twice, 9)]))
    expect(line.figures.length).toBeGreaterThan(0)
    expect(values(played.figures)).toEqual(values(line.figures))
    expect(values(data.teardown.whatIf.figures)).toEqual(values(line.figures))
  })

  it('sweeps one or two values into a table fit for plotting, alone on standard output', async () => {
    const args = ['sweep', 'bench', '--metric', 'SPECIFIC_POWER', '--over', 'specimen/mass=5..20 kg:4']
    const { out } = await run(args)
    const rows = out
      .trim()
      .split(/\r?\n/)
      .map((row) => row.split(','))
    expect(rows[0]).toEqual(['specimen/mass [kg]', 'SPECIFIC_POWER specimen [kW/kg]'])
    expect(rows.slice(1).map(([mass, power]) => [Number(mass), Number(power)])).toEqual(
      [5, 10, 15, 20].map((mass) => [mass, expect.closeTo(100 / mass, 9)]),
    )
    const two = await json([...args, '--over', 'operating-points/peak/power=50..100 kW:2'])
    expect(two.rows ?? two.points).toHaveLength(8)
    const { data } = await ask(
      '{ teardown(id: "bench") { sweep(metrics: [SPECIFIC_POWER], over: ["specimen/mass=5..20 kg:4"]) { points { at values } } } }',
    )
    expect(
      data.teardown.sweep.points.map(({ at, values }: { at: number[]; values: number[] }) => at[0]! * values[0]!),
    ).toEqual([100, 100, 100, 100].map((one) => expect.closeTo(one, 9)))
  })
})

describe('what is refused', () => {
  const stored = async () => (await run(['list', '--json'])).out

  it.each([
    [['what-if', 'bench', 'nothing/here=3 mm'], 2, /nothing is recorded at "nothing\/here"/],
    [['what-if', 'bench', 'specimen/mass=3 mm'], 2, /specimen\/mass: .*a mass is asked for/],
    [['what-if', 'bench', 'findings/none=refuted'], 2, /no finding "none"\n.*seen, same-type/],
    [['figures', 'bench', '--what-if', 'can/capacitance=3 mm'], 2, /capacitance/],
    [
      ['sweep', 'bench', '--metric', 'SPECIFIC_POWER', '--over', 'specimen/mass=1..9 kg:1000000'],
      2,
      /1000000 points.*\n.*10000/,
    ],
    [
      [
        'sweep',
        'bench',
        '--metric',
        'SPECIFIC_POWER',
        '--over',
        'specimen/mass=1..9 kg:1000',
        '--over',
        'operating-points/peak/power=1..9 kW:1000',
      ],
      2,
      /1000000 points/,
    ],
    [['history', 'bench', '--as-of', '2001-01-01'], 3, /no record of bench on 2001-01-01/],
    [['history', 'bench', '--as-of', 'yesterday'], 2, /no date and no revision/],
  ] as const)('%j', async (args, status, said) => {
    const before = await stored()
    const ended = await run(args)
    expect({ status: ended.status, out: ended.out }).toEqual({ status, out: '' })
    expect(ended.err).toMatch(said)
    expect(await stored()).toBe(before)
  })

  it.each([
    ['a claim among several without a basis', 'mass: [ 10 kg, 9 kg (published) ]', /no basis behind "10 kg"/],
    [
      'a taken claim without a reason',
      'mass: { claims: [ 10 kg (measured), 9 kg (published) ], take: 2 }',
      /"take" without "because"/,
    ],
    [
      'a taken claim with an empty reason',
      'mass: { claims: [ 10 kg (measured), 9 kg (published) ], take: 2, because: " " }',
      /"take" without "because"/,
    ],
  ])('%s: the sheet is not stored, and is told where', async (_, mass, said) => {
    const before = await stored()
    const { status, err, out } = await run(['add', '-'], { input: sheet({ mass: mass.replace(/^mass: /, '') }) })
    expect(status).toBe(1)
    expect(err + out).toMatch(said)
    expect(err + out).toMatch(/:7:\d+ +specimen\/mass/)
    expect(await stored()).toBe(before)
  })

  it('a finding that rests on itself', async () => {
    const text = sheet().replace('observation: one code', 'rests-on: same-type, observation: one code')
    const { status, err, out } = await run(['add', '-'], { input: text })
    expect(status).toBe(1)
    expect(err + out).toMatch(/findings that rest on each other: seen → same-type → seen/)
  })

  it.each([
    ['whatIf(changes: [{ path: "nothing/here", value: "3 mm" }]) { unchanged }', /nothing is recorded/],
    ['whatIf(changes: [{ path: "specimen/mass", value: "3 mm" }]) { unchanged }', /a mass is asked for/],
    ['sweep(metrics: [SPECIFIC_POWER], over: ["specimen/mass=1..9 kg:1000000"]) { points { at } }', /1000000 points/],
  ])('over HTTP: %s', async (field, said) => {
    const { errors } = await ask(`{ teardown(id: "bench") { ${field} } }`)
    expect(errors).toMatchObject([
      { message: expect.stringMatching(said), extensions: { mend: expect.stringMatching(/\w/) } },
    ])
  })
})

describe('before it goes back', () => {
  it('what the next step destroys comes first, with how it is had, how long it takes and when the unit goes', async () => {
    const { suggestions } = await json(['measure-next', 'bench'])
    expect(suggestions[0]).toMatchObject({
      path: 'parts/pad/thickness',
      why: 'lost at a coming step',
      lostWith: ['steps/peel'],
      before: '2026-12-01',
      instrument: 'micrometer, or film gauge',
      minutes: expect.any(Number),
      narrows: { metric: 'PATH_RESISTANCE' },
    })
    // 40 % of thickness as limits against 1 % of conductivity and the default of the sides: nearly all would go.
    expect(suggestions[0].gain).toBeGreaterThan(0.9)
    const narrow = await json(['figures', 'bench', '--metric', 'PATH_RESISTANCE', '--what-if', 'pad/thickness=1 mm'])
    const { from, to } = suggestions[0].narrows
    expect((from - narrow.figures[0].uncertainty) / (from - to)).toBeCloseTo(1, 6)
    const { data } = await ask(
      '{ teardown(id: "bench") { measureNext { path why gain lostWith before instrument minutes together } } }',
    )
    expect(data.teardown.measureNext.map(({ path }: { path: string }) => path)).toEqual(
      suggestions.map(({ path }: { path: string }) => path),
    )
  })

  it('the checklist of a step tells what is not on record yet', async () => {
    const { out } = await run(['checklist', 'bench'])
    expect(out).toContain('goes back 2026-12-01')
    expect(out).toMatch(
      /before steps\/peel\n.*\n.*lost with it.*\nparts\/pad\/thickness +not yet +1 mm ± 40 % \(judged\)/,
    )
    expect(out).not.toContain('before steps/prove-dead')
  })

  it('is printed for a demo unit, what coming steps destroy first', { timeout: 120_000 }, async () => {
    const db = join(folder, 'demo.db')
    const seed = join(projectFolder(), 'seeds', 'sweeper-14-auxiliary.yaml')
    expect(await run(['add', seed, '--db', db])).toMatchObject({ status: 0 })
    const { out } = await run(['measure-next', 'sweeper-14-auxiliary', '--db', db])
    const back = /back: (\S+?)[,}]/.exec(readFileSync(seed, 'utf8'))![1]
    expect(out).toContain(`goes back ${back}`)
    const { suggestions } = await json(['measure-next', 'sweeper-14-auxiliary', '--db', db])
    const rank = ['lost at a coming step', 'becomes computable', 'narrows']
    const order = suggestions.map(({ why }: { why: string }) => rank.indexOf(why))
    expect(order.length).toBeGreaterThan(2)
    expect(out.replace(/\s+/g, ' ')).toContain(`1 ${suggestions[0].asks}`)
    expect(out.match(/^ {1,2}\d+ {2}/gm)).toHaveLength(suggestions.length)
    expect(order).toEqual(order.toSorted((a: number, b: number) => a - b))
  })
})

describe('a comparison', () => {
  it('is as sure as causes that are shared allow', async () => {
    const where = (ids: readonly string[]) => `where: { id: ${JSON.stringify(ids)} }`
    const chance = async (...ids: readonly string[]) => {
      const { data, errors } = await ask(
        `{ benchmark(metrics: [SPECIFIC_POWER], ${where(ids)}) { rows { teardown { id } probabilityAboveNext rank tiedWith } } }`,
      )
      expect(errors).toBeUndefined()
      return data.benchmark.rows
    }
    const [one] = await chance('bench', 'sister')
    const [two] = await chance('bench', 'stranger')
    expect([one.teardown.id, two.teardown.id]).toEqual(['bench', 'bench'])
    // 0.196 kW/kg apart; own u 0.05 and 0.048; each scale 0.115: Φ(0.196/0.069) and Φ(0.196/0.175).
    expect(one.probabilityAboveNext).toBeCloseTo(0.9977, 3)
    expect(two.probabilityAboveNext).toBeCloseTo(0.868, 2)
    expect([one.tiedWith, two.tiedWith]).toEqual([[], ['stranger specimen']])
  })

  it('names and counts who is left out, and why', async () => {
    const { data } = await ask(
      '{ benchmark(metrics: [POWER_DENSITY]) { rows { rank } left { teardown status reason } leftCounts { metric status count } } }',
    )
    expect(data.benchmark.rows).toEqual([])
    expect(data.benchmark.leftCounts).toEqual([{ metric: 'POWER_DENSITY', status: 'MISSING', count: 3 }])
    expect(data.benchmark.left[0].reason).toMatch(/unreadable/)
  })
})

describe('what was thought', () => {
  it('on a date, and which figures moved since because of what', async () => {
    const db = join(folder, 'history.db')
    for (const mass of ['10 kg ± 1 % (judged)', '8 kg ± 1 % (measured)'])
      expect(await run(['add', '-', '--db', db], { input: sheet({ mass }) })).toMatchObject({ status: 0 })
    const { out } = await run(['history', 'bench', '--since', '1', '--db', db])
    expect(out).toMatch(/specimen\/mass +10 kg ± 1 % \(judged\) +8 kg ± 1 % \(measured\)/)
    expect(out).toMatch(/SPECIFIC_POWER +specimen +10\.000 ± 0\.058 +12\.500 ± 0\.072 +kW\/kg +specimen\/mass/)
    const then = await json([
      'query',
      '{ teardown(id: "bench", asOf: "1") { figures(metrics: [SPECIFIC_POWER]) { value weakestBasis } } }',
      '--db',
      db,
    ])
    expect(then.data.teardown.figures).toEqual([{ value: expect.closeTo(10, 9), weakestBasis: 'JUDGED' }])
    const now = await json(['history', 'bench', '--as-of', '2999-01-01', '--db', db])
    expect(now.statements).toEqual([])
  })
})
