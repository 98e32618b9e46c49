import { describe, expect, it } from 'vitest'
import { atTaken, die, heatSession, lacksOf, result } from '../../fixtures/heat.ts'

// Conduction through one layer is t/(λ A), in series the sum (one-dimensional conduction, any textbook); the arithmetic
// of each case stands beside it.

const to = (layers: string, more = '', end = 'frame', from = 'die'): string =>
  `  - { id: down, from: ${from}, layers: [ ${layers} ], to: ${end}${more} }`
const junction = (layers: string, parts = die('die')): number =>
  atTaken(heatSession({ parts, heat: to(layers) }), 'JUNCTION_TEMPERATURE', 'parts/die') - 273.15

const ATTACH = '{ kind: die-attach, thickness: 0.1 mm, conductivity: 50 W/(m·K), area: 10 x 10 mm }'
const plate = (more: string): string => `${die('die')}\n  - { id: plate, class: heat-spreader, ${more} }`

describe('a stack of layers', () => {
  it('adds each layer on its own area', () => {
    // 0.1 mm/(50 · 1 cm²) = 0.02 K/W; 0.4 mm/(25 · 4 cm²) = 0.04 K/W; 60 °C + 100 W · 0.06 K/W = 66 °C
    const ceramic = '{ kind: ceramic, thickness: 0.4 mm, conductivity: 25 W/(m·K), area: 20 x 20 mm }'
    expect(junction(`${ATTACH}, ${ceramic}`)).toBeCloseTo(66, 9)
  })

  it('adds contacts, which are stated times area', () => {
    // 10 mm²·K/W over 1 cm² = 0.1 K/W on top of 0.02 K/W
    expect(junction(ATTACH.replace(' }', ', contact-resistance: 10 mm²·K/W }'))).toBeCloseTo(60 + 12, 9)
  })

  it('takes a part with its material, and a material of the sheet goes before the table', () => {
    // 2 mm/(200 · 4 cm²) = 0.025 K/W
    const session = heatSession({
      parts: plate('size: 20 x 20 mm, thickness: 2 mm, material: house-metal'),
      heat: to('{ part: plate }'),
      rest: 'materials:\n  house-metal: { conductivity: 200 W/(m·K) }',
    })
    expect(atTaken(session, 'JUNCTION_TEMPERATURE', 'parts/die')).toBeCloseTo(273.15 + 62.5, 9)
  })

  it('takes a ceramic with metal on both sides as three layers', () => {
    // 0.32 mm/90 + 2 · 0.3 mm/393 = 3.5556e-6 + 1.5267e-6 = 5.0823e-6 m²·K/W over 4 cm² = 0.0127057 K/W
    const made =
      'size: 20 x 20 mm, ceramic-thickness: 0.32 mm, ceramic-conductivity: 90 W/(m·K), metal-thickness: 0.3 mm, metal-material: copper'
    const parts = `${die('die')}\n  - { id: plate, class: ceramic-substrate, ${made} }`
    expect(junction('{ part: plate }', parts)).toBeCloseTo(60 + 1.27057, 4)
  })

  it('lets a stated resistance stand for a layer or for the whole path', () => {
    expect(junction(`${ATTACH}, { kind: pad, resistance: 0.3 K/W }`)).toBeCloseTo(60 + 32, 9)
    const session = heatSession({
      parts: die('die'),
      heat: '  - { id: down, from: die, to: frame, resistance: 0.4 K/W }',
    })
    expect(atTaken(session, 'PATH_RESISTANCE', 'heat/down')).toBe(0.4)
  })

  it('names every size that is not known, not the first alone', () => {
    const session = heatSession({
      parts: die('die'),
      heat: to(
        '{ kind: attach, thickness: not looked for, conductivity: 50 W/(m·K) }, { kind: pad, thickness: 1 mm, conductivity: not looked for, area: 1 cm² }',
      ),
    })
    const lacks = lacksOf(session, 'JUNCTION_TEMPERATURE', 'parts/die')
    expect(lacks).toContain('heat/down/attach/thickness')
    expect(lacks).toContain('heat/down/pad/conductivity')
  })

  it('refuses a zero area by name and does not blank what does not pass it', () => {
    const parts = `${die('die')}\n${die('other')}`
    const heat = `${to('{ kind: pad, thickness: 1 mm, conductivity: 3 W/(m·K), area: 0 mm² }')}
  - { id: beside, from: other, to: ambient, resistance: 0.5 K/W }`
    const session = heatSession({ parts, heat })
    expect(lacksOf(session, 'JUNCTION_TEMPERATURE', 'parts/die')).toContain('heat/down')
    expect(atTaken(session, 'JUNCTION_TEMPERATURE', 'parts/other')).toBeCloseTo(273.15 + 90, 9)
  })
})

