import { describe, expect, it } from 'vitest'
import { atTaken, heatSession, lacksOf, result } from '../../../fixtures/heat.ts'
import { type Board, riseOn, type Square } from '../../../fixtures/plate.ts'

// Dies on a ceramic with metal on both sides (40 × 30 mm, 0.3/0.38/0.3 mm, 390 and 24 W/(m·K)), cooled below by 8000 W/(m²·K)
// on all of it; attach of 0.08 mm, 57 W/(m·K). Every expected number is by the two-port matrices of tests/fixtures/plate.ts.
const ATTACH = 80e-6 / 57 / 1e-4
const METAL = { thickness: 0.3e-3, conductivity: 390 }
const BOARD: Board = {
  width: 0.04,
  depth: 0.03,
  sheets: [METAL, { thickness: 0.38e-3, conductivity: 24 }, METAL],
  film: 8000,
}
const at = (x: number): Square => ({ x: 0.02 + x, y: 0.015, side: 0.01 })
const rise = (source: Square, seen: Square): number => riseOn(BOARD, source, seen)

interface Bench {
  readonly places: readonly number[]
  readonly die?: string
  readonly heat?: string
  readonly rest?: string
}

function bench({ places, die = 'loss: 100 W', heat = '', rest }: Bench) {
  const each = places.map((x) => `{ at: ${x} / 0 / 0 mm }`).join(', ')
  return heatSession({
    ...(rest !== undefined && { rest }),
    parts: `  - id: module
    class: half-bridge-module
    faces: { base: { area: 40 x 30 mm } }
    parts: [ { id: die, class: power-die, kind: IGBT, material: silicon, size: 10 x 10 x 0.12 mm, ${die}, each: [ ${each} ] } ]
  - { id: tile, class: ceramic-substrate, size: 40 x 30 mm, ceramic-thickness: 0.38 mm, ceramic-material: baked, metal-thickness: 0.3 mm, metal-material: sheet-metal }`,
    heat: `  - { id: down, from: module/die, layers: [ { kind: die-attach, thickness: 80 um, conductivity: 57 W/(m·K), area: 10 x 10 mm }, { part: tile, spread: series } ], to: module/base }${heat}`,
    coolant: `  fluid: water
  flow: 6 L/min
  inlet: 25 °C
  passages:
    - { id: run, channel: { width: 30 mm, height: 3 mm, length: 40 mm }, cools: [ { face: module/base, wetted-area: 12 cm², film-coefficient: 8000 W/(m²·K) } ] }
  sequence: [inlet, run, outlet]
materials:
  baked: { conductivity: 24 W/(m·K), density: 3780 kg/m³, specific-heat: 880 J/(kg·K) }
  sheet-metal: { conductivity: 390 W/(m·K), density: 8940 kg/m³, specific-heat: 387 J/(kg·K) }`,
  })
}

describe('a ceramic with metal on both sides under a die', () => {
  it('spreads in its metal: one plate of the same resistance in its place would be half too bad and more', () => {
    const one = bench({ places: [0] })
    const wanted = ATTACH + rise(at(0), at(0))
    expect(atTaken(one, 'THERMAL_RESISTANCE', 'parts/die.1') / wanted).toBeCloseTo(1, 3)
    const unit = (2 * METAL.thickness) / METAL.conductivity + 0.38e-3 / 24
    const lumped = { ...BOARD, sheets: [{ thickness: 0.98e-3, conductivity: 0.98e-3 / unit }] }
    expect((ATTACH + riseOn(lumped, at(0), at(0))) / wanted).toBeGreaterThan(1.5)
  })
})

