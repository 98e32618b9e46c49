import { describe, expect, it } from 'vitest'
import { atTaken, heatSession, lacksOf, result } from '../../fixtures/heat.ts'

// Water at 25 °C: 997.05 kg/m³, 4181.3 J/(kg·K) (IAPWS tables, handbook values from memory); 6 L/min of it carry
// 1e-4 · 997.05 · 4181.3 = 416.9 W/K.
const RATE = 416.9
const PER_MINUTE = 1 / 60_000

const modules = (losses: readonly number[]): string => `  - id: module
    class: half-bridge-module
    each: { ${losses.map((loss, n) => `m${n + 1}: { loss: ${loss} W }`).join(', ')} }
    faces: { base: { area: 20 cm² } }`
const SEAT = '  - { id: seat, from: module, to: module.*/base, resistance: 0.02 K/W }'
const wet = (id: string, face: string, more = ''): string =>
  `    - { id: ${id}, channel: { width: 10 mm, height: 5 mm, length: 100 mm }${more}, cools: [ { face: ${face}, wetted-area: 20 cm², film-coefficient: 5000 W/(m²·K) } ] }`
const water = (passages: string, sequence: string, more = 'flow: 6 L/min'): string => `  fluid: water
  inlet: 25 °C
  ${more}
  passages:
${passages}
  sequence: [inlet, ${sequence}, outlet]`
const three = (losses: readonly number[], sequence: string) =>
  heatSession({
    parts: modules(losses),
    heat: SEAT,
    coolant: water([1, 2, 3].map((n) => wet(`p${n}`, `module.m${n}/base`)).join('\n'), sequence),
  })