describe('spreading', () => {
  const on = (spread: string, size: string, thickness: string): string =>
    `${plate(`size: ${size}, thickness: ${thickness}, conductivity: 390 W/(m·K)`)} ${spread}`
  const resistance = (spread: string, size: string, thickness: string): number =>
    atTaken(
      heatSession({ parts: on('', size, thickness), heat: to(`{ part: plate, spread: ${spread} }`) }),
      'PATH_RESISTANCE',
      'heat/down',
    )

  it('by 45° is the integral of the widening section', () => {
    // ∫ dz/(λ (a + 2z)²) = t/(λ a (a + 2t)) = 3 mm/(390 · 10 mm · 16 mm)
    expect(resistance('cone-45', '30 x 30 mm', '3 mm')).toBeCloseTo(3e-3 / (390 * 0.01 * 0.016), 12)
  })

  it('by 45° stops where the plate ends', () => {
    // 1 mm to a width of 12 mm, then 2 mm straight: 1e-3/(390·0.01·0.012) + 2e-3/(390·0.012²) = 0.021368 + 0.035612
    expect(resistance('cone-45', '12 x 12 mm', '3 mm')).toBeCloseTo(0.021368 + 0.035613, 5)
  })

  it('none keeps the section of what lies above', () => {
    expect(resistance('none', '30 x 30 mm', '3 mm')).toBeCloseTo(3e-3 / (390 * 1e-4), 12)
  })

  const cooled = (parts: string, heat: string, area: string, film: string): ReturnType<typeof heatSession> =>
    heatSession({
      parts,
      heat,
      coolant: `  fluid: water
  flow: 6 L/min
  inlet: 25 °C
  passages:
    - { id: run, channel: { width: 10 mm, height: 5 mm, length: 100 mm }, cools: [ { face: plate/wet, wetted-area: ${area}, film-coefficient: ${film} } ] }
  sequence: [inlet, run, outlet]`,
    })

  it('by series with convection below gives the mean of the source', () => {
    // 10 mm square on 30 × 30 × 3 mm, 390 W/(m·K), 5000 W/(m²·K): 0.33336 K/W, the value of the case
    // `spreading-square-on-square` kind of series (M. M. Yovanovich and others, 1999, from memory), summed to 1e-5.
    const parts = plate('size: 30 x 30 mm, thickness: 3 mm, conductivity: 390 W/(m·K), faces: { wet: {} }')
    const session = cooled(parts, to('{ part: plate, spread: series }', '', 'plate/wet'), '9 cm²', '5000 W/(m²·K)')
    expect(atTaken(session, 'THERMAL_RESISTANCE', 'parts/die')).toBeCloseTo(0.33336, 3)
    const { warnings } = result(session, 'THERMAL_RESISTANCE', 'parts/die')
    expect(warnings.join()).toContain('bounds: ')
    expect(warnings.join()).toContain('junction of parts/die')
  })

  it('adds the mutual heating of dies whose places are recorded, and says when they are not', () => {
    // Two dies 18 mm apart on 36 × 24 × 3 mm, 390 W/(m·K), 6000 W/(m²·K), one watt each: 0.46851 K (superposition of the
    // same series; Y. S. Muzychka and others, 2003, from memory). Half a watt each: half of it.
    const module = (places: string): string => `  - id: module
    class: half-bridge-module
    parts:
      - { id: die, class: power-die, kind: IGBT, size: 10 x 10 x 0.1 mm, loss: 1 W, ${places} }
  - { id: plate, class: heat-spreader, size: 36 x 24 mm, thickness: 3 mm, conductivity: 390 W/(m·K), faces: { wet: {} } }`
    const heat = to('{ part: plate, spread: series }', '', 'plate/wet', 'module/die')
    const of = (places: string) => cooled(module(places), heat, '864 mm²', '6000 W/(m²·K)')
    const placed = of('each: [ { at: -9 / 0 / 0 mm }, { at: 9 / 0 / 0 mm } ]')
    expect(atTaken(placed, 'THERMAL_RESISTANCE', 'parts/module')).toBeCloseTo(0.46851 / 2, 3)
    const { warnings } = result(of('count: 2'), 'THERMAL_RESISTANCE', 'parts/module')
    expect(warnings.join()).toContain('places of the sources')
  })
})