describe('dies on one plate', () => {
  const places = [-12, 0, 12] as const
  const xs = places.map((mm) => at(mm / 1000))

  it('heat each other: every junction is the sum over all, and each by itself is its own', () => {
    const session = bench({ places })
    // Water at 25 °C, 6 L/min: 416.9 W/K; parts see the mean of inlet and outlet.
    const coolant = 298.15 + 150 / 416.9
    for (const [i, seen] of xs.entries()) {
      const all = xs.reduce((sum, source) => sum + 100 * rise(source, seen), 100 * ATTACH)
      expect(atTaken(session, 'JUNCTION_TEMPERATURE', `parts/die.${i + 1}`)).toBeCloseTo(coolant + all, 1)
      const own = ATTACH + rise(seen, seen)
      expect(atTaken(session, 'THERMAL_RESISTANCE', `parts/die.${i + 1}`) / own).toBeCloseTo(1, 3)
    }
  })

  it('part their heat between two sides as the plate has it, neighbours and all', () => {
    // Each die has 0.9 K/W to a frame of 25.36 °C besides, which is what the coolant has: rises solve (1/0.9 + M⁻¹) T = P.
    const heat = '\n  - { id: up, from: module/die, to: frame, resistance: 0.9 K/W }'
    const session = bench({ places: [-10, 10], heat })
    const [own, mutual] = [ATTACH + rise(at(-0.01), at(-0.01)), rise(at(-0.01), at(0.01))]
    const together = own + mutual // by symmetry, both dies alike
    const share = 0.9 / (0.9 + together)
    // Coolant and frame differ (25 °C of inlet, 60 °C of the frame): superpose the loss and the difference.
    const rate = 416.9
    const down = (2 * (100 + (333.15 - 298.15) / 0.9) * share) / (1 + (2 * share) / (0.9 * 2 * rate))
    expect(atTaken(session, 'COOLANT_RISE') * rate).toBeCloseTo(down, 0)
  })

  it('run away together where each by itself would not', () => {
    // Gain by itself: slope × own; of three: the largest eigenvalue of slope × matrix, at least the least row sum, that of an outer die.
    const die = 'loss: { value: 110 W, at: { junction: 25 °C } }, loss-coefficient: 1.6 %/K'
    const alone = 110 * 0.016 * (ATTACH + rise(at(0), at(0)) + 1 / (2 * 416.9))
    const three = 110 * 0.016 * xs.reduce((sum, source) => sum + rise(source, xs[0]!), ATTACH)
    expect(alone).toBeLessThan(1)
    expect(three).toBeGreaterThan(1)
    expect(atTaken(bench({ places: [0], die }), 'JUNCTION_TEMPERATURE', 'parts/die.1')).toBeGreaterThan(300)
    expect(lacksOf(bench({ places, die }), 'JUNCTION_TEMPERATURE', 'parts/die.1')).toContain('thermal runaway')
  })

  it('cool by as much as their coolant when passages are put side by side, no more for standing close', () => {
    // Two modules of two dies each, one after the other, 200 W each, all resistances held: see the three modules of
    // tests/queries/figures/coolant.test.ts. As plumbed the last sees 1.5 stages, side by side one stage at half the flow.
    const one = (name: string): string => `  - id: ${name}
    class: half-bridge-module
    faces: { base-${name}: { area: 40 x 30 mm } }
    parts: [ { id: die-${name}, class: power-die, kind: IGBT, size: 10 x 10 x 0.12 mm, loss: 100 W, each: [ { at: -8 / 0 / 0 mm }, { at: 8 / 0 / 0 mm } ] } ]
  - { id: tile-${name}, class: heat-spreader, size: 40 x 30 mm, thickness: 2 mm, conductivity: 200 W/(m·K) }`
    const down = (name: string): string =>
      `  - { id: down-${name}, from: ${name}/die-${name}, layers: [ { part: tile-${name}, spread: series } ], to: ${name}/base-${name} }`
    const passage = (name: string): string =>
      `    - { id: run-${name}, channel: { width: 30 mm, height: 3 mm, length: 40 mm }, cools: [ { face: ${name}/base-${name}, wetted-area: 12 cm², film-coefficient: 8000 W/(m²·K) } ] }`
    const session = heatSession({
      parts: ['a', 'b'].map(one).join('\n'),
      heat: ['a', 'b'].map(down).join('\n'),
      coolant: `  fluid: water\n  flow: 6 L/min\n  inlet: 25 °C\n  passages:\n${['a', 'b'].map(passage).join('\n')}\n  sequence: [inlet, run-a, run-b, outlet]`,
    })
    expect(atTaken(session, 'PARALLEL_GAIN')).toBeCloseTo((0.5 * 200) / 416.9, 3)
  })

  it('come to the steady rise of all of them at last', () => {
    const session = bench({ places, rest: 'operating-points:\n  peak: { duration: 1000 s }' })
    const steady =
      (atTaken(session, 'JUNCTION_TEMPERATURE', 'parts/die.2') -
        atTaken(session, 'COOLANT_TEMPERATURE', 'coolant/run')) /
      100
    expect(atTaken(session, 'TRANSIENT_RESISTANCE', 'parts/die.2')).toBeCloseTo(steady, 6)
  })
})