describe('coolant along its sequence', () => {
  const series = three([300, 300, 300], 'p1, p2, p3')

  it('warms by heat over heat capacity rate, passage by passage and in all', () => {
    expect(atTaken(series, 'COOLANT_RISE', 'coolant/p2')).toBeCloseTo(300 / RATE, 3)
    expect(atTaken(series, 'COOLANT_RISE')).toBeCloseTo(900 / RATE, 3)
    expect(atTaken(series, 'COOLANT_OUTLET') - 298.15).toBeCloseTo(900 / RATE, 3)
    // Parts see the mean of inlet and outlet: the third one and a half stages and one more behind the first.
    expect(atTaken(series, 'COOLANT_TEMPERATURE', 'coolant/p3') - 298.15).toBeCloseTo((2.5 * 300) / RATE, 3)
  })

  it('heats the last module most, by two stages here', () => {
    // Junction: local coolant + 300 W · (0.02 + 1/(5000 · 20 cm²)) = + 300 · 0.12
    expect(atTaken(series, 'LAST_STAGE_PENALTY')).toBeCloseTo(600 / RATE, 3)
    expect(atTaken(series, 'MODULE_TEMPERATURE_SPREAD')).toBeCloseTo(600 / RATE, 3)
    expect(atTaken(series, 'JUNCTION_TEMPERATURE', 'parts/module.m1')).toBeCloseTo(298.15 + 36 + 150 / RATE, 3)
  })

  it('would gain one stage side by side: 2.5 stages against 1.5, as each gets a third of the flow', () => {
    expect(atTaken(series, 'PARALLEL_GAIN')).toBeCloseTo(300 / RATE, 3)
  })

  it('has no last module side by side', () => {
    const parallel = three([300, 300, 300], '[p1, p2, p3]')
    expect(result(parallel, 'LAST_STAGE_PENALTY').status).toBe('NOT_APPLICABLE')
    expect(atTaken(parallel, 'COOLANT_RISE', 'coolant/p1')).toBeCloseTo(900 / RATE, 3)
  })

  it('mixes branches by their flow', () => {
    // p1 and p2 side by side, alike, then p3: it is entered by the mean of both
    const mixed = three([300, 100, 200], '[p1, p2], p3')
    expect(atTaken(mixed, 'COOLANT_TEMPERATURE', 'coolant/p3') - 298.15).toBeCloseTo((400 + 100) / RATE, 3)
  })

  it('names sources whose heat reaches no passage, and leaves them out', () => {
    const parts = `${modules([300])}\n  - { id: choke, class: inductor, loss: 50 W }`
    const heat = `${SEAT}\n  - { id: air, from: choke, to: ambient, resistance: 1 K/W }`
    const coolant = water(wet('p1', 'module.m1/base'), 'p1')
    const { warnings, atTaken: rise } = result(heatSession({ parts, heat, coolant }), 'COOLANT_RISE')
    expect(rise).toBeCloseTo(300 / RATE, 3)
    expect(warnings.join()).toContain('parts/choke')
  })

  it('is known where the resistance of the only way is not', () => {
    const heat = SEAT.replace('0.02 K/W', 'not looked for')
    const session = heatSession({ parts: modules([300]), heat, coolant: water(wet('p1', 'module.m1/base'), 'p1') })
    expect(atTaken(session, 'COOLANT_RISE')).toBeCloseTo(300 / RATE, 3)
    expect(lacksOf(session, 'JUNCTION_TEMPERATURE', 'parts/module.m1')).toContain('heat/seat/resistance')
  })

  it('is not known where heat could go two ways and one is not known', () => {
    const heat = `${SEAT}\n  - { id: up, from: module, to: ambient, resistance: not looked for }`
    const session = heatSession({ parts: modules([300]), heat, coolant: water(wet('p1', 'module.m1/base'), 'p1') })
    expect(lacksOf(session, 'COOLANT_RISE')).toContain('heat/up/resistance')
  })

  it('refuses a flow of zero and a passage that nothing enters', () => {
    const coolant = water(wet('p1', 'module.m1/base'), 'p1', 'flow: 0 L/min')
    expect(lacksOf(heatSession({ parts: modules([300]), heat: SEAT, coolant }), 'COOLANT_RISE')).toContain(
      'without flow',
    )
    const blind = water(
      `${wet('p1', 'module.m1/base')}\n    - { id: pocket, pipe: { diameter: 8 mm, length: 1 m } }`,
      'p1',
    )
    const session = heatSession({ parts: modules([300]), heat: SEAT, coolant: blind })
    expect(lacksOf(session, 'PASSAGE_FLOW', 'coolant/pocket')).toContain('no sequence')
  })

  it('counts no heat as carried by a passage that no coolant enters', () => {
    const coolant = water(
      `${wet('p1', 'module.m1/base')}\n    - { id: past, pipe: { diameter: 8 mm, length: 1 m } }`,
      'past',
    )
    const session = heatSession({ parts: modules([300]), heat: SEAT, coolant })
    expect(lacksOf(session, 'COOLANT_RISE')).toContain('coolant/p1 stands in no sequence')
    expect(lacksOf(session, 'COOLANT_OUTLET')).toContain('coolant/p1 stands in no sequence')
  })

  it('is out of range where the coolant enters above its boiling point at the stated pressure', () => {
    // Water boils at 99.97 °C under 101.325 kPa, at 120.2 °C under 200 kPa (steam tables, from memory).
    const at = (inlet: string, pressure: string) =>
      result(
        heatSession({
          parts: modules([300]),
          heat: SEAT,
          coolant: water(wet('p1', 'module.m1/base'), 'p1', `flow: 6 L/min\n  pressure: ${pressure}`).replace(
            '25 °C',
            inlet,
          ),
        }),
        'COOLANT_RISE',
      )
    expect(at('105 °C', '101.325 kPa').status).toBe('OUT_OF_RANGE')
    expect(at('105 °C', '101.325 kPa').warnings.join()).toContain('boiling point at the stated pressure, 100 °C')
    expect(at('105 °C', '200 kPa').status).toBe('OK')
  })

  it('names a cooling that wets nothing, and not the insides of the solver', () => {
    const coolant = water(wet('p1', 'module.m1/base'), 'p1').replace('wetted-area: 20 cm²', 'wetted-area: 0 cm²')
    const lacks = lacksOf(
      heatSession({ parts: modules([300]), heat: SEAT, coolant }),
      'JUNCTION_TEMPERATURE',
      'parts/module.m1',
    )
    expect(lacks).toContain('coolant/p1/cools/module-m1-base')
    expect(lacks).not.toContain('solveNetwork')
  })

  it('asks for each of several circuits', () => {
    const circuit = (id: string, n: number): string =>
      `  - id: ${id}\n    fluid: water\n    flow: 6 L/min\n    inlet: 25 °C\n    passages:\n  ${wet(`p${n}`, `module.m${n}/base`)}\n    sequence: [inlet, p${n}, outlet]`
    const session = heatSession({
      parts: modules([300, 150]),
      heat: SEAT,
      coolant: `${circuit('a', 1)}\n${circuit('b', 2)}`,
    })
    expect(atTaken(session, 'COOLANT_RISE', 'coolant/b')).toBeCloseTo(150 / RATE, 3)
    expect(lacksOf(session, 'COOLANT_RISE')).toContain('several circuits')
  })
})