describe('ways of heat', () => {
  it('part between two sides by their resistances, and a coolant warmer than the junction heats the part', () => {
    // T = (P + T₁/R₁ + T₂/R₂)/(1/R₁ + 1/R₂) = (5 + 70/0.3 + 60/0.2)/(1/0.3 + 1/0.2) = 64.6 °C (closed form)
    const session = heatSession({
      parts: die('die', '', '5 W'),
      heat: '  - { id: down, from: die, to: frame, resistance: 0.3 K/W }\n  - { id: up, from: die, to: ambient, resistance: 0.2 K/W }',
      ambient: '{ air: 60 °C, frame: 70 °C }',
    })
    expect(atTaken(session, 'JUNCTION_TEMPERATURE', 'parts/die')).toBeCloseTo(273.15 + 64.6, 9)
    expect(atTaken(session, 'THERMAL_RESISTANCE', 'parts/die')).toBeCloseTo(0.12, 12)
    const { warnings } = result(session, 'THERMAL_RESISTANCE', 'parts/die')
    expect(warnings.join()).toContain('ambient/frame 0.3 K/W')
  })

  it('from a package go through its stated resistance to its face', () => {
    const device = (more: string): string =>
      `  - { id: fet, class: discrete-power-device, loss: 20 W${more}, faces: { tab: { area: 2 cm² } } }`
    const heat = '  - { id: down, from: fet/tab, to: frame, resistance: 0.5 K/W }'
    // 60 °C + 20 W · (0.5 + 0.4) K/W
    const known = heatSession({ parts: device(', thermal-resistance: 0.4 K/W'), heat })
    expect(atTaken(known, 'JUNCTION_TEMPERATURE', 'parts/fet')).toBeCloseTo(273.15 + 78, 9)
    // Without it the junction is not known, but all of the heat still crosses the tab: 20 W over 2 cm² = 10 W/cm².
    const unknown = heatSession({ parts: device(''), heat })
    expect(lacksOf(unknown, 'JUNCTION_TEMPERATURE', 'parts/fet')).toContain('parts/fet/thermal-resistance')
    expect(atTaken(unknown, 'HEAT_FLUX', 'parts/fet/tab')).toBeCloseTo(1e5, 6)
  })

  it('share the heat of a module between its faces, each with its own flux', () => {
    // 0.1 against 0.3 K/W to one temperature: three quarters of 100 W below, over 4 cm² and 2 cm²
    const session = heatSession({
      parts: `  - id: module
    class: half-bridge-module
    faces: { lower: { area: 4 cm² }, upper: { area: 2 cm² } }
    parts: [ { id: die, class: power-die, kind: IGBT, size: 10 x 10 x 0.1 mm, loss: 100 W } ]`,
      heat: `  - { id: a, from: module/die, to: module/lower, resistance: 0.05 K/W }
  - { id: b, from: module/die, to: module/upper, resistance: 0.1 K/W }
  - { id: c, from: module/lower, to: frame, resistance: 0.05 K/W }
  - { id: d, from: module/upper, to: frame, resistance: 0.2 K/W }`,
    })
    expect(atTaken(session, 'HEAT_FLUX', 'parts/module/lower')).toBeCloseTo(75 / 4e-4, 4)
    expect(atTaken(session, 'HEAT_FLUX', 'parts/module/upper')).toBeCloseTo(25 / 2e-4, 4)
    expect(atTaken(session, 'HEAT_FLUX', 'parts/die')).toBeCloseTo(100 / 1e-4, 4)
  })

  it('among pins end on the pins and the bare base between them', () => {
    // 80 pins of 3 × 8 mm, pitch 6 mm: 80 π (3 · 8 − 3²/4) + 80 · 36 mm² = 8347 mm² for 300 W
    const session = heatSession({
      parts:
        '  - { id: fet, class: discrete-power-device, loss: 300 W, thermal-resistance: 0.1 K/W, faces: { tab: {} } }',
      coolant: `  fluid: water
  flow: 6 L/min
  inlet: 25 °C
  passages:
    - { id: run, pins: { diameter: 3 mm, height: 8 mm, rows: 10, columns: 8, pitch: 6 mm, arrangement: staggered, conductivity: 200 W/(m·K) }, cools: [ { face: fet/tab } ] }
  sequence: [inlet, run, outlet]`,
    })
    const area = 80 * Math.PI * (3 * 8 - 9 / 4) + 80 * 36
    expect(atTaken(session, 'HEAT_FLUX', 'coolant/run/cools/fet-tab')).toBeCloseTo(300 / (area * 1e-6), 0)
  })

  it('that nobody recorded are missing, and what has none at all is named', () => {
    const session = heatSession({ parts: `${die('die')}\n${die('lost')}`, heat: to(ATTACH) })
    expect(lacksOf(session, 'JUNCTION_TEMPERATURE', 'parts/lost')).toContain('no heat path leads from parts/lost')
  })
})