describe('bounds of a resistance', () => {
  /** Numbers of the note "bounds: a K/W …, b K/W …". */
  const bounds = (session: ReturnType<typeof bench>, metric: string, subject: string): readonly number[] => {
    const note = result(session, metric, subject).warnings.find((one) => one.startsWith('bounds: '))!
    return [...note.matchAll(/([\d.e+-]+) K\/W/g)].map(([, number]) => Number(number))
  }

  it('hold between them the estimate of a path, of a die and of a module', () => {
    const session = bench({ places: [-12, 0, 12] })
    for (const [metric, subject] of [
      ['PATH_RESISTANCE', 'heat/down.1'],
      ['THERMAL_RESISTANCE', 'parts/die.1'],
      ['THERMAL_RESISTANCE', 'parts/module'],
    ] as const) {
      const [low, high] = bounds(session, metric, subject)
      const estimate = atTaken(session, metric, subject)
      expect(estimate).toBeGreaterThan(low!)
      expect(estimate).toBeLessThan(high!)
    }
  })

  it('of a column that never spreads are its sum by hand, down to the coolant', () => {
    // Die to coolant on 1 cm²: 0.08 mm/57 + 0.6 mm/390 + 0.38 mm/24 + 1/8000
    const never = (80e-6 / 57 + 0.6e-3 / 390 + 0.38e-3 / 24 + 1 / 8000) / 1e-4
    const once = (80e-6 / 57 + 0.6e-3 / 390 + 0.38e-3 / 24 + 1 / 8000) / 12e-4
    const [low, high] = bounds(bench({ places: [0] }), 'THERMAL_RESISTANCE', 'parts/die.1')
    expect(low! / once).toBeCloseTo(1, 2)
    expect(high! / never).toBeCloseTo(1, 2)
  })

  it('count a resistance that several share with the heat of all of them', () => {
    // Three dies at 0.3 K/W each to one face, from there 0.2 K/W: 0.3/3 + 0.2 K/W for the heat of all.
    const session = heatSession({
      parts: `  - id: module
    class: half-bridge-module
    faces: { base: {} }
    parts: [ { id: die, class: power-die, kind: IGBT, size: 10 x 10 x 0.1 mm, loss: 10 W, count: 3 } ]`,
      heat: `  - { id: a, from: module/die, to: module/base, resistance: 0.3 K/W }
  - { id: b, from: module/base, layers: [ { kind: pad, resistance: 0.2 K/W }, { kind: metal, thickness: 1 mm, conductivity: 200 W/(m·K), area: 9 cm² } ], to: frame }`,
    })
    const [low, high] = bounds(session, 'THERMAL_RESISTANCE', 'parts/module')
    const estimate = atTaken(session, 'THERMAL_RESISTANCE', 'parts/module')
    expect(estimate).toBeCloseTo(0.1 + 0.2 + 1e-3 / (200 * 9e-4), 6)
    expect(low!).toBeLessThanOrEqual(estimate * 1.005)
    expect(high!).toBeGreaterThanOrEqual(estimate * 0.995)
  })
})