describe('flow and pressure drop', () => {
  const measured = (id: string, drop: number): string =>
    `    - { id: ${id}, pipe: { diameter: 8 mm, length: 1 m }, pressure-drop: { value: ${drop} kPa, at: { flow: 6 L/min } } }`
  const plumbing = (passages: string, sequence: string, more?: string) =>
    heatSession({ parts: modules([300]), coolant: water(passages, sequence, more) })

  it('parts by the square root of drops measured at one flow', () => {
    // Δp = R Q²: R 1 : 4 side by side, so flows 2 : 1, and 4/9 of the drop of the easier one at the whole flow
    const session = plumbing(`${measured('a', 9)}\n${measured('b', 36)}`, '[a, b]')
    expect(atTaken(session, 'PASSAGE_FLOW', 'coolant/a')).toBeCloseTo(4 * PER_MINUTE, 12)
    expect(atTaken(session, 'PASSAGE_FLOW', 'coolant/b')).toBeCloseTo(2 * PER_MINUTE, 12)
    expect(atTaken(session, 'PRESSURE_DROP')).toBeCloseTo(4000, 6)
    // 4 kPa · 1e-4 m³/s
    expect(atTaken(session, 'PUMP_POWER')).toBeCloseTo(0.4, 9)
  })

  it('shares evenly between branches of one design whose drop nobody knows, and says so', () => {
    const passage = '    - { id: p, each: { u: {}, v: {} }, pipe: { diameter: not looked for } }'
    const { atTaken: flow, warnings } = result(plumbing(passage, '[p.u, p.v]'), 'PASSAGE_FLOW', 'coolant/p.u')
    expect(flow).toBeCloseTo(3, 9)
    expect(warnings.join()).toContain('one design')
  })

  it('does not guess between branches that differ', () => {
    const pipe = '    - { id: b, pipe: { diameter: not looked for, length: 1 m } }'
    expect(lacksOf(plumbing(`${measured('a', 9)}\n${pipe}`, '[a, b]'), 'PASSAGE_FLOW', 'coolant/a')).toContain(
      'coolant/b/pipe/diameter',
    )
  })

  it('is that of Hagen and Poiseuille in a pipe at low flow, with fittings on top', () => {
    // 128 μ L Q/(π D⁴) with 0.8900 mPa·s (IAPWS, 25 °C), 0.5 L/min, 8 mm, 1 m: Re 1486, 73.8 Pa
    const flow = 0.5 * PER_MINUTE
    const laminar = (128 * 0.89e-3 * 1 * flow) / (Math.PI * 8e-3 ** 4)
    const pipe = (more: string): string => `    - { id: a, pipe: { diameter: 8 mm, length: 1 m }${more} }`
    const at = 'flow: 0.5 L/min'
    expect(atTaken(plumbing(pipe(''), 'a', at), 'PRESSURE_DROP')).toBeCloseTo(laminar, 1)
    // K ρu²/2 = 2.5 · 997.05/2 · (8.3333e-6/5.0265e-5)² = 34.26 Pa
    const fitted = pipe(
      ', minor-losses: [ { kind: contraction, loss-factor: 0.5 }, { kind: branch, loss-factor: 1, count: 2 } ]',
    )
    expect(atTaken(plumbing(fitted, 'a', at), 'PRESSURE_DROP') - laminar).toBeCloseTo(34.26, 1)
    expect(atTaken(plumbing(pipe(''), 'a', at), 'REYNOLDS', 'coolant/a')).toBeCloseTo(1486, -1)
  })

  it('takes a fan where its line meets the drop, never its free-air flow', () => {
    // 60 Pa (1 − Q/0.0125) = 4e5 Q²: Q = (−4800 + √(4800² + 4·4e5·60))/(8e5) = 7.638e-3 m³/s. The drop is measured as
    // 40 Pa at 0.01 m³/s.
    const coolant = `  fluid: air
  flow: not looked for
  inlet: 25 °C
  pressure: 101.325 kPa
  fan: { free-flow: 0.0125 m³/s, shut-off-pressure: 60 Pa }
  passages:
    - { id: duct, pipe: { diameter: 8 mm, length: 1 m }, pressure-drop: { value: 40 Pa, at: { flow: 0.01 m³/s } } }
  sequence: [inlet, duct, outlet]`
    const session = heatSession({ parts: modules([300]), coolant })
    expect(atTaken(session, 'PASSAGE_FLOW', 'coolant/duct')).toBeCloseTo(7.638e-3, 6)
  })
})