describe('a loss that follows temperature', () => {
  const at = (coefficient: string) =>
    heatSession({
      parts: die('die', `, loss-coefficient: ${coefficient}`, '{ value: 100 W, at: { junction: 60 °C } }'),
      heat: '  - { id: down, from: die, to: frame, resistance: 1 K/W }',
    })

  it('settles where both agree', () => {
    // P = 100 (1 + 0.005 (T − 60)), T = 60 + P: P = 100/(1 − 0.5) = 200 W
    expect(atTaken(at('0.5 %/K'), 'JUNCTION_TEMPERATURE', 'parts/die')).toBeCloseTo(273.15 + 260, 6)
  })

  it('is refused as runaway at a loop gain of one and more', () => {
    // 100 W · 2 %/K · 1 K/W = 2
    expect(lacksOf(at('2 %/K'), 'JUNCTION_TEMPERATURE', 'parts/die')).toContain('thermal runaway')
  })
})

describe('modules of one unit', () => {
  const modules = (count: number): string => `  - id: module
    class: half-bridge-module
    each: { ${['u', 'v', 'w']
      .slice(0, count)
      .map((one, n) => `${one}: { loss: ${100 + 10 * n} W }`)
      .join(', ')} }
    faces: { base: {} }`
  const heat = '  - { id: down, from: module, to: frame, resistance: 0.2 K/W }'

  it('spread from the coolest to the hottest', () => {
    // 100 and 120 W over 0.2 K/W each: 4 K apart
    expect(atTaken(heatSession({ parts: modules(3), heat }), 'MODULE_TEMPERATURE_SPREAD')).toBeCloseTo(4, 9)
  })

  it('have no spread when there is one', () => {
    const parts = modules(1).replace('each: { u: { loss: 100 W } }', 'loss: 100 W')
    expect(result(heatSession({ parts, heat }), 'MODULE_TEMPERATURE_SPREAD').status).toBe('NOT_APPLICABLE')
  })
})

describe('a junction after a time', () => {
  it('is that of one heat capacity over one resistance where only the die stores heat', () => {
    // 10 × 10 × 0.1 mm of silicon, 2330 kg/m³ and 735 J/(kg·K) (table of materials): 17.126 mJ/K; over 0.5 K/W τ is
    // 8.563 ms, and after 10 ms 0.5 (1 − exp(−10/8.563)) = 0.3445 K/W
    const session = heatSession({
      parts: die('die', ', material: silicon'),
      heat: '  - { id: down, from: die, to: frame, resistance: 0.5 K/W }',
      rest: 'operating-points:\n  peak: { duration: 10 ms }',
    })
    expect(atTaken(session, 'TRANSIENT_RESISTANCE', 'parts/die')).toBeCloseTo(0.3445, 4)
  })

  it('comes to the steady value, and stays below it', () => {
    const at = (duration: string): number =>
      atTaken(
        heatSession({
          parts: `${die('die', ', material: silicon')}\n  - { id: plate, class: heat-spreader, material: copper, size: 20 x 20 mm, thickness: 3 mm }`,
          heat: to(`${ATTACH}, { part: plate, spread: cone-45 }`),
          rest: `operating-points:\n  peak: { duration: ${duration} }`,
        }),
        'TRANSIENT_RESISTANCE',
        'parts/die',
      )
    // 0.02 K/W and 3 mm/(393 · 10 mm · 16 mm)
    const steady = 0.02 + 3e-3 / (393 * 0.01 * 0.016)
    expect(at('100 s')).toBeCloseTo(steady, 9)
    expect(at('20 ms')).toBeLessThan(steady)
    expect(at('20 ms')).toBeGreaterThan(at('2 ms'))
  })

  it('is refused where heat takes two ways', () => {
    const session = heatSession({
      parts: die('die', ', material: silicon'),
      heat: '  - { id: down, from: die, to: frame, resistance: 1 K/W }\n  - { id: up, from: die, to: ambient, resistance: 1 K/W }',
      rest: 'operating-points:\n  peak: { duration: 1 s }',
    })
    expect(result(session, 'TRANSIENT_RESISTANCE', 'parts/die').status).toBe('NOT_APPLICABLE')
  })
})