describe('what a record leaves out on a way is said', () => {
  const device = (from: string) =>
    heatSession({
      parts: `  - { id: fet, class: discrete-power-device, loss: 20 W, thermal-resistance: 0.4 K/W, faces: { tab: { area: 2 cm² } } }
  - { id: block, class: heat-spreader, faces: { top: { area: 60 cm² } } }`,
      heat: `  - { id: down, from: ${from}, layers: [ { kind: pad, thickness: 0.2 mm, conductivity: 2 W/(m·K), area: 2 cm² } ], to: block/top }
  - { id: out, from: block/top, to: frame, resistance: 0.1 K/W }`,
    })

  it('where a path starts at a part that has a resistance to its case', () => {
    // 0.2 mm/(2 · 2 cm²) = 0.5 K/W, then 0.1: 60 + 20 · 0.6; from its tab, 0.4 K/W more.
    const past = device('fet')
    expect(atTaken(past, 'JUNCTION_TEMPERATURE', 'parts/fet')).toBeCloseTo(273.15 + 72, 9)
    expect(result(past, 'JUNCTION_TEMPERATURE', 'parts/fet').warnings.join()).toContain('junction to case of parts/fet')
    const through = device('fet/tab')
    expect(atTaken(through, 'JUNCTION_TEMPERATURE', 'parts/fet')).toBeCloseTo(273.15 + 80, 9)
    expect(result(through, 'JUNCTION_TEMPERATURE', 'parts/fet').warnings.join()).not.toContain('junction to case')
  })

  it('where heat enters a face far larger than what brings it', () => {
    const { warnings } = result(device('fet/tab'), 'JUNCTION_TEMPERATURE', 'parts/fet')
    expect(warnings.join()).toContain('heat reaches parts/block/top on 200 mm²')
  })

  it('only to the figures of what goes that way', () => {
    const session = heatSession({
      parts: `  - { id: fet, class: discrete-power-device, loss: 20 W, thermal-resistance: 0.4 K/W, faces: { tab: { area: 2 cm² } } }
  - { id: other, class: discrete-power-device, loss: 5 W, thermal-resistance: 0.4 K/W, faces: { tab: {} } }
  - { id: block, class: heat-spreader, faces: { top: { area: 60 cm² }, wet: { area: 60 cm² } } }`,
      heat: `  - { id: down, from: fet/tab, layers: [ { kind: pad, thickness: 0.2 mm, conductivity: 2 W/(m·K), area: 2 cm² } ], to: block/top }
  - { id: through, from: block/top, to: block/wet, resistance: 0.05 K/W }`,
      coolant: `  fluid: water
  flow: 4 L/min
  inlet: 25 °C
  passages:
    - { id: run, pipe: { diameter: 8 mm, length: 1 m }, cools: [ { face: block/wet, wetted-area: 60 cm², film-coefficient: 5000 W/(m²·K) }, { face: other/tab, wetted-area: 2 cm², film-coefficient: 5000 W/(m²·K) } ] }
  sequence: [inlet, run, outlet]`,
    })
    const says = (metric: string, subject: string): boolean => {
      const found = result(session, metric, subject)
      expect([metric, found.status]).toEqual([metric, 'OK'])
      return found.warnings.some((text) => text.includes('a lower bound: heat reaches'))
    }
    for (const metric of ['JUNCTION_TEMPERATURE', 'THERMAL_RESISTANCE']) {
      expect([metric, says(metric, 'parts/fet')]).toEqual([metric, true])
      expect([metric, says(metric, 'parts/other')]).toEqual([metric, false])
    }
    expect(says('PATH_RESISTANCE', 'heat/down')).toBe(true)
    expect(says('PATH_RESISTANCE', 'heat/through')).toBe(false)
    for (const metric of ['COOLANT_RISE', 'COOLANT_TEMPERATURE', 'COOLANT_OUTLET'])
      expect([metric, says(metric, 'coolant/run')]).toEqual([metric, false])
    expect(says('HEAT_FLUX', 'parts/block/top')).toBe(false)
  })

  it('where several sources cross a layer that no part stands for', () => {
    const session = heatSession({
      parts: `  - id: module
    class: half-bridge-module
    faces: { base: { area: 9 cm² } }
    parts: [ { id: die, class: power-die, kind: IGBT, size: 10 x 10 x 0.1 mm, loss: 10 W, count: 2 } ]`,
      heat: `  - { id: down, from: module/die, layers: [ { kind: ceramic, thickness: 1 mm, conductivity: 24 W/(m·K), area: 9 cm², spread: series } ], to: module/base }
  - { id: out, from: module/base, to: frame, resistance: 0.1 K/W }`,
    })
    const { warnings } = result(session, 'JUNCTION_TEMPERATURE', 'parts/die.1')
    expect(warnings.join()).toContain('heat/down/ceramic is taken as a plate of its own under each of 2 sources')
  })

  it('where coolant comes so near its wall that the mean of inlet and outlet is coarse', () => {
    // 20 W/K of film on 10 W/K of flow: 2/(1 + 1) against 1 − exp(−2) = 0.8647, 13.5 % less.
    const at = (film: number) =>
      result(
        heatSession({
          parts: `  - { id: fet, class: discrete-power-device, loss: 20 W, thermal-resistance: 0.4 K/W, faces: { tab: {} } }`,
          coolant: `  fluid: water
  flow: 0.1439 L/min
  inlet: 25 °C
  passages:
    - { id: run, pipe: { diameter: 8 mm, length: 1 m }, cools: [ { face: fet/tab, wetted-area: 10 cm², film-coefficient: ${film} W/(m²·K) } ] }
  sequence: [inlet, run, outlet]`,
        }),
        'JUNCTION_TEMPERATURE',
        'parts/fet',
      ).warnings.join()
    expect(at(20000)).toContain('conductance over heat capacity rate 2.0')
    expect(at(20000)).toContain('14 % less')
    expect(at(5000)).not.toContain('heat capacity rate')
  })
})