describe('O-rings and hold time', () => {
  it('squeeze is the height that is missing, fill the section of the cord over that of the groove', () => {
    const parts = '  - { id: ring, class: o-ring, cord-diameter: 2.41 mm, groove: { depth: 1.82 mm, width: 3.2 mm } }'
    const session = heatSession({ parts })
    // (2.41 − 1.82)/2.41 = 24.48 %; π/4 · 2.41²/(3.2 · 1.82) = 78.33 %
    expect(result(session, 'O_RING_SQUEEZE', 'parts/ring').value).toBeCloseTo(24.48, 2)
    expect(result(session, 'O_RING_FILL', 'parts/ring').value).toBeCloseTo(78.33, 2)
  })

  it('holds until the masses that carry the heat are at the limit', () => {
    // 2 kg of 900 J/(kg·K), from 25 °C to 150 °C, 300 W: 2 · 900 · 125/300 = 750 s. The module has no mass on record.
    const parts = `  - { id: module, class: half-bridge-module, loss: 300 W, temperature-limit: 150 °C }
  - { id: cooler, class: cold-plate, mass: 2 kg, specific-heat: 900 J/(kg·K), faces: { wet: {} } }`
    const heat = '  - { id: seat, from: module, to: cooler/wet, resistance: 0.02 K/W }'
    const session = heatSession({ parts, heat, coolant: water(wet('p1', 'cooler/wet'), 'p1') })
    expect(atTaken(session, 'HOLD_TIME')).toBeCloseTo(750, 6)
    expect(result(session, 'HOLD_TIME').warnings.join()).toContain('parts/module')
    const { parts: without } = { parts: parts.replace(', temperature-limit: 150 °C', '') }
    const unlimited = heatSession({ parts: without, heat, coolant: water(wet('p1', 'cooler/wet'), 'p1') })
    expect(lacksOf(unlimited, 'HOLD_TIME')).toContain('parts/module/temperature-limit')
  })
})
